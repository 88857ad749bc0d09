// The framework of workings, on workings made up for it.
#include "workings/reckoner.h"

#include <algorithm>
#include <cmath>
#include <set>

#include <doctest/doctest.h>

#include "workings/formula.h"

using namespace deckquire;
using namespace deckquire::workings;
using doctest::Approx;

namespace {

void work_weir(Reckoner& r) {
  r.constant("Cw", "weir coefficient", r.either(1.66, 3.0), "a handbook");
  r.step("Q", "flow over the rim", "Cw*P*d^(3/2)", Kind::flow, r.either("m³/s", "ft³/s"));
  r.step("v", "mean velocity", "Q/(P*d)", Kind::velocity, r.either("m/s", "ft/s"));
  r.found("k", "a root", 2, Kind::number, "", "by hand, once; residual 0");
  r.condition("d <= dmax", "the rim is not drowned", "use the orifice");
  r.condition("d <= h", "the water stays below the curb", "a higher curb");
  r.verdict("flow", "Qneeded", "Q", "L/s");
  if (r.text("shape") == "sharp") r.caution("sharp");
  r.result("Q", "L/s");
  r.result("v");
}

WorkingKind weir() {
  return {
      "test-weir",
      "Flow over a rim",
      "For the tests.",
      "test",
      {"a handbook, 1st ed., eq. 1"},
      {
          InputSpec{"P", "length of the rim", Kind::length, "m", "ft"}.range(0.01, 100),
          InputSpec{"d", "head", Kind::length, "m", "ft"}.range(1e-6),
          InputSpec{"dmax", "head at which it drowns", Kind::length, "m", "ft"}.standard("300 mm",
                                                                                         "a habit"),
          InputSpec{"h", "curb height", Kind::length, "m", "ft"}.if_known(),
          InputSpec{"Qneeded", "flow that comes", Kind::flow, "m³/s", "ft³/s"}.if_known(),
          InputSpec{"shape", "edge of the rim"}.one_of({"round", "sharp"}).standard("round", ""),
      },
      true,
      work_weir};
}

std::string fault(const std::vector<std::pair<std::string, std::string>>& typed,
                  const WorkingKind& kind = weir()) {
  try {
    reckon_typed(kind, typed);
  } catch (const WorkingError& e) {
    return e.what();
  }
  return "no fault";
}

bool says(const std::string& text, const std::string& part) {
  INFO(text);
  INFO(part);
  return text.find(part) != std::string::npos;
}

WorkingKind broken(void (*work)(Reckoner&)) {
  return {"test-broken", "Broken", "", "test", {"none"}, {{"a", "a value"}}, false, work};
}

}  // namespace

TEST_CASE("reckoner: SI and US constants, each in the units of its formula") {
  const Working si = reckon_typed(weir(), {{"P", "0.8"}, {"d", "20 mm"}});
  CHECK(si.result("Q") == Approx(1.66 * 0.8 * std::pow(0.02, 1.5)).epsilon(1e-13));
  CHECK(si.result("v") == Approx(1.66 * std::sqrt(0.02)).epsilon(1e-13));
  const Working us = reckon_typed(weir(), {{"units", "us"}, {"P", "3"}, {"d", "0.25 ft"}});
  const double cubic_foot = 0.3048 * 0.3048 * 0.3048;
  CHECK(us.result("Q") == Approx(3.0 * 3 * std::pow(0.25, 1.5) * cubic_foot).epsilon(1e-13));
  CHECK(us.steps[0].unit.label == "ft³/s");
  CHECK(us.results[0].unit.label == "L/s");
  CHECK_THROWS_AS(us.result("P"), std::logic_error);
}

TEST_CASE("reckoner: values by the program give what the same values typed give") {
  Values v;
  v["P"] = {0.8, "", {Origin::From::project, "", {"bridge.xml", 12, 3}}};
  v["d"] = {0.02, "", {Origin::From::computed, "gutter-flow", {}}};
  const Working a = reckon(weir(), v);
  const Working b = reckon_typed(weir(), {{"P", "0.8 m"}, {"d", "0.02 m"}});
  CHECK(a.result("Q") == b.result("Q"));
  CHECK(says(to_text(a), "project bridge.xml:12"));
  CHECK(says(to_text(a), "computed: gutter-flow"));
  CHECK(says(to_json(a), "\"from\": \"project\", \"file\": \"bridge.xml\", \"line\": 12"));
  v["shape"] = {0, "blunt", {}};
  CHECK_THROWS_AS(reckon(weir(), v), WorkingError);
  v.erase("shape");
  v["nobody"] = {};
  CHECK_THROWS_AS(reckon(weir(), v), std::logic_error);
}

TEST_CASE("reckoner: what is printed is what was computed") {
  const Working w = reckon_typed(weir(), {{"P", "0.8"}, {"d", "20 mm"}});
  for (const Step& s : w.steps) {
    if (s.formula.empty()) continue;
    const double printed = evaluate(s.numbers, [](std::string_view) { return std::nan(""); });
    CHECK(printed == Approx(s.unit.from_si(s.si)).epsilon(2e-3));
  }
  CHECK(w.steps[0].numbers == "1.66*0.8*0.02^(3/2)");
  CHECK(to_text(w) == R"(Flow over a rim (test-weir)

Given
  P =      0.8 m   length of the rim
  d =      0.02 m  head
  dmax =   0.3 m   head at which it drowns  default: a habit
  shape =  round   edge of the rim          default
  Cw =     1.66    weir coefficient         a handbook

Steps
  Q: flow over the rim
     = Cw × P × d^(3/2)
     = 1.66 × 0.8 × 0.02^(3/2)
     = 0.003756 m³/s
  v: mean velocity
     = Q/(P × d)
     = 0.003756/(0.8 × 0.02)
     = 0.2348 m/s
  k: a root
     by hand, once; residual 0
     = 2.000

Result
  Q =  3.756 L/s   flow over the rim
  v =  0.2348 m/s  mean velocity

Limits of the method
  kept      the rim is not drowned: d ≤ dmax (0.02 ≤ 0.3)

Not checked
  the water stays below the curb: needs h (curb height)
  flow: needs Qneeded (flow that comes)

Source
  a handbook, 1st ed., eq. 1
)");
}

TEST_CASE("reckoner: limits and verdicts, kept and not kept") {
  const Working w = reckon_typed(
      weir(),
      {{"P", "0.8"}, {"d", "0.31"}, {"h", "0.31"}, {"Qneeded", "9 L/s"}, {"shape", "sharp"}});
  REQUIRE(w.limits.size() == 2);
  CHECK_FALSE(w.limits[0].kept);
  CHECK(w.limits[1].kept);  // just so
  REQUIRE(w.verdicts.size() == 1);
  CHECK(w.verdicts[0].kept());
  CHECK(w.verdicts[0].demand == Approx(0.009));
  CHECK_FALSE(w.kept());
  CHECK(w.not_checked.empty());
  CHECK(w.cautions == std::vector<std::string>{"sharp"});
  const std::string text = to_text(w);
  CHECK(says(text, "NOT KEPT  the rim is not drowned: d ≤ dmax (0.31 ≤ 0.3); use the orifice"));
  CHECK(says(text, "kept      flow: 9.000 L/s ≤ 229.2 L/s (3.9 %)"));
  const Working over = reckon_typed(weir(), {{"P", "0.8"}, {"d", "0.01"}, {"Qneeded", "9 L/s"}});
  CHECK_FALSE(over.kept());
  CHECK(says(to_text(over), "NOT KEPT  flow: 9.000 L/s > 1.328 L/s (677.7 %)"));
  CHECK(says(to_json(over), "\"kept\": false\n}"));
}

TEST_CASE("reckoner: each sign of a condition, on both sides of it and on it") {
  const auto kept = [](const char* sign, double a) {
    static std::string formula;
    formula = std::string("a ") + sign + " 2";
    const WorkingKind k = broken([](Reckoner& r) {
      r.condition(formula, "", "");
      r.result("a");
    });
    return reckon(k, {{"a", {a, "", {}}}}).limits[0].kept;
  };
  CHECK((kept("<=", 1) && kept("<=", 2) && !kept("<=", 3)));
  CHECK((!kept(">=", 1) && kept(">=", 2) && kept(">=", 3)));
  CHECK((kept("<", 1) && !kept("<", 2) && !kept("<", 3)));
  CHECK((!kept(">", 1) && !kept(">", 2) && kept(">", 3)));
  CHECK((kept("<=", 2 + 1e-9) && !kept("<=", 2 + 1e-6)));
  CHECK((kept(">=", 2 - 1e-9) && !kept(">=", 2 - 1e-6)));
}

TEST_CASE("reckoner: all that is wrong is said at once, with what would be right") {
  CHECK(
      fault({}) ==
      "P is missing (length of the rim; m, mm, cm, km, in, ft); d is missing (head; m, mm, cm, km, "
      "in, ft)");
  CHECK(fault({{"p", "1"}, {"d", "1"}}) == "there is no input 'p'; did you mean 'P'?");
  CHECK(fault({{"nonsense", "1"}, {"P", "1"}, {"d", "1"}}) ==
        "there is no input 'nonsense'; the inputs are P, d, dmax, h, Qneeded, shape");
  CHECK(fault({{"P", "200 m"}, {"d", "wet"}}) ==
        "d (head): 'wet' is no number; write 1.5 m; P = 200 m is out of range (length of the rim): "
        "at "
        "least 0.01 m and at most 100 m");
  CHECK(fault({{"P", "1"}, {"P", "2"}, {"d", "1"}}) == "P is given twice");
  CHECK(fault({{"P", "1"}, {"d", "1"}, {"shape", "shart"}}) ==
        "shape=shart: there is no such choice; did you mean 'sharp'?");
  CHECK(fault({{"P", "1"}, {"d", "1"}, {"units", "metric"}}) ==
        "units=metric: write units=si or units=us");
  WorkingKind no_us = weir();
  no_us.us_constants = false;
  CHECK(says(fault({{"P", "1"}, {"d", "1"}, {"units", "us"}}, no_us), "no constants of its own"));
}

TEST_CASE(
    "reckoner: a value that is none is an error of the values; other faults are the program's") {
  const std::vector<std::pair<std::string, std::string>> minus{{"a", "-1"}};
  const WorkingKind root = broken([](Reckoner& r) {
    r.step("b", "a root", "sqrt(a)", Kind::number, "");
    r.result("b");
  });
  CHECK(says(fault(minus, root), "b (a root) has no value: sqrt(a) = sqrt((-1))"));
  for (auto work : {
           +[](Reckoner&) {},  // no result
           +[](Reckoner& r) { r.step("a", "twice", "1", Kind::number, ""); },
           +[](Reckoner& r) { r.step("b", "no unit", "1", Kind::length, "gallon"); },
           +[](Reckoner& r) { r.step("b", "no value", "c", Kind::number, ""); },
           +[](Reckoner& r) { r.condition("a", "no comparison", ""); },
           +[](Reckoner& r) { r.result("c"); },
           +[](Reckoner& r) { r.text("a"); },
           +[](Reckoner& r) {
             r.step("b", "length", "1", Kind::length, "m");
             r.verdict("not of one kind", "a", "b");
           },
       })
    CHECK_THROWS_AS(reckon_typed(broken(work), minus), std::logic_error);
}

TEST_CASE("reckoner: JSON has both the value printed and SI") {
  const std::string json = to_json(reckon_typed(weir(), {{"P", "0.8"}, {"d", "20 mm"}}));
  CHECK(says(json,
             "{\"symbol\": \"P\", \"meaning\": \"length of the rim\", \"value\": 0.8, \"unit\": "
             "\"m\", \"si\": 0.8, \"from\": \"typed\"}"));
  CHECK(says(json, "\"text\": \"round\", \"from\": \"default\""));
  CHECK(says(json, "\"formula\": \"Cw*P*d^(3/2)\", \"numbers\": \"1.66*0.8*0.02^(3/2)\""));
  CHECK(says(json, "\"words\": \"by hand, once; residual 0\""));
  CHECK(says(json, "\"not_checked\": [\"the water"));
  CHECK(says(json, "\"kept\": true\n}\n"));
}
