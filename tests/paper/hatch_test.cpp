#include <doctest/doctest.h>

#include <algorithm>
#include <cmath>

#include "paper/board.h"
#include "paper/trial_board.h"

using namespace deckquire;
using namespace deckquire::paper;

namespace {

using Rings = std::vector<std::vector<PaperPoint>>;

const std::vector<PaperPoint> ell = {{100, 100}, {160, 100}, {160, 120},
                                     {120, 120}, {120, 150}, {100, 150}};
const std::vector<PaperPoint> hole = {{105, 105}, {115, 105}, {115, 115}, {105, 115}};

/// What hatch() draws of a material, as a path; the style may be changed first.
Path hatched(TrialBoard& t, const Rings& rings, const std::string& material, double band = 0) {
  t.sheet.items.clear();
  hatch(t.board, rings, material, band);
  return t.sheet.items.empty() ? Path{} : std::get<Stroke>(t.sheet.items.at(0)).path;
}

double length(const Path& path) {
  double sum = 0;
  for (std::size_t i = 0; i + 1 < path.points.size(); i += 2)
    sum += std::hypot(path.points[i + 1].x - path.points[i].x,
                      path.points[i + 1].y - path.points[i].y);
  return sum;
}

double distance_to(const std::vector<PaperPoint>& ring, PaperPoint p) {
  double best = 1e9;
  for (std::size_t i = 0; i < ring.size(); ++i) {
    const PaperPoint a = ring[i], w = ring[(i + 1) % ring.size()] - a, v = p - a;
    const double t = std::clamp((v.x * w.x + v.y * w.y) / (w.x * w.x + w.y * w.y), 0.0, 1.0);
    best = std::min(best, std::hypot(v.x - t * w.x, v.y - t * w.y));
  }
  return best;
}

}  // namespace

// Lines of pitch p cover an area A with a length A / p in the mean.
TEST_CASE("hatch: lines stay in the ring, out of its hole, and cover its area") {
  TrialBoard t;
  const Path path = hatched(t, {ell, hole}, "curb");
  for (std::size_t i = 0; i + 1 < path.points.size(); i += 2) {
    const PaperPoint m = (path.points[i] + path.points[i + 1]) * 0.5;
    CHECK(contains(ell, m));
    CHECK_FALSE((contains(hole, m) && distance_to(hole, m) > 1e-6));
    CHECK(distance_to(ell, path.points[i]) * distance_to(hole, path.points[i]) < 1e-6);
  }
  const double area_mm2 = area(ell) - area(hole);
  CHECK(length(path) == doctest::Approx(area_mm2 / t.style.hatch("curb").pitch).epsilon(0.02));
}

TEST_CASE("hatch: the lines have the angle and the pitch of the style") {
  TrialBoard t;
  const Hatch h = t.style.hatch("laminate");
  const Path path = hatched(t, {ell}, "laminate");
  const double c = std::cos(h.angle * pi / 180), s = std::sin(h.angle * pi / 180);
  for (std::size_t i = 0; i + 1 < path.points.size(); i += 2) {
    const double a = path.points[i].y * c - path.points[i].x * s;
    const double b = path.points[i + 1].y * c - path.points[i + 1].x * s;
    CHECK(a == doctest::Approx(b));
    CHECK(std::remainder(a, h.pitch) == doctest::Approx(0).epsilon(1e-6));
  }
}

TEST_CASE("hatch: a band keeps what is near the outline and only that") {
  TrialBoard t;
  const std::vector<PaperPoint> square = {{100, 100}, {200, 100}, {200, 200}, {100, 200}};
  const double band = 6;
  const Path path = hatched(t, {square}, "steel", band);
  for (PaperPoint p : path.points) CHECK(distance_to(square, p) <= band + 1e-9);
  for (std::size_t i = 0; i + 1 < path.points.size(); i += 2)
    CHECK(distance_to(square, (path.points[i] + path.points[i + 1]) * 0.5) <= band + 1e-9);
  const double area_mm2 = 100.0 * 100 - 88.0 * 88;
  CHECK(length(path) == doctest::Approx(area_mm2 / t.style.hatch("steel").pitch).epsilon(0.02));
}

TEST_CASE("hatch: one stroke a region, whatever its rings") {
  TrialBoard t;
  hatch(t.board, {ell, hole}, "core");
  REQUIRE(t.sheet.items.size() == 1);
  CHECK(std::get<Stroke>(t.sheet.items[0]).pen == static_cast<PenIndex>(PenUse::hatch));
}

TEST_CASE("hatch: grains lie inside, the same every time") {
  TrialBoard t, u;
  const Path path = hatched(t, {ell, hole}, "concrete");
  REQUIRE(path.points.size() > 100);
  for (PaperPoint p : path.points) {
    CHECK(contains(ell, p));
    CHECK_FALSE(contains(hole, p));
  }
  CHECK(hatched(u, {ell, hole}, "concrete").points == path.points);
  stipple(t.board, ell);
  stipple(u.board, ell);
  CHECK(dump(t.sheet) == dump(u.sheet));
}

TEST_CASE("hatch: no rings, rings without area and runaway coordinates draw nothing") {
  TrialBoard t;
  hatch(t.board, {}, "steel");
  hatch(t.board, {{}}, "steel");
  hatch(t.board, {{{100, 100}, {120, 100}}}, "steel");
  hatch(t.board, {{{100, 100}, {NAN, 100}, {100, 120}}}, "steel");
  hatch(t.board, {{{100, 100}, {1e300, 100}, {100, 120}}}, "steel");
  stipple(t.board, {});
  CHECK(t.sheet.items.empty());
}
