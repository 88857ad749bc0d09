#include "base/convex.h"

#include <algorithm>
#include <cmath>
#include <limits>

namespace deckquire {
namespace {

constexpr double infinity = std::numeric_limits<double>::infinity();

template <class Frame>
double dot(Point<Frame> a, Point<Frame> b) {
  return a.x * b.x + a.y * b.y;
}

/// The greatest gap between two cores along the outward normals of a's edges: positive only where
/// they lie apart; -infinity for a point, which has no edge.
template <class Frame>
double gap_beyond(const Ring<Frame>& a, const Ring<Frame>& b) {
  double widest = -infinity;
  if (a.size() < 2) return widest;
  for (std::size_t i = 0; i < a.size(); ++i) {
    const Point<Frame> d = a[(i + 1) % a.size()] - a[i];
    const double length = std::hypot(d.x, d.y);
    if (length == 0) continue;
    const Point<Frame> n{d.y / length, -d.x / length};
    double nearest = infinity;
    for (const Point<Frame>& p : b) nearest = std::min(nearest, dot(n, p - a[i]));
    widest = std::max(widest, nearest);
  }
  return widest;
}

/// The nearest points of two cores whose insides do not meet.
template <class Frame>
struct Nearest {
  double square = infinity;
  Point<Frame> a, b;

  void offer(Point<Frame> p, Point<Frame> q) {
    const double d = dot(p - q, p - q);
    if (d < square) *this = {d, p, q};
  }
  void swap() { std::swap(a, b); }
};

template <class Frame>
Point<Frame> nearest_on_segment(Point<Frame> p, Point<Frame> a, Point<Frame> b) {
  const Point<Frame> d = b - a;
  const double length2 = dot(d, d);
  return length2 > 0 ? a + d * std::clamp(dot(p - a, d) / length2, 0.0, 1.0) : a;
}

/// Corners of a against the edges of b.
template <class Frame>
void offer_corners(const Ring<Frame>& a, const Ring<Frame>& b, Nearest<Frame>& found) {
  for (const Point<Frame>& p : a)
    for (std::size_t i = 0; i < b.size(); ++i)
      found.offer(p, nearest_on_segment(p, b[i], b[(i + 1) % b.size()]));
}

template <class Frame>
bool cross_each_other(const Ring<Frame>& a, const Ring<Frame>& b) {
  const auto side = [](const Ring<Frame>& line, Point<Frame> p) {
    const Point<Frame> d = line[1] - line[0], e = p - line[0];
    return d.x * e.y - d.y * e.x;
  };
  return side(a, b[0]) * side(a, b[1]) < 0 && side(b, a[0]) * side(b, a[1]) < 0;
}

/// Signed as in Separation, of the cores alone; their nearest points in `found` where apart.
template <class Frame>
double between_cores(const Ring<Frame>& a, const Ring<Frame>& b, Nearest<Frame>& found) {
  const double gap = std::max(gap_beyond(a, b), gap_beyond(b, a));
  // Normals alone do not part points and segments in one line.
  const bool flat = a.size() < 3 && b.size() < 3;
  if (gap <= 0 && !flat) return gap;
  if (gap <= 0 && a.size() == 2 && b.size() == 2 && cross_each_other(a, b)) return gap;
  offer_corners(a, b, found);
  found.swap();
  offer_corners(b, a, found);
  found.swap();
  return std::sqrt(found.square);
}

}  // namespace

template <class Frame>
Box<Frame> bounds(const Convex<Frame>& s) {
  return bounds(s.core).grown(s.radius);
}

template <class Frame>
Separation<Frame> separation(const Convex<Frame>& a, const Convex<Frame>& b) {
  Nearest<Frame> nearest;
  const double cores = between_cores(a.core, b.core, nearest);
  const double distance = cores - a.radius - b.radius;
  if (distance > 0) {
    const Point<Frame> way = (nearest.b - nearest.a) * (1 / cores);
    return {distance, (nearest.a + way * a.radius + nearest.b - way * b.radius) * 0.5};
  }
  const Box<Frame> p = bounds(a), q = bounds(b);
  const Box<Frame> shared{{std::max(p.low.x, q.low.x), std::max(p.low.y, q.low.y)},
                          {std::min(p.high.x, q.high.x), std::min(p.high.y, q.high.y)}};
  return {distance, shared.centre()};
}

#define DECKQUIRE_FRAME(F)                  \
  template Box<F> bounds(const Convex<F>&); \
  template Separation<F> separation(const Convex<F>&, const Convex<F>&);
DECKQUIRE_FRAME(BridgeFrame)
DECKQUIRE_FRAME(PanelFrame)
DECKQUIRE_FRAME(PlanFrame)
#undef DECKQUIRE_FRAME

}  // namespace deckquire
