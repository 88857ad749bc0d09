// Flow along the curb: triangular, composite and parabolic gutters.
#include <fmt/format.h>

#include "workings/drainage_parts.h"

namespace deckquire::workings::drainage {
namespace {

void results(Reckoner& r, bool flow_asked) {
  r.result(flow_asked ? "Q" : "T", flow_asked ? r.either("L/s", "ft³/s") : std::string_view());
  r.result("d", r.either("mm", "ft"));
  r.result("V");
}

void gutter_flow(Reckoner& r) {
  gutter_constant(r);
  r.step("Q", "flow in the gutter", "Kg/n*Sx^(5/3)*SL^(1/2)*T^(8/3)", Kind::flow, flow_unit(r));
  depth_and_velocity(r);
  gutter_limits(r);
  results(r, true);
}

void gutter_spread(Reckoner& r) {
  gutter_constant(r);
  r.step("T", "spread: width of the water from the curb", "(Q*n/(Kg*Sx^(5/3)*SL^(1/2)))^(3/8)",
         Kind::length, length_unit(r));
  depth_and_velocity(r);
  gutter_limits(r);
  results(r, false);
}

/// Eo, the flow (named `Q`), depth and velocity at the spread T.
void composite_steps(Reckoner& r, const std::string& Q) {
  const std::string length = length_unit(r), flow = flow_unit(r);
  const bool past = r.value("T") > r.value("W");
  r.step("Sw", "cross slope of the strip", "Sx + a/W", Kind::number, "");
  if (past) {
    r.step("Ts", "spread beside the strip", "T - W", Kind::length, length);
    r.step("Qs", "flow beside the strip", "Kg/n*Sx^(5/3)*SL^(1/2)*Ts^(8/3)", Kind::flow, flow);
    r.step("k", "ratio of slopes", "Sw/Sx", Kind::number, "");
    r.step("X", "term of the share Eo", "(1 + k/(T/W - 1))^(8/3) - 1", Kind::number, "");
    r.step("Eo", "share of the flow in the strip", "1/(1 + k/X)", Kind::number, "");
    r.step(Q, "flow in the gutter, Qs/(1 - Eo)", "Qs*(1 + X/k)", Kind::flow, flow);
    r.step("d", "depth at the curb", "Sx*T + a", Kind::length, length);
    r.step("A", "area of flow", "Sx*T^2/2 + a*W/2", Kind::area, r.either("m²", "ft²"));
  } else {
    r.step(Q, "flow in the gutter; all water is in the strip", "Kg/n*Sw^(5/3)*SL^(1/2)*T^(8/3)",
           Kind::flow, flow);
    r.step("Eo", "share of the flow in the strip", "1", Kind::number, "");
    r.step("d", "depth at the curb", "Sw*T", Kind::length, length);
    r.step("A", "area of flow", "Sw*T^2/2", Kind::area, r.either("m²", "ft²"));
  }
  r.step("V", "mean velocity", Q + "/A", Kind::velocity, velocity_unit(r));
  if (!r.given("Wg") || !past) return;
  if (r.si("Wg") > r.si("W")) throw WorkingError("Wg is wider than the strip: at most W");
  r.step("kA", "area of flow over the grate to that over the strip",
         "Wg*(d - Sw*Wg/2)/(W*(d - Sw*W/2))", Kind::number, "");
  r.step("Eo'", "share of the flow in front of the grate", "Eo*kA", Kind::number, "");
  r.result("Eo'");
}

void composite_flow(Reckoner& r) {
  gutter_constant(r);
  composite_steps(r, "Q");
  gutter_limits(r);
  r.result("Eo");
  results(r, true);
}

void composite_spread(Reckoner& r) {
  gutter_constant(r);
  const hydraulics::Root T =
      hydraulics::composite_spread(gutter_of(r), {r.value("W"), r.value("a")}, r.value("Q"));
  r.found(
      "T", "spread: width of the water from the curb", T.value, Kind::length, length_unit(r),
      fmt::format("the spread at which the steps below give Q: an interval halved {} times; the "
                  "flow then differs by {:.0e} of Q",
                  T.halvings, T.residual));
  composite_steps(r, "Qt");
  gutter_limits(r);
  r.result("Eo");
  results(r, false);
}

void parabolic(Reckoner& r) {
  const double H = r.value("H"), B = r.value("B"), T = r.value("T");
  const int strips = static_cast<int>(r.value("N"));
  const double km = r.either(1.0, 1.49);
  r.constant("km", "constant of Manning's formula", km, r.either("SI: m, m³/s", "US: ft, ft³/s"));
  r.step("d", "depth at the curb: rise of the surface over the spread", "2*H/B*T - H/B^2*T^2",
         Kind::length, length_unit(r));
  r.step("dx", "width of a strip", "T/N", Kind::length, length_unit(r));
  r.found("K", "conveyance", hydraulics::parabolic_conveyance(H, B, r.value("n"), T, strips, km),
          Kind::flow, flow_unit(r),
          fmt::format(
              "km/n·dx·Σ(depth^(5/3)) over {} strips, the depth of a strip being d less the mean "
              "height of the surface at its two sides",
              strips));
  r.result("d", r.either("mm", "ft"));
  r.result("K");
  r.condition("T <= B", "the water does not pass the high line", "the gutter holds no more");
  if (!r.given("SL")) {
    r.not_checked("flow: needs SL (grade along the gutter)");
    return;
  }
  r.step("Q", "flow in the gutter", "K*SL^(1/2)", Kind::flow, flow_unit(r));
  r.result("Q", r.either("L/s", "ft³/s"));
}

std::vector<InputSpec> plain() {
  return {roughness(), cross_slope(), grade(), half_width(), curb_height(), allowable_spread()};
}

std::vector<InputSpec> strip() {
  return {
      InputSpec{"W", "width of the lowered strip beside the curb", Kind::length, "m", "ft"}.range(
          0.01, 10),
      InputSpec{"a", "depth by which the strip is lowered at the curb", Kind::length, "m", "ft"}
          .range(0, 1),
      InputSpec{"Wg", "width of a grate that is narrower than the strip", Kind::length, "m", "ft"}
          .range(0.01, 10)
          .if_known()};
}

const std::string about_friction = "Friction on the curb is neglected. The grade is above 0.";

}  // namespace

std::vector<WorkingKind> gutters() {
  const std::vector<std::string> uniform{hec22_4 + ", eqs 5.2 to 5.4", hec22_3 + ", eqs 4-2, 4-3"};
  const std::vector<std::string> composite{hec22_4 + ", eqs 5.5 to 5.8, 7.8"};
  return {
      {.name = "gutter-flow",
       .title = "Flow in a triangular gutter of a given spread",
       .about = about_friction,
       .sources = uniform,
       .inputs = joined({{spread()}, plain()}),
       .us_constants = true,
       .work = gutter_flow,
       .example = "T=0.6 n=0.013 Sx=1.5% SL=1%"},
      {.name = "gutter-spread",
       .title = "Spread of water in a triangular gutter",
       .about = about_friction,
       .sources = uniform,
       .inputs = joined({{flow()}, plain()}),
       .us_constants = true,
       .work = gutter_spread,
       .example = "Q=1.5L/s n=0.015 Sx=2% SL=2.5% w=1.8 hc=150mm Tmax=600mm"},
      {.name = "composite-gutter-flow",
       .title = "Flow in a gutter with a lowered strip, of a given spread",
       .about = about_friction,
       .sources = composite,
       .inputs = joined({{spread()}, strip(), plain()}),
       .us_constants = true,
       .work = composite_flow,
       .example = "T=2.5 W=0.6 a=50mm Wg=0.45 n=0.016 Sx=2% SL=1%"},
      {.name = "composite-gutter-spread",
       .title = "Spread of water in a gutter with a lowered strip",
       .about = about_friction,
       .sources = composite,
       .inputs = joined({{flow()}, strip(), plain()}),
       .us_constants = true,
       .work = composite_spread,
       .example = "Q=64L/s W=0.6 a=50mm n=0.016 Sx=2% SL=1%"},
      {.name = "parabolic-gutter",
       .title = "Flow beside a parabolic crown, of a given spread",
       .about = "The surface falls from the high line to the curb as a parabola.",
       .sources = {hec22_4 + ", appendix B"},
       .inputs =
           {InputSpec{"H", "rise of the crown", Kind::length, "m", "ft"}.range(1e-3, 5),
            InputSpec{"B", "width from the curb to the high line", Kind::length, "m", "ft"}.range(
                0.05, 100),
            spread(), roughness(), grade().if_known(),
            InputSpec{"N", "number of strips", Kind::count}.range(1, 100000).standard(
                "200", "conveyance within about 0.01 % of its limit; HEC-22 takes strips of 2 ft")},
       .us_constants = true,
       .work = parabolic,
       .example = "H=36mm B=1.8 T=0.6 n=0.015 SL=2% N=6"},
  };
}

}  // namespace deckquire::workings::drainage
