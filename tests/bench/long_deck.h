// How the time of a deck grows with its length.
#pragma once

namespace deckquire {

/// Prints the stages for projects/causeway.xml and for a deck ten times as long.
void time_long_decks();

/// Prints the time of all calculations of the 1008 panels, with every value stated.
void time_calculations();

}  // namespace deckquire
