// Where the frame of one panel lies on the bridge.
#pragma once

#include "bridge/bridge.h"

namespace deckquire {

/// The panel frame: its origin is where the panel's back face meets the alignment, x runs ahead
/// along the chord to where the ahead face meets it, y to the left of the chord. Where the
/// alignment is straight, x = station - start and y = offset, exactly.
struct PanelPlacing {
  bool straight = true;  // the alignment does not bend here
  double start = 0;      // station of the origin, mm
  GroundPoint origin;
  double heading = 0;  // of x, rad, counter-clockwise from east

  GroundPoint ground(PanelPoint p) const;
  PanelPoint panel(GroundPoint p) const;
  /// Station and offset, mm. On a curve by projection on the alignment, to 1e-6 mm.
  BridgePoint bridge(const Alignment& alignment, PanelPoint p) const;
  PanelPoint panel(const Alignment& alignment, BridgePoint p) const;
};

/// Stations where the two end faces meet the alignment.
PanelPlacing placing_between(const Alignment& alignment, Length start, Length end);

}  // namespace deckquire
