#include "base/geometry.h"

#include <cmath>

#include <doctest/doctest.h>

using namespace deckquire;
using doctest::Approx;

namespace {
using P = PanelPoint;
using R = Ring<PanelFrame>;
}  // namespace

// Trapezium rule as in any mechanics handbook: A = (a + b) h / 2, x = h (a + 2b) / (3 (a + b)).
TEST_CASE("a trapezium has the handbook's area and centroid") {
  const R ring{{0, 0}, {3000, 0}, {3000, 2400}, {0, 1900}};
  CHECK(area(ring) == Approx(6.45e6));
  CHECK(centroid(ring).x == Approx(3000.0 * (1900 + 2 * 2400) / (3.0 * (1900 + 2400))));
}

TEST_CASE("second moments of a rectangle about its own corner are b h^3 / 3") {
  const Moments m = moments(R{{0, 0}, {600, 0}, {600, 200}, {0, 200}});
  CHECK(m.yy == Approx(600 * std::pow(200, 3) / 3));
  CHECK(m.xx == Approx(200 * std::pow(600, 3) / 3));
  CHECK(m.xy == Approx(std::pow(600, 2) * std::pow(200, 2) / 4));
}

TEST_CASE("moments do not lose digits far from the origin") {
  const R ring{{1e9, 1e9}, {1e9 + 1, 1e9}, {1e9 + 1, 1e9 + 1}, {1e9, 1e9 + 1}};
  CHECK(area(ring) == Approx(1));
  CHECK(centroid(ring).x - 1e9 == Approx(0.5));
}

TEST_CASE("clipping by a half-plane keeps the part on its side") {
  const R ring{{0, 0}, {100, 0}, {100, 50}, {0, 50}};
  CHECK(area(clip(ring, P{1, 0}, 30.0)) == Approx(1500));
  CHECK(clip(ring, P{1, 0}, -1.0).empty());
}

TEST_CASE("distance of rings is zero when they overlap or nest") {
  const R a{{0, 0}, {100, 0}, {100, 50}, {0, 50}};
  const R b{{130, 90}, {200, 90}, {200, 120}, {130, 120}};
  CHECK(distance(a, b) == Approx(50));  // 30-40-50 triangle
  CHECK(distance(a, R{{10, 10}, {20, 10}, {20, 20}, {10, 20}}) == 0);
  CHECK(distance(a, R{{50, -10}, {60, -10}, {60, 60}, {50, 60}}) == 0);
}

TEST_CASE("a circle's ring has the circle's area") {
  CHECK(area(circle_ring(P{5, 5}, 150.0)) == Approx(pi * 75 * 75));
}
