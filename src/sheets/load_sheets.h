// A page for each truck: what goes on it, where, in which order, and what the carrier must know.
#pragma once

#include <vector>

#include "schedules/deliveries.h"
#include "sheets/set.h"
#include "sheets/shop_paper.h"

namespace deckquire::sheets {

/// One page a load: side view and top view to scale with serials, list in the order of loading, masses,
/// axle loads, lashings, room for signatures. Panels that fit no truck are on a page of their own, each
/// with its reason.
std::vector<paper::Sheet> load_sheets(const SetInput& input, const Deliveries& deliveries,
                                      const ShopPage& page);

}  // namespace deckquire::sheets
