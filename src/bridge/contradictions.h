// What a bridge may say against itself. Used by build_bridge only.
#pragma once

#include "bridge/bridge.h"

namespace deckquire {

/// Supports out of order or outside; edges out of order, negative or inside the outer flanges;
/// obstructions outside the bridge; splices that overlap or overhang their girder.
void find_contradictions(const Project& project, const Bridge& bridge, Findings& findings);

}  // namespace deckquire
