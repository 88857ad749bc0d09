// The plan of one panel: outline, openings for obstructions, curbs. Used inside deck/ only.
#pragma once

#include "deck/site.h"

namespace deckquire {

/// Fills outline, openings, curbs and notch features of `shape`, whose length and end slopes are
/// set. An obstruction that is wholly inside the panel makes an opening with its own form grown by
/// the clearance; one that crosses the panel's boundary makes a notch, square but for the panel's
/// own faces. A curb is interrupted where an opening meets it.
void shape_plan(const PanelSite& site, PanelShape& shape);

}  // namespace deckquire
