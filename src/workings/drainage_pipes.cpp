// Outlets, down-pipes and sloping pipes.
#include <fmt/format.h>

#include "workings/drainage_parts.h"

namespace deckquire::workings::drainage {
namespace {

void manning_constant(Reckoner& r) {
  r.constant("km", "constant of Manning's formula", r.either(1.0, 1.486),
             r.either("SI: m, m³/s", "US: ft, ft³/s"));
}

hydraulics::Pipe pipe_of(const Reckoner& r) {
  return {r.value("D"), r.value("n"), r.value("S"), r.value("km")};
}

void full_pipe(Reckoner& r) {
  manning_constant(r);
  r.step("Vf", "velocity, full", "km/n*(D/4)^(2/3)*S^(1/2)", Kind::velocity, velocity_unit(r));
  r.step("Qf", "flow, full", "pi*D^2/4*Vf", Kind::flow, flow_unit(r));
}

void full_results(Reckoner& r) {
  r.result("Qf", r.either("L/s", "ft³/s"));
  r.result("Vf");
  r.verdict("flow", "Q", "Qf", r.either("L/s", "ft³/s"));
  r.condition(r.either("Vf >= 0.9", "Vf >= 3"),
              "the full pipe cleans itself (HEC-22 4th ed., §9.2.3)",
              "a steeper or narrower pipe, and cleanouts");
}

void pipe_flow(Reckoner& r) {
  full_pipe(r);
  full_results(r);
}

void part_full(Reckoner& r) {
  full_pipe(r);
  if (r.given("Q") == r.given("y"))
    throw WorkingError(
        "give either Q (flow in the pipe; m³/s, L/s, ft³/s) or y (depth; m, mm, ft, in), and not "
        "both");
  if (r.given("Q")) {
    const hydraulics::Pipe p = pipe_of(r);
    const double most = hydraulics::pipe_part_flow(p, hydraulics::fullest * p.D);
    if (r.value("Q") > most)
      throw WorkingError(fmt::format(
          "Q is more than the pipe carries without pressure, {} {}: take a wider or steeper pipe",
          print_in(most, {Kind::flow, "", 1, 0}), flow_unit(r)));
    const hydraulics::Root y = hydraulics::pipe_depth(p, r.value("Q"));
    r.found(
        "y", "depth", y.value, Kind::length, length_unit(r),
        fmt::format("the lower depth at which the steps below give Q: an interval halved {} times; "
                    "the flow then differs by {:.0e} of Q",
                    y.halvings, y.residual));
  } else if (r.value("y") > r.value("D")) {
    throw WorkingError("y is more than D: the pipe is full");
  }
  r.step("theta", "angle of the wetted arc", "2*acos(1 - 2*y/D)", Kind::angle, "rad");
  r.step("A", "area of flow", "D^2*(theta - sin(theta))/8", Kind::area, r.either("m²", "ft²"));
  r.step("R", "hydraulic radius", "D/4*(1 - sin(theta)/theta)", Kind::length, length_unit(r));
  r.step("V", "velocity", "km/n*R^(2/3)*S^(1/2)", Kind::velocity, velocity_unit(r));
  r.step("Qy", "flow at that depth", "A*V", Kind::flow, flow_unit(r));
  r.step("ry", "depth as share of the diameter", "y/D", Kind::number, "");
  r.step("rQ", "flow as share of the full pipe's", "Qy/Qf", Kind::number, "");
  r.step("rV", "velocity as share of the full pipe's", "V/Vf", Kind::number, "");
  for (const char* s : {"ry", "V", "rQ", "rV"}) r.result(s);
  r.result("Qy", r.either("L/s", "ft³/s"));
}

void pipe_size(Reckoner& r) {
  manning_constant(r);
  r.step("KQ", "constant of the full pipe", "km*pi/4^(5/3)", Kind::number, "");
  r.step("D", "inner diameter that just carries Q", "(Q*n/(KQ*S^(1/2)))^(3/8)", Kind::length,
         length_unit(r));
  r.result("D", r.either("mm", "ft"));
}

void pipe_slope(Reckoner& r) {
  r.constant("Ks", "constant of the slope", r.either(6.35, 2.87), "HEC-22 4th ed., eq. 9.33");
  r.step("S", "slope at which the full pipe has that velocity", "Ks*(n*V/D^(2/3))^2", Kind::number,
         "");
  r.result("S");
}

void pipe_bend(Reckoner& r) {
  gravity_constant(r);
  r.step("H", "loss of head in the bend", "0.0033*delta*V^2/(2*g)", Kind::length, "m");
  r.result("H", "mm");
}

void downpipe(Reckoner& r) {
  if (r.system() == System::si) {
    r.step("Qv", "capacity of the vertical pipe", "0.00025*kb^(-0.167)*D^2.667*f^1.667", Kind::flow,
           "L/s");
  } else {
    r.step("Qv", "capacity of the vertical pipe", "27.8*f^(5/3)*D^(8/3)", Kind::flow, "US gpm");
  }
  r.result("Qv");
  if (r.given("i")) {
    r.step("A", "area of deck whose rain it carries, nothing lost",
           r.either("3600*Qv/i", "Qv/(0.01039*i)"), Kind::area, r.either("m²", "ft²"));
    r.result("A");
  }
  r.verdict("flow in the down-pipe", "Q", "Qv", r.either("L/s", "US gpm"));
  r.condition(r.either("D >= 100", "D >= 4"),
              "the bore is at least 100 mm (Caltrans Bridge Design Specifications, 2000, §1.5)",
              "many owners ask 100 mm and more, 150 to 200 mm where ice builds up");
  r.caution("Outlet below the lowest member and clear of it, of traffic, bearings and pier tops.");
}

void outlet(Reckoner& r) {
  if (r.given("Q") == r.given("h"))
    throw WorkingError(
        "give either Q (flow; m³/s, L/s, ft³/s) or h (head over the outlet; m, mm, in), and not "
        "both");
  r.looked_up("kO", "factor of the outlet", r.text("cover") == "open" ? 1.0 : 0.5,
              "EN 12056-3:2000, table 7 (second-hand): 1.0 open, 0.5 with grating or strainer");
  if (r.given("Q")) {
    r.step("h1", "head as a rim, up to D/2", "(7500*Q/(kO*D))^(2/3)", Kind::length, "mm");
    r.step("h2", "head as an opening, above D/2", "(15000*Q/(kO*D^2))^2", Kind::length, "mm");
    r.step("h", "head over the outlet", "max(h1, h2)", Kind::length, "mm");
  } else {
    r.step("Q1", "flow as over a rim, up to D/2", "kO*D*h^1.5/7500", Kind::flow, "L/s");
    r.step("Q2", "flow as through an opening, above D/2", "kO*D^2*h^0.5/15000", Kind::flow, "L/s");
    r.step("Q", "flow through the outlet", "min(Q1, Q2)", Kind::flow, "L/s");
  }
  r.result("Q", "L/s");
  r.result("h", "mm");
  r.verdict("head over the outlet in the scupper", "h", "hb", "mm");
}

void leader_load(Reckoner& r) {
  r.step("load", "hydraulic load of the storm", "r15*A", Kind::volume, "L");
  r.step("steady", "load of the steady flow: 900 L for each L/s", "900*Qc", Kind::volume, "L");
  r.step("total", "hydraulic load", "load + steady", Kind::volume, "L");
  for (const char* s : {"load", "steady", "total"}) r.result(s);
}

InputSpec pipe_roughness() {
  return InputSpec{"n", "Manning's roughness of the pipe"}
      .range(0.005, 0.1)
      .standard("0.010", "PVC, 0.009 to 0.011: HEC-22 4th ed., table 9.1");
}

InputSpec pipe_slope_input() {
  return InputSpec{"S", "slope of the pipe"}.range(1e-5, 1);
}

InputSpec flow_in(std::string meaning) {
  InputSpec s = flow();
  s.meaning = std::move(meaning);
  return s;
}

std::vector<InputSpec> downpipe_inputs() {
  return {
      InputSpec{"D", "bore of the vertical pipe", Kind::length, "mm", "in"}.range(0.02, 1),
      InputSpec{"f", "share of the section that water fills"}.range(0.05, 0.5).standard(
          "7/24",
          "2006 National Standard Plumbing Code, table 13.6.1; EN 12056-3 takes 0.20 to 0.33"),
      InputSpec{"kb", "roughness of the wall", Kind::length, "mm"}
          .range(1e-5, 1e-2)
          .standard("0.25 mm", "EN 12056-3:2000, clause 6.1; not used with units=us"),
      InputSpec{"Q", "flow that comes", Kind::flow, "L/s", "US gpm"}.range(1e-9, 100).if_known(),
      rain().if_known(),
  };
}

}  // namespace

std::vector<WorkingKind> pipes() {
  const std::vector<std::string> full{hec22_4 + ", eqs 9.1, 9.2 (constants not rounded)"};
  return {
      {.name = "scupper-outlet",
       .title = "Head over the outlet in the sole of a scupper",
       .about = "Head for a flow, or flow at a head.",
       .sources = {"EN 12056-3:2000, table 7 (second-hand)"},
       .inputs = {InputSpec{"D", "diameter of the outlet", Kind::length, "mm"}.range(0.02, 1),
                  InputSpec{"cover", "whether the outlet is open or has a grating or strainer"}
                      .one_of({"open", "grating"})
                      .standard("open", "the grate is at deck level"),
                  InputSpec{"Q", "flow", Kind::flow, "L/s"}.range(1e-9, 10).if_known().noted(
                      "or give h"),
                  InputSpec{"h", "head over the outlet", Kind::length, "mm"}
                      .range(1e-5, 10)
                      .if_known()
                      .noted("or give Q"),
                  InputSpec{"hb", "depth of the bowl below the grate", Kind::length, "mm"}
                      .range(1e-3, 10)
                      .if_known()},
       .work = outlet,
       .example = "D=100mm Q=1.165L/s hb=60mm"},
      {.name = "downpipe",
       .title = "Capacity of a vertical pipe",
       .about = "Annular flow by Wyly and Eaton: EN form in SI, plumbing-code form with units=us.",
       .sources = {"EN 12056-3:2000, clause 6.1 and table 8 (second-hand)",
                   "2006 National Standard Plumbing Code, table 13.6.1 (units=us)"},
       .inputs = downpipe_inputs(),
       .us_constants = true,
       .work = downpipe,
       .example = "D=100mm f=0.33 Q=1.165L/s"},
      {.name = "leader-load",
       .title = "Hydraulic load on a leader, in litres",
       .about = "Rain of 15 minutes on the area, and steady flows.",
       .sources = {"Ontario Building Code, Div. B, 7.4.10.3 and 7.4.10.4"},
       .inputs = {InputSpec{"r15", "rain in 15 minutes", Kind::length, "mm"}.range(1e-4, 1),
                  InputSpec{"A", "area that drains", Kind::area, "m²"}.range(0.01, 1e6),
                  InputSpec{"Qc", "steady flow", Kind::flow, "L/s"}.range(0, 10).standard("0",
                                                                                          "none")},
       .work = leader_load,
       .example = "r15=25mm A=108m2 Qc=1.165L/s"},
      {.name = "pipe-flow",
       .title = "Flow in a full sloping pipe",
       .about = "By Manning's formula, without pressure.",
       .sources = full,
       .inputs = {bore(), pipe_roughness(), pipe_slope_input(),
                  flow_in("flow that comes").if_known()},
       .us_constants = true,
       .work = pipe_flow,
       .example = "D=100mm S=2% Q=3.5L/s"},
      {.name = "pipe-part-full",
       .title = "Flow in a sloping pipe that is not full",
       .about = "Depth for a flow, or flow at a depth; geometry of the circle, one roughness.",
       .sources = {full[0], hec22_4 + ", §9.1.3"},
       .inputs = {bore(), pipe_roughness(), pipe_slope_input(),
                  flow_in("flow in the pipe").if_known().noted("or give y"),
                  InputSpec{"y", "depth of the water", Kind::length, "m", "ft"}
                      .range(1e-5, 5)
                      .if_known()
                      .noted("or give Q")},
       .us_constants = true,
       .work = part_full,
       .example = "D=100mm S=2% Q=3.494L/s"},
      {.name = "pipe-size",
       .title = "Bore of a sloping pipe that just carries a flow",
       .about = "Full, by Manning's formula.",
       .sources = full,
       .inputs = {flow_in("flow that comes"), pipe_roughness(), pipe_slope_input()},
       .us_constants = true,
       .work = pipe_size,
       .example = "Q=3.5L/s S=2%"},
      {.name = "pipe-slope",
       .title = "Slope of a pipe for a wanted velocity when full",
       .about = "0.9 m/s (3 ft/s) is the usual self-cleaning velocity.",
       .sources = {hec22_4 + ", eq. 9.33"},
       .inputs = {bore(), pipe_roughness(),
                  InputSpec{"V", "velocity of the full pipe", Kind::velocity, "m/s", "ft/s"}
                      .range(0.01, 20)
                      .standard("0.9 m/s", "HEC-22 4th ed., §9.2.3")},
       .us_constants = true,
       .work = pipe_slope,
       .example = "D=100mm"},
      {.name = "pipe-bend",
       .title = "Loss of head in a bend of a pipe",
       .about = "For bends of a full pipe.",
       .sources = {hec22_4 + ", eq. 9.6"},
       .inputs = {InputSpec{"delta", "angle of the bend", Kind::angle, "°"}.range(0, 3.2),
                  InputSpec{"V", "velocity", Kind::velocity, "m/s"}.range(0.001, 30)},
       .work = pipe_bend,
       .example = "delta=45deg V=1.2"},
  };
}

}  // namespace deckquire::workings::drainage
