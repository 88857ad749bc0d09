// At which stations the rail posts stand. Used inside deck/ only.
//
// Kinds of post: of a rule; fixed (at an end of the deck, at a corner of its edge); written out. A
// post written out takes the place of the nearest of the rule on its side, if that is not more than
// half a bay away: whoever writes a station wants that post there, not one more. With equal bays
// the bays are divided anew on both sides of it; by the half-bay rule and by constant spacing all
// other posts stay, so that the panels around keep their type.
#pragma once

#include "deck/deck.h"

namespace deckquire {

enum class PostOrigin { rule, fixed, given };

struct Stand {
  Length station;
  PostOrigin origin{};
  std::string name;  // given ones: as written, with L or R where it stands on both sides
  Place place;
};

/// The posts of one side, by station. What a rule cannot do is an error "post-no-place"; a bay
/// longer than `greatest` because of posts written out or fixed is a warning "post-bay-long".
std::vector<Stand> stands_of(const Project& project, const Bridge& bridge, const Division& division,
                             Side side, Findings& findings);

}  // namespace deckquire
