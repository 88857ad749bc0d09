// The march along a gutter, without panels: reference case C12, sags, level decks, and what holds
// for every gutter.
#include "checks/gutter_march.h"

#include <cmath>

#include "deck/trial.h"

using namespace deckquire;
using trial::Dice;

namespace {

/// C12 of the drainage reference (worked for this program from HEC-22; no published answer): 3.6 m
/// between curbs, crown in the middle, 2 % across, 2.5 % down from 0 to 60 m, n 0.015, C 0.9,
/// 150 mm/h, 0.60 m allowed, grate 250 x 300 mm like P-1-7/8-4.
Project c12() {
  Project p;
  p.bridge.alignment.to = metres(60);
  p.bridge.alignment.grades = {{metres(0), metres(10), {}}, {metres(60), metres(8.5), {}}};
  p.deck.edges = {{mm(0), mm(1800), mm(1800), {}}};
  p.deck.section.slope = 0.02;
  p.deck.section.curb.sides = CurbSides::both;
  p.deck.section.curb.height = mm(100);
  RainData r;
  r.intensity = 0.150 / 3600;
  r.runoff = 0.9;
  r.roughness = 0.015;
  r.spread = mm(600);
  r.grate = "P-1-7/8-4";
  r.opening = 0.6;
  p.conditions.rain = r;
  ScuppersData s;
  s.grate_length = mm(300);
  s.grate_width = mm(250);
  p.deck.scuppers = s;
  return p;
}

GutterMarch run(const Project& p, std::vector<double> at, Side side = Side::left) {
  Findings findings;
  const Bridge b = build_bridge(p, findings);
  const GutterLine line(p, b, side, p.bridge.alignment.from, p.bridge.alignment.to);
  std::vector<InletPlace> places;
  for (double s : at) places.push_back({s, static_cast<int>(places.size())});
  return march(line, *gutter_water(p, *rain_intensity(*p.conditions.rain, 0)), b.alignment, places);
}

double left_over(const GutterMarch& m) {
  return 1 - (m.caught + m.end_back + m.end_ahead + m.standing) / m.rain;
}

}  // namespace

TEST_CASE("march: C12, scuppers at the reference places") {
  const GutterMarch m = run(c12(), {22.16, 39.41, 56.67});
  CHECK(m.rain == doctest::Approx(4.050e-3).epsilon(1e-6));
  REQUIRE(m.inlets.size() == 3);
  for (const Inlet& i : m.inlets) {
    CHECK(i.T == doctest::Approx(0.60).epsilon(0.001));
    CHECK(i.Q == doctest::Approx(1.496e-3).epsilon(0.001));
    CHECK(i.caught == doctest::Approx(1.165e-3).epsilon(0.001));
  }
  CHECK(m.end_ahead == doctest::Approx(0.5557e-3).epsilon(0.002));
  CHECK(m.end_back == 0);
  CHECK(m.stations.back().T == doctest::Approx(0.4139).epsilon(0.002));
  CHECK(m.worst.T == doctest::Approx(0.60).epsilon(0.001));
  CHECK(m.worst.uniform);
  CHECK(std::abs(left_over(m)) < 1e-12);
  // C2e: 1.185 min in the gutter down to the first scupper.
  CHECK(m.seconds / 60 == doctest::Approx(1.185).epsilon(0.01));
}

TEST_CASE("march: C12c, both ways to allow for debris") {
  Project p = c12();
  p.conditions.rain->blocked = 0.5;
  p.conditions.rain->clogging = ClogModel::length;
  CHECK(run(p, {22.16}).inlets[0].caught == doctest::Approx(1.146e-3).epsilon(0.002));
  p.conditions.rain->clogging = ClogModel::flow;
  CHECK(run(p, {22.16}).inlets[0].caught == doctest::Approx(0.5824e-3).epsilon(0.002));
}

TEST_CASE("march: a gutter without scuppers carries C12's first length") {
  const Project p = c12();
  Findings findings;
  const Bridge b = build_bridge(p, findings);
  const GutterLine line(p, b, Side::left, metres(0), metres(60));
  const GutterWater water = *gutter_water(p, *p.conditions.rain->intensity);
  CHECK(carrying_length(line, water, 0, 60) == doctest::Approx(22.16).epsilon(0.001));
  CHECK(carrying_length(line, water, 0, 10) == doctest::Approx(22.16).epsilon(0.001));
}

TEST_CASE("march: C12g, the level deck, with and without the pond over the grate") {
  Project p = c12();
  p.bridge.alignment.grades.resize(1);
  // Without the depth over the grate the water's slope alone gives the closed form (HEC-21, from
  // memory; re-derived in the reference): 9.630 m for 0.60 m.
  const GutterWater water = *gutter_water(p, *p.conditions.rain->intensity);
  const double q = water.rate * 1.8, L = 9.630 / 2;
  double T = 0;
  for (int k = 0; k < 100; ++k) {
    const double a = q * L * (k + 1) / 100, b = q * L * k / 100;  // upstream from the scupper
    const double Qa = q * L - b, Qb = q * L - a;
    T = hydraulics::backwater_spread(water.gutter(0), T, (Qa * Qa + Qa * Qb + Qb * Qb) / 3,
                                     L / 100);
  }
  CHECK(T == doctest::Approx(0.6).epsilon(0.0002));
  CHECK(hydraulics::level_spacing(0.015, 0.02, q, 0.6) == doctest::Approx(9.630).epsilon(0.0002));
  // The march: the pond of the scupper adds to that. Independent sum in T^(19/3).
  std::vector<double> at;
  for (int k = 0; k < 6; ++k) at.push_back(6 + 9.63 * k);
  const GutterMarch m = run(p, at);
  const double pond = water.ponding(q * 9.63).T;
  const double expected = std::pow(std::pow(pond, 19.0 / 3) + std::pow(0.6, 19.0 / 3), 3.0 / 19);
  double middle = 0;
  for (const GutterStation& s : m.stations)
    if (std::abs(s.station - (6 + 9.63 * 1.5)) < 1e-9) middle = s.T;
  CHECK(middle == doctest::Approx(expected).epsilon(0.0005));
  CHECK(m.inlets[2].sag);
  CHECK(m.inlets[2].caught == doctest::Approx(q * 9.63).epsilon(1e-9));
  CHECK(std::abs(left_over(m)) < 1e-12);
}

TEST_CASE("march: a sag takes what comes from both sides, at one level") {
  Project p = c12();
  p.bridge.alignment.grades = {
      {metres(0), metres(10), {}}, {metres(20), metres(9.5), {}}, {metres(60), metres(10.5), {}}};
  p.conditions.rain->blocked_in_sag = 0.5;
  const GutterMarch one = run(p, {20});
  REQUIRE(one.inlets[0].sag);
  CHECK(one.inlets[0].Q == doctest::Approx(4.05e-3).epsilon(1e-9));
  // C12f': the same formulas at another flow, reckoned here by hand: weir (Q/(1.66 P))^(2/3) with
  // P = L + 2 W (1 - c) = 0.55 m, and W/2 Sx more at the curb.
  CHECK(one.inlets[0].depth ==
        doctest::Approx(std::pow(4.05e-3 / (1.66 * 0.55), 2.0 / 3) + 0.0025).epsilon(1e-9));
  CHECK(one.worst.T == doctest::Approx(one.inlets[0].depth / 0.02).epsilon(1e-9));
  // Two beside it, a little up either side: the lower one takes more, both stand at one level.
  const GutterMarch two = run(p, {19.9, 20.05});
  CHECK(two.inlets[0].depth == doctest::Approx(two.inlets[1].depth));
  CHECK(two.inlets[0].rise == doctest::Approx(0.1 * 0.025).epsilon(1e-6));
  CHECK(two.inlets[1].caught > two.inlets[0].caught);
  CHECK(std::abs(left_over(two)) < 1e-12);
  // None: the water stands, and it is said.
  const GutterMarch none = run(p, {});
  REQUIRE(none.blind.size() == 1);
  CHECK(none.blind[0].Q == doctest::Approx(4.05e-3).epsilon(1e-9));
  CHECK(std::abs(left_over(none)) < 1e-12);
}

TEST_CASE("march: widths, one-sided falls and curves") {
  Project p = c12();
  p.deck.edges = {{mm(0), mm(1800), mm(1800), {}},
                  {metres(20), mm(1800), mm(1800), {}},
                  {metres(24), mm(2800), mm(1800), {}},
                  {metres(60), mm(2800), mm(1800), {}}};
  CHECK(run(p, {}).rain ==
        doctest::Approx(3.75e-5 * (20 * 1.8 + 4 * 2.3 + 36 * 2.8)).epsilon(1e-9));
  CHECK(run(p, {}, Side::right).rain == doctest::Approx(3.75e-5 * 60 * 1.8).epsilon(1e-9));
  p.deck.section.fall = Fall::left;
  CHECK(run(p, {}).rain ==
        doctest::Approx(3.75e-5 * (20 * 3.6 + 4 * 4.1 + 36 * 4.6)).epsilon(1e-9));
  // An arc of 30 m to the left: rings of the deck, outside longer than inside.
  p = c12();
  p.bridge.alignment.curves = {{metres(0), metres(60), metres(30), true, {}}};
  const double left = run(p, {}).rain, right = run(p, {}, Side::right).rain;
  const double r = 30, turn = 2, to_left = (r * r - 28.2 * 28.2) / 2 * turn,
               to_right = (31.8 * 31.8 - r * r) / 2 * turn;
  CHECK(std::max(left, right) == doctest::Approx(3.75e-5 * to_right).epsilon(1e-9));
  CHECK(std::min(left, right) == doctest::Approx(3.75e-5 * to_left).epsilon(1e-9));
}

TEST_CASE("march: on gutters out of dice nothing is lost, and more rain never spreads less") {
  int sags = 0, flats = 0, several = 0;
  for (std::uint64_t seed = 1; seed <= 300; ++seed) {
    Dice dice{seed};
    const auto in = [&](double a, double b) { return a + (b - a) * dice.next(); };
    Project p = c12();
    const double length = in(15, 150);
    p.bridge.alignment.to = metres(length);
    p.bridge.alignment.grades.clear();
    double level = 10;
    const int points = 1 + dice.upto(4);
    for (int k = 0; k < points; ++k) {
      p.bridge.alignment.grades.push_back({metres(length * k / points), metres(level), {}});
      level += (dice.upto(4) == 0 ? 0 : in(-0.04, 0.04)) * length / points;
      if (k > 0 && dice.upto(2) == 0)
        p.bridge.alignment.grades.back().curve = metres(length / points * in(0.1, 0.9));
    }
    p.bridge.alignment.grades.push_back({metres(length), metres(level), {}});
    p.deck.edges.clear();
    for (int k = 0; k <= 5; ++k)
      p.deck.edges.push_back({metres(length * k / 5), metres(in(1, 3)), metres(in(1, 3)), {}});
    p.deck.section.fall = dice.upto(3) == 0 ? Fall::left : Fall::crown;
    p.deck.section.slope = in(0.005, 0.03);
    p.deck.section.curb.width = mm(150);
    RainData& r = *p.conditions.rain;
    r.intensity = in(20, 250) / 3.6e6;
    r.clogging = static_cast<ClogModel>(dice.upto(3));
    r.blocked = r.blocked_in_sag = in(0, 0.55);
    p.deck.scuppers->inset = mm(in(0, 60));
    std::vector<double> at;
    for (int k = dice.upto(9); k > 0; --k) at.push_back(in(0.2, length - 0.2));
    CAPTURE(seed);
    const GutterMarch m = run(p, at);
    REQUIRE(std::abs(left_over(m)) < 1e-9);
    REQUIRE(m.rain > 0);
    for (const GutterStation& s : m.stations) REQUIRE((std::isfinite(s.T) && s.T >= 0 && s.Q >= 0));
    for (const Inlet& i : m.inlets) {
      REQUIRE(i.caught <= i.Q * (1 + 1e-12));
      REQUIRE(i.caught >= 0);
      sags += i.sag;
    }
    several += m.inlets.size() > 2;
    r.intensity = *r.intensity * in(1.01, 1.6);
    const GutterMarch more = run(p, at);
    REQUIRE(more.stations.size() == m.stations.size());
    for (std::size_t i = 0; i < m.stations.size(); ++i) {
      flats += !m.stations[i].uniform;
      CAPTURE(more.stations[i].station);
      CAPTURE(m.stations[i].uniform);
      CAPTURE(more.stations[i].uniform);
      REQUIRE(more.stations[i].T >= m.stations[i].T * (1 - 1e-9));
      REQUIRE(more.stations[i].Q >= m.stations[i].Q * (1 - 1e-9));
    }
  }
  CHECK(sags > 30);
  CHECK(flats > 300);
  CHECK(several > 100);
}
