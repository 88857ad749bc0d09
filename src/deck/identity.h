// What belongs to the type of a panel. Used inside deck/ only; half_turn, mirror and same_type are
// in deck.h.
#pragma once

#include "deck/deck.h"

namespace deckquire {

/// From end face to end face along the lowest y of the outline, where two rows can be compared: on
/// the alignment, which may be far outside the panel, skewed ends are another length apart. mm.
double drawn_length(const PanelShape& shape);

/// All features but the tag, in the shape's order.
std::vector<const Feature*> features_of_type(const PanelShape& shape);

}  // namespace deckquire
