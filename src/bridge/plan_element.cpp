#include "bridge/plan_element.h"

#include <array>
#include <cmath>

namespace deckquire {
namespace {

constexpr double over = 1e-6;  // mm that a foot may lie outside its element

double dot(GroundPoint a, GroundPoint b) {
  return a.x * b.x + a.y * b.y;
}

double cross(GroundPoint a, GroundPoint b) {
  return a.x * b.y - a.y * b.x;
}

GroundPoint ahead(double heading) {
  return {std::cos(heading), std::sin(heading)};
}

GroundPoint left(double heading) {
  return {-std::sin(heading), std::cos(heading)};
}

double sinc(double u) {
  return std::abs(u) < 1e-8 ? 1 : std::sin(u) / u;
}

/// Tangent and arc in one formula: the chord of length s sinc(ks/2) halves the turn.
GroundPoint along_arc(GroundPoint start, double heading, double curvature, double s) {
  const double half = curvature * s / 2;
  return start + ahead(heading + half) * (s * sinc(half));
}

// Gauss-Legendre nodes and weights of order 16 on [-1, 1], the positive half (Abramowitz and
// Stegun, table 25.4).
struct Node {
  double at, weight;
};
constexpr std::array<Node, 8> gauss{{{0.095012509837637440185, 0.189450610455068496285},
                                     {0.281603550779258913230, 0.182603415044923588867},
                                     {0.458016777657227386342, 0.169156519395002538189},
                                     {0.617876244402643748447, 0.149595988816576732081},
                                     {0.755404408355003033895, 0.124628971255533872052},
                                     {0.865631202387831743880, 0.095158511682492784810},
                                     {0.944575023073232576078, 0.062253523938647892863},
                                     {0.989400934991649932596, 0.027152459411754094852}}};

/// Integral of the direction over [a, b] of a clothoid.
GroundPoint gauss_panel(const PlanElement& e, double a, double b) {
  const double middle = (a + b) / 2, half = (b - a) / 2;
  GroundPoint sum;
  for (const Node& n : gauss)
    sum = sum + (ahead(heading_along(e, middle - half * n.at)) +
                 ahead(heading_along(e, middle + half * n.at))) *
                    n.weight;
  return sum * half;
}

GroundPoint along_clothoid(const PlanElement& e, double s) {
  const double turn = std::max(std::abs(e.curvature_from), std::abs(e.curvature_to)) * s;
  const int panels = 1 + static_cast<int>(turn);  // each turns by less than a radian
  GroundPoint p = e.start;
  for (int i = 0; i < panels; ++i) p = p + gauss_panel(e, s * i / panels, s * (i + 1) / panels);
  return p;
}

/// How far ahead of the normal at s the point lies, and how fast that shrinks as s grows.
struct Miss {
  double ahead, slope;
};

Miss miss(const PlanElement& e, GroundPoint p, double s) {
  const double heading = heading_along(e, s);
  const GroundPoint d = p - point_along(e, s);
  return {dot(d, ahead(heading)), 1 - curvature_along(e, s) * dot(d, left(heading))};
}

/// Newton's rule from s; nothing when it leaves the element or does not settle.
std::optional<double> newton(const PlanElement& e, GroundPoint p, double s) {
  for (int i = 0; i < 20; ++i) {
    const Miss m = miss(e, p, s);
    if (m.slope <= 0) return std::nullopt;
    const double step = m.ahead / m.slope;
    s += step;
    if (!(s >= -e.length && s <= 2 * e.length)) return std::nullopt;
    if (std::abs(step) < 1e-9 * (1 + std::abs(s) * 1e-6)) return s;
  }
  return std::nullopt;
}

bool inside(const PlanElement& e, double s) {
  return s >= -over && s <= e.length + over;
}

/// The foot between a and b, where the point passes from ahead to behind.
double bisect(const PlanElement& e, GroundPoint p, double a, double b) {
  for (int i = 0; i < 30; ++i) {
    const double middle = (a + b) / 2;
    (miss(e, p, middle).ahead > 0 ? a : b) = middle;
  }
  return (a + b) / 2;
}

std::optional<double> clothoid_foot(const PlanElement& e, GroundPoint p, double near) {
  const double turn = std::max(std::abs(e.curvature_from), std::abs(e.curvature_to)) * e.length;
  const auto quick = newton(e, p, std::min(std::max(near, 0.0), e.length));
  if (quick && inside(e, *quick)) return quick;
  const int parts = 8 + static_cast<int>(8 * turn);
  std::optional<double> found;
  double before = miss(e, p, 0).ahead;
  for (int i = 1; i <= parts; ++i) {
    const double a = e.length * (i - 1) / parts, b = e.length * i / parts;
    const double now = miss(e, p, b).ahead;
    if (before >= 0 && now <= 0) {
      const double s = bisect(e, p, a, b);
      if (!found || std::abs(s - near) < std::abs(*found - near)) found = s;
    }
    before = now;
  }
  return found ? newton(e, p, *found) : std::nullopt;
}

double arc_foot(const PlanElement& e, GroundPoint p, double near) {
  const double k = e.curvature_from;
  const GroundPoint out = left(e.heading) * (-1 / k);  // from the centre to the start
  const GroundPoint v = p - e.start + out;
  const double s = std::atan2(cross(out, v), dot(out, v)) / k;
  const double round = 2 * pi / std::abs(k);
  return s + round * std::round((std::min(std::max(near, 0.0), e.length) - s) / round);
}

}  // namespace

double curvature_along(const PlanElement& e, double s) {
  if (e.curvature_from == e.curvature_to || s <= 0) return e.curvature_from;
  if (s >= e.length) return e.curvature_to;
  return e.curvature_from + (e.curvature_to - e.curvature_from) * (s / e.length);
}

double heading_along(const PlanElement& e, double s) {
  if (e.curvature_from == e.curvature_to || s <= 0) return e.heading + e.curvature_from * s;
  const double within = std::min(s, e.length);
  const double mean =
      e.curvature_from + (e.curvature_to - e.curvature_from) * within / e.length / 2;
  return e.heading + mean * within + e.curvature_to * (s - within);
}

GroundPoint point_along(const PlanElement& e, double s) {
  if (e.curvature_from == e.curvature_to || s <= 0)
    return along_arc(e.start, e.heading, e.curvature_from, s);
  if (s <= e.length) return along_clothoid(e, s);
  return along_arc(along_clothoid(e, e.length), heading_along(e, e.length), e.curvature_to,
                   s - e.length);
}

GroundPoint beside(GroundPoint on, double heading, double offset) {
  return on + left(heading) * offset;
}

std::optional<double> foot_along(const PlanElement& e, GroundPoint p, double near) {
  std::optional<double> s;
  if (e.tangent())
    s = dot(p - e.start, ahead(e.heading));
  else if (e.curvature_from == e.curvature_to)
    s = arc_foot(e, p, near);
  else
    s = clothoid_foot(e, p, near);
  if (!s || !inside(e, *s)) return std::nullopt;
  // atan2 is good to 1e-16 of the radius only; one step more makes it good to that of the offset.
  const Miss m = miss(e, p, *s);
  if (m.slope <= 0 || m.slope >= 2) return std::nullopt;
  return *s + m.ahead / m.slope;
}

}  // namespace deckquire
