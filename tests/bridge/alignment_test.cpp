#include "bridge/alignment.h"

#include <cmath>

#include "deck/trial.h"

using namespace deckquire;
using doctest::Approx;

namespace {

/// Start at station `from` towards east, level.
AlignmentData eastward(Length from, Length to) {
  AlignmentData a;
  a.from = from;
  a.to = to;
  a.bearing = degrees(90);
  a.grades = {{from, metres(10), {}}};
  return a;
}

/// Tangent, clothoid, arc to the left, clothoid to an arc to the right, clothoid out, tangent.
AlignmentData winding() {
  AlignmentData a = eastward(metres(100), metres(300));
  a.bearing = degrees(37);
  a.transitions = {{metres(120), metres(140), {}},
                   {metres(180), metres(210), {}},
                   {metres(250), metres(265), {}}};
  a.curves = {{metres(140), metres(180), metres(60), true, {}},
              {metres(210), metres(250), metres(45), false, {}}};
  return a;
}

/// Up to eight elements in a row, of random kind, length, radius and turn.
AlignmentData random_alignment(trial::Dice& dice) {
  AlignmentData a = eastward(mm(1e5 * dice.next()), {});
  a.bearing = degrees(360 * dice.next());
  Length at = a.from;
  bool curve_before = false;
  for (int n = 1 + dice.upto(8); n > 0; --n) {
    const Length next = at + mm(2000 + 30000 * dice.next());
    const int kind = dice.upto(3);
    if (kind == 1)
      a.curves.push_back({at, next, mm(15000 + 200e3 * dice.next()), dice.upto(2) == 0, {}});
    if (kind == 2 && curve_before) a.transitions.push_back({at, next, {}});
    curve_before = kind == 1;
    at = next;
  }
  a.to = at;
  return a;
}

void check_continuous(const std::vector<PlanElement>& all) {
  for (std::size_t i = 1; i < all.size(); ++i) {
    const PlanElement &a = all[i - 1], &b = all[i];
    CHECK(std::abs(a.from + a.length - b.from) < 1e-9);
    CHECK(std::abs(point_along(a, a.length).x - b.start.x) < 1e-9);
    CHECK(std::abs(point_along(a, a.length).y - b.start.y) < 1e-9);
    CHECK(std::abs(heading_along(a, a.length) - b.heading) < 1e-14);
    const bool clothoid = a.curvature_from != a.curvature_to || b.curvature_from != b.curvature_to;
    if (clothoid) CHECK(a.curvature_to == b.curvature_from);
    // By steps of a millimetre over the joint: no jump, no kink.
    const GroundPoint d = point_along(b, 1) - point_along(a, a.length - 1);
    CHECK(std::abs(std::hypot(d.x, d.y) - 2) < 1e-6);
  }
}

}  // namespace

TEST_CASE("alignment: chains of random elements are continuous in place and heading") {
  trial::Dice dice{11};
  int elements = 0;
  for (int i = 0; i < 200; ++i) {
    const auto all = Alignment(random_alignment(dice)).elements();
    check_continuous(all);
    elements += static_cast<int>(all.size());
  }
  CHECK(elements > 500);
}

TEST_CASE("alignment: point to station and back on random lines, to a millionth of a millimetre") {
  trial::Dice dice{5};
  for (int i = 0; i < 200; ++i) {
    const AlignmentData data = random_alignment(dice);
    const Alignment line(data);
    double room = 20e3;
    for (const PlanCurveData& c : data.curves) room = std::min(room, c.radius.in_mm() / 2);
    for (int n = 0; n < 30; ++n) {
      const double length = (data.to - data.from).in_mm();
      const double s = data.from.in_mm() - 5e3 + (length + 10e3) * dice.next();
      const double o = room * (2 * dice.next() - 1);
      const auto back = line.locate(line.ground(s, o), s + 3000 * (dice.next() - 0.5));
      REQUIRE(back);
      CHECK(std::abs(back->x - s) < 1e-6);
      CHECK(std::abs(back->y - o) < 1e-6);
    }
  }
}

TEST_CASE("alignment: straight lines have one formula, to the last bit") {
  const Project project = trial::example("saltmarsh");
  const AlignmentData& d = project.bridge.alignment;
  const Alignment line(d);
  CHECK(line.straight());
  CHECK(line.straight(d.from, d.to));
  CHECK(line.curvature(1234.5) == 0);
  CHECK(line.heading(1234.5) == pi / 2 - d.bearing.in_si());
  for (int i = -3; i < 50; ++i) {
    const Length s = mm(1937.25 * i), o = mm(113.5 * (i - 20));
    const double sine = std::sin(d.bearing.in_si()), cosine = std::cos(d.bearing.in_si());
    const double along = (s - d.from).in_m(), left = o.in_m();
    CHECK(line.survey(s, o).easting == d.easting.in_m() + along * sine - left * cosine);
    CHECK(line.survey(s, o).northing == d.northing.in_m() + along * cosine + left * sine);
    const auto back = line.locate(line.ground(s.in_mm(), o.in_mm()), 0);
    REQUIRE(back);
    CHECK(std::abs(back->x - s.in_mm()) < 1e-6);
    CHECK(std::abs(back->y - o.in_mm()) < 1e-6);
  }
}

TEST_CASE(
    "alignment: a chain of elements is continuous in place and heading, and in curvature "
    "where a clothoid joins") {
  const Alignment line(winding());
  const auto all = line.elements();
  REQUIRE(all.size() == 7);
  check_continuous(all);
  CHECK(line.curvature(160e3) == Approx(1 / 60e3));
  CHECK(line.curvature(230e3) == Approx(-1 / 45e3));
  CHECK(line.straight(metres(100), metres(120)));
  CHECK(!line.straight(metres(100), metres(120.001)));
  CHECK(!line.straight());
}

TEST_CASE(
    "alignment: point to station and back, at random, closer than a millionth of a "
    "millimetre") {
  const Alignment line(winding());
  trial::Dice dice{7};
  for (int i = 0; i < 3000; ++i) {
    const double s = 60e3 + 280e3 * dice.next(), o = -20e3 + 40e3 * dice.next();
    const auto back = line.locate(line.ground(s, o), s + 3000 * (dice.next() - 0.5));
    REQUIRE(back);
    INFO(s, " ", o);
    CHECK(std::abs(back->x - s) < 1e-6);
    CHECK(std::abs(back->y - o) < 1e-6);
  }
}

TEST_CASE("alignment: no station for a point at the centre of a curve, or far beyond the ends") {
  AlignmentData data = eastward(metres(0), metres(40));
  data.curves = {{metres(0), metres(40), metres(60), false, {}}};
  const Alignment line(data);
  CHECK(!line.locate(line.ground(20e3, -60e3), 20e3));
  CHECK(!line.locate(line.ground(20e3, 61e3), 20e3));  // |curvature * offset| > 1 outside, too
  CHECK(line.locate(line.ground(20e3, -59e3), 20e3));
  CHECK(!line.locate(line.ground(-51e3, 0), 0));
  CHECK(line.locate(line.ground(-49e3, 0), 0));
}
