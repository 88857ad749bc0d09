// C sheets: what was calculated, first in a summary, then working after working.
#pragma once

#include <deque>
#include <map>
#include <memory>
#include <string>

#include "sheets/blocks.h"
#include "sheets/plan.h"

namespace deckquire::sheets {

/// All that C sheets say, at its place. Columns of one width, so many a sheet.
struct CalculationPages {
  explicit CalculationPages(const SetInput& input);

  paper::Style style;  // for reading
  paper::Sheet scratch;
  paper::Board board;
  std::deque<Blocks> groups;
  Columns columns;
  std::size_t per_sheet = 1, sheets = 0;
  std::vector<std::pair<std::string, std::string>> shown;  // a sheet: first and last of its numbers
  std::map<std::string, std::string> sheet_of;  // "C2.1" -> "C03"; only of those printed in full
};

/// nullptr where nothing was calculated.
std::shared_ptr<const CalculationPages> lay_out_calculations(const SetInput& input);

/// One calculation: heading, inputs with where they come from, steps, results, limits, verdicts,
/// sources, curves; its cautions by their numbers in the list of all.
Blocks calculation_blocks(const Project& project, const Calculation& calculation,
                          const std::vector<std::string>& cautions);

/// A curve over its axis with its greatest and least values, as a block.
Block curve_block(const workings::Curve& curve);

/// What a panel sheet says of its mark: each topic that concerns a panel with its greatest ratio
/// and where the steps are, then what was not checked. "lifting 0.41, C6.1 on C02; NOT CHECKED: …".
std::string calculations_of_mark(const SetInput& input, const SetPlan& plan, int mark);

}  // namespace deckquire::sheets
