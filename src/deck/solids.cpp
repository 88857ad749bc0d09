#include "deck/solids.h"

#include <algorithm>
#include <cmath>

namespace deckquire {
namespace {

/// Solid under the plane z = a + b y, above z = 0, from the moments of its base.
Solid under(const Moments& m, double a, double b) {
  return {a * m.a + b * m.y, a * m.x + b * m.xy, a * m.y + b * m.yy,
          (a * a * m.a + 2 * a * b * m.y + b * b * m.yy) / 2};
}

Solid under(const Ring<PanelFrame>& ring, const Height& h) {
  const auto above = clip<PanelFrame>(ring, {0, -1}, -h.fold);
  const auto below = clip<PanelFrame>(ring, {0, 1}, h.fold);
  Solid s;
  if (above.size() > 2) s = s + under(moments(above), h.a - h.left * h.fold, h.left);
  if (below.size() > 2) s = s + under(moments(below), h.a - h.right * h.fold, h.right);
  return s;
}

/// A wall whose heights are linear along it; Simpson's rule is exact for the products.
Solid straight_wall(PanelPoint a, PanelPoint b, double thickness, const Height& low,
                    const Height& high) {
  const double area = std::hypot(b.x - a.x, b.y - a.y) * thickness;
  Solid s;
  for (const auto& [t, weight] : {std::pair{0.0, 1 / 6.0}, {0.5, 4 / 6.0}, {1.0, 1 / 6.0}}) {
    const PanelPoint p = a + (b - a) * t;
    const double z0 = low.at(p.y), z1 = high.at(p.y);
    const double v = area * weight * (z1 - z0);
    s = s + Solid{v, v * p.x, v * p.y, v * (z0 + z1) / 2};
  }
  return s;
}

}  // namespace

Solid Solid::operator+(const Solid& o) const {
  return {volume + o.volume, x + o.x, y + o.y, z + o.z};
}
Solid Solid::operator-(const Solid& o) const {
  return *this + o * -1;
}
Solid Solid::operator*(double k) const {
  return {volume * k, x * k, y * k, z * k};
}

Height top_of(const PanelShape& s) {
  switch (s.fall) {
    case Fall::crown:
      return {s.depth, -s.slope, s.slope, s.high_line};
    case Fall::left:
      return {s.depth, -s.slope, -s.slope, s.high_line};
    case Fall::right:
      return {s.depth, s.slope, s.slope, s.high_line};
    case Fall::none:
      break;
  }
  return level(s.depth);
}

Height level(double z) {
  return {z, 0, 0, 0};
}

Solid prism(const Ring<PanelFrame>& ring, const Height& low, const Height& high) {
  return under(ring, high) - under(ring, low);
}

Solid wall(PanelPoint a, PanelPoint b, double thickness, const Height& low, const Height& high) {
  for (double fold : {low.fold, high.fold})
    if (std::min(a.y, b.y) < fold - 1e-9 && fold + 1e-9 < std::max(a.y, b.y)) {
      const PanelPoint m = a + (b - a) * ((fold - a.y) / (b.y - a.y));
      const PanelPoint on_fold{m.x, fold};
      return wall(a, on_fold, thickness, low, high) + wall(on_fold, b, thickness, low, high);
    }
  return straight_wall(a, b, thickness, low, high);
}

Solid wall(const Ring<PanelFrame>& ring, double thickness, const Height& low, const Height& high) {
  Solid s;
  for (std::size_t i = 0; i < ring.size(); ++i)
    s = s + wall(ring[i], ring[(i + 1) % ring.size()], thickness, low, high);
  return s;
}

Solid lump(double volume, PanelPoint at, double z) {
  return {volume, volume * at.x, volume * at.y, volume * z};
}

}  // namespace deckquire
