// Cranes and order of setting. Used inside checks/ only.
#pragma once

#include "checks/fit.h"

namespace deckquire {

/// What of the order of setting cannot be followed, and panels that no crane takes
/// (`pick-beyond-chart`, one error for all): errors that a deck may have and still be drawn. Says in
/// `scope` what was looked at and what was not.
void check_picks(const Project& project, const Bridge& bridge, const Deck& deck, CheckScope& scope,
                 Findings& findings);

}  // namespace deckquire
