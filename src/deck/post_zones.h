// Where along a rail the joints of the deck are. Used inside deck/ only.
#pragma once

#include "deck/deck.h"

namespace deckquire {

/// A stretch of stations, open.
struct Zone {
  Length from, to;
};

/// How far ahead of its station on the alignment a joint line meets the posts of a side.
Length skew_shift(const Project& project, const Bridge& bridge, Side side, const Joint& joint);

/// Where no middle of a post of these sides may stand: nearer than <posts clear> to a joint, or
/// beyond the deck. In order.
std::vector<Zone> joint_zones(const Project& project, const Bridge& bridge,
                              const Division& division, const std::vector<Side>& sides);

}  // namespace deckquire
