// When two panels are the same part. A transform is applied to the whole shape, falls and ends
// included, and the results are compared: so a one-way fall, a crown off the middle or a tongue at
// one end blocks the half-turn by itself, and no rule has to be written for each.
//
// What has no direction, so that a half-turn is right for it: the wearing surface (grit and mortar
// are laid without one), sealed and open joints (the same at both ends), drips and curbs (alike on
// both sides). The grade along the bridge is no part of the shape: a turned panel is compared as
// it lies, its scuppers where the plan wants them, and water reaches them by the crossfall of the
// panel and the grade of the bridge, neither of which a panel carries along when it is turned.
#include <algorithm>
#include <cmath>

#include "deck/features.h"
#include "deck/identity.h"

namespace deckquire {
namespace {

/// x -> L - x if `turn_x`, y -> -y always.
struct Transform {
  double length;
  bool turn_x;
  PanelPoint operator()(PanelPoint p) const { return {turn_x ? length - p.x : p.x, -p.y}; }
};

/// The transformed ring, counter-clockwise again.
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

/// A curb begins with the line that has the lower y, its stations rising (see deck/outline.cpp).
CurbRun moved(const CurbRun& c, const Transform& t) {
  CurbRun out{other(c.side), moved(c.plan, t)};
  if (t.turn_x)
    std::rotate(out.plan.begin(),
                out.plan.begin() + static_cast<std::ptrdiff_t>(out.plan.size() / 2),
                out.plan.end());
  return out;
}

Feature moved(Feature f, const Transform& t) {
  f.at = t(f.at);
  if (!t.turn_x) f.angle = -f.angle;  // turned by half a circle a rectangle has the angle it had
  const bool sided = f.kind == FeatureKind::post_plate || f.kind == FeatureKind::scupper;
  if (sided) f.variant = 1 - f.variant;
  return f;
}

void move_edges(const PanelShape& s, bool turn_x, PanelShape& out) {
  out.left_back = turn_x ? -s.right_ahead : -s.right_back;
  out.left_ahead = turn_x ? -s.right_back : -s.right_ahead;
  out.right_back = turn_x ? -s.left_ahead : -s.left_back;
  out.right_ahead = turn_x ? -s.left_back : -s.left_ahead;
}

/// Turned, x = k y becomes L - x = -k y at the other end: the same slope. Mirrored, it changes
/// sign.
void move_ends(const PanelShape& s, bool turn_x, PanelShape& out) {
  out.back = turn_x ? s.ahead : s.back;
  out.ahead = turn_x ? s.back : s.ahead;
  out.back_slope = turn_x ? s.ahead_slope : -s.back_slope;
  out.ahead_slope = turn_x ? s.back_slope : -s.ahead_slope;
  out.left_joint = s.right_joint;
  out.right_joint = s.left_joint;
}

PanelShape transformed(const PanelShape& s, bool turn_x) {
  const Transform t{s.length, turn_x};
  PanelShape out = s;
  out.outline = from_lowest(moved(s.outline, t));
  for (auto& o : out.openings) o = moved(o, t);
  for (CurbRun& c : out.curbs) c = moved(c, t);
  for (Feature& f : out.features) f = moved(f, t);
  sort_features(out);
  out.high_line = -s.high_line;
  out.fall = swapped(s.fall);
  move_edges(s, turn_x, out);
  move_ends(s, turn_x, out);
  return out;
}

constexpr double rounding = 1e-6;  // mm; of values that are equal but were summed in another order

/// Two shapes with what their values may differ by, and the shift between their frames.
struct Compare {
  double tolerance;
  PanelPoint shift;  // frame of b minus frame of a

  bool near(double a, double b) const { return std::abs(a - b) <= tolerance + rounding; }
  bool near(PanelPoint a, PanelPoint b) const {
    return near(a.x + shift.x, b.x) && near(a.y + shift.y, b.y);
  }
  /// No corner of a rectangle moves by more than the tolerance when it turns from one to the other.
  bool same_angle(const Feature& a, const Feature& b) const {
    return a.round ||
           near(std::remainder(a.angle - b.angle, pi) * std::hypot(a.length, a.width) / 2, 0);
  }
  bool near(const Feature& a, const Feature& b) const {
    return a.kind == b.kind && a.round == b.round && a.variant == b.variant && near(a.at, b.at) &&
           near(a.length, b.length) && near(a.width, b.width) && near(a.depth, b.depth) &&
           same_angle(a, b);
  }
  bool near(const Feature* a, const Feature* b) const { return near(*a, *b); }
  /// Whatever corner each begins with: of two corners at nearly one x either may be the lowest.
  bool near(const Ring<PanelFrame>& a, const Ring<PanelFrame>& b) const {
    const std::size_t n = a.size();
    if (n != b.size()) return false;
    for (std::size_t start = 0; start < n; ++start) {
      std::size_t i = 0;
      while (i < n && near(a[i], b[(start + i) % n])) ++i;
      if (i == n) return true;
    }
    return n == 0;
  }
  bool near(const CurbRun& a, const CurbRun& b) const {
    return a.side == b.side && near(a.plan, b.plan);
  }
};

/// Gives items of one list partners in another of the same length, one each; a first choice that
/// leaves a later item without any is undone (augmenting paths).
template <class Fits>
struct Pairing {
  const Fits& fits;
  std::vector<std::size_t> holder;  // of each partner; its own size: nobody
  std::vector<char> asked;

  bool seat(std::size_t item) {
    const std::size_t n = holder.size();
    for (std::size_t k = 0; k < n; ++k) {
      const std::size_t partner = (item + k) % n;  // both are ordered: most often its namesake
      if (asked[partner] || !fits(item, partner)) continue;
      asked[partner] = 1;
      if (holder[partner] != n && !seat(holder[partner])) continue;
      holder[partner] = item;
      return true;
    }
    return false;
  }
};

template <class Item>
bool all_paired(const Compare& c, const std::vector<Item>& a, const std::vector<Item>& b) {
  const std::size_t n = a.size();
  if (n != b.size()) return false;
  const auto fits = [&](std::size_t i, std::size_t k) { return c.near(a[i], b[k]); };
  Pairing<decltype(fits)> pairing{fits, std::vector<std::size_t>(n, n), {}};
  for (std::size_t i = 0; i < n; ++i) {
    pairing.asked.assign(n, 0);
    if (!pairing.seat(i)) return false;
  }
  return true;
}

bool same_section(const Compare& c, const PanelShape& a, const PanelShape& b) {
  return a.fall == b.fall && a.surface == b.surface && std::abs(a.slope - b.slope) < 1e-9 &&
         c.near(a.depth, b.depth) &&
         (a.fall == Fall::none || c.near(a.high_line + c.shift.y, b.high_line));
}

bool same_ends(const Compare& c, const PanelShape& a, const PanelShape& b) {
  const double width = bounds(a.outline).height();
  return a.back == b.back && a.ahead == b.ahead && a.left_joint == b.left_joint &&
         a.right_joint == b.right_joint && c.near(drawn_length(a), drawn_length(b)) &&
         c.near(a.back_slope * width, b.back_slope * width) &&
         c.near(a.ahead_slope * width, b.ahead_slope * width);
}

}  // namespace

PanelShape half_turn(const PanelShape& shape) {
  return transformed(shape, true);
}

PanelShape mirror(const PanelShape& shape) {
  return transformed(shape, false);
}

double drawn_length(const PanelShape& s) {
  return s.length + (s.ahead_slope - s.back_slope) * bounds(s.outline).low.y;
}

/// The tag is left out: it follows the drawing of the mark, however the panel is turned.
std::vector<const Feature*> features_of_type(const PanelShape& s) {
  std::vector<const Feature*> out;
  for (const Feature& f : s.features)
    if (f.kind != FeatureKind::tag) out.push_back(&f);
  return out;
}

bool same_type(const PanelShape& a, const PanelShape& b, Length tolerance) {
  // One name for each field: a new field does not compile until it is compared here, and moved in
  // transformed() above.
  const auto& [length, outline, openings, high_line, fall, slope, depth, curbs, features, surface,
               no_inserts, no_clips,  // what found no room stops the deck, whatever its type
               back, ahead, back_slope, ahead_slope, left_joint, right_joint, left_back, left_ahead,
               right_back,
               right_ahead] = a;  // the last four follow from the outline
  if (outline.empty() || b.outline.empty()) return false;
  const Compare c{tolerance.in_mm(), bounds(b.outline).low - bounds(outline).low};
  return same_section(c, a, b) && same_ends(c, a, b) && c.near(outline, b.outline) &&
         all_paired(c, curbs, b.curbs) && all_paired(c, features_of_type(a), features_of_type(b)) &&
         all_paired(c, openings, b.openings);
}

}  // namespace deckquire
