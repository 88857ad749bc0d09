#include "base/geometry.h"

#include <algorithm>
#include <cmath>
#include <limits>

namespace deckquire {
namespace {

template <class Frame>
double cross(Point<Frame> a, Point<Frame> b) {
  return a.x * b.y - a.y * b.x;
}

template <class Frame>
double dot(Point<Frame> a, Point<Frame> b) {
  return a.x * b.x + a.y * b.y;
}

template <class Frame>
double distance_to_segment(Point<Frame> p, Point<Frame> a, Point<Frame> b) {
  const Point<Frame> d = b - a;
  const double length2 = dot(d, d);
  const double t = length2 > 0 ? std::clamp(dot(p - a, d) / length2, 0.0, 1.0) : 0.0;
  return std::hypot(p.x - (a.x + d.x * t), p.y - (a.y + d.y * t));
}

template <class Frame>
bool segments_cross(Point<Frame> a, Point<Frame> b, Point<Frame> c, Point<Frame> d) {
  const double c1 = cross(b - a, c - a), c2 = cross(b - a, d - a);
  const double c3 = cross(d - c, a - c), c4 = cross(d - c, b - c);
  return c1 * c2 < 0 && c3 * c4 < 0;
}

template <class Frame>
bool on_boundary(const Ring<Frame>& ring, Point<Frame> p) {
  for (std::size_t i = 0; i < ring.size(); ++i)
    if (distance_to_segment(p, ring[i], ring[(i + 1) % ring.size()]) < 1e-9) return true;
  return false;
}

}  // namespace

template <class Frame>
double area(const Ring<Frame>& ring) {
  return moments(ring).a;
}

template <class Frame>
Moments moments(const Ring<Frame>& ring) {
  Moments m;
  if (ring.size() < 3) return m;
  // Taken about the first vertex: a panel far from the origin would lose digits otherwise.
  const Point<Frame> o = ring[0];
  double a = 0, x = 0, y = 0, xx = 0, xy = 0, yy = 0;
  for (std::size_t i = 0; i < ring.size(); ++i) {
    const Point<Frame> p = ring[i] - o, q = ring[(i + 1) % ring.size()] - o;
    const double c = cross(p, q);
    a += c / 2;
    x += (p.x + q.x) * c / 6;
    y += (p.y + q.y) * c / 6;
    xx += (p.x * p.x + p.x * q.x + q.x * q.x) * c / 12;
    yy += (p.y * p.y + p.y * q.y + q.y * q.y) * c / 12;
    xy += (p.x * q.y + 2 * p.x * p.y + 2 * q.x * q.y + q.x * p.y) * c / 24;
  }
  m.a = a;
  m.x = x + o.x * a;
  m.y = y + o.y * a;
  m.xx = xx + 2 * o.x * x + o.x * o.x * a;
  m.yy = yy + 2 * o.y * y + o.y * o.y * a;
  m.xy = xy + o.x * y + o.y * x + o.x * o.y * a;
  return m;
}

template <class Frame>
Point<Frame> centroid(const Ring<Frame>& ring) {
  const Moments m = moments(ring);
  return {m.x / m.a, m.y / m.a};
}

template <class Frame>
Box<Frame> bounds(const Ring<Frame>& ring) {
  constexpr double inf = std::numeric_limits<double>::infinity();
  Box<Frame> b{{inf, inf}, {-inf, -inf}};
  for (const auto& p : ring) {
    b.low = {std::min(b.low.x, p.x), std::min(b.low.y, p.y)};
    b.high = {std::max(b.high.x, p.x), std::max(b.high.y, p.y)};
  }
  return b;
}

template <class Frame>
Ring<Frame> clip(const Ring<Frame>& ring, Point<Frame> n, double d) {
  Ring<Frame> out;
  for (std::size_t i = 0; i < ring.size(); ++i) {
    const Point<Frame> p = ring[i], q = ring[(i + 1) % ring.size()];
    const double sp = dot(n, p) - d, sq = dot(n, q) - d;
    if (sp <= 0) out.push_back(p);
    if ((sp < 0 && sq > 0) || (sp > 0 && sq < 0)) out.push_back(p + (q - p) * (sp / (sp - sq)));
  }
  return out.size() >= 3 ? out : Ring<Frame>{};
}

template <class Frame>
bool contains(const Ring<Frame>& ring, Point<Frame> p) {
  if (on_boundary(ring, p)) return true;
  bool inside = false;
  for (std::size_t i = 0, j = ring.size() - 1; i < ring.size(); j = i++) {
    const auto &a = ring[i], &b = ring[j];
    if ((a.y > p.y) != (b.y > p.y) && p.x < (b.x - a.x) * (p.y - a.y) / (b.y - a.y) + a.x)
      inside = !inside;
  }
  return inside;
}

template <class Frame>
double distance(const Ring<Frame>& a, const Ring<Frame>& b) {
  if (contains(a, b.front()) || contains(b, a.front())) return 0;
  double least = std::numeric_limits<double>::infinity();
  for (std::size_t i = 0; i < a.size(); ++i) {
    const Point<Frame> p = a[i], q = a[(i + 1) % a.size()];
    for (std::size_t j = 0; j < b.size(); ++j) {
      const Point<Frame> r = b[j], s = b[(j + 1) % b.size()];
      if (segments_cross(p, q, r, s)) return 0;
      least = std::min({least, distance_to_segment(p, r, s), distance_to_segment(r, p, q)});
    }
  }
  return least;
}

template <class Frame>
double perimeter(const Ring<Frame>& ring) {
  double sum = 0;
  for (std::size_t i = 0; i < ring.size(); ++i) {
    const Point<Frame> d = ring[(i + 1) % ring.size()] - ring[i];
    sum += std::hypot(d.x, d.y);
  }
  return sum;
}

template <class Frame>
Ring<Frame> circle_ring(Point<Frame> centre, double diameter, int sides) {
  // A regular n-gon of circumradius r has the area n/2 r^2 sin(2 pi / n).
  const double step = 2 * pi / sides;
  const double r = diameter / 2 * std::sqrt(step / std::sin(step));
  Ring<Frame> ring;
  ring.reserve(static_cast<std::size_t>(sides));
  for (int i = 0; i < sides; ++i)
    ring.push_back({centre.x + r * std::cos(step * i), centre.y + r * std::sin(step * i)});
  return ring;
}

#define DECKQUIRE_FRAME(F)                                  \
  template double area(const Ring<F>&);                     \
  template Point<F> centroid(const Ring<F>&);               \
  template Box<F> bounds(const Ring<F>&);                   \
  template Moments moments(const Ring<F>&);                 \
  template Ring<F> clip(const Ring<F>&, Point<F>, double);  \
  template bool contains(const Ring<F>&, Point<F>);         \
  template double distance(const Ring<F>&, const Ring<F>&); \
  template double perimeter(const Ring<F>&);                \
  template Ring<F> circle_ring(Point<F>, double, int);
DECKQUIRE_FRAME(BridgeFrame)
DECKQUIRE_FRAME(GroundFrame)
DECKQUIRE_FRAME(PanelFrame)
DECKQUIRE_FRAME(SectionFrame)
DECKQUIRE_FRAME(PlanFrame)
DECKQUIRE_FRAME(PaperFrame)
#undef DECKQUIRE_FRAME

}  // namespace deckquire
