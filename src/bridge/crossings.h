// What passes below the bridge, in stations and offsets.
#pragma once

#include "project/project.h"

namespace deckquire {

/// Distance in plan from a point beside the alignment to a crossing, mm; 0 above it. Borders are taken
/// straight in station and offset; a missing border is far beyond the deck.
double distance_to(const CrossingData& crossing, Length station, Length offset);

/// Whether an outlet of that radius may end there.
bool outlet_allowed(const CrossingData& crossing, Length station, Length offset, double radius);
/// The same, of a support's top with its bearings; where its size is not stated, yes.
bool outlet_allowed(const SupportData& support, Length station, double radius);
/// The same, of all that is below the bridge.
bool outlet_allowed(const BridgeData& bridge, Length station, Length offset, double radius);

/// "road", "railway", "path", "water".
const char* crossing_word(CrossingKind kind);

}  // namespace deckquire
