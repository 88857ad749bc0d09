#include <array>
#include <cmath>
#include <tuple>

#include "deck/features.h"
#include "deck/spread.h"

namespace deckquire {
namespace {

struct Obstacle {
  Ring<PanelFrame> ring;
  double clear;
  Box<PanelFrame> box = bounds(ring);
  bool nearer_than(double least, PanelPoint p) const {
    return box.grown(least).contains(p) && distance_to(ring, p) < least;  // most are far away
  }
};

std::vector<Obstacle> obstacles_of(const PanelShape& shape, const DeckData& deck) {
  const LiftingData& d = deck.lifting;
  const double from_curb = d.from_curb.in_mm(), from_hollow = d.from_hollow.in_mm(),
               from_insert = d.from_insert.in_mm();
  std::vector<Obstacle> all;
  for (const CurbRun& c : shape.curbs) all.push_back({c.plan, from_curb});
  for (const Feature& f : shape.features) {
    if (f.kind == FeatureKind::pad || f.kind == FeatureKind::tag) continue;
    if (f.kind == FeatureKind::hold_down || f.kind == FeatureKind::post_plate)
      all.push_back({f.ring(), from_insert});
    else
      all.push_back({f.round ? f.ring() : box_ring(footprint(f, deck)), from_hollow});
  }
  return all;
}

/// The rectangle of inserts about the centre of gravity, and what is in its way.
struct Pattern {
  const PanelShape& shape;
  std::vector<Obstacle> obstacles;
  PanelPoint middle;
  double radius, from_edge;

  std::array<PanelPoint, 4> points(double u, double v) const {
    return {PanelPoint{middle.x - u, middle.y - v},
            {middle.x - u, middle.y + v},
            {middle.x + u, middle.y - v},
            {middle.x + u, middle.y + v}};
  }
  // The checks take a circle for a ring of 32 sides around it.
  static constexpr double as_ring = 1.005;
  bool clear(PanelPoint p) const {
    if (!contains(shape.outline, p)) return false;
    if (distance_to_boundary(shape.outline, p) < from_edge) return false;
    for (const Obstacle& o : obstacles)
      if (o.nearer_than(o.clear + radius * as_ring, p)) return false;
    return true;
  }
  bool clear(double u, double v) const {
    if (u <= 2 * radius || v <= 2 * radius) return false;
    for (PanelPoint p : points(u, v))
      if (!clear(p)) return false;
    return true;
  }
};

/// The nearest whole unit to a, ties towards `middle`: the same after a half-turn.
double rounded_about(double a, double middle, double unit) {
  const double from = a / unit;
  if (std::abs(from - std::floor(from) - 0.5) < 1e-6)
    return (a < middle ? std::ceil(from) : std::floor(from)) * unit;
  return std::round(from) * unit;
}

/// Greatest bending of a uniform bar of length 1 on two supports, each `half` from a point `off`
/// from its middle, over its weight: hogging over the outer part, or sagging between.
double bending(double half, double off) {
  const double back = 0.5 + off - half, ahead = 0.5 - off - half;  // overhangs
  const double hog = std::max(back * std::abs(back), ahead * std::abs(ahead)) / 2;
  const double sag = half * half / 2 - (back * back + ahead * ahead) / 4;
  return std::max(hog, sag);
}

/// One rectangle of inserts, in half distances.
struct Try {
  double u, v;
  double worse, sum;  // bending, over that of a square metre: along and across
  int steps;          // away from the rectangle of least bending
  auto key() const {
    // Less than about a hundredth is no difference; then the nearer one.
    return std::tuple(std::llround(worse * 1e-3), std::llround(sum * 1e-3), steps, u, v);
  }
};

/// All rectangles at most `furthest` steps away in all, the one of least bending first.
std::vector<Try> tries(const Pattern& p, PanelPoint half, double step, int furthest) {
  const Box<PanelFrame> b = bounds(p.shape.outline);
  const PanelPoint off = p.middle - b.centre();
  const double length = b.width(), width = b.height();
  std::vector<Try> out;
  for (int a = -furthest; a <= furthest; ++a)
    for (int c = std::abs(a) - furthest; c <= furthest - std::abs(a); ++c) {
      const double u = half.x + a * step, v = half.y + c * step;
      const double along = bending(u / length, off.x / length) * length * length;
      const double across = bending(v / width, off.y / width) * width * width;
      out.push_back({u, v, std::max(along, across), along + across, std::abs(a) + std::abs(c)});
    }
  std::stable_sort(out.begin(), out.end(),
                   [](const Try& one, const Try& other) { return one.key() < other.key(); });
  return out;
}

/// Half distances of least bending with all four inserts clear: the ideal ones, else by whole steps
/// from them, looked for within each of the rounds, in whole steps, in turn.
std::optional<PanelPoint> search(const Pattern& pattern, PanelPoint half, double step,
                                 const std::vector<int>& rounds) {
  if (pattern.clear(half.x, half.y)) return half;
  for (int furthest : rounds)
    for (const Try& t : tries(pattern, half, step, furthest))
      if (pattern.clear(t.u, t.v)) return PanelPoint{t.u, t.v};
  return std::nullopt;
}

/// Middles of the rectangle: the centre of gravity, then those off it by the tolerance.
std::vector<PanelPoint> middles(PanelPoint centre, double tolerance, double unit) {
  std::vector<PanelPoint> out{centre};
  const double along = std::floor(tolerance / unit) * unit;
  const double both = std::floor(tolerance / std::sqrt(2.0) / unit) * unit;
  for (double r : {along, both})
    for (int i : {-1, 0, 1})
      for (int k : {-1, 0, 1})
        if (r > 0 && (r == both ? i != 0 && k != 0 : (i == 0) != (k == 0)))
          out.push_back({centre.x + i * r, centre.y + k * r});
  return out;
}

}  // namespace

void add_lifting_inserts(const PanelSite& site, PanelShape& shape) {
  const LiftingData& data = site.deck().lifting;
  const Masses m = weigh(shape, site.deck());
  const double unit = print_unit(site.project.units).in_mm();
  const double step = shift_step(site.project.units);
  const double x = rounded_about(m.x, shape.length / 2, unit), y = rounded_about(m.y, 0, unit);
  const double radius = thread_diameter(data.thread);
  Pattern pattern{shape, obstacles_of(shape, site.deck()), {x, y}, radius, data.from_edge.in_mm()};
  const double width = site.edge(Side::left, x) - site.edge(Side::right, x);
  const double share = 0.5 - best_overhang(2);  // 0.2929
  const auto snapped = [&](double a) { return std::round(a / step) * step; };
  const PanelPoint half{snapped(share * shape.length), snapped(share * width)};
  std::optional<PanelPoint> found;
  // What rounding the centre of gravity to whole units has used of the tolerance is gone.
  const double left = data.tolerance.in_mm() - std::hypot(x - m.x, y - m.y);
  for (const PanelPoint& middle : middles({x, y}, left, unit)) {
    pattern.middle = middle;
    const bool centred = middle == PanelPoint{x, y};
    found = search(pattern, half, step, centred ? std::vector{24, 120} : std::vector{24});
    if (found) break;
  }
  if (!found) pattern.middle = {x, y};
  shape.no_inserts = !found;
  for (PanelPoint p : pattern.points(found ? found->x : half.x, found ? found->y : half.y)) {
    Feature f;
    f.kind = FeatureKind::lifting_insert;
    f.at = p;
    f.round = true;
    f.length = f.width = 2 * radius;
    f.depth = data.depth.in_mm();
    shape.features.push_back(f);
  }
}

}  // namespace deckquire
