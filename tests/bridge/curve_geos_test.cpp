// The alignment against GEOS: lengths, areas and nearest points of a finely drawn line.
#include <geos_c.h>

#include <cmath>

#include "bridge/alignment.h"
#include "deck/trial.h"

using namespace deckquire;

namespace {

Alignment winding() {
  AlignmentData a;
  a.to = metres(150);
  a.bearing = degrees(312);
  a.transitions = {{metres(10), metres(30), {}}, {metres(60), metres(85), {}}};
  a.curves = {{metres(30), metres(60), metres(40), false, {}},
              {metres(85), metres(120), metres(55), true, {}}};
  return Alignment(a);
}

/// A line of `n` chords at an offset, from one station to another; backwards where from > to.
void add_points(std::vector<GroundPoint>& out, const Alignment& line, double from, double to,
                double offset) {
  constexpr int n = 20000;
  for (int i = 0; i <= n; ++i) out.push_back(line.ground(from + (to - from) * i / n, offset));
}

GEOSCoordSequence* coordinates(const std::vector<GroundPoint>& points) {
  GEOSCoordSequence* c = GEOSCoordSeq_create(static_cast<unsigned>(points.size()), 2);
  for (unsigned i = 0; i < points.size(); ++i) {
    GEOSCoordSeq_setX(c, i, points[i].x);
    GEOSCoordSeq_setY(c, i, points[i].y);
  }
  return c;
}

}  // namespace

TEST_CASE("alignment: lengths, and the deck's area between two offsets, as GEOS measures them") {
  initGEOS(nullptr, nullptr);
  const Alignment line = winding();
  std::vector<GroundPoint> points;
  add_points(points, line, 0, 150e3, 0);
  GEOSGeometry* drawn = GEOSGeom_createLineString(coordinates(points));
  double length = 0;
  GEOSLength(drawn, &length);
  CHECK(std::abs(length - 150e3) < 1e-3);  // stations are lengths along the line
  GEOSGeom_destroy(drawn);

  // Between offsets a and b the area is the integral of (b - a) - k (b2 - a2) / 2.
  const double right = -1800, left = 2300;
  std::vector<GroundPoint> ring;
  add_points(ring, line, 0, 150e3, right);
  add_points(ring, line, 150e3, 0, left);
  ring.push_back(ring.front());
  GEOSGeometry* deck =
      GEOSGeom_createPolygon(GEOSGeom_createLinearRing(coordinates(ring)), nullptr, 0);
  double measured = 0;
  GEOSArea(deck, &measured);
  const double turn = line.heading(150e3) - line.heading(0);
  const double expected = 150e3 * (left - right) - turn * (left * left - right * right) / 2;
  CHECK(std::abs(measured - expected) < 10);  // mm2 of 615 m2
  GEOSGeom_destroy(deck);
  finishGEOS();
}

TEST_CASE("alignment: the station of a point is where GEOS finds the nearest point of the line") {
  initGEOS(nullptr, nullptr);
  const Alignment line = winding();
  std::vector<GroundPoint> points;
  add_points(points, line, 0, 150e3, 0);
  GEOSGeometry* drawn = GEOSGeom_createLineString(coordinates(points));
  trial::Dice dice{3};
  for (int i = 0; i < 200; ++i) {
    const double s = 150e3 * dice.next(), o = -5e3 + 10e3 * dice.next();
    const GroundPoint p = line.ground(s, o);
    GEOSGeometry* point = GEOSGeom_createPointFromXY(p.x, p.y);
    double distance = 0;
    GEOSDistance(drawn, point, &distance);
    const auto found = line.locate(p, s);
    REQUIRE(found);
    // The chords of 7.5 mm lie within 0.2 micrometres of the line.
    CHECK(std::abs(GEOSProject(drawn, point) - found->x) < 8);
    CHECK(std::abs(distance - std::abs(found->y)) < 1e-3);
    GEOSGeom_destroy(point);
  }
  GEOSGeom_destroy(drawn);
  finishGEOS();
}
