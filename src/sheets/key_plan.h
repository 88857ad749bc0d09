// The whole bridge in plan at a small scale: what key plan and cover share.
#pragma once

#include <vector>

#include "paper/board.h"
#include "sheets/set.h"

namespace deckquire::sheets {

/// Deck outline in the bridge frame from one station to another, counter-clockwise.
Ring<BridgeFrame> deck_outline(const Bridge& bridge, Length from, Length to);

/// Greatest distances of the edges from the alignment, mm.
struct Reach {
  double left = 0, right = 0;
};
Reach deck_reach(const Bridge& bridge);

/// Outline of the deck, and of the part with some of its panels.
Ring<BridgeFrame> whole_outline(const SetInput& input);
Ring<BridgeFrame> part_outline(const SetInput& input, int first, int count);

/// Bridge to paper. Straight: with a scale along and another across; drawn as "not to scale" when
/// they differ. True shape (`bent` set): the ground, turned and drawn to `along`, the deck's width
/// to `across`.
struct PlanFrame {
  double x = 0, y = 0;           // paper point of station `from` on the alignment
  double from = 0;               // mm
  double along = 1, across = 1;  // paper mm by model mm
  const Alignment* bent = nullptr;
  double turn = 0;  // of the ground on paper, rad
  paper::PaperPoint operator()(BridgePoint p) const;
  std::vector<paper::PaperPoint> operator()(const std::vector<BridgePoint>& line) const;
};

/// The true shape of a bridge that bends, turned so that its ends lie level; it takes no more than
/// `room` with its upper left corner at `corner`, or less with `ratio` not 0. `least` mm: to which
/// the deck's width is brought up.
PlanFrame bent_frame(const SetInput& input, const paper::PaperBox& room, int ratio, double least);
/// Width and height of that shape, mm of the model.
paper::PaperPoint bent_size(const SetInput& input);

/// Direction of north on paper when the bridge lies level, stations to the right, radians from +x.
double north_on_paper(const Bridge& bridge);

/// Names beside a bent line, each as near as it can stand without touching another.
class NamesBeside {
 public:
  NamesBeside(paper::Board& board, const paper::PaperBox& within)
      : board_(board), within_(within) {}
  void keep_off(const std::vector<paper::PaperPoint>& line);
  /// Lines of text beyond `foot` in the direction `away`, no farther than `most` mm; false, and
  /// nothing drawn, when there is no room.
  bool put(paper::LetterUse use, const std::vector<std::string>& lines, paper::PaperPoint foot,
           paper::PaperPoint away, double most = 30);

 private:
  bool is_free(const paper::PaperBox& box) const;
  paper::Board& board_;
  paper::PaperBox within_;
  std::vector<paper::PaperBox> taken_;
};

/// The direction across a plan at a station, from right to left, of length 1.
paper::PaperPoint across_at(const PlanFrame& frame, double station);

/// Names at given x in at most `rows` rows below y, so that none overlap; where they do not fit, the
/// first, the last and as many between as one row takes. Returns the y below.
struct PlacedName {
  double x = 0;
  std::string text;
};
double names_below(paper::Board& board, paper::LetterUse use, double y,
                   const std::vector<PlacedName>& names, const paper::PaperBox& within, int rows = 2);

}  // namespace deckquire::sheets
