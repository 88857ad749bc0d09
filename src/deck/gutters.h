// Which way the water runs along the deck. Used inside deck/ only.
#pragma once

#include "deck/deck.h"

namespace deckquire {

/// A stretch of a gutter in which the water runs one way: from a crest of the profile (or the end
/// of the deck) to a sag (or the end of the deck).
struct WaterRun {
  Length high, low;  // stations, in the order of the water
  bool sag = false;  // its low end is a low point of the profile, not the end of the deck
  bool ahead() const { return low > high; }
};

/// The runs between two stations, by station. A level stretch counts with the run before it, at the
/// beginning with the one behind it; a level deck runs ahead.
std::vector<WaterRun> water_runs(const Alignment& alignment, Length from, Length to);

/// Does the top fall to that side?
bool drains_to(const SectionData& section, Side side);

}  // namespace deckquire
