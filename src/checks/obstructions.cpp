// Masts, hangers and columns against the panels.
#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <optional>

#include "base/neighbours.h"
#include "checks/parts.h"

namespace deckquire {
namespace {

PlanShape shape_of(const FitCheck& c, const Obstruction& o) {
  if (o.diameter)
    return {{c.plan.of(BridgePoint{o.station.in_mm(), o.offset.in_mm()})}, o.diameter->in_mm() / 2};
  PlanShape s;
  if (c.plan.straight())
    for (const BridgePoint& p : o.outline) s.core.push_back(c.plan.of(p));
  else
    for (const GroundPoint& p : obstruction_ring(c.bridge, o))
      s.core.push_back(c.plan.of_ground(p));
  return s;
}

struct Nearest {
  double distance = 1e300;
  PlanPoint at;
};

/// From an obstruction to the sides of a ring; nearer sides only.
void offer_ring(const FitCheck& c, const Panel& p, const Ring<PanelFrame>& ring,
                const PlanShape& shape, Nearest& best) {
  for (std::size_t i = 0; i < ring.size(); ++i) {
    const PlanShape side{{c.plan.of(p, ring[i]), c.plan.of(p, ring[(i + 1) % ring.size()])}, 0};
    const Separation<PlanFrame> s = separation(shape, side);
    if (s.distance < best.distance) best = {s.distance, s.at};
  }
}

/// A round opening about a round obstruction: the openings are kept as rings of many sides, which
/// are a trifle nearer than the circle.
std::optional<double> in_round_opening(const Panel& p, const Obstruction& o, PanelPoint centre) {
  if (!o.diameter) return std::nullopt;
  for (const Feature& f : p.shape.features)
    if (f.kind == FeatureKind::notch && f.round && f.source == o.name)
      return (f.length - o.diameter->in_mm()) / 2 -
             std::hypot(f.at.x - centre.x, f.at.y - centre.y);
  return std::nullopt;
}

/// From an obstruction to the panel's own material.
Nearest to_panel(const FitCheck& c, const Panel& p, const Obstruction& o, const PlanShape& shape) {
  PlanPoint middle;
  for (const PlanPoint& v : shape.core)
    middle = middle + v * (1.0 / static_cast<double>(shape.core.size()));
  const PanelPoint centre = c.plan.in_panel(p, middle);
  Nearest best;
  if (!contains(p.shape.outline, centre)) {
    offer_ring(c, p, p.shape.outline, shape, best);
    return best;
  }
  if (const auto room = in_round_opening(p, o, centre)) return {*room, middle};
  for (const Ring<PanelFrame>& ring : p.shape.openings) {
    if (!contains(ring, centre)) continue;
    offer_ring(c, p, ring, shape, best);
    return best;
  }
  return {0, middle};  // no room is left for it at all
}

/// Obstructions and the panels near them.
std::vector<std::pair<int, int>> near_pairs(const FitCheck& c, const std::vector<PlanShape>& all) {
  std::vector<Box<PlanFrame>> boxes;
  for (std::size_t i = 0; i < all.size(); ++i)
    boxes.push_back(bounds(all[i]).grown(c.bridge.obstructions[i].clearance.in_mm()));
  for (const Panel& p : c.deck.panels) {
    Ring<PlanFrame> ring;
    for (const PanelPoint& v : p.shape.outline) ring.push_back(c.plan.of(p, v));
    boxes.push_back(bounds(ring));
  }
  const int n = static_cast<int>(all.size());
  std::vector<std::pair<int, int>> out;
  for (const auto& [i, j] : touching(boxes))
    if (i < n && j >= n) out.push_back({i, j - n});
  return out;
}

}  // namespace

void check_obstructions(const FitCheck& c) {
  std::vector<PlanShape> shapes;
  for (const Obstruction& o : c.bridge.obstructions) shapes.push_back(shape_of(c, o));
  struct Found {
    const Obstruction* obstruction;
    const Panel* panel;
    Nearest nearest;
    double shortfall() const {
      return obstruction->clearance.in_mm() - std::max(0.0, nearest.distance);
    }
  };
  std::optional<Found> worst;
  int more = -1;
  if (shapes.empty()) return;
  for (const auto& [i, j] : near_pairs(c, shapes)) {
    const Obstruction& o = c.bridge.obstructions[static_cast<std::size_t>(i)];
    const Panel& p = c.panel(j);
    const Found f{&o, &p, to_panel(c, p, o, shapes[static_cast<std::size_t>(i)])};
    if (f.nearest.distance + 1e-4 >= o.clearance.in_mm() && f.nearest.distance > -1e-4) continue;
    if (!worst || f.shortfall() > worst->shortfall() + 1e-6) worst = f;
    ++more;
  }
  if (!worst) return;
  const Obstruction& o = *worst->obstruction;
  const Thing edge{Part::edge, index_of(c.deck, *worst->panel)};
  c.findings.error(
      o.place, "obstruction-too-near",
      fmt::format("{} {} is {} from panel {}{} at {}{}", o.kind, o.name,
                  c.length(std::max(0.0, worst->nearest.distance)), worst->panel->position,
                  FitCheck::also_at(c.place_of(edge), o.place),
                  c.position(c.plan.on_bridge(*worst->panel, worst->nearest.at)), and_more(more)),
      fmt::format("its clearance is {}: {} short", c.length(o.clearance.in_mm()),
                  c.length(worst->shortfall())));
}

}  // namespace deckquire
