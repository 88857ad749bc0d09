#include "bridge/curve_data.h"

#include <cmath>

namespace deckquire {
namespace {

double bearing_of(double heading) {
  const double b = std::fmod(pi / 2 - heading, 2 * pi);
  return b < 0 ? b + 2 * pi : b;
}

void add_curve(ElementData& d, const PlanElement& e) {
  const double k = e.curvature_from;
  d.kind = ElementKind::curve;
  d.curve = curve_data(1 / std::abs(k), std::abs(d.turn));
  d.centre = beside(e.start, e.heading, 1 / k);
  if (!d.curve->tangent) return;
  const double t = *d.curve->tangent;
  d.intersection = e.start + GroundPoint{t * std::cos(e.heading), t * std::sin(e.heading)};
}

ElementData data_of(const PlanElement& e) {
  ElementData d;
  d.from = e.from;
  d.to = e.from + e.length;
  d.curvature_from = e.curvature_from;
  d.curvature_to = e.curvature_to;
  d.turn = heading_along(e, e.length) - e.heading;
  d.bearing = bearing_of(e.heading);
  d.begin = e.start;
  d.end = point_along(e, e.length);
  if (e.tangent()) return d;
  if (e.curvature_from == e.curvature_to) {
    add_curve(d, e);
    return d;
  }
  d.kind = ElementKind::transition;
  d.parameter = std::sqrt(e.length / std::abs(e.curvature_to - e.curvature_from));
  return d;
}

}  // namespace

CurveData curve_data(double radius, double deflection) {
  CurveData c;
  c.radius = radius;
  c.deflection = deflection;
  c.length = radius * deflection;
  c.long_chord = 2 * radius * std::sin(deflection / 2);
  c.middle_ordinate = radius * (1 - std::cos(deflection / 2));
  if (deflection >= pi) return c;
  c.tangent = radius * std::tan(deflection / 2);
  c.external = radius * (1 / std::cos(deflection / 2) - 1);
  return c;
}

std::vector<ElementData> element_data(const Alignment& alignment) {
  std::vector<ElementData> out;
  for (const PlanElement& e : alignment.elements()) out.push_back(data_of(e));
  return out;
}

}  // namespace deckquire
