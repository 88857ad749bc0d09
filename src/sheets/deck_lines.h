// Lines of the deck as stations and offsets: joints, edges, girders, bays. What the erection plans,
// the key plan and the cover share.
#pragma once

#include <vector>

#include "sheets/set.h"

namespace deckquire::sheets {

/// The panels side by side between two joints: indices into Deck::panels.
struct Bay {
  int first = 0, count = 0;
};
std::vector<Bay> bays_of(const Deck& deck, int first, int count);

/// A line of points, in the order of stations or from right to left.
using BridgeLine = std::vector<BridgePoint>;

/// The point of a joint's line at an offset. The line is straight on the ground.
BridgePoint on_joint(const Bridge& bridge, const Joint& joint, double offset);

/// Where a joint's line meets the edge of the deck.
BridgePoint joint_end(const Bridge& bridge, const Joint& joint, Side side);

/// A joint's line between two offsets: two points on a straight alignment, more on a curve.
BridgeLine joint_line(const Bridge& bridge, const Joint& joint, double from, double to);

/// An edge of the deck between two stations, with its corners and steps; on a curve points close
/// enough to show the bend.
BridgeLine edge_line(const Bridge& bridge, Side side, Length from, Length to);

/// Outline of the deck between two joints, counter-clockwise.
Ring<BridgeFrame> deck_between(const SetInput& input, const Joint& back, const Joint& ahead);

/// How far joint lines reach along the deck beyond their own stations, mm; 0 where all are square.
double skew_reach(const SetInput& input);

/// The middle of a girder's flange, `aside` mm to its left, between two stations.
BridgeLine girder_course(const Bridge& bridge, const Girder& girder, double from, double to,
                         double aside);

/// Corners of a splice plate.
Ring<BridgeFrame> splice_plan(const Bridge& bridge, const Splice& splice);

}  // namespace deckquire::sheets
