// Where the rail posts stand. Used inside deck/ only.
#pragma once

#include "deck/site.h"

namespace deckquire {

/// All posts of the deck: left ones by station, then right ones by station, and in every piece
/// which are its own. The rules are those of deck/post_rules.h. Names are the running number along
/// the bridge and the side: "12L". A post without a curb and one too near to a panel's end go to
/// `findings`: one finding each, with the first such post and their number.
void place_posts(const Project& project, const Bridge& bridge, Division& division,
                 Findings& findings);

/// The post plates of one panel.
void add_post_plates(const PanelSite& site, PanelShape& shape);

}  // namespace deckquire
