// Masts, hangers and columns against the panels.
#include <fmt/format.h>

#include <algorithm>
#include <optional>

#include "base/neighbours.h"
#include "checks/parts.h"
#include "deck/steel_room.h"

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
    ObstructionRoom nearest;
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
    const Found f{&o, &p, obstruction_room(c.bridge, p, o)};
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
                  c.position(*worst->panel, worst->nearest.at), and_more(more)),
      fmt::format("its clearance is {}: {} short", c.length(o.clearance.in_mm()),
                  c.length(worst->shortfall())));
}

}  // namespace deckquire
