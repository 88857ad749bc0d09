// Where a finished sheet is still empty. Inside this folder only.
#pragma once

#include <functional>
#include <optional>
#include <vector>

#include "paper/sheet.h"

namespace deckquire::sheets {

class FreePaper {
 public:
  /// Whatever is drawn is taken, and so are the title block, the revision block and the stamp space.
  FreePaper(const paper::Sheet& sheet, const paper::PaperBox& frame);

  const paper::PaperBox& frame() const { return frame_; }
  /// The empty box of that size whose middle is nearest to a point, of those that `good` accepts; on
  /// a grid of 2 mm.
  std::optional<paper::PaperBox> nearest(
      paper::PaperPoint size, paper::PaperPoint to,
      const std::function<bool(const paper::PaperBox&)>& good) const;
  /// True where a leader may run: over no letters, across no other leader and no dimension line.
  bool clear_line(paper::PaperPoint a, paper::PaperPoint b) const;

 private:
  void take(const paper::PaperBox& box);
  void take(paper::PaperPoint a, paper::PaperPoint b);
  using Segments = std::vector<std::pair<paper::PaperPoint, paper::PaperPoint>>;
  void take_path(const paper::Path& path, bool leader);
  bool free(int left, int low, int right, int high) const;

  paper::PaperBox frame_;
  int across_ = 0, up_ = 0;
  std::vector<int> taken_;  // by cells of 1 mm, then summed from the lower left
  std::vector<paper::PaperBox> letters_;
  Segments leaders_;  // and dimension lines
};

}  // namespace deckquire::sheets
