#include "checks/plan.h"

namespace deckquire {

PlanPoint Plan::of(const Panel& panel, PanelPoint p) const {
  if (straight_) return {panel.frame.start + p.x, p.y};
  return of_ground(panel.frame.ground(p));
}

PlanPoint Plan::of(BridgePoint p) const {
  if (straight_) return {p.x, p.y};
  return of_ground(alignment_.ground(p.x, p.y));
}

PlanShape Plan::of(const Panel& panel, const Feature& f) const {
  if (f.round) return {{of(panel, f.at)}, f.length / 2};
  PlanShape s;
  for (const PanelPoint& p : f.ring()) s.core.push_back(of(panel, p));
  return s;
}

PlanShape Plan::of(const Panel& panel, const Box<PanelFrame>& box) const {
  PlanShape s;
  for (const PanelPoint& p : box_ring(box)) s.core.push_back(of(panel, p));
  return s;
}

PanelPoint Plan::in_panel(const Panel& panel, PlanPoint p) const {
  if (straight_) return {p.x - panel.frame.start, p.y};
  return panel.frame.panel(GroundPoint{p.x, p.y});
}

BridgePoint Plan::on_bridge(const Panel& near, PlanPoint p) const {
  if (straight_) return {p.x, p.y};
  return near.frame.bridge(alignment_, in_panel(near, p));
}

}  // namespace deckquire
