// How the time of a deck grows with its length.
#pragma once

namespace deckquire {

/// Prints the stages for projects/causeway.xml and for a deck ten times as long.
void time_long_decks();

}  // namespace deckquire
