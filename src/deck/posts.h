// Where the rail posts stand. Used inside deck/ only.
#pragma once

#include "deck/site.h"

namespace deckquire {

/// All posts of the deck: left ones by station, then right ones by station. Half-bay rule: a panel
/// of pitch p (its length and one joint gap) has k = p / greatest, rounded up, bays of p / k, the
/// first post half a bay from the joint line; so no bay is longer than `greatest`, over joints too.
/// Names are the running number along the bridge and the side: "12L".
std::vector<PlacedPost> place_posts(const Project& project, const Division& division);

/// The post plates of one panel. A post that is too near a panel's end, or has no curb, is an error
/// that names the nearest joint; the panel of the first such post reports it, with their number.
void add_post_plates(const PanelSite& site, PanelShape& shape);

}  // namespace deckquire
