// When two panels are the same part. A transform is applied to the whole shape, falls and end
// joints included, and the results are compared: so a one-way fall blocks the half-turn by itself.
#include <algorithm>
#include <cmath>

#include "deck/features.h"

namespace deckquire {
namespace {

/// x -> L - x if `turn_x`, y -> -y always.
struct Transform {
  double length;
  bool turn_x;
  PanelPoint operator()(PanelPoint p) const { return {turn_x ? length - p.x : p.x, -p.y}; }
};

/// The transformed ring, counter-clockwise again, beginning at its lowest vertex by x, then y.
Ring<PanelFrame> moved(const Ring<PanelFrame>& ring, const Transform& t) {
  Ring<PanelFrame> out;
  out.reserve(ring.size());
  for (const PanelPoint& p : ring) out.push_back(t(p));
  if (!t.turn_x) std::reverse(out.begin(), out.end());
  return out;
}

Ring<PanelFrame> from_lowest(Ring<PanelFrame> ring) {
  const auto key = [](const PanelPoint& p) {
    return std::pair(std::llround(p.x * 100), std::llround(p.y * 100));
  };
  const auto lowest = std::min_element(
      ring.begin(), ring.end(), [&](const auto& a, const auto& b) { return key(a) < key(b); });
  std::rotate(ring.begin(), lowest, ring.end());
  return ring;
}

Side other(Side s) {
  return s == Side::left ? Side::right : Side::left;
}

Fall swapped(Fall f) {
  if (f == Fall::left) return Fall::right;
  return f == Fall::right ? Fall::left : f;
}

PanelShape transformed(const PanelShape& s, bool turn_x) {
  const Transform t{s.length, turn_x};
  PanelShape out = s;
  out.outline = from_lowest(moved(s.outline, t));
  for (auto& o : out.openings) o = moved(o, t);
  for (CurbRun& c : out.curbs) c = {other(c.side), moved(c.plan, t)};
  for (Feature& f : out.features) {
    f.at = t(f.at);
    if (!turn_x) f.angle = -f.angle;
    const bool sided = f.kind == FeatureKind::post_plate || f.kind == FeatureKind::scupper;
    if (sided) f.variant = 1 - f.variant;
  }
  sort_features(out);
  out.high_line = -s.high_line;
  out.fall = swapped(s.fall);
  out.left_back = turn_x ? -s.right_ahead : -s.right_back;
  out.left_ahead = turn_x ? -s.right_back : -s.right_ahead;
  out.right_back = turn_x ? -s.left_ahead : -s.left_back;
  out.right_ahead = turn_x ? -s.left_back : -s.left_ahead;
  if (turn_x) std::swap(out.back, out.ahead);
  return out;
}

/// Two values with what they may differ by, and the shift between the frames of the two shapes.
struct Compare {
  double tolerance;
  double shift;  // y of b minus y of a
  bool near(double a, double b) const { return std::abs(a - b) <= tolerance + 1e-6; }
  bool near(PanelPoint a, PanelPoint b) const { return near(a.x, b.x) && near(a.y + shift, b.y); }
  bool near(const Feature& a, const Feature& b) const {
    // Half a degree turns the end of a 200 mm plate by less than a millimetre.
    constexpr double angle_slack = 0.005;
    return a.kind == b.kind && a.round == b.round && a.variant == b.variant && near(a.at, b.at) &&
           near(a.length, b.length) && near(a.width, b.width) && near(a.depth, b.depth) &&
           std::abs(a.angle - b.angle) < angle_slack;
  }
  bool near(const Ring<PanelFrame>& a, const Ring<PanelFrame>& b) const {
    if (a.size() != b.size()) return false;
    const auto p = from_lowest(a), q = from_lowest(b);
    for (std::size_t i = 0; i < p.size(); ++i)
      if (!near(p[i], q[i])) return false;
    return true;
  }
};

/// The tag is left out: it follows the drawing of the mark, however the panel is turned.
std::vector<Feature> compared(const PanelShape& s) {
  std::vector<Feature> out;
  for (const Feature& f : s.features)
    if (f.kind != FeatureKind::tag) out.push_back(f);
  return out;
}

bool same_features(const Compare& c, const PanelShape& a, const PanelShape& b) {
  const std::vector<Feature> fa = compared(a);
  std::vector<Feature> fb = compared(b);
  if (fa.size() != fb.size()) return false;
  for (const Feature& f : fa) {
    const auto twin =
        std::find_if(fb.begin(), fb.end(), [&](const Feature& g) { return c.near(f, g); });
    if (twin == fb.end()) return false;
    fb.erase(twin);
  }
  return true;
}

bool same_curbs(const Compare& c, const PanelShape& a, const PanelShape& b) {
  if (a.curbs.size() != b.curbs.size()) return false;
  for (const CurbRun& r : a.curbs)
    if (std::none_of(b.curbs.begin(), b.curbs.end(),
                     [&](const CurbRun& q) { return q.side == r.side && c.near(r.plan, q.plan); }))
      return false;
  return true;
}

}  // namespace

PanelShape half_turn(const PanelShape& shape) {
  return transformed(shape, true);
}

PanelShape mirror(const PanelShape& shape) {
  return transformed(shape, false);
}

bool same_type(const PanelShape& a, const PanelShape& b, Length tolerance) {
  if (a.outline.empty() || b.outline.empty()) return false;
  // A deck that lies more to one side: the frames differ by a shift that is no difference of the
  // part.
  const Compare c{tolerance.in_mm(), bounds(b.outline).low.y - bounds(a.outline).low.y};
  return a.fall == b.fall && a.back == b.back && a.ahead == b.ahead && a.surface == b.surface &&
         std::abs(a.slope - b.slope) < 1e-9 && c.near(a.length, b.length) &&
         c.near(a.depth, b.depth) &&
         (a.fall == Fall::none || c.near(a.high_line + c.shift, b.high_line)) &&
         c.near(a.outline, b.outline) && a.openings.size() == b.openings.size() &&
         same_curbs(c, a, b) && same_features(c, a, b);
}

}  // namespace deckquire
