// The plain functions and the narrated workings are the same formulas: equal to 1e-12 over values
// by chance. And what the functions alone promise.
#include "workings/hydraulics.h"

#include <algorithm>
#include <cmath>

#include <doctest/doctest.h>

#include "support/dice.h"
#include "support/reckoned.h"

using namespace deckquire;
using namespace deckquire::hydraulics;
using deckquire::testing::Dice;
using workings::Given;
using workings::Values;

namespace {

constexpr int trials = 300;

/// Runs a working with numbers in SI.
struct Narrated {
  workings::Working w;
  Narrated(const char* name, const Values& v)
      : w(workings::reckon(*workings::find_working(name), v)) {}
  double operator()(std::string_view symbol) const {
    for (const auto& s : w.steps)
      if (s.symbol == symbol) return s.si;
    FAIL("no step " << symbol);
    return 0;
  }
};

Given si(double v) {
  return {v, "", {}};
}
Given word(std::string s) {
  return {0, std::move(s), {}};
}

/// Equal to 1e-12 of the value, or of `scale` where the value is a difference.
void same(double a, double b, double scale = 0) {
  INFO(a << " and " << b);
  CHECK(std::abs(a - b) <= 1e-12 * std::max({std::abs(a), std::abs(b), scale}));
}

struct Chance {
  Dice dice;
  double in(double from, double to) { return from + (to - from) * dice.next(); }
  Gutter gutter() { return {in(0.009, 0.03), in(0.005, 0.08), in(0.001, 0.1)}; }
};

Values of(const Gutter& g) {
  return {{"n", si(g.n)}, {"Sx", si(g.Sx)}, {"SL", si(g.SL)}};
}

Values with(Values v, std::initializer_list<std::pair<const char*, Given>> more) {
  for (const auto& [symbol, given] : more) v[symbol] = given;
  return v;
}

}  // namespace

TEST_CASE("hydraulics: gutters as the workings reckon them") {
  Chance c{{1}};
  for (int i = 0; i < trials; ++i) {
    const Gutter g = c.gutter();
    const double T = c.in(0.05, 3), Q = c.in(1e-4, 0.1);
    const Narrated flow("gutter-flow", with(of(g), {{"T", si(T)}}));
    same(flow("Q"), gutter_flow(g, T));
    same(flow("V"), gutter_velocity(g, T));
    same(Narrated("gutter-spread", with(of(g), {{"Q", si(Q)}}))("T"), gutter_spread(g, Q));
    const Strip s{c.in(0.1, 0.6), c.in(0.005, 0.06)};
    const Narrated strip("composite-gutter-flow",
                         with(of(g), {{"T", si(T)}, {"W", si(s.W)}, {"a", si(s.a)}}));
    const CompositeFlow f = composite_flow(g, s, T);
    same(strip("Q"), f.Q);
    same(strip("Eo"), f.Eo);
    same(strip("V"), f.V);
    same(strip("d"), f.d);
    const Narrated back("composite-gutter-spread",
                        with(of(g), {{"Q", si(f.Q)}, {"W", si(s.W)}, {"a", si(s.a)}}));
    same(back("Qt"), f.Q);
    CHECK(std::abs(back("T") - T) <= 1e-11 * T);
    const double C = c.in(0.5, 1), rain = c.in(50, 250) / 3.6e6, w = c.in(0.5, 4);
    same(Narrated("deck-inflow", {{"C", si(C)}, {"i", si(rain)}, {"w", si(w)}})("q"),
         inflow(C, rain, w));
    const double H = c.in(0.01, 0.1), B = c.in(3, 5);
    const int strips = 1 + c.dice.upto(50);
    const Narrated crown(
        "parabolic-gutter",
        {{"H", si(H)}, {"B", si(B)}, {"n", si(g.n)}, {"T", si(T)}, {"N", si(strips)}});
    same(crown("K"), parabolic_conveyance(H, B, g.n, T, strips));
    same(crown("d"), parabolic_depth(H, B, T));
  }
}

TEST_CASE("hydraulics: grates and openings as the workings reckon them") {
  Chance c{{2}};
  const char* ways[] = {"none", "length", "flow"};
  for (int i = 0; i < trials; ++i) {
    const Gutter g = c.gutter();
    const double Q = c.in(1e-4, 0.2);
    const int way = c.dice.upto(3);
    Grate grate{c.in(0.1, 0.8), c.in(0.3, 1.2), nullptr};
    Values v =
        with(of(g),
             {{"Q", si(Q)}, {"W", si(grate.W)}, {"L", si(grate.L)}, {"clogging", word(ways[way])}});
    const int type = c.dice.upto(static_cast<int>(grate_types().size()) + 1);
    if (type < static_cast<int>(grate_types().size())) {
      grate.type = &grate_types()[type];
      v["grate"] = word(std::string(grate.type->name));
    } else {
      grate.Vo = c.in(0.2, 3);
      v["grate"] = word("own");
      v["Vown"] = si(grate.Vo);
    }
    grate.clogging = static_cast<Clogging>(way);
    if (way > 0) v["c"] = si(grate.blocked = c.in(0, 0.59));
    if (c.dice.upto(2) > 0) v["e"] = si(grate.gap = c.in(0, 0.2));
    const Narrated r("grate-on-grade", v);
    const Caught caught = grate_on_grade(g, grate, Q);
    same(r("Eo"), caught.Eo, 1);
    same(r("Vo"), caught.Vo);
    same(r("Rf"), caught.Rf, 1);
    same(r("Rs"), caught.Rs);
    same(r("E"), caught.E);
    same(r("Qi"), caught.Qi);
    same(r("Qb"), caught.Qb, Q);
    const double p = c.in(0.3, 1), blocked = c.in(0, 0.9);
    const Narrated sag("grate-in-sag", {{"Q", si(Q)},
                                        {"Sx", si(g.Sx)},
                                        {"W", si(grate.W)},
                                        {"L", si(grate.L)},
                                        {"p", si(p)},
                                        {"c", si(blocked)},
                                        {"e", si(grate.gap)}});
    const Ponding pond =
        grate_in_sag(Q, g.Sx, grate.W, grate.L, p, blocked, 1.66, grate.gap);
    same(sag("P"), pond.P);
    same(sag("Ag"), pond.A);
    same(sag("dw"), pond.weir);
    same(sag("do"), pond.orifice);
    same(sag("dc"), pond.curb);
    same(sag("T"), pond.T);
    const double L = c.in(0.1, 20);
    const Narrated opening("curb-opening", with(of(g), {{"Q", si(Q)}, {"L", si(L)}}));
    same(opening("LT"), curb_opening_full_length(g, Q));
    same(opening("E"), curb_opening_efficiency(L, curb_opening_full_length(g, Q)), 1);
  }
}

TEST_CASE("hydraulics: a gap before the grate leaves the shares of the flow whole") {
  const Gutter g{0.015, 0.02, 0.025};
  Grate near{0.1, 0.3, find_grate("P-1-7/8-4")}, far = near, both = near;
  far.gap = 0.1;
  both.W = 0.2;
  const double Q = gutter_flow(g, 0.6);
  CHECK(grate_on_grade(g, near, Q).Eo + grate_on_grade(g, far, Q).Eo ==
        doctest::Approx(grate_on_grade(g, both, Q).Eo).epsilon(1e-12));
  CHECK(grate_on_grade(g, far, Q).E < grate_on_grade(g, near, Q).E);
}

TEST_CASE("hydraulics: backwater keeps uniform flow, a pool, and the level gutter") {
  const double Q = 1e-3;
  for (const double SL : {0.0005, 0.001, 0.003}) {
    const Gutter g{0.015, 0.02, SL};
    const double T = gutter_spread(g, Q);
    CHECK(backwater_spread(g, T, Q * Q, 5) == doctest::Approx(T).epsilon(1e-9));
    double t = 2 * T;  // far up a gutter of one flow the water runs uniformly
    for (int i = 0; i < 4000; ++i) t = backwater_spread(g, t, Q * Q, 0.1);
    CHECK(t == doctest::Approx(T).epsilon(1e-6));
    CHECK(backwater_spread(g, 1, 0, 2) == doctest::Approx(1 - SL * 2 / 0.02).epsilon(1e-12));
    CHECK(backwater_spread({0.015, 0.02, -SL}, 1, 0, 2) ==
          doctest::Approx(1 + SL * 2 / 0.02).epsilon(1e-12));
  }
  // Critical depth of a triangle: Q^2 B = g A^3, B = T, A = Sx T^2 / 2.
  const double T = critical_spread(0.02, Q), A = 0.02 * T * T / 2;
  CHECK(Q * Q * T == doctest::Approx(gravity * A * A * A).epsilon(1e-12));
}

TEST_CASE("hydraulics: pipes and spacing as the workings reckon them") {
  Chance c{{3}};
  for (int i = 0; i < trials; ++i) {
    const Pipe p{c.in(0.05, 0.4), c.in(0.009, 0.015), c.in(0.002, 0.2)};
    const Values v{{"D", si(p.D)}, {"n", si(p.n)}, {"S", si(p.S)}};
    const Narrated full("pipe-flow", v);
    same(full("Qf"), pipe_full_flow(p));
    same(full("Vf"), pipe_full_velocity(p));
    const double y = c.in(0.02, 0.93) * p.D;
    const Narrated part("pipe-part-full", with(v, {{"y", si(y)}}));
    same(part("Qy"), pipe_part_flow(p, y));
    same(part("V"), pipe_part_velocity(p, y));
    const Narrated back("pipe-part-full", with(v, {{"Q", si(pipe_part_flow(p, y))}}));
    same(back("Qy"), pipe_part_flow(p, y));
    CHECK(std::abs(back("y") - y) <= 1e-9 * y);
    const double f = c.in(0.2, 0.35), h = c.in(0.005, 0.2), kO = c.dice.upto(2) ? 1.0 : 0.5;
    same(Narrated("downpipe", {{"D", si(p.D)}, {"f", si(f)}})("Qv"), downpipe_flow(p.D, f));
    const Values outlet{{"D", si(p.D)}, {"cover", word(kO == 1 ? "open" : "grating")}};
    same(Narrated("scupper-outlet", with(outlet, {{"h", si(h)}}))("Q"), outlet_flow(p.D, h, kO));
    const double Q = c.in(1e-4, 0.01);
    same(Narrated("scupper-outlet", with(outlet, {{"Q", si(Q)}}))("h"), outlet_head(p.D, Q, kO));
    same(outlet_flow(p.D, outlet_head(p.D, Q, kO), kO), Q);

    const Gutter g = c.gutter();
    const double C = c.in(0.5, 1), rain = c.in(50, 250) / 3.6e6, w = c.in(0.5, 4), T = c.in(0.2, 2);
    const double q = inflow(C, rain, w);
    const Values deck = with(of(g), {{"C", si(C)}, {"i", si(rain)}, {"w", si(w)}, {"Tmax", si(T)}});
    const Grate grate{c.in(0.1, 0.5), c.in(0.15, 0.6), find_grate("reticuline")};
    const Narrated spaced(
        "scupper-spacing",
        with(deck, {{"W", si(grate.W)}, {"L", si(grate.L)}, {"grate", word("reticuline")}}));
    same(spaced("L1"), first_scupper(g, q, T));
    same(spaced("Ln"), grate_on_grade(g, grate, gutter_flow(g, T)).Qi / q);
    const Narrated level("scupper-spacing", with(deck, {{"SL", si(0)}}));
    same(level("Lc"), level_spacing(g.n, g.Sx, q, T));
  }
}

TEST_CASE("hydraulics: flow and spread rise together, and nothing is caught twice") {
  Chance c{{4}};
  for (int i = 0; i < trials; ++i) {
    const Gutter g = c.gutter();
    const Strip s{c.in(0.1, 0.6), c.in(0, 0.06)};
    const double T = c.in(0.05, 2);
    CHECK(composite_flow(g, s, T).Q < composite_flow(g, s, T * 1.001).Q);
    CHECK(composite_flow(g, s, s.W).Q ==
          doctest::Approx(composite_flow(g, s, s.W * (1 + 1e-7)).Q).epsilon(1e-5));
    CHECK(composite_flow(g, {s.W, 0}, T).Q == doctest::Approx(gutter_flow(g, T)).epsilon(1e-9));
    CHECK(gutter_spread(g, gutter_flow(g, T)) == doctest::Approx(T).epsilon(1e-13));
    const Grate grate{c.in(0.02, 1), c.in(0.15, 1.4), &grate_types()[c.dice.upto(7)]};
    const Caught caught = grate_on_grade(g, grate, c.in(1e-5, 1));
    CHECK(caught.E >= 0);
    CHECK(caught.E <= 1);
    CHECK(caught.Qb >= 0);
    CHECK(caught.Rs <= 1);
  }
  CHECK(find_grate("nothing") == nullptr);
  CHECK(curb_opening_efficiency(5, 4) == 1);
  // A grate that blocks more catches less, by either model.
  const Gutter g{0.015, 0.02, 0.025};
  double last = 1;
  for (double share : {0.0, 0.2, 0.4, 0.59}) {
    const Grate grate{0.25, 0.3, find_grate("P-1-7/8-4"), 0, Clogging::length, share};
    const double E = grate_on_grade(g, grate, 0.0015).E;
    CHECK(E < last);
    last = E;
  }
}
