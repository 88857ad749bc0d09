// The figures by which a surveyor knows a curve.
#pragma once

#include <optional>

#include "bridge/alignment.h"

namespace deckquire {

/// A circular curve; lengths in mm. Common surveying practice.
struct CurveData {
  double radius = 0, deflection = 0;  // rad, the turn from tangent to tangent
  double length = 0;                  // L = R D, along the arc
  double long_chord = 0;              // LC = 2 R sin(D/2)
  double middle_ordinate = 0;         // M = R (1 - cos(D/2)), from the middle of the chord
  std::optional<double> tangent;      // T = R tan(D/2), from either end to the intersection;
  std::optional<double> external;     // E = R (1/cos(D/2) - 1), from there to the arc; none from
                                      // a turn of 180 degrees on
};
/// radius > 0, deflection >= 0.
CurveData curve_data(double radius, double deflection);

enum class ElementKind { tangent, curve, transition };

/// One element of the plan, from PC to PT where it is a curve.
struct ElementData {
  ElementKind kind = ElementKind::tangent;
  double from = 0, to = 0;  // stations, mm
  double curvature_from = 0, curvature_to = 0;
  double turn = 0;     // rad, left positive
  double bearing = 0;  // at its begin, rad clockwise from north, 0 to 2 pi
  GroundPoint begin, end;
  std::optional<CurveData> curve;                   // of a curve
  std::optional<GroundPoint> intersection, centre;  // of a curve
  double parameter = 0;  // A = sqrt(L / change of curvature), mm, of a transition
};
std::vector<ElementData> element_data(const Alignment& alignment);

}  // namespace deckquire
