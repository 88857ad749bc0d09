// Convex shapes in plan, with exact circles, and the distance between two of them.
#pragma once

#include "base/geometry.h"

namespace deckquire {

/// All points within `radius` of a convex core: a point (a circle), a segment, or a convex ring,
/// counter-clockwise.
template <class Frame>
struct Convex {
  Ring<Frame> core;
  double radius = 0;
};

template <class Frame>
Box<Frame> bounds(const Convex<Frame>& s);

template <class Frame>
struct Separation {
  /// Shortest distance, 0 where they touch; overlapping or nested: minus the shortest shift that
  /// parts them (separating axes).
  double distance = 0;
  /// Half way between the two nearest points; of an overlap a point in the middle of it.
  Point<Frame> at;
};

template <class Frame>
Separation<Frame> separation(const Convex<Frame>& a, const Convex<Frame>& b);

}  // namespace deckquire
