#include "workings/drainage_parts.h"

#include <fmt/format.h>

#include <utility>

#include "base/text.h"
#include "workings/groups.h"

namespace deckquire::workings::drainage {

using hydraulics::Clogging;

const std::string hec22_4 = "FHWA HEC-22, Urban Drainage Design Manual, 4th ed., 2024";
const std::string hec22_3 = "FHWA HEC-22, Urban Drainage Design Manual, 3rd ed., 2009";

InputSpec flow() {
  return InputSpec{"Q", "flow in the gutter", Kind::flow, "m³/s", "ft³/s"}.range(1e-9, 100);
}
InputSpec spread() {
  return InputSpec{"T", "spread: width of the water from the curb", Kind::length, "m", "ft"}.range(
      1e-4, 100);
}
InputSpec roughness() {
  return InputSpec{"n", "Manning's roughness of the gutter"}
      .range(0.005, 0.1)
      .standard(
          "0.015",
          "gritted FRP deck, judged 0.013 to 0.016 (smooth gelcoat 0.011 to 0.013): no published "
          "value");
}
InputSpec cross_slope() {
  return InputSpec{"Sx", "cross slope of the deck"}.range(1e-4, 0.5);
}
InputSpec grade() {
  return InputSpec{"SL", "grade along the gutter"}.range(1e-5, 0.5);
}
InputSpec half_width() {
  return InputSpec{"w", "width from the curb to the high line", Kind::length, "m", "ft"}
      .range(0.01, 100)
      .if_known();
}
InputSpec draining_width() {
  return InputSpec{"w", "width of deck that drains to this gutter", Kind::length, "m", "ft"}.range(
      0.01, 100);
}
InputSpec curb_height() {
  return InputSpec{"hc", "height of the curb", Kind::length, "m", "ft"}.range(1e-3, 10).if_known();
}
InputSpec allowable_spread() {
  return InputSpec{"Tmax", "spread allowed", Kind::length, "m", "ft"}.range(1e-3, 100).if_known();
}
InputSpec runoff_coefficient() {
  return InputSpec{"C", "runoff coefficient"}.range(0.01, 1).standard(
      "1", "bridge deck: Caltrans Bridge Design Aids 17, 2006 (0.9 in FHWA HEC-21, from memory)");
}
InputSpec rain() {
  return InputSpec{"i", "rain intensity at the time of concentration", Kind::rain, "mm/h", "in/h"}
      .range(0.1e-3 / 3600, 2.0 / 3600);
}
InputSpec bore() {
  return InputSpec{"D", "inner diameter", Kind::length, "m", "ft"}.range(0.01, 5);
}

std::vector<InputSpec> joined(std::vector<std::vector<InputSpec>> lists) {
  std::vector<InputSpec> out;
  for (auto& list : lists)
    for (InputSpec& spec : list) out.push_back(std::move(spec));
  return out;
}

std::string length_unit(const Reckoner& r) {
  return r.either("m", "ft");
}
std::string flow_unit(const Reckoner& r) {
  return r.either("m³/s", "ft³/s");
}
std::string velocity_unit(const Reckoner& r) {
  return r.either("m/s", "ft/s");
}

void gutter_constant(Reckoner& r) {
  r.constant(
      "Kg", "constant of the triangular gutter", r.either(0.376, 0.56),
      r.either("SI: m, m³/s; HEC-22 3rd ed., eq. 4-2", "US: ft, ft³/s; HEC-22 4th ed., eq. 5.2"));
}

void gravity_constant(Reckoner& r) {
  r.constant("g", "standard gravity, rounded", r.either(hydraulics::gravity, 32.2),
             Kind::acceleration, r.either("m/s²", "ft/s²"), "as HEC-22 takes it");
}

hydraulics::Gutter gutter_of(const Reckoner& r) {
  return {r.value("n"), r.value("Sx"), r.value("SL"), r.value("Kg")};
}

void flow_and_spread(Reckoner& r) {
  if (r.given("Q") == r.given("T"))
    throw WorkingError(
        "give either Q (flow in the gutter; m³/s, L/s, ft³/s) or T (spread; m, mm, ft, in), and "
        "not "
        "both");
  if (r.given("Q"))
    r.step("T", "spread: width of the water from the curb", "(Q*n/(Kg*Sx^(5/3)*SL^(1/2)))^(3/8)",
           Kind::length, length_unit(r));
  else
    r.step("Q", "flow in the gutter", "Kg/n*Sx^(5/3)*SL^(1/2)*T^(8/3)", Kind::flow, flow_unit(r));
}

void depth_and_velocity(Reckoner& r) {
  r.step("d", "depth at the curb", "Sx*T", Kind::length, length_unit(r));
  r.step("V", "mean velocity", "2*Kg/n*Sx^(2/3)*SL^(1/2)*T^(2/3)", Kind::velocity,
         velocity_unit(r));
}

void gutter_limits(Reckoner& r, const std::string& depth, const std::string& most) {
  if (!most.empty())
    r.verdict("spread of water in the gutter", "T", most, r.either("mm", "ft"));
  r.verdict("spread against the width up to the high line", "T", "w", r.either("mm", "ft"));
  r.verdict("depth of water at the curb", depth, "hc", r.either("mm", "ft"));
}

std::vector<InputSpec> grate_inputs() {
  std::vector<std::string> names;
  for (const hydraulics::GrateType& t : hydraulics::grate_types()) names.emplace_back(t.name);
  names.push_back("own");
  return {
      InputSpec{"W", "width of the grate, across the gutter", Kind::length, "m", "ft"}.range(0.02,
                                                                                             5),
      InputSpec{"L", "length of the grate, along the gutter", Kind::length, "m", "ft"}.range(0.02,
                                                                                             10),
      InputSpec{"grate", "type of grate whose splash-over velocity is taken"}
          .one_of(names)
          .standard("P-1-7/8-4", "parallel bars with rods; scupper grates are seldom tested"),
      InputSpec{"Vown", "splash-over velocity of the grate's own test (grate=own)", Kind::velocity,
                "m/s", "ft/s"}
          .range(0.01, 20)
          .if_known(),
      InputSpec{"clogging", "how debris is allowed for: none, on the length, on the flow caught"}
          .one_of({"none", "length", "flow"})
          .standard(
              "none",
              "HEC-22 4th ed., §7.1.3: none on grade unless local experience shows it; 50 % for "
              "small fine grates is common practice, no source"),
      InputSpec{"e", "gap between the curb and the grate", Kind::length, "m", "ft"}
          .range(0, 5)
          .if_known(),
      InputSpec{"c", "share of the grate that debris blocks (clogging=length or flow)"}
          .range(0, 0.95)
          .if_known(),
  };
}

hydraulics::Grate grate_of(const Reckoner& r) {
  hydraulics::Grate g{r.si("W"), r.si("L"), hydraulics::find_grate(r.text("grate"))};
  if ((g.type == nullptr) != r.given("Vown"))
    throw WorkingError(g.type
                           ? "Vown goes with grate=own only: leave out one of the two"
                           : "grate=own needs Vown (splash-over velocity of its test; m/s, ft/s)");
  if (g.type == nullptr) g.Vo = r.si("Vown");
  const std::string& how = r.text("clogging");
  if ((how == "none") == r.given("c"))
    throw WorkingError(
        how == "none" ? "c is given but clogging=none: write clogging=length or clogging=flow"
                      : "clogging=" + how + " needs c (share of the grate blocked; 0.5 or 50 %)");
  g.clogging = how == "length" ? Clogging::length : how == "flow" ? Clogging::flow : Clogging::none;
  if (r.given("c")) g.blocked = r.value("c");
  if (r.given("e")) g.gap = r.si("e");
  const double L = g.clogging == Clogging::length ? (1 - g.blocked) * g.L : g.L;
  if (g.type && (L < hydraulics::shortest_grate || L > hydraulics::longest_grate))
    throw WorkingError(fmt::format(
        "the grate is {} mm long{}, but splash-over velocities are tested for 122 to 1463 mm (0.4 "
        "to "
        "4.8 ft) only; change L, or give grate=own and Vown",
        decimal(L * 1000, 0), g.clogging == Clogging::length ? " where it is not blocked" : ""));
  return g;
}

namespace {

void splash_over(Reckoner& r, const hydraulics::Grate& g, const std::string& length) {
  if (g.type == nullptr) {
    r.step("Vo", "splash-over velocity of the grate", "Vown", Kind::velocity, velocity_unit(r));
    return;
  }
  const hydraulics::GrateType& t = *g.type;
  const std::string row =
      fmt::format("EPA SWMM Reference Manual II, table 7-6, {} ({}); ft/s and ft", t.name, t.words);
  r.looked_up("va", "splash-over velocity", t.a, row);
  r.looked_up("vb", "the same, with the length", t.b, "same row");
  r.looked_up("vc", "the same, with its square", t.c, "same row");
  r.looked_up("ve", "the same, with its cube", t.e, "same row");
  r.step("Lft", "length in the unit of the table", length, Kind::length, "ft");
}

void grate_cautions(Reckoner& r, const hydraulics::Grate& g) {
  const std::string name = g.type ? std::string(g.type->name) : "";
  if (name == "P-1-7/8") r.caution("This grate is not safe for bicycles (HEC-22 4th ed., §7.1.2).");
  if (name == "curved-vane" || name.find("tilt") != std::string::npos)
    r.caution(
        "This grate works one way round only: offset bolt holes keep it from being reversed "
        "(HEC-22 4th "
        "ed., §7.1.2).");
  r.caution(
      "Splash-over velocities are those of road grates under test; a scupper grate of another "
      "pattern "
      "needs its own.");
  if (g.clogging == Clogging::none)
    r.caution("No debris is allowed for; deck scuppers block more easily than road inlets.");
}

}  // namespace

void grate_steps(Reckoner& r) {
  const hydraulics::Grate g = grate_of(r);
  const bool shorter = g.clogging == Clogging::length;
  r.constant("Kf", "constant of frontal flow", r.either(0.295, 0.09),
             "HEC-22 4th ed., eqs 7.1 to 7.9");
  r.constant("Ks", "constant of side flow", r.either(0.0828, 0.15),
             "HEC-22 4th ed., eqs 7.1 to 7.9");
  if (shorter)
    r.step("Le", "length that debris leaves (Guo)", "(1 - c)*L", Kind::length, length_unit(r));
  const std::string length = shorter ? "Le" : "L";
  r.step("Eo", "share of the flow in front of the grate",
         r.given("e") ? "(1 - min(1, e/T))^(8/3) - (1 - min(1, (e + W)/T))^(8/3)"
                      : "1 - (1 - min(1, W/T))^(8/3)",
         Kind::number, "");
  // The fit is in feet; a step in the unit of its table keeps the numbers that are printed true.
  splash_over(r, g, r.system() == System::us ? length : length + "/0.3048");
  if (g.type)
    r.step(
        "Vo", "splash-over velocity of the grate",
        r.either("0.3048*(va + vb*Lft - vc*Lft^2 + ve*Lft^3)", "va + vb*Lft - vc*Lft^2 + ve*Lft^3"),
        Kind::velocity, velocity_unit(r));
  r.step("Rf", "share of the frontal flow caught", "max(0, min(1, 1 - Kf*(V - Vo)))", Kind::number,
         "");
  r.step("Rs", "share of the side flow caught", "1/(1 + Ks*V^1.8/(Sx*" + length + "^2.3))",
         Kind::number, "");
  const std::string clean = "Rf*Eo + Rs*(1 - Eo)";
  r.step("E", "share of the flow caught",
         g.clogging == Clogging::flow ? "(1 - c)*(" + clean + ")" : clean, Kind::number, "");
  r.step("Qi", "flow caught", "E*Q", Kind::flow, flow_unit(r));
  r.step("Qb", "flow that passes", "Q - Qi", Kind::flow, flow_unit(r));
  grate_cautions(r, g);
}

}  // namespace deckquire::workings::drainage

namespace deckquire::workings {

std::vector<WorkingKind> drainage_workings() {
  std::vector<WorkingKind> out;
  for (auto list :
       {drainage::runoff, drainage::gutters, drainage::inlets, drainage::pipes, drainage::spacing})
    for (WorkingKind& k : list()) out.push_back(std::move(k));
  for (WorkingKind& k : out) k.group = "drainage";
  return out;
}

}  // namespace deckquire::workings
