#include "deck/placing.h"

#include <cmath>

namespace deckquire {

PanelPlacing placing_between(const Alignment& alignment, Length start, Length end) {
  // Corners of skewed ends and clearances reach beyond the panel.
  const Length beyond = metres(10);
  PanelPlacing p;
  p.start = start.in_mm();
  p.straight = alignment.straight(start - beyond, end + beyond);
  p.origin = alignment.ground(p.start, 0);
  p.heading = alignment.heading(p.start);
  if (p.straight) return p;
  const GroundPoint chord = alignment.ground(end.in_mm(), 0) - p.origin;
  p.heading = std::atan2(chord.y, chord.x);
  return p;
}

GroundPoint PanelPlacing::ground(PanelPoint p) const {
  const double c = std::cos(heading), s = std::sin(heading);
  return {origin.x + p.x * c - p.y * s, origin.y + p.x * s + p.y * c};
}

PanelPoint PanelPlacing::panel(GroundPoint p) const {
  const double c = std::cos(heading), s = std::sin(heading);
  const GroundPoint d = p - origin;
  return {d.x * c + d.y * s, d.y * c - d.x * s};
}

BridgePoint PanelPlacing::bridge(const Alignment& alignment, PanelPoint p) const {
  if (straight) return {start + p.x, p.y};
  const auto found = alignment.locate(ground(p), start + p.x);
  return found ? *found : BridgePoint{start + p.x, p.y};
}

PanelPoint PanelPlacing::panel(const Alignment& alignment, BridgePoint p) const {
  if (straight) return {p.x - start, p.y};
  return panel(alignment.ground(p.x, p.y));
}

}  // namespace deckquire
