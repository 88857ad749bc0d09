// Choices of layout that later issues of a set keep: made from a plan, found again in the history.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "sheets/plan.h"

namespace deckquire::sheets {

/// What the plan chose, with what the history of the input still holds of sheets that are no longer
/// drawn, so that no number is given twice. `sheets`: drawn of that plan, for the places of callouts.
history::LayoutHints hints_of(const SetPlan& plan, const SetInput& input,
                              const std::vector<paper::Sheet>& sheets);

/// The marks of one P sheet and its number.
struct PanelGroup {
  int number = 0;          // 3 of P03
  std::vector<int> marks;  // subject first
};

/// Which marks stand on which P sheet: issued ones where they stood, new ones on sheets of their own
/// behind the highest number ever given; all in the order of the numbers.
std::vector<PanelGroup> panel_groups(const SetInput& input, const SetPlan& plan);

/// The scale that a mark's plan had in the last issue, or that of the mark that its panels had then;
/// 0: none.
int kept_ratio(const SetInput& input, const std::string& mark);

}  // namespace deckquire::sheets
