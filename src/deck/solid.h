// Volumes of panels by integration over polygons. Used inside deck/ only.
#pragma once

#include "deck/deck.h"

namespace deckquire {

/// A volume with its first moments, mm3 and mm4.
struct Solid {
  double v = 0, x = 0, y = 0, z = 0;
  Solid& operator+=(const Solid& o);
  Solid& operator-=(const Solid& o);
};

/// A plan area with its first moments, and those of the panel's top over it: mm2, mm3.
struct TopArea {
  double a = 0, x = 0, y = 0, z = 0;
  TopArea& operator+=(const TopArea& o);
  TopArea& operator-=(const TopArea& o);
};

/// Between the soffit and the top over a ring: exact, the ring is split where the top has its
/// ridge.
Solid under_top(const PanelShape& shape, const Ring<PanelFrame>& ring);

/// Between two levels over a ring.
Solid slab(const Ring<PanelFrame>& ring, double z0, double z1);

/// The top itself over a ring (plan area; the slope's factor is the caller's).
TopArea top_over(const PanelShape& shape, const Ring<PanelFrame>& ring);

/// A wall of thickness t along a line, from the soffit to the top.
Solid wall_under_top(const PanelShape& shape, PanelPoint a, PanelPoint b, double t);

/// A layer of thickness t under (negative: over) the top, its plan area times the slope's factor.
Solid layer(const TopArea& area, double t, double slope);

/// The part of a ring inside a box.
Ring<PanelFrame> within(const Ring<PanelFrame>& ring, const Box<PanelFrame>& box);

}  // namespace deckquire
