#include "bridge/bridge.h"

#include <cmath>

#include "deck/trial.h"

using namespace deckquire;
using doctest::Approx;

TEST_CASE("alignment: a point left of a bearing of 30 degrees, where plane trigonometry puts it") {
  AlignmentData a;
  a.from = metres(10);
  a.to = metres(210);
  a.easting = metres(1000);
  a.northing = metres(2000);
  a.bearing = degrees(30);
  a.grades = {
      {metres(10), metres(50), {}}, {metres(110), metres(51), {}}, {metres(210), metres(49), {}}};
  const SurveyPoint p = Alignment(a).survey(metres(110), metres(2));
  // sin 30 = 1/2, cos 30 = sqrt(3)/2: 100 m ahead, then 2 m to the left.
  CHECK(p.easting == Approx(1000 + 50 - std::sqrt(3.0)).epsilon(1e-12));
  CHECK(p.northing == Approx(2000 + 50 * std::sqrt(3.0) + 1).epsilon(1e-12));
  CHECK(p.level == Approx(51));
}

TEST_CASE("alignment: levels on two grades, and beyond the last point") {
  AlignmentData a;
  a.grades = {
      {metres(0), metres(50), {}}, {metres(100), metres(51), {}}, {metres(200), metres(49), {}}};
  const Alignment line(a);
  CHECK(line.level(metres(50)) == metres(50.5));
  CHECK(line.level(metres(150)) == metres(50));
  CHECK(line.level(metres(210)) == metres(48.8));
  CHECK(line.grade(metres(99)) == Approx(0.01));
  CHECK(line.grade(metres(100)) == Approx(-0.02));  // just ahead
}

TEST_CASE("edges: taper, step and constant ends") {
  const DeckEdges e({{mm(0), mm(1500), mm(1500), {}},
                     {mm(1000), mm(1500), mm(1500), {}},
                     {mm(2000), mm(2000), mm(1500), {}},
                     {mm(2000), mm(1200), mm(1500), {}}});
  CHECK(e.left(mm(-50)) == mm(1500));
  CHECK(e.left(mm(1500)) == mm(1750));
  CHECK(e.left(mm(2000), false) == mm(2000));
  CHECK(e.left(mm(2000), true) == mm(1200));
  CHECK(e.left(mm(9000)) == mm(1200));
  CHECK(e.right(mm(1500)) == mm(1500));
  CHECK(e.breaks() == std::vector<Length>{mm(1000), mm(2000)});
}

TEST_CASE("bridge: a splice on all girders is one on each, numbered along it") {
  const Project project = trial::example("saltmarsh");
  Findings none;
  const Bridge bridge = build_bridge(project, none);
  REQUIRE(bridge.splices.size() == 12);
  CHECK(bridge.splices[0].name == "G1-S1");
  CHECK(bridge.splices[5].name == "G1-S6");
  CHECK(bridge.splices[6].name == "G2-S1");
  CHECK(bridge.splices[6].plan.low.y == Approx(-1000 - 130));
  CHECK(bridge.splices[6].plan.high.x == Approx(8776 + 380));
}

TEST_CASE("bridge: contradictions of the steelwork, each one finding") {
  const Project good = trial::example("saltmarsh");
  const auto codes = [](const Project& p) {
    Findings f;
    build_bridge(p, f);
    return trial::codes(f);
  };
  CHECK(codes(good) == "");
  Project p = good;
  p.bridge.splices[0].girder = "G11";
  CHECK(codes(p) == "unknown-girder");
  p = good;
  p.bridge.splices[0].station = mm(100);
  CHECK(codes(p) == "splice-outside-girder splice-outside-girder");  // on either girder
  p = good;
  std::swap(p.bridge.supports[1], p.bridge.supports[2]);
  CHECK(codes(p) == "supports-out-of-order");
  p = good;
  p.bridge.obstructions[0].station = metres(96);
  CHECK(codes(p) == "obstruction-outside-bridge");
  p = good;
  std::swap(p.deck.edges[1], p.deck.edges[2]);
  CHECK(codes(p) == "edges-out-of-order");
  p = good;
  p.deck.edges[0].left = mm(1149);  // flange face at 1150
  CHECK(codes(p) == "edge-inside-flange");
  p.deck.edges[0].left = mm(1150);
  CHECK(codes(p) == "");
  p = good;
  p.bridge.splices[1].station = p.bridge.splices[0].station + mm(700);
  CHECK(codes(p) == "splices-overlap splices-overlap");
}
