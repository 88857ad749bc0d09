// One plan of the whole bridge, in which things of different panels can be compared.
#pragma once

#include "base/convex.h"
#include "deck/deck.h"

namespace deckquire {

using PlanPoint = Point<PlanFrame>;
using PlanShape = Convex<PlanFrame>;

/// Station and offset where the alignment is straight from end to end (lengths along it are then
/// true); else the ground. mm.
class Plan {
 public:
  explicit Plan(const Bridge& bridge)
      : alignment_(bridge.alignment), straight_(bridge.alignment.straight()) {}

  PlanPoint of(const Panel& panel, PanelPoint p) const;
  PlanPoint of(BridgePoint p) const;
  PlanPoint of_ground(GroundPoint p) const { return {p.x, p.y}; }
  bool straight() const { return straight_; }
  /// A circle, or a rectangle in its own angle.
  PlanShape of(const Panel& panel, const Feature& f) const;
  PlanShape of(const Panel& panel, const Box<PanelFrame>& box) const;
  /// In the frame of a panel.
  PanelPoint in_panel(const Panel& panel, PlanPoint p) const;
  /// Station and offset.
  BridgePoint on_bridge(const Panel& near, PlanPoint p) const;

 private:
  const Alignment& alignment_;
  bool straight_;
};

}  // namespace deckquire
