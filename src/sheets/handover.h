// What is looked at when a panel is set, to be signed beside it: one block a panel, in the order of setting.
#pragma once

#include <vector>

#include "sheets/set.h"
#include "sheets/shop_paper.h"

namespace deckquire::sheets {

/// Height of a line to write on, mm: at least 7, for a pencil in a glove (common practice, no source).
constexpr double handover_line = 9;

std::vector<paper::Sheet> handover_sheets(const SetInput& input, const ShopPage& page);

}  // namespace deckquire::sheets
