// The features of one panel, one step a kind. Used inside deck/ only.
#pragma once

#include "deck/site.h"

namespace deckquire {

/// Hollows over girder splices, each clipped to the panel; a joint may part one in two.
void add_recesses(const PanelSite& site, PanelShape& shape);
/// Drain bodies, square to the alignment; the grate's nearer corner keeps `inset` from the curb.
void add_scuppers(const PanelSite& site, PanelShape& shape);
void add_hatches(const PanelSite& site, PanelShape& shape);
void add_sleeves(const PanelSite& site, PanelShape& shape);
/// Strips along the girders, interrupted at the recesses.
void add_pads(const PanelSite& site, PanelShape& shape);
/// What lies on the steel itself where a deck has no pads: the flanges under the panel, as pads.
std::vector<Feature> bare_flanges(const PanelSite& site);
/// Inserts beside the flange edge away from the alignment (a girder under the alignment: either
/// edge in turn), from_joint from the ends and evenly between, moved along by whole steps where a
/// recess, a splice plate or an opening is in the way.
void add_hold_downs(const PanelSite& site, PanelShape& shape);
/// Four inserts at the corners of a rectangle about the panel's centre of gravity, 0.2929 of length
/// and width away from it (the points that make hogging and sagging equal), the rectangle changed
/// by whole steps until all four are clear: so each carries the same.
void add_lifting_inserts(const PanelSite& site, PanelShape& shape);
/// The panel's plate, on the soffit at the back right corner: on the overhang beside the outer
/// girder it is seen from below and from the side of the bridge after the panel is laid, and
/// weather and feet do not reach it. Moved ahead along the edge, then inwards, until no flange (as
/// wide as the widest one), pad, recess, clip or opening hides it; it stays at its first place
/// where none is free.
void add_tag(PanelShape& shape, const DeckData& deck, Length flange);
/// The same, on a panel without pads clear of the flanges under it; `turned`: at the corner that is
/// the back right one of the drawing when the panel lies end for end to it.
void place_tag(const PanelSite& site, PanelShape& shape, bool turned);
bool tag_is_seen(const PanelShape& shape, const DeckData& deck, Length flange, const Feature& tag);

/// Orders the features by kind, x, y (to 0.01 mm).
void sort_features(PanelShape& shape);

/// Distance of a point from a ring, 0 inside.
double distance_to(const Ring<PanelFrame>& ring, PanelPoint p);
/// Distance of a point from the boundary of a ring, inside or outside.
double distance_to_boundary(const Ring<PanelFrame>& ring, PanelPoint p);
/// The step by which features give way: 5 mm or 1/4 in.
double shift_step(UnitSystem units);
/// Plan of a feature with what it needs around: a hatch with its rebate.
Box<PanelFrame> footprint(const Feature& f, const DeckData& deck);

}  // namespace deckquire
