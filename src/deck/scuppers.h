// Where the scuppers stand. Used inside deck/ only.
#pragma once

#include "deck/site.h"

namespace deckquire {

/// All scuppers of the deck by station, left before right: those written out, then those of the
/// rule. In every gutter, from a crest down: one at the sag, one just upstream of every end joint,
/// between them the fewest with at most `spacing` of gutter to each, or with which the rain spreads
/// no wider than is allowed (`by_rain`); each moved upstream to the
/// nearest place clear of joints, posts, recesses and openings, its outlet clear of the flanges and of
/// what passes below;
/// then further upstream by at most `freedom` to where a panel of the same length has one already,
/// if that costs no scupper on its side. A stretch without any place is an error
/// "scupper-no-place"; a grate whose catch is not known "scupper-no-grate".
void place_scuppers(const Project& project, const Bridge& bridge, Division& division,
                    Findings& findings);

/// The scupper of a side at a station, in the panel frame.
Feature scupper_at(const PanelSite& site, Side side, Length station);
/// How far its body reaches beyond its panel's edge on its side; negative: how far inside.
double body_beyond_edge(const PanelSite& site, const Feature& scupper);
/// What body and grate take up in plan.
Box<PanelFrame> scupper_reach(const Feature& scupper, const ScuppersData& data);

}  // namespace deckquire
