// Distances of convex shapes against worked cases and the geometry library GEOS.
#include "base/convex.h"

#include <doctest/doctest.h>
#include <geos_c.h>

#include <cmath>

#include "support/dice.h"

using namespace deckquire;

namespace {

using Shape = Convex<PanelFrame>;

Shape box(double x0, double y0, double x1, double y1) {
  return {{{x0, y0}, {x1, y0}, {x1, y1}, {x0, y1}}, 0};
}

Shape turned_box(PanelPoint at, double length, double width, double angle) {
  Shape s;
  const double c = std::cos(angle), n = std::sin(angle);
  for (PanelPoint p : box(-length / 2, -width / 2, length / 2, width / 2).core)
    s.core.push_back({at.x + p.x * c - p.y * n, at.y + p.x * n + p.y * c});
  return s;
}

double apart(const Shape& a, const Shape& b) {
  return separation(a, b).distance;
}

/// The oracle: distance of the cores by GEOS, less the radii.
class Geos {
 public:
  Geos() : context_(GEOS_init_r()) {}
  ~Geos() { GEOS_finish_r(context_); }
  Geos(const Geos&) = delete;
  Geos& operator=(const Geos&) = delete;

  double distance(const Shape& a, const Shape& b) const {
    GEOSGeometry *p = geometry(a), *q = geometry(b);
    double d = -1;
    GEOSDistance_r(context_, p, q, &d);
    GEOSGeom_destroy_r(context_, p);
    GEOSGeom_destroy_r(context_, q);
    return d - a.radius - b.radius;
  }
  /// Area of what two polygons share.
  double shared_area(const Shape& a, const Shape& b) const {
    GEOSGeometry *p = geometry(a), *q = geometry(b);
    GEOSGeometry* both = GEOSIntersection_r(context_, p, q);
    double area = 0;
    GEOSArea_r(context_, both, &area);
    for (GEOSGeometry* g : {p, q, both}) GEOSGeom_destroy_r(context_, g);
    return area;
  }

 private:
  GEOSGeometry* geometry(const Shape& s) const {
    const std::size_t n = s.core.size();
    const bool ring = n > 2;
    GEOSCoordSequence* c = GEOSCoordSeq_create_r(context_, static_cast<unsigned>(n + ring), 2);
    for (std::size_t i = 0; i < n + ring; ++i) {
      const PanelPoint p = s.core[i % n];
      GEOSCoordSeq_setXY_r(context_, c, static_cast<unsigned>(i), p.x, p.y);
    }
    if (n == 1) return GEOSGeom_createPoint_r(context_, c);
    if (n == 2) return GEOSGeom_createLineString_r(context_, c);
    return GEOSGeom_createPolygon_r(context_, GEOSGeom_createLinearRing_r(context_, c), nullptr, 0);
  }
  GEOSContextHandle_t context_;
};

/// A point, a segment, a turned box or another convex ring, perhaps with a radius.
Shape random_shape(testing::Dice& dice) {
  const PanelPoint at{dice.next() * 400, dice.next() * 400};
  Shape s;
  switch (dice.upto(4)) {
    case 0:
      s.core = {at};
      break;
    case 1:
      s.core = {at, {at.x + dice.next() * 200 - 100, at.y + dice.next() * 200 - 100}};
      break;
    case 2:
      s = turned_box(at, 10 + dice.next() * 150, 10 + dice.next() * 150, dice.next() * 6);
      break;
    default:
      for (int i = 0, n = 3 + dice.upto(6); i < n; ++i) {  // on an ellipse: convex
        const double t = 2 * pi * (i + dice.next() * 0.9) / n;
        s.core.push_back({at.x + 90 * std::cos(t), at.y + 40 * std::sin(t)});
      }
  }
  if (dice.upto(2) == 0) s.radius = dice.next() * 40;
  return s;
}

}  // namespace

TEST_CASE("convex: two boxes, corner to corner (algorithms C1)") {
  const double d = apart(box(0, 0, 100, 50), box(130, 90, 200, 120));
  CHECK(d == doctest::Approx(50).epsilon(1e-12));
  CHECK(!(d < 50));
  CHECK(51 - d == doctest::Approx(1));
}

TEST_CASE("convex: a circle and a box (algorithms C2)") {
  CHECK(apart({{{0, 0}}, 25}, box(30, 40, 70, 90)) == doctest::Approx(25).epsilon(1e-12));
}

TEST_CASE("convex: a turned rectangle and two boxes (algorithms C3)") {
  const Shape turned = turned_box({0, 0}, 100, 40, pi / 6);
  CHECK(apart(turned, box(60, -10, 120, 10)) == doctest::Approx(6.698730).epsilon(1e-7));
  CHECK(apart(turned, box(60, 40, 120, 80)) == doctest::Approx(21.961524).epsilon(1e-7));
}

TEST_CASE("convex: nested shapes have no crossing edges, and yet overlap") {
  CHECK(apart(box(0, 0, 100, 100), box(40, 30, 60, 50)) == doctest::Approx(-50));
  CHECK(apart(box(0, 0, 100, 100), {{{10, 50}}, 5}) == doctest::Approx(-15));
  CHECK(apart({{{0, 0}}, 50}, {{{3, 4}}, 2}) == doctest::Approx(-47));
  CHECK(apart(box(0, 0, 10, 10), box(10, 2, 30, 8)) == doctest::Approx(0));
}

TEST_CASE("convex: segments in one line, crossing, and points") {
  CHECK(apart({{{0, 0}, {10, 0}}, 0}, {{{14, 0}, {20, 0}}, 0}) == doctest::Approx(4));
  CHECK(apart({{{0, 0}, {10, 0}}, 0}, {{{5, -5}, {5, 5}}, 0}) == doctest::Approx(-5));
  CHECK(apart({{{0, 0}}, 1}, {{{3, 4}}, 1}) == doctest::Approx(3));
  CHECK(apart({{{0, 0}}, 0}, {{{0, 0}}, 0}) == doctest::Approx(0));
}

TEST_CASE("convex: the place of a distance lies half way, that of an overlap inside both") {
  const auto s = separation<PanelFrame>({{{0, 0}}, 10}, box(30, -5, 40, 5));
  CHECK(s.distance == doctest::Approx(20));
  CHECK(s.at.x == doctest::Approx(20));
  const auto o = separation<PanelFrame>(box(0, 0, 10, 10), box(8, 0, 20, 10));
  CHECK(o.at.x == doctest::Approx(9));
}

TEST_CASE("convex: distances agree with GEOS, and overlaps part by just their depth") {
  const Geos geos;
  testing::Dice dice{20261};
  int over = 0;
  for (int i = 0; i < 4000; ++i) {
    const Shape a = random_shape(dice), b = random_shape(dice);
    CAPTURE(i);
    const double d = apart(a, b);
    CHECK(apart(b, a) == doctest::Approx(d));
    if (d > 0) {
      REQUIRE(d == doctest::Approx(geos.distance(a, b)).epsilon(1e-9));
      // The place is equally far from both.
      const PanelPoint at = separation(a, b).at;
      REQUIRE(apart({{at}, 0}, a) == doctest::Approx(d / 2).epsilon(1e-6));
      REQUIRE(apart({{at}, 0}, b) == doctest::Approx(d / 2).epsilon(1e-6));
      continue;
    }
    ++over;
    REQUIRE(geos.distance(a, b) <= 1e-9);
    // No shorter shift parts them: of many directions none does, and one nearly does.
    bool parted = false;
    for (int k = 0; k < 720; ++k) {
      const double t = 2 * pi * k / 720;
      const auto shifted = [&](double by) {
        Shape s = b;
        for (PanelPoint& p : s.core) p = p + PanelPoint{by * std::cos(t), by * std::sin(t)};
        return s;
      };
      REQUIRE(apart(a, shifted(-d * 0.999 - 1e-6)) < 1e-5);
      parted = parted || apart(a, shifted(-d * 1.01 + 0.1)) > 0;
    }
    REQUIRE(parted);
  }
  CHECK(over > 400);
}

TEST_CASE("convex: rings that overlap share an area in GEOS, and only those") {
  const Geos geos;
  testing::Dice dice{7};
  for (int i = 0; i < 2000; ++i) {
    const Shape a = turned_box({200, 200}, 20 + dice.next() * 200, 20, dice.next() * 6);
    const Shape b = turned_box({dice.next() * 400, dice.next() * 400}, 150, 60, dice.next() * 6);
    CAPTURE(i);
    REQUIRE((apart(a, b) < -1e-6) == (geos.shared_area(a, b) > 1e-6));
    REQUIRE(std::max(0.0, apart(a, b)) == doctest::Approx(distance(a.core, b.core)));
  }
}
