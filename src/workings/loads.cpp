// Loads that codes ask for.
#include <fmt/format.h>

#include "workings/cautions.h"
#include "workings/groups.h"
#include "workings/inputs.h"
#include "workings/reckoner.h"

namespace deckquire::workings {

namespace {

constexpr const char* guide =
    "AASHTO LRFD Guide Specifications for the Design of Pedestrian Bridges, 2009 with 2015 interim";

double psf(double v) {
  return find_unit(Kind::pressure, "psf")->to_si(v) / 1e3;
}

void flat_load(Reckoner& r, double pounds, const std::string& source) {
  code_value(r, "p", "p_code", "pedestrian load", psf(pounds), Kind::pressure, "kPa",
             fmt::format("{:g} psf: {}", pounds, source));
}

void pedestrian_load(Reckoner& r) {
  const std::string& code = r.text("code");
  if (code == "aashto-2009") {
    flat_load(r, 90, std::string(guide) + ", Art. 3.1 (second-hand); not reduced with the area");
    r.not_checked(
        "horses, where they are let on: 1.00 kip on 4 in × 4 in (Art. 3.3, second-hand); take "
        "it as a patch in panel-strip");
  } else if (code == "aashto-sidewalk") {
    flat_load(
        r, 75,
        "AASHTO LRFD Art. 3.6.1.6, sidewalks wider than 2 ft on vehicle bridges (from memory)");
  } else if (code == "aashto-frp-2008") {
    flat_load(
        r, 85,
        "AASHTO Guide Specifications for Design of FRP Pedestrian Bridges, 2008 (from memory)");
    r.caution("The 2008 guide has been superseded; it also let the load be reduced with the area.");
  } else if (code == "csa-s6-06") {
    need(r, "s", "total loaded length of the walkway; a length");
    const std::string source = "CAN/CSA-S6-06 cl. 3.8.9 (second-hand)";
    r.constant("a", "load of a short walkway in kPa", 5.0, source);
    r.constant("b", "metres of walkway for each kPa less", 30.0, source);
    code_value(r, "p_lo", "p_least", "least load", 1.6, Kind::pressure, "kPa", source);
    code_value(r, "p_hi", "p_most", "largest load", 4.0, Kind::pressure, "kPa", source);
    r.step("p_s", "load for the length", "a - s/b", Kind::pressure, "kPa");
    r.step("p", "pedestrian load", "max(p_lo, min(p_hi, p_s))", Kind::pressure, "kPa");
    r.not_checked(
        "maintenance access: 1.6 kN on 1.00 m × 0.50 m at the ultimate limit state (cl. 3.8.10, "
        "second-hand); take it as a patch in panel-strip");
  } else {
    need(r, "s", "loaded length; a length");
    const std::string source =
        "EN 1991-2:2003 cl. 5.3.2.1, recommended value; the National Annex may differ "
        "(second-hand)";
    r.constant("a", "load of a very long walkway in kPa", 2.0, source);
    r.constant("b", "kPa × m", 120.0, source);
    r.constant("c", "m", 30.0, source);
    code_value(r, "p_lo", "p_least", "least load", 2.5, Kind::pressure, "kPa", source);
    code_value(r, "p_hi", "p_most", "largest load", 5.0, Kind::pressure, "kPa", source);
    r.step("p_s", "load for the length", "a + b/(s + c)", Kind::pressure, "kPa");
    r.step("p", "pedestrian load", "max(p_lo, min(p_hi, p_s))", Kind::pressure, "kPa");
    r.not_checked(
        "concentrated load: 10 kN on 0.10 m × 0.10 m (cl. 5.3.2.2, from memory); take it as a "
        "patch "
        "in panel-strip");
  }
  r.result("p");
  r.caution(cautions::code);
  r.caution(
      "For one panel the loaded length is its own influence length; the upper bound mostly "
      "governs.");
}

WorkingKind pedestrian_load_kind() {
  WorkingKind k;
  k.name = "pedestrian-load";
  k.title = "Uniform pedestrian load";
  k.about = "The characteristic uniform load of people that a code asks for, without load factors.";
  k.group = "loads";
  k.sources = {std::string(guide) + ", Art. 3.1 (second-hand)",
               "CAN/CSA-S6-06 cl. 3.8.9 (second-hand; unchanged in S6-14 and S6:19: from memory)",
               "EN 1991-2:2003 cl. 5.3.2.1 (second-hand)",
               "AASHTO LRFD Art. 3.6.1.6 and the FRP guide of 2008 (from memory)"};
  k.inputs = {
      InputSpec{"code", "code and edition"}.one_of(
          {"aashto-2009", "csa-s6-06", "en-1991-2", "aashto-sidewalk", "aashto-frp-2008"}),
      InputSpec{"s", "loaded length (CSA: of the whole walkway)", Kind::length, "m"}
          .range(0)
          .if_known(),
      InputSpec{"p_code", "load of the owner's edition instead, where the code gives one value",
                Kind::pressure, "kPa"}
          .range(0)
          .if_known(),
      InputSpec{"p_least", "least load of the owner's edition instead", Kind::pressure, "kPa"}
          .range(0)
          .if_known(),
      InputSpec{"p_most", "largest load of the owner's edition instead", Kind::pressure, "kPa"}
          .range(0)
          .if_known()};
  k.example = "code=csa-s6-06 s=45m";
  k.work = pedestrian_load;
  return k;
}

struct Vehicle {
  double front = 0, rear = 0;     // kN
  double spacing = 0, gauge = 0;  // m; gauge 0: none given
  std::string words;
};

// Widths are compared with a millimetre of allowance, so that a conversion of units does not move a
// deck into another class.
Vehicle vehicle_for(const std::string& code, double width) {
  constexpr double allowance = 0.001, kip = 4.4482216152605, foot = 0.3048;
  if (code == "aashto-2009") {
    const std::string art = std::string(guide) + ", Art. 3.2";
    if (width < 7 * foot - allowance) {
      return {0, 0, 0, 0, "none: clear width under 7 ft (from memory; " + art + ")"};
    }
    const bool heavy = width > 10 * foot + allowance;
    const double twice = heavy ? 2 : 1;
    return {2 * kip * twice, 8 * kip * twice, 14 * foot, 6 * foot,
            heavy ? "H10: clear width over 10 ft; 4 + 16 kip, 14 ft apart, wheels 6 ft apart (" +
                        art + "; width second-hand, axle loads and 6 ft from memory)"
                  : "H5: clear width 7 ft to 10 ft; 2 + 8 kip, 14 ft apart, wheels 6 ft apart (" +
                        art + ", second-hand; 6 ft from memory)"};
  }
  if (code == "csa-s6") {
    if (width <= 3.0 + allowance) {
      return {0, 0, 0, 0,
              "none: clear width not over 3.0 m (CSA S6 cl. 3.8.11, from memory: verify)"};
    }
    return {24, 56, 2.0, 0,
            "about 80 kN: 24 + 56 kN, 2.0 m apart (CSA S6 cl. 3.8.11, from memory, low "
            "confidence: verify)"};
  }
  return {40, 80, 3.0, 1.3,
          "80 + 40 kN, 3.0 m apart, wheels 1.3 m apart, patch 0.2 m × 0.2 m (EN 1991-2 cl. "
          "5.6.3, where no permanent barrier stops vehicles; from memory)"};
}

void maintenance_vehicle(Reckoner& r) {
  const Vehicle v = vehicle_for(r.text("code"), r.si("w"));
  code_value(r, "P_1", "P_light", "lighter axle", v.front, Kind::force, "kN", v.words);
  code_value(r, "P_2", "P_heavy", "heavier axle", v.rear, Kind::force, "kN", v.words);
  if (v.spacing > 0) {
    r.found("s_a", "distance of the axles", v.spacing, Kind::length, "m", v.words);
    r.result("s_a");
  }
  if (v.gauge > 0) {
    r.found("s_w", "distance of the wheels across", v.gauge, Kind::length, "m", v.words);
    r.result("s_w");
  } else if (v.spacing > 0) {
    r.not_checked("distance of the wheels across: not known for this code");
  }
  r.step("W_1", "wheel of the lighter axle", "P_1/2", Kind::force, "kN");
  r.step("W_2", "wheel of the heavier axle", "P_2/2", Kind::force, "kN");
  for (const char* s : {"P_1", "P_2", "W_1", "W_2"}) r.result(s);
  if (r.given("L") && r.given("c")) {
    r.condition("c <= L", "the patch lies within the span", "give a shorter patch");
    r.step("M", "moment of the heavier wheel in the middle of a simple span, whole strip",
           "W_2*(L/4 - c/8)", Kind::moment, "kN m");
    r.step("R", "reaction with the edge of the patch at the support", "W_2*(1 - c/(2*L))",
           Kind::force, "kN");
    r.result("M");
    r.result("R");
  } else {
    r.not_checked(
        "moment and reaction of a wheel on a simple span: needs L (span) and c (length of the "
        "wheel's patch along it)");
  }
  r.not_checked(
      "punching of a wheel through the top skin; the width of panel that carries a wheel has no "
      "formula in these codes");
  r.caution(cautions::code);
  r.caution(
      "The vehicle does not act together with the pedestrian load, and has no dynamic allowance "
      "(AASHTO "
      "guide, second-hand).");
  r.caution(cautions::local);
}

WorkingKind maintenance_vehicle_kind() {
  WorkingKind k;
  k.name = "maintenance-vehicle";
  k.title = "Maintenance vehicle";
  k.about =
      "Axles and wheels of the vehicle that a code asks for on a deck of this clear width, and "
      "what "
      "one wheel does to a simple span.";
  k.group = "loads";
  k.sources = {
      std::string(guide) + ", Art. 3.2 (second-hand; H10 axles and 6 ft gauge from memory)",
      "CSA S6 cl. 3.8.11 (from memory, low confidence: verify)",
      "EN 1991-2 cl. 5.6.3 (from memory)", "Moment and reaction of a patch: statics (derived)"};
  k.inputs = {InputSpec{"code", "code and edition"}.one_of({"aashto-2009", "csa-s6", "en-1991-2"}),
              InputSpec{"w", "clear width of the deck", Kind::length, "m"}.range(0),
              InputSpec{"L", "simple span", Kind::length, "m"}.range(above_zero).if_known(),
              InputSpec{"c", "length of the wheel's patch along the span", Kind::length, "m"}
                  .range(0)
                  .if_known(),
              InputSpec{"P_light", "lighter axle of the owner's edition instead", Kind::force, "kN"}
                  .range(0)
                  .if_known(),
              InputSpec{"P_heavy", "heavier axle of the owner's edition instead", Kind::force, "kN"}
                  .range(0)
                  .if_known()};
  k.example = "code=aashto-2009 w=3m L=1.8m c=250mm";
  k.work = maintenance_vehicle;
  return k;
}

}  // namespace

std::vector<WorkingKind> load_workings() {
  return {pedestrian_load_kind(), maintenance_vehicle_kind()};
}

}  // namespace deckquire::workings
