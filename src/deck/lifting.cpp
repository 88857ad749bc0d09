#include <fmt/format.h>

#include <array>
#include <cmath>

#include "deck/features.h"

namespace deckquire {
namespace {

// Least distances of a lifting insert's skin, mm (common practice, no source).
constexpr double from_edge = 150, from_curb = 40, from_hollow = 75, from_insert = 40;

struct Obstacle {
  Ring<PanelFrame> ring;
  double clear;
};

std::vector<Obstacle> obstacles_of(const PanelShape& shape, const DeckData& deck) {
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
  double radius;

  std::array<PanelPoint, 4> points(double u, double v) const {
    return {PanelPoint{middle.x - u, middle.y - v},
            {middle.x - u, middle.y + v},
            {middle.x + u, middle.y - v},
            {middle.x + u, middle.y + v}};
  }
  bool clear(PanelPoint p) const {
    if (!contains(shape.outline, p)) return false;
    if (distance_to_boundary(shape.outline, p) < from_edge) return false;
    for (const Obstacle& o : obstacles)
      if (distance_to(o.ring, p) < o.clear + radius) return false;
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

/// Half distances nearest to (u, v) by whole steps with all four inserts clear.
std::optional<std::pair<double, double>> search(const Pattern& pattern, double u, double v,
                                                double step) {
  constexpr int furthest = 120;  // steps in all
  for (int k = 0; k <= furthest; ++k)
    for (int a = 0; a <= k; ++a)
      for (int su : {-1, 1})
        for (int sv : {-1, 1}) {
          const double du = su * a * step, dv = sv * (k - a) * step;
          if (pattern.clear(u + du, v + dv)) return std::pair{u + du, v + dv};
        }
  return std::nullopt;
}

}  // namespace

void add_lifting_inserts(const PanelSite& site, PanelShape& shape) {
  const LiftingData& data = site.deck().lifting;
  const Masses m = weigh(shape, site.deck());
  const double unit = print_unit(site.project.units).in_mm();
  const double step = shift_step(site.project.units);
  const double x = rounded_about(m.x, shape.length / 2, unit), y = rounded_about(m.y, 0, unit);
  const double radius = thread_diameter(data.thread);
  const Pattern pattern{shape, obstacles_of(shape, site.deck()), {x, y}, radius};
  const double width = site.edge(Side::left, x) - site.edge(Side::right, x);
  const double share = 1 - 1 / std::sqrt(2.0);  // 0.2929: half less the overhang of 0.2071
  const auto snapped = [&](double a) { return std::round(a / step) * step; };
  const double u = snapped(share * shape.length), v = snapped(share * width);
  const auto found = search(pattern, u, v, step);
  if (!found)
    site.findings.error(data.place, "lifting-no-room",
                        fmt::format("panel {} has no room for four lifting inserts about its "
                                    "centre of gravity",
                                    site.piece + 1),
                        "move the openings, or lift this panel by other means");
  for (PanelPoint p : pattern.points(found ? found->first : u, found ? found->second : v)) {
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
