// Grates and curb openings, on grade and in a sag; scuppers beside the one in the sag.
#include "workings/drainage_parts.h"

namespace deckquire::workings::drainage {
namespace {

constexpr const char* area_units[] = {"m²", "ft²"};

const char* area_unit(const Reckoner& r) {
  return r.either(area_units[0], area_units[1]);
}

void on_grade(Reckoner& r) {
  gutter_constant(r);
  flow_and_spread(r);
  depth_and_velocity(r);
  grate_steps(r);
  gutter_limits(r);
  r.result("E");
  r.result("Qi", r.either("L/s", "ft³/s"));
  r.result("Qb", r.either("L/s", "ft³/s"));
  r.result("T");
}

/// Cw of a rim in its edition.
void weir_constant(Reckoner& r) {
  if (r.text("weir") == "4th")
    r.step("Cw", "weir coefficient, HEC-22 4th ed.", "0.37*sqrt(2*g)", Kind::number, "");
  else
    r.constant("Cw", "weir coefficient", r.either(1.66, 3.0),
               "HEC-22 3rd ed., eq. 4-26; EPA SWMM II");
}

/// The clear share of the grate: typed, or tested for its type.
void opening(Reckoner& r) {
  if (r.given("p")) return;
  const hydraulics::GrateType* t = hydraulics::find_grate(r.text("grate"));
  if (!t || t->opening == 0)
    throw WorkingError("the clear share of grate=" + r.text("grate") +
                       " was not tested: give p (clear share of the grate's area; 0.6 or 60 %)");
  r.looked_up("p", "clear share of the grate's area", t->opening, "HEC-22 4th ed., table 7.5");
}

void in_sag(Reckoner& r) {
  const std::string length = length_unit(r);
  opening(r);
  gravity_constant(r);
  weir_constant(r);
  r.constant("Co", "orifice coefficient", 0.67, "HEC-22 4th ed., eq. 7.15");
  const bool curb = r.text("side") == "curb";
  r.step("P",
         curb ? "perimeter that water passes, one side against the curb"
              : "perimeter that water passes, clear of the curb",
         curb ? "L + 2*W*(1 - c)" : "2*L + 2*W*(1 - c)", Kind::length, length);
  r.step("Ag", "clear area", "(1 - c)*p*L*W", Kind::area, area_unit(r));
  r.step("dw", "depth over the grate as a weir", "(Q/(Cw*P))^(2/3)", Kind::length, length);
  r.step("do", "depth over the grate as an orifice", "(Q/(Co*Ag))^2/(2*g)", Kind::length, length);
  r.step("d", "mean depth over the grate: the larger", "max(dw, do)", Kind::length, length);
  const std::string side = r.given("e") ? "(e + W/2)*Sx" : "W/2*Sx";
  r.step("dc", r.given("z") ? "depth at the curb, at the low point" : "depth at the curb",
         "d + " + side + (r.given("z") ? " + z" : ""), Kind::length, length);
  r.step("T", "spread", "dc/Sx", Kind::length, length);
  r.step("dt", "depth at which weir and orifice carry the same", "Co*Ag*sqrt(2*g)/(Cw*P)",
         Kind::length, length);
  if (r.given("Tmax")) {
    r.step("da", "mean depth over the grate at the spread allowed",
           "Sx*Tmax - " + side + (r.given("z") ? " - z" : ""), Kind::length, length);
    if (r.si("da") > 0) {
      r.step("Pn", "perimeter needed at that depth", "Q/(Cw*da^(3/2))", Kind::length, length);
      r.step("An", "clear area needed at that depth", "Q/(Co*sqrt(2*g*da))", Kind::area,
             area_unit(r));
    }
  }
  gutter_limits(r, "dc");
  r.result("d", r.either("mm", "ft"));
  r.result("dc", r.either("mm", "ft"));
  r.result("T");
  r.caution("A sag on a bridge empties through its scuppers only: check it with a rarer storm.");
}

void curb_on_grade(Reckoner& r) {
  gutter_constant(r);
  flow_and_spread(r);
  depth_and_velocity(r);
  r.constant("KL", "constant of curb openings", r.either(0.817, 0.6),
             "HEC-22 4th ed., ch. 7 (ex. 7.2A); SI 3rd ed., ch. 4 (ex. 4-9)");
  r.step("LT", "length that catches all", "KL*Q^0.42*SL^0.3*(1/(n*Sx))^0.6", Kind::length,
         length_unit(r));
  r.step("E", "share of the flow caught", "1 - (1 - min(1, L/LT))^1.8", Kind::number, "");
  r.step("Qi", "flow caught", "E*Q", Kind::flow, flow_unit(r));
  r.step("Qb", "flow that passes", "Q - Qi", Kind::flow, flow_unit(r));
  gutter_limits(r);
  r.result("LT");
  r.result("E");
  r.result("Qi", r.either("L/s", "ft³/s"));
  r.result("Qb", r.either("L/s", "ft³/s"));
  if (r.si("L") >= 10 * 0.3048)
    r.caution("HEC-22 4th ed. holds LT to be too short for openings of 10 ft (3 m) and more.");
}

/// Flow into a curb opening in a sag; `h` its height, d the depth at the curb.
void curb_in_sag(Reckoner& r) {
  gravity_constant(r);
  const bool lowered = r.given("W") || r.given("a");
  if (lowered && !(r.given("W") && r.given("a")))
    throw WorkingError(
        "a depression needs both W (its width; m, mm, ft) and a (its depth; mm, in)");
  r.step("d", "depth at the curb, above the lip of the gutter", "Sx*T", Kind::length,
         length_unit(r));
  r.step("Cw", "weir coefficient, HEC-22 4th ed.", lowered ? "0.29*sqrt(2*g)" : "0.37*sqrt(2*g)",
         Kind::number, "");
  r.step("P", "length of the weir", lowered ? "L + 1.8*W" : "L", Kind::length, length_unit(r));
  r.step("Qw", "flow as a weir", "Cw*P*d^(3/2)", Kind::flow, flow_unit(r));
  r.step("di", "depth at the opening", lowered ? "d + a" : "d", Kind::length, length_unit(r));
  const double di = r.value("di"), h = r.value("h");
  if (di <= h) {
    r.step("Qi", "flow caught: as a weir, the depth being at most h", "Qw", Kind::flow,
           flow_unit(r));
  } else {
    r.step("Qo", "flow as an orifice", "0.67*h*L*sqrt(2*g*(di - h/2))", Kind::flow, flow_unit(r));
    r.step("Qi",
           di > 1.4 * h ? "flow caught: as an orifice, the depth being above 1.4 h"
                        : "flow caught: the lower one between h and 1.4 h",
           di > 1.4 * h ? "Qo" : "min(Qw, Qo)", Kind::flow, flow_unit(r));
  }
  r.condition("T <= w", "the water does not pass the high line", "the sag holds no more");
  r.verdict("flow", "Q", "Qi", r.either("L/s", "ft³/s"));
  r.result("d", r.either("mm", "ft"));
  r.result("Qi", r.either("L/s", "ft³/s"));
}

void flanking(Reckoner& r) {
  if (r.si("G1") == r.si("G2"))
    throw WorkingError("G1 and G2 are equal: there is no sag between them");
  r.step("K", "length of the curve for each per cent of change", "Lvc/(100*abs(G2 - G1))",
         Kind::length, length_unit(r));
  r.step("X", "distance of the flanking scuppers from the low point", "sqrt(74*d*K)", Kind::length,
         length_unit(r));
  r.condition("X <= Lvc/2", "the flanking scuppers are on the curve",
              "the water there is not a pond");
  r.result("X");
}

std::vector<InputSpec> limits() {
  return {half_width(), curb_height(), allowable_spread()};
}

std::vector<InputSpec> either_flow_or_spread() {
  return {flow().if_known().noted("or give T"), spread().if_known().noted("or give Q")};
}

InputSpec length_of(std::string symbol, std::string meaning, double least = 0.01) {
  return InputSpec{std::move(symbol), std::move(meaning), Kind::length, "m", "ft"}.range(least,
                                                                                         1e4);
}

std::vector<InputSpec> sag_inputs() {
  std::vector<InputSpec> grate = grate_inputs();
  return {
      flow(),
      cross_slope(),
      grate[0],
      length_of("L", "length of the grates along the gutter, end to end"),
      grate[2].standard("P-1-7/8-4", "for its clear share only"),
      InputSpec{"p", "clear share of the grate's area; else that of the type"}
          .range(0.05, 1)
          .if_known(),
      InputSpec{"c", "share of the width that debris covers, from the curb"}
          .range(0, 0.95)
          .standard("50 %", "HEC-22 4th ed., ex. 7.5"),
      grate[5],
      InputSpec{"z", "height of the gutter at the grate above its low point", Kind::length, "m",
                "ft"}
          .range(0, 5)
          .if_known(),
      InputSpec{"side", "whether one side of the grate is against the curb"}
          .one_of({"curb", "clear"})
          .standard("curb", "scuppers stand in the gutter"),
      InputSpec{"weir", "edition of HEC-22 whose weir coefficient is taken"}
          .one_of({"3rd", "4th"})
          .standard("3rd", "also EPA SWMM II; the 4th edition's is 1.2 % lower"),
  };
}

}  // namespace

std::vector<WorkingKind> inlets() {
  return {
      {.name = "grate-on-grade",
       .title = "Flow that a grate on a grade catches",
       .about = "The gutter's own velocity, ahead of any depression at the grate.",
       .sources =
           {hec22_4 + ", eqs 7.1 to 7.9",
            "splash-over: US EPA, SWMM Reference Manual, Vol. II, tables 7-5 to 7-7 (Denver UDFCD "
            "2010)",
            "blocked length: J. C. Y. Guo, Design of grate inlets with a clogging factor, 2000"},
       .inputs = joined({either_flow_or_spread(),
                         {roughness(), cross_slope(), grade()},
                         grate_inputs(),
                         limits()}),
       .us_constants = true,
       .work = on_grade,
       .example = "Q=1.5L/s Sx=2% SL=2.5% W=250mm L=300mm clogging=length c=50%"},
      {.name = "grate-in-sag",
       .title = "Depth of water over a grate in a sag",
       .about = "As a weir over the rim and as an orifice; the larger depth counts.",
       .sources = {hec22_4 + ", eqs 7.14, 7.15, ex. 7.5", hec22_3 + ", eqs 4-26, 4-27",
                   "US EPA, SWMM Reference Manual, Vol. II, eqs 7-66, 7-67"},
       .inputs = joined({sag_inputs(), limits()}),
       .us_constants = true,
       .work = in_sag,
       .example = "Q=3L/s Sx=2% W=250mm L=300mm p=0.6"},
      {.name = "curb-opening",
       .title = "Flow that an opening in the curb catches on a grade",
       .about = "A scupper through the curb, without a depression.",
       .sources = {hec22_4 + ", ch. 7 and ex. 7.2A", hec22_3 + ", ex. 4-9"},
       .inputs =
           joined({either_flow_or_spread(),
                   {length_of("L", "length of the opening"), roughness(), cross_slope(), grade()},
                   limits()}),
       .us_constants = true,
       .work = curb_on_grade,
       .example = "Q=1.5L/s L=0.6 Sx=2% SL=2.5%"},
      {.name = "curb-opening-in-sag",
       .title = "Flow that an opening in the curb catches in a sag",
       .about = "Weir below the top of the opening, orifice well above it.",
       .sources =
           {hec22_4 + ", ch. 7 and ex. 7.6",
            "between h and 1.4 h the lower capacity; US EPA, SWMM Reference Manual, Vol. II, eq. "
            "7-68 interpolates"},
       .inputs = {spread(), cross_slope(), length_of("L", "length of the opening"),
                  length_of("h", "height of the opening", 1e-3),
                  length_of("W", "width of a depression before it").if_known(),
                  length_of("a", "depth of that depression", 0).if_known(), flow().if_known(),
                  half_width()},
       .us_constants = true,
       .work = curb_in_sag,
       .example = "T=0.6 Sx=2% L=0.6 h=100mm Q=1.5L/s"},
      {.name = "flanking-scuppers",
       .title = "Place of the scuppers beside the one in a sag",
       .about = "Where ponding is 63 % of that at the low point: two equal flanking scuppers then "
                "carry half "
                "each.",
       .sources = {hec22_4 + ", eq. 7.22"},
       .inputs = {length_of("d", "depth of ponding allowed at the low point", 1e-3),
                  length_of("Lvc", "length of the vertical curve", 0.1),
                  InputSpec{"G1", "grade into the curve, falls negative"}.range(-0.3, 0.3),
                  InputSpec{"G2", "grade out of the curve"}.range(-0.3, 0.3)},
       .us_constants = true,
       .work = flanking,
       .example = "d=60mm Lvc=40 G1=-2.5% G2=2.5%"},
  };
}

}  // namespace deckquire::workings::drainage
