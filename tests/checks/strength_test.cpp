// Panels across the bridge on the real deck, against closed forms by hand.
#include "loaded.h"

using namespace loaded;
using deckquire::testing::in;
using deckquire::testing::printed;

namespace {

constexpr double D = 22000.0 * 1000 * 8 * 117 * 117 / 2 + 22000.0 * 1000 * 512 / 6;  // N mm2
constexpr double S = 48.0 * 1000 * 117 * 117 / 109;                                  // N

Project on_foot() {
  Project p = plain(1400, {900, -900});
  p.deck.strength = sandwich();
  p.conditions.pedestrian = PedestrianData{Pressure::si(5000), "EN 1991-2", {}};
  p.conditions.factors = factors(1.2, 1.5);
  p.conditions.deflection = DeflectionData{360, 220, "", {}};
  return p;
}

Project driven(double gauge) {
  Project p = on_foot();
  p.conditions.pedestrian.reset();
  VehicleData v;
  v.wheel = Force::si(10000);
  v.gauge = mm(gauge);
  v.patch_along = v.patch_across = mm(100);
  v.effective = mm(800);
  p.conditions.vehicle = v;
  return p;
}

}  // namespace

TEST_CASE("strength: a strip under people is what a beam by hand is") {
  // L 1800, a 500; q on each span and overhang or not. Simple span with two overhangs (statics);
  // the deflection of the span with only itself loaded is 5 q L4/384 D + q L2/8 S (reference 3.3).
  const Calculated c = calculated(on_foot());
  const auto [g, curb] = weight(c.built.deck);
  const double L = 1.8, a = 0.5, q = 1.5 * 5000, gd = 1.2 * g, P = 1.2 * curb;
  const double arm = a - 0.075;  // the middle of a curb of 150
  const auto& w = c.worst("bending of the skins, sagging under people");
  CHECK(in(w, "M_max", "kN m") ==
        printed((q * L * L / 8 + gd * (L * L - 4 * a * a) / 8 - P * arm) / 1e3, 1e-5));
  CHECK(in(w, "M_min", "kN m") ==
        printed(-((q + gd) * a * a / 2 + P * arm) / 1e3, 1e-5));
  CHECK(in(w, "V_max", "kN") ==
        printed((q * L / 2 + q * a * a / 2 / L + gd * L / 2) / 1e3, 1e-5));
  CHECK(in(w, "R_1", "kN") ==
        printed((q * (L / 2 + a + a * a / 2 / L) + gd * (L / 2 + a) + P) / 1e3, 1e-5));
  // I = b t d2/2 + b t3/6 = 54.84e6 mm4, M_R = 50 I/(c/2 + t) = 43.87 kN m; V_R = 0.5 b d.
  const auto& verdict = w.verdicts.at(0);
  CHECK(verdict.capacity == printed(43.87e3));
  CHECK(c.line("shear of the core under people").capacity == "58.50 kN");
  REQUIRE(c.built.deck.marks.size() > 0);
  CHECK(c.line("bearing on a girder under people").capacity == "120.0 kN");  // a pad of 120
  const auto& s = c.worst("deflection of a span under people");
  const double by_hand = 5 * 5.0 * std::pow(1800, 4) / 384 / D + 5.0 * 1800 * 1800 / 8 / S;
  CHECK(in(s, "w_span1", "mm") == printed(by_hand, 1e-5));
  // An overhang alone: q a3 (3a + 4L)/24D + q a2/2S + its end's turn by shear of the span, M/(S L) a.
  const double tip = 5.0 * std::pow(500, 3) * (1500 + 7200) / 24 / D + 5.0 * 500 * 500 / 2 / S +
                     5.0 * 500 * 500 / 2 * 500 / (S * 1800);
  const double up = 5.0 * std::pow(1800, 3) * 500 / 24 / D;  // the span alone tips it up
  CHECK(in(s, "w_left", "mm") == printed(tip > up ? tip : -up, 1e-5));
  CHECK(s.verdicts.size() == 2);
  CHECK(c.all.kept());
}

TEST_CASE("strength: wheels are where they bend most") {
  // Two wheels P on patches of c, b apart, the first x from the left girder: the left reaction is
  // r P, r = 2 - (2x + b)/L; shear is 0 a part r into the first patch; there M = P (r x - c r (1 - r)/2)
  // by statics. The worst x by trying every millimetre; for points (c = 0) it is L/2 - b/4.
  const Calculated c = calculated(driven(900));
  const auto [g, curb] = weight(c.built.deck);
  const double P = 1.5 * 10e3, L = 1.8, b = 0.9, width = 0.8, patch = 0.1;
  const double gd = 1.2 * g * width, C = 1.2 * curb * width;
  double most = 0;
  for (double x = 0.1; x < L - b; x += 0.001) {
    const double r = 2 - (2 * x + b) / L, at = x + patch * (r - 0.5);
    const double dead = gd * at * (L - at) / 2 - gd * 0.125 - C * 0.425;
    most = std::max(most, P * (r * x - patch * r * (1 - r) / 2) + dead);
  }
  const auto& w = c.worst("bending of the skins, sagging under the wheels");
  CHECK(in(w, "M_max", "kN m") == printed(most / 1e3, 0.001));
  // On the overhang the wheel stands against the curb: 500 - 150 - 50 from the girder.
  const auto& h = c.worst("bending of the skins, hogging under the wheels");
  CHECK(in(h, "M_min", "kN m") ==
        printed(-(P * 0.300 + gd * 0.125 + C * 0.425) / 1e3, 1e-4));
  // 0.8 m of strip.
  CHECK(c.line("bending of the skins, sagging under the wheels").capacity == "35.10 kN m");
  CHECK(c.line("deflection of an overhang under the wheels").count > 0);
}

TEST_CASE("strength: an axle that has no room is not checked") {
  const Calculated c = calculated(driven(2500));
  CHECK(c.all.list.empty());
  CHECK(c.not_checked(Topic::strength, "room for the vehicle's axle"));
}

TEST_CASE("strength: over a middle girder the panel hogs as the closed form says") {
  // Two equal spans under q: M = q L2/8/(1 + 3 D/(S L2)) (reference 3.3); overhangs only relieve it.
  Project p = plain(1400, {900, 0, -900});
  p.deck.strength = sandwich();
  p.conditions.pedestrian = PedestrianData{Pressure::si(5000), "", {}};
  p.conditions.factors = factors(0, 1);
  const Calculated c = calculated(p);
  const auto& w = c.worst("bending of the skins, hogging under people");
  const double psi = D / (S * 900 * 900);
  CHECK(in(w, "M_min", "kN m") ==
        printed(-std::max(5.0 * 0.9 * 0.9 / 8 / (1 + 3 * psi), 5.0 * 0.125), 1e-5));
  CHECK(in(w, "M_min", "kN m") < 0);
}

TEST_CASE("strength: clips hold where people on an overhang lift the other side") {
  Project p = plain(2000, {300, -300});
  p.deck.strength = sandwich();
  p.conditions.pedestrian = PedestrianData{Pressure::si(5000), "", {}};
  p.conditions.factors = factors(1, 1);
  p.deck.hold_downs = trial::example("saltmarsh").deck.hold_downs;
  p.deck.hold_downs->capacity = Force::si(3000);
  const Calculated c = calculated(p);
  const auto [g, curb] = weight(c.built.deck);
  // q a2/2 over the spacing, less 0.9 of the strip's weight on one girder.
  const double pull = 5000 * 1.7 * 1.7 / 2 / 0.6 - 0.9 * (g * 2 + curb);
  const auto& w = c.worst("clips that hold the panel down under people");
  CHECK(-in(w, "R_1_min", "kN") == printed(pull / 1e3, 1e-4));
  CHECK(w.verdicts.size() == 1);
  CHECK(w.verdicts[0].capacity == printed(2 * 3000 / 2.394, 1e-6));
  CHECK(!c.all.kept());
  p.deck.hold_downs->capacity.reset();
  CHECK(calculated(p).not_checked(Topic::strength, "clips that hold"));
}

TEST_CASE("strength: a recess leaves less of the panel over its girder") {
  Project p = on_foot();
  SpliceData s;
  s.girder = "G1";
  s.station = mm(10800), s.length = mm(600), s.width = mm(220), s.plate = mm(12);
  s.projection = mm(28), s.bolt = mm(22), s.rows = 8, s.lines = 4;
  p.bridge.splices = {s};
  const Calculated c = calculated(p);
  const auto& w = c.worst("bending of the skins over a recess, under people");
  double deep = 0;
  for (const Panel& q : c.built.deck.panels)
    for (const Feature& f : q.shape.features)
      if (f.kind == FeatureKind::recess) deep = f.depth;
  REQUIRE(deep > 0);
  const double core = 125 - deep - 16, d = core + 8;
  const double I = 1000.0 * 8 * d * d / 2 + 1000.0 * 512 / 6;
  CHECK(in(w, "M_R", "kN m") == printed(50 * I / (core / 2 + 8) / 1e6, 1e-5));
  CHECK(c.line("bending of the skins over a recess, under people").ratio >
        c.line("bending of the skins, hogging under people").ratio);
  CHECK(c.not_checked(Topic::strength, "past a recess"));
}

TEST_CASE("strength: rows of panels on a girder under their joint") {
  Project p = trial::example("ropewalk");
  p.deck.strength = sandwich();
  p.conditions.pedestrian = PedestrianData{Pressure::si(5000), "", {}};
  p.conditions.factors = factors(1, 1);
  const Calculated c = calculated(p);
  CHECK(!c.not_checked(Topic::strength, "fewer than two girders"));
  const auto& w = c.worst("bending of the skins, sagging under people");
  CHECK(in(w, "M_max", "kN m") > 0);
}
