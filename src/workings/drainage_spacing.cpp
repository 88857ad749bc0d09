// Scuppers along a gutter of constant grade, or along a level one.
#include <fmt/format.h>

#include <cmath>

#include "workings/drainage_parts.h"

namespace deckquire::workings::drainage {
namespace {

constexpr int most_positions = 60;  // of scuppers that are written out

void inflow_step(Reckoner& r) {
  r.step("q", "flow into the gutter per length", r.either("C*i*w/3600000", "C*i*w/43560"),
         Kind::inflow, r.either("m²/s", "ft²/s"));
}

void level_deck(Reckoner& r) {
  const std::string length = length_unit(r);
  gutter_constant(r);
  inflow_step(r);
  r.step("T", "spread half-way between two scuppers: the one allowed", "Tmax", Kind::length,
         length);
  r.step("Lc", "spacing of the scuppers", "2*(9/19)^(1/3)*Sx^(13/9)*T^(19/9)*(Kg/(q*n))^(2/3)",
         Kind::length, length);
  r.step("d", "depth at the curb half-way", "Sx*T", Kind::length, length);
  gravity_constant(r);
  r.step("Qi", "flow of one scupper, from both sides", "q*Lc", Kind::flow, flow_unit(r));
  r.step("P", "rim that it needs: critical flow at the depth d", "Qi/(g^(1/2)*(2*d/3)^(3/2))",
         Kind::length, length);
  r.result("Lc");
  r.result("Qi", r.either("L/s", "ft³/s"));
  r.result("P");
  gutter_limits(r, "d", "");
  r.caution(
      "Level gutters hold water and dirt; HEC-22 4th ed., §5.2.5.1, advises against them on "
      "bridges.");
}

/// Steps x1, x2 ... and what reaches the end.
void positions(Reckoner& r) {
  const std::string length = length_unit(r);
  const double room = r.value("length") - r.value("L1");
  if (room < 0) {
    r.step("N", "number of scuppers", "0", Kind::count, "");
    r.step("Qend", "flow at the end", "q*length", Kind::flow, flow_unit(r));
  } else {
    r.step("N", "number of scuppers", "floor((length - L1)/Ln) + 1", Kind::count, "");
    const int count = static_cast<int>(std::lround(r.value("N")));
    const int written = count <= most_positions ? count : 1;
    for (int k = 1; k <= written; ++k)
      r.step(fmt::format("x{}", k), fmt::format("scupper {}, from the high point", k),
             k == 1 ? "L1" : fmt::format("x{} + Ln", k - 1), Kind::length, length);
    if (written < count)
      r.step(fmt::format("x{}", count),
             fmt::format("scupper {}, the last; those between follow at Ln", count),
             "L1 + (N - 1)*Ln", Kind::length, length);
    r.step("Qend", "flow at the end", fmt::format("Qb + q*(length - x{})", count), Kind::flow,
           flow_unit(r));
    for (int k = 1; k <= written; ++k) r.result(fmt::format("x{}", k));
    if (written < count) r.result(fmt::format("x{}", count));
  }
  r.step("Tend", "spread at the end", "(Qend*n/(Kg*Sx^(5/3)*SL^(1/2)))^(3/8)", Kind::length,
         length);
  r.step("Qall", "rain on the whole length", "q*length", Kind::flow, flow_unit(r));
  r.step("Qsum", "caught by all, and what reaches the end", "N*Qi + Qend", Kind::flow,
         flow_unit(r));
  r.limit("what is caught and what reaches the end (Qsum) is all that fell (Qall)",
          std::abs(r.value("Qsum") / r.value("Qall") - 1) < 1e-9, "do not use this result");
  r.verdict("spread at the end", "Tend", "Tmax", r.either("mm", "ft"));
  r.result("N");
  r.result("Qend", r.either("L/s", "ft³/s"));
  r.result("Tend");
}

void on_grade(Reckoner& r) {
  const std::string length = length_unit(r);
  gutter_constant(r);
  inflow_step(r);
  r.step("T", "spread at each scupper: the one allowed", "Tmax", Kind::length, length);
  r.step("Q", "flow of the gutter at that spread", "Kg/n*Sx^(5/3)*SL^(1/2)*T^(8/3)", Kind::flow,
         flow_unit(r));
  depth_and_velocity(r);
  r.step("L1", "first scupper, from the high point", "Q/q", Kind::length, length);
  grate_steps(r);
  r.step("Ln", "spacing of those that follow: length that brings what one catches", "Qi/q",
         Kind::length, length);
  r.result("L1");
  r.result("Ln");
  r.result("E");
  r.result("Qi", r.either("L/s", "ft³/s"));
  if (r.given("length"))
    positions(r);
  else
    r.not_checked(
        "positions and the flow at the end: needs length (from the high point to the end)");
  gutter_limits(r, "d", "");
  if (r.value("SL") < 0.005)
    r.caution("HEC-22 4th ed., §5.2.2, prefers a grade of 0.5 % and allows 0.3 % at the least.");
  r.caution(
      "Constant grade, width and rain from a high point. Fixed places come besides: low points, "
      "before "
      "joints and before the bridge's ends (HEC-22 4th ed., §7.4.1).");
}

void scupper_spacing(Reckoner& r) {
  if (r.si("SL") == 0) return level_deck(r);
  for (const char* symbol : {"W", "L"})
    if (!r.given(symbol))
      throw WorkingError(
          "on a grade the grate counts: give W (its width; m, mm, in) and L (its length; m, mm, "
          "in)");
  on_grade(r);
}

void gutter_balance(Reckoner& r) {
  r.step("Qr", "rain that runs to the gutter", "C*i*A/3600000", Kind::flow, "m³/s");
  r.step("Qs", "caught by its scuppers, and what reaches its ends", "Qi + Qe", Kind::flow, "m³/s");
  r.step("x", "difference, as share of the rain", "1 - Qs/Qr", Kind::number, "");
  r.limit("what is caught and what reaches the ends is all the rain, to 1e-9",
          std::abs(r.value("x")) <= 1e-9, "do not use this result");
  r.verdict("spread of water in the gutter", "Tw", "Tmax", "mm");
  r.verdict("spread against the width up to the high line", "Tw", "w", "mm");
  if (r.given("Ln")) r.verdict("length of gutter without a scupper", "Ln", "Lc", "m");
  r.result("Qr", "L/s");
  r.result("Qi", "L/s");
  r.result("Qe", "L/s");
  if (r.given("Tw")) r.result("Tw", "m");
  r.caution(
      "Rain as steady from above at the intensity given; wind, snow and ice, and water from beyond "
      "the deck are not in it.");
}

WorkingKind balance() {
  const auto length = [](const char* symbol, const char* meaning) {
    return InputSpec{symbol, meaning, Kind::length, "m"}.range(0, 1e5).if_known();
  };
  const auto flow_of = [](const char* symbol, const char* meaning) {
    return InputSpec{symbol, meaning, Kind::flow, "m³/s"}.range(0, 100);
  };
  return {
      .name = "gutter-balance",
      .title = "Rain on one gutter, what its scuppers catch and what reaches its ends",
      .about = "Nothing is lost: proof of a march along the gutter, and its greatest spread.",
      .sources = {hec22_4 + ", eq. 4.1; §7.4.2 (march from scupper to scupper)"},
      .inputs = {runoff_coefficient(), rain(),
                 InputSpec{"A", "area of deck that drains to the gutter", Kind::area, "m²"}.range(
                     1e-3, 1e8),
                 flow_of("Qi", "caught by all scuppers of the gutter"),
                 flow_of("Qe", "flow that reaches the ends of the deck"),
                 length("Tw", "greatest spread along the gutter"), allowable_spread(),
                 half_width(),
                 length("Ln", "longest part of the gutter from a high point, without a scupper"),
                 length("Lc", "length that the gutter carries within the spread allowed")},
      .work = gutter_balance,
      .example = "C=1 i=36mm/h A=100m2 Qi=0.8L/s Qe=0.2L/s Tw=500mm Tmax=600mm"};
}

std::vector<InputSpec> inputs() {
  InputSpec w = draining_width(), T = allowable_spread(), SL = grade();
  T.optional = false;
  SL.least = 0;
  SL.note = "0: level deck";
  std::vector<InputSpec> grate = grate_inputs();
  for (InputSpec* g : {&grate[0], &grate[1]}) {
    g->optional = true;
    g->note = "needed on a grade only";
  }
  return joined({{runoff_coefficient(), rain(), w, roughness(), cross_slope(), SL, T,
                  InputSpec{"length", "from the high point to the end", Kind::length, "m", "ft"}
                      .range(0.1, 1e5)
                      .if_known()},
                 grate,
                 {curb_height()}});
}

}  // namespace

std::vector<WorkingKind> spacing() {
  return {
      balance(),
      {.name = "scupper-spacing",
       .title = "Spacing of scuppers along a gutter",
       .about = "On a constant grade from a high point: the first scupper, those that follow, "
                "their positions "
                "and what reaches the end. On a level deck: the spacing.",
       .sources =
           {hec22_4 + ", §7.4.2 (same procedure by hand), eqs 4.1, 5.2, 7.1 to 7.9",
            "FHWA HEC-21, Design of Bridge Deck Drainage, 1993, from memory: spacing, level deck "
            "(re-derived, and checked by integrating the water profile)"},
       .inputs = inputs(),
       .us_constants = true,
       .work = scupper_spacing,
       .example =
           "C=0.9 i=150mm/h w=1.8 n=0.015 Sx=2% SL=2.5% Tmax=600mm W=250mm L=300mm length=60"},
  };
}

}  // namespace deckquire::workings::drainage
