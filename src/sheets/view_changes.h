// A view before and now, laid over one another.
#pragma once

#include <string>
#include <vector>

#include "paper/sheet.h"
#include "paper/style.h"

namespace deckquire::sheets {

/// The part of a view where something changed, in the paper millimetres of the sheet now: at the
/// view's own scale. Lines are clipped to the box; letters are in it whole or not at all.
struct ViewChange {
  std::string sheet, title;  // number of the sheet now; "Plan from above"
  std::string scale;         // "1:20"
  paper::PaperBox box;
  std::vector<paper::Item> same, come;  // pens: those of the sheet now
  std::vector<paper::Item> gone;        // pens: those of the sheet before
};

/// Every view with a scale that both sheets have and that differs, in the order of the sheet now.
/// `before` may be another sheet than `now`: that of the mark that a panel had. A view that stands
/// elsewhere on its sheet is moved to where the most of it agrees. Wider or higher than `room`: in
/// pieces.
std::vector<ViewChange> changed_views(const paper::Sheet& before, const paper::Sheet& now,
                                      const paper::Style& style, paper::PaperPoint room);

}  // namespace deckquire::sheets
