// The plan of one panel: outline, openings for obstructions, curbs. Used inside deck/ only.
#pragma once

#include "deck/site.h"

namespace deckquire {

/// A line along the panel, x not decreasing.
using Chain = std::vector<PanelPoint>;

/// One edge of the panel between two of its stations, with the corners of the width law on it.
Chain edge_chain(const PanelSite& site, Side side, double from, double to);

/// Fills outline, openings, curbs and notch features of `shape`. An obstruction that is wholly
/// inside the panel makes an opening with its own form grown by the clearance; one that crosses the
/// panel's boundary makes a rectangular notch. A curb is interrupted where an opening meets it.
void shape_plan(const PanelSite& site, PanelShape& shape);

}  // namespace deckquire
