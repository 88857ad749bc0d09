// Details: which of them a project has, and how they are arranged on D sheets.
#pragma once

#include <vector>

#include "sheets/plan.h"

namespace deckquire::sheets {

/// The details that the project has, in the order of their letters, sheet by sheet: each sheet
/// filled from the top with rows of details that fit at their scales.
std::vector<std::vector<Detail>> arrange_details(const SetInput& input);

/// "SCUPPER WITH GRATE AND OUTLET": the title under the view and in the index.
const char* detail_title(Detail detail);

}  // namespace deckquire::sheets
