// The ring of a cloud, and what is in its way. Only clouds.cpp includes it.
#pragma once

#include <vector>

#include "paper/board.h"

namespace deckquire::sheets {

/// A cloud's line: its arcs, and points all along it.
struct CloudRing {
  paper::Path arcs;
  std::vector<paper::PaperPoint> points;
};

/// What stands on a sheet: letters and the reviewer's stamp, which nothing may cross; lines, which
/// a delta had better not cover; what was added since.
class Obstacles {
 public:
  explicit Obstacles(const paper::Sheet& sheet);
  /// True where letters (or the stamp, or an added box) share more than a line with the box.
  bool letters(const paper::PaperBox& box) const;
  bool letters_on(paper::PaperPoint a, paper::PaperPoint b) const;
  /// How many straight pieces of lines meet the box.
  std::size_t lines(const paper::PaperBox& box) const;
  /// True where an added ring passes through the box.
  bool rings(const paper::PaperBox& box) const;
  void add(const paper::PaperBox& box) { boxes_.push_back(box); }
  void add(const CloudRing& ring) { rings_.push_back(ring.points); }

 private:
  std::vector<paper::PaperBox> boxes_;
  std::vector<std::pair<paper::PaperPoint, paper::PaperPoint>> lines_;
  std::vector<std::vector<paper::PaperPoint>> rings_;
};

/// Around the union of the boxes, outside of it, inside the frame.
CloudRing ring_around(std::vector<paper::PaperBox> boxes, const Obstacles& obstacles,
                      const paper::PaperBox& frame);

}  // namespace deckquire::sheets
