// One element of the alignment's plan: tangent, arc or clothoid, all in one form.
#pragma once

#include <optional>

#include "base/geometry.h"

namespace deckquire {

/// Curvature runs evenly from one value to the other over the length: both 0, a tangent; both the
/// same, an arc; else a clothoid. Millimetres, radians counter-clockwise from east, curvature in
/// 1/mm and positive to the left.
struct PlanElement {
  double from = 0, length = 0;  // station where it begins, mm
  GroundPoint start;
  double heading = 0;  // at its start
  double curvature_from = 0, curvature_to = 0;
  bool tangent() const { return curvature_from == 0 && curvature_to == 0; }
};

/// The three below: `s` mm from the element's start. Beyond its ends the curvature stays as there.
double curvature_along(const PlanElement& e, double s);
double heading_along(const PlanElement& e, double s);
/// To 1e-9 mm over a kilometre.
GroundPoint point_along(const PlanElement& e, double s);

/// `offset` mm to the left of a point on a line of that heading.
GroundPoint beside(GroundPoint on, double heading, double offset);

/// The `s` whose normal goes through `p`, within the element (1e-6 mm over at its ends); where it
/// is a clothoid and there are several, the one that lies nearest to `near`. Nothing where there is
/// none, or where p lies as far from the line as its centre of curvature, or farther.
std::optional<double> foot_along(const PlanElement& e, GroundPoint p, double near);

}  // namespace deckquire
