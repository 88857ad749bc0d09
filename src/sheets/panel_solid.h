// A panel in space, for its axonometric views.
#pragma once

#include "deck/deck.h"
#include "sheets/solid.h"

namespace deckquire::sheets {

/// The moulded panel with its curbs, hollows, openings, outlet pipes and bearing pads, in the panel
/// frame; inserts, tapped holes, post plates and the plate as lines on it. Left out, as things of
/// the surface only or put in later: wearing surface, drips, hatch covers, grates. Holes are drawn
/// no smaller than `least_hole`, mm.
Solid panel_solid(const PanelShape& shape, const DeckData& deck, double least_hole);

/// Adds an upright prism over a ring (counter-clockwise).
void add_prism(Solid& solid, const Ring<PanelFrame>& plan, double low, double high, int part);

/// Its bearing pads alone, as they lie under the soffit: they are laid before the panel is.
Solid pads_solid(const PanelShape& shape);

/// Points of a feature that a leader may end at, best first: the middle of what lies on a face,
/// places on the rim of an opening or hollow.
std::vector<Spot> feature_spots(const PanelShape& shape, const DeckData& deck, const Feature& f,
                                bool from_above);

}  // namespace deckquire::sheets
