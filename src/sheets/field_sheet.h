// Pages for the survey of the steel before panels are cast: what to measure, what it should be, how far
// it may be off, and a line to write on.
#pragma once

#include <vector>

#include "schedules/field.h"
#include "sheets/set.h"
#include "sheets/shop_paper.h"

namespace deckquire::sheets {

/// Pages on their side; rows as high as a gloved hand writes. Values that were measured already are
/// printed. Under every table the line of the project file that takes the answers.
std::vector<paper::Sheet> field_sheets(const SetInput& input, const std::vector<FieldTable>& tables,
                                       const ShopPage& page);

}  // namespace deckquire::sheets
