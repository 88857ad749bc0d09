// Solids between planes, integrated exactly. Used inside deck/ only. Millimetres.
#pragma once

#include "deck/deck.h"

namespace deckquire {

/// Volume and first moments of a solid.
struct Solid {
  double volume = 0, x = 0, y = 0, z = 0;  // mm3, mm4
  Solid operator+(const Solid& o) const;
  Solid operator-(const Solid& o) const;
  Solid operator*(double k) const;
};

/// A height that varies across only: z = a + b * |..|, linear on either side of a fold.
struct Height {
  double a = 0;      // at y = fold
  double left = 0;   // slope for y above the fold
  double right = 0;  // slope for y below it
  double fold = 0;
  double at(double y) const { return a + (y - fold) * (y >= fold ? left : right); }
  Height raised(double dz) const { return {a + dz, left, right, fold}; }
};

/// The structural top of a panel; a level plane.
Height top_of(const PanelShape& shape);
Height level(double z);

/// Over a ring, between two heights: exact (Green's theorem on either side of the folds).
Solid prism(const Ring<PanelFrame>& ring, const Height& low, const Height& high);

/// A thin wall along a line from a to b, between two heights: exact for its middle surface.
Solid wall(PanelPoint a, PanelPoint b, double thickness, const Height& low, const Height& high);
Solid wall(const Ring<PanelFrame>& ring, double thickness, const Height& low, const Height& high);

/// A body of a known volume and centre.
Solid lump(double volume, PanelPoint at, double z);

}  // namespace deckquire
