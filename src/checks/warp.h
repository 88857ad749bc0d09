// A flat panel on steel that is twisted under it.
#pragma once

#include <algorithm>
#include <array>
#include <cmath>

#include "base/geometry.h"

namespace deckquire {

/// A corner of a panel and the level of what it lies on, mm.
struct Corner {
  PanelPoint at;
  double level = 0;
};

/// How far the plane that fits best (least squares) lies off the four corners, at the worst of
/// them; in order around a convex quadrilateral. Of a parallelogram the corners are off by a
/// quarter of z1 - z2 + z3 - z4 each. What is off has one form only: each corner's part is the area
/// of the triangle of the other three, up and down in turn.
inline double off_best_plane(const std::array<Corner, 4>& c) {
  double off = 0, squares = 0, most = 0;
  for (std::size_t i = 0; i < 4; ++i) {
    const PanelPoint a = c[(i + 1) % 4].at;
    const PanelPoint b = c[(i + 2) % 4].at - a, d = c[(i + 3) % 4].at - a;
    const double area = std::abs(b.x * d.y - b.y * d.x);
    off += (i % 2 == 0 ? area : -area) * c[i].level;
    squares += area * area;
    most = std::max(most, area);
  }
  return squares == 0 ? 0 : std::abs(off) * most / squares;
}

}  // namespace deckquire
