#include "deck/solid.h"

#include <cmath>

namespace deckquire {
namespace {

/// A part of the ring on which the top is a plane: z = c0 + c1 y.
struct Facet {
  Ring<PanelFrame> ring;
  double c0, c1;
};

std::vector<Facet> facets(const PanelShape& s, const Ring<PanelFrame>& ring) {
  const double k = s.slope, h = s.high_line, d = s.depth;
  switch (s.fall) {
    case Fall::none:
      return {{ring, d, 0}};
    case Fall::left:
      return {{ring, d + k * h, -k}};
    case Fall::right:
      return {{ring, d - k * h, k}};
    case Fall::crown:
      break;
  }
  return {{clip(ring, PanelPoint{0, -1}, -h), d + k * h, -k},
          {clip(ring, PanelPoint{0, 1}, h), d - k * h, k}};
}

Solid wall_piece(const PanelShape& s, PanelPoint a, PanelPoint b, double t) {
  const double za = s.top(a.y), zb = s.top(b.y);
  const double l = std::hypot(b.x - a.x, b.y - a.y) * t;
  // Height varies in a line from a to b: the trapezium's integrals.
  const double v = l * (za + zb) / 2, toward_b = l * (za / 6 + zb / 3);
  return {v, a.x * v + (b.x - a.x) * toward_b, a.y * v + (b.y - a.y) * toward_b,
          l * (za * za + za * zb + zb * zb) / 6};
}

}  // namespace

Solid& Solid::operator+=(const Solid& o) {
  v += o.v;
  x += o.x;
  y += o.y;
  z += o.z;
  return *this;
}

Solid& Solid::operator-=(const Solid& o) {
  return *this += Solid{-o.v, -o.x, -o.y, -o.z};
}

TopArea& TopArea::operator+=(const TopArea& o) {
  a += o.a;
  x += o.x;
  y += o.y;
  z += o.z;
  return *this;
}

TopArea& TopArea::operator-=(const TopArea& o) {
  return *this += TopArea{-o.a, -o.x, -o.y, -o.z};
}

Solid under_top(const PanelShape& shape, const Ring<PanelFrame>& ring) {
  Solid sum;
  for (const Facet& f : facets(shape, ring)) {
    const Moments m = moments(f.ring);
    sum += {f.c0 * m.a + f.c1 * m.y, f.c0 * m.x + f.c1 * m.xy, f.c0 * m.y + f.c1 * m.yy,
            (f.c0 * f.c0 * m.a + 2 * f.c0 * f.c1 * m.y + f.c1 * f.c1 * m.yy) / 2};
  }
  return sum;
}

Solid slab(const Ring<PanelFrame>& ring, double z0, double z1) {
  const Moments m = moments(ring);
  const double t = z1 - z0;
  return {m.a * t, m.x * t, m.y * t, m.a * t * (z0 + z1) / 2};
}

TopArea top_over(const PanelShape& shape, const Ring<PanelFrame>& ring) {
  TopArea sum;
  for (const Facet& f : facets(shape, ring)) {
    const Moments m = moments(f.ring);
    sum += {m.a, m.x, m.y, f.c0 * m.a + f.c1 * m.y};
  }
  return sum;
}

Solid wall_under_top(const PanelShape& shape, PanelPoint a, PanelPoint b, double t) {
  const double h = shape.high_line;
  if (shape.fall != Fall::crown || (a.y - h) * (b.y - h) >= 0) return wall_piece(shape, a, b, t);
  const PanelPoint ridge = a + (b - a) * ((h - a.y) / (b.y - a.y));
  Solid sum = wall_piece(shape, a, ridge, t);
  sum += wall_piece(shape, ridge, b, t);
  return sum;
}

Solid layer(const TopArea& area, double t, double slope) {
  const double k = std::abs(t) * std::hypot(1.0, slope);
  return {area.a * k, area.x * k, area.y * k, (area.z - area.a * t / 2) * k};
}

Ring<PanelFrame> within(const Ring<PanelFrame>& ring, const Box<PanelFrame>& box) {
  Ring<PanelFrame> r = clip(ring, PanelPoint{1, 0}, box.high.x);
  r = clip(r, PanelPoint{-1, 0}, -box.low.x);
  r = clip(r, PanelPoint{0, 1}, box.high.y);
  return clip(r, PanelPoint{0, -1}, -box.low.y);
}

}  // namespace deckquire
