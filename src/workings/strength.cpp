// Stiffness of a panel's section, and holding panels down.
#include "workings/strength.h"

#include "workings/cautions.h"
#include "workings/groups.h"
#include "workings/inputs.h"

namespace deckquire::workings {

namespace {

/// Bending stiffness of two equal faces, from t, c, E and b.
void bend_of_faces(Reckoner& r) {
  r.step("d", "distance of the faces' middles", "c + t", Kind::length, "mm");
  r.step("D_f", "bending stiffness, faces as thin sheets", "E*b*t*d^2/2", Kind::bending_stiffness,
         "N mm²");
  r.step("D_t", "the faces' own bending stiffness", "E*b*t^3/6", Kind::bending_stiffness, "N mm²");
  r.step("D", "bending stiffness", "D_f + D_t", Kind::bending_stiffness, "N mm²");
}

void sandwich(Reckoner& r) {
  need(r, "t", "thickness of one face; a length");
  need(r, "c", "thickness of the core; a length");
  need(r, "E", "modulus of the faces; a pressure");
  need(r, "G", "shear modulus of the core; a pressure");
  bend_of_faces(r);
  r.step("S", "shear stiffness", "G*b*d^2/c", Kind::force, "N");
  r.result("D_f");
  r.condition("5.77*t <= d", "thin faces: their own bending is under 1 % (Allen 1969, from memory)",
              "D holds; the faces also take shear themselves, which S leaves out");
  r.not_checked("the core's own bending stiffness is left out: small where the core is a foam");
}

void solid(Reckoner& r, bool round) {
  need(r, "h", round ? "diameter; a length" : "depth; a length");
  need(r, "E", "modulus along the span; a pressure");
  need(r, "G", "shear modulus, an input of its own; a pressure");
  need(r, "nu", "Poisson's ratio; a number");
  r.step("I", "second moment of area", round ? "pi*h^4/64" : "b*h^3/12", Kind::second_moment,
         "mm⁴");
  r.step("A", "area", round ? "pi*h^2/4" : "b*h", Kind::area, "mm²");
  r.step("kappa", "shear coefficient", round ? "6*(1 + nu)/(7 + 6*nu)" : "10*(1 + nu)/(12 + 11*nu)",
         Kind::number, "");
  r.step("D", "bending stiffness", "E*I", Kind::bending_stiffness, "N mm²");
  r.step("S", "shear stiffness", "kappa*G*A", Kind::force, "N");
  r.result("kappa");
  r.caution(
      "The shear coefficient is that of an isotropic section; laminates are not isotropic, so G is "
      "never "
      "taken from E and Poisson's ratio here.");
}

void webbed(Reckoner& r) {
  need(r, "t", "thickness of one face; a length");
  need(r, "c", "clear height between the faces; a length");
  need(r, "E", "modulus of the faces; a pressure");
  need(r, "G", "shear modulus of the webs; a pressure");
  need(r, "t_w", "thickness of all webs in the strip together; a length");
  bend_of_faces(r);
  r.step("S", "shear stiffness", "G*t_w*d", Kind::force, "N");
  r.result("D_f");
  r.not_checked(
      "the webs' own bending stiffness and the core's shear are left out, on the safe side");
}

void sandwich_stiffness(Reckoner& r) {
  const std::string& section = r.text("section");
  if (section == "sandwich") {
    sandwich(r);
  } else if (section == "webbed") {
    webbed(r);
  } else {
    solid(r, section == "round");
  }
  r.result("D");
  r.result("S");
  r.caution(cautions::laminate);
}

void sandwich_strength(Reckoner& r) {
  r.step("d", "distance of the faces' middles", "c + t", Kind::length, "mm");
  r.step("I", "second moment of the faces, each about the middle", "b*t*d^2/2 + b*t^3/6",
         Kind::second_moment, "mm⁴");
  if (r.given("f")) {
    r.step("M_R", "moment at which an outer fibre has its strength", "f*I/(c/2 + t)", Kind::moment,
           "N mm");
    r.result("M_R", "kN m");
  } else {
    r.not_checked("bending of the skins: needs f (their strength)");
  }
  if (r.given("tau")) {
    r.step("V_R", "shear at which the core has its strength", "tau*b*d", Kind::force, "N");
    r.result("V_R", "kN");
  } else {
    r.not_checked("shear of the core: needs tau (its strength)");
  }
  if (r.given("f_p") && r.given("l_b")) {
    r.step("R_R", "what the strip bears on one flange", "f_p*b*l_b", Kind::force, "N");
    r.result("R_R", "kN");
  } else {
    r.not_checked("bearing on a flange: needs f_p (strength through the depth) and l_b");
  }
  if (r.given("M") && r.given("f")) r.verdict("bending of the skins", "M", "M_R");
  if (r.given("V") && r.given("tau")) r.verdict("shear of the core", "V", "V_R");
  r.result("I");
  r.not_checked("wrinkling of the skins, and the skins at joints, holes and inserts");
  r.caution(cautions::laminate);
  r.caution(cautions::local);
}

void hold_down(Reckoner& r) {
  r.condition("x_1 < x_2", "the girders are entered from left to right", "change them over");
  if (r.given("x_g")) {
    r.step("x_c", "centre of gravity from the left edge", "x_g", Kind::length, "m");
  } else {
    r.step("x_c", "centre of gravity, in the middle", "B/2", Kind::length, "m");
  }
  r.step("U", "uplift of the wind on one panel", "gamma_W*q*B*l", Kind::force, "kN");
  r.step("G", "own weight that may be counted on", "gamma_D*g_d*B*l", Kind::force, "kN");
  const struct {
    const char *suffix, *words, *x_u;
  } winds[] = {{"a", "wind from the left", "B/4"}, {"b", "wind from the right", "3*B/4"}};
  for (const auto& w : winds) {
    const std::string s = w.suffix;
    r.step("x_" + s, std::string("line of the uplift, ") + w.words, w.x_u, Kind::length, "m");
    r.step("T_1" + s, std::string("hold-down at girder 1, ") + w.words,
           "(U*(x_2 - x_" + s + ") - G*(x_2 - x_c))/(x_2 - x_1)", Kind::force, "kN");
    r.step("T_2" + s, std::string("hold-down at girder 2, ") + w.words, "U - G - T_1" + s,
           Kind::force, "kN");
  }
  r.step("q_n", "net uplift where it is uniform", "gamma_W*q - gamma_D*g_d", Kind::pressure, "kPa");
  r.step("T_n", "net uplift of one panel", "q_n*B*l", Kind::force, "kN");
  r.step("T_1n", "hold-down at girder 1, uniform uplift",
         "(U*(x_2 - B/2) - G*(x_2 - x_c))/(x_2 - x_1)", Kind::force, "kN");
  r.step("T_2n", "hold-down at girder 2, uniform uplift", "T_n - T_1n", Kind::force, "kN");
  r.step("T_1", "hold-down at girder 1, worst", "max(T_1a, T_1b, T_1n, 0)", Kind::force, "kN");
  r.step("T_2", "hold-down at girder 2, worst", "max(T_2a, T_2b, T_2n, 0)", Kind::force, "kN");
  r.result("U");
  r.result("G");
  for (const char* s : {"T_1a", "T_2a", "T_1b", "T_2b", "T_1n", "T_2n", "T_1", "T_2"}) r.result(s);
  r.result("q_n");
  r.result("T_n");
  // A panel that nothing holds tips about its far girder, or is lifted as a whole.
  if (r.value("gamma_W") > 0) {
    r.step("q_e", "uplift, without load factor, at which a panel without clips begins to lift",
           "G/(gamma_W*B*l)*min(1, (x_2 - x_c)/max(x_2 - B/4, B/1000), "
           "(x_c - x_1)/max(3*B/4 - x_1, B/1000))",
           Kind::pressure, "kPa");
    r.result("q_e");
  }
  if (r.given("R_c") && r.given("n")) {
    r.step("F_c", "force in the most loaded clip", "max(T_1, T_2)/n", Kind::force, "kN");
    r.result("F_c");
    r.verdict("force in one clip", "F_c", "R_c");
  } else if (r.given("R_c")) {
    r.step("n_1", "clips at girder 1", "max(n_min, ceil(T_1/R_c - 1e-9))", Kind::count, "");
    r.step("n_2", "clips at girder 2", "max(n_min, ceil(T_2/R_c - 1e-9))", Kind::count, "");
    r.step("F_c", "force in the most loaded clip", "max(T_1/n_1, T_2/n_2)", Kind::force, "kN");
    r.result("n_1");
    r.result("n_2");
    r.result("F_c");
    r.verdict("force in one clip", "F_c", "R_c");
  } else {
    r.not_checked("number of clips: needs R_c (what one clip holds)");
  }
  r.not_checked("the clip, its bolt, the flange and the laminate around it");
  r.caution(
      "Three girders or more: take panel-strip with upward loads and supports that hold down where "
      "clips are.");
  r.caution(cautions::uplift);
  r.caution(cautions::code);
  r.caution(cautions::aid);
}

}  // namespace

WorkingKind sandwich_stiffness_kind() {
  WorkingKind k;
  k.name = "sandwich-stiffness";
  k.title = "Bending and shear stiffness of a strip";
  k.about = "D and S for panel-strip: sandwich with a foam core, faces on webs, or a solid strip.";
  k.group = "strength";
  k.sources = {
      "Sandwich: H. G. Allen, Analysis and Design of Structural Sandwich Panels, 1969 (from "
      "memory)",
      "Shear coefficients: G. R. Cowper, J. Appl. Mech. 33 (1966) 335-340 (rectangle second-hand, "
      "circle from memory)",
      "Webs: shear stiffness from the webs alone (common practice, no source)"};
  k.inputs = {
      InputSpec{"section", "kind of section"}
          .one_of({"sandwich", "webbed", "solid", "round"})
          .standard("sandwich", "faces on a core"),
      InputSpec{"b", "width of the strip", Kind::length, "mm"}
          .range(above_zero)
          .standard("1000", "a strip of one metre"),
      InputSpec{"t", "thickness of one face", Kind::length, "mm"}.range(above_zero).if_known(),
      InputSpec{"c", "thickness of the core, between the faces", Kind::length, "mm"}
          .range(above_zero)
          .if_known(),
      InputSpec{"h", "depth of a solid strip, or diameter", Kind::length, "mm"}
          .range(above_zero)
          .if_known(),
      InputSpec{"E", "modulus of elasticity of the faces, or of the solid", Kind::pressure, "N/mm²"}
          .range(above_zero)
          .if_known(),
      InputSpec{"G", "shear modulus of the core, the webs or the solid", Kind::pressure, "N/mm²"}
          .range(above_zero)
          .if_known(),
      InputSpec{"nu", "Poisson's ratio, for the shear coefficient only", Kind::number, ""}
          .range(0)
          .if_known(),
      InputSpec{"t_w", "thickness of all webs in the strip together", Kind::length, "mm"}
          .range(above_zero)
          .if_known()};
  k.example = "t=8mm c=109mm E=22GPa G=48MPa";
  k.work = sandwich_stiffness;
  return k;
}

WorkingKind sandwich_strength_kind() {
  WorkingKind k;
  k.name = "sandwich-strength";
  k.title = "What a strip of a sandwich panel can take";
  k.about =
      "Moment, shear and bearing of a strip from the strengths of skins and core; and, where M or "
      "V "
      "is given, whether it takes them.";
  k.group = "strength";
  k.sources = {
      "σ = M z E/D, τ = V/(b d): beam with thin faces (derived); strengths as the project "
      "has them from tests"};
  k.inputs = {
      InputSpec{"b", "width of the strip", Kind::length, "mm"}
          .range(above_zero)
          .standard("1000", "a strip of one metre"),
      InputSpec{"t", "thickness of one face", Kind::length, "mm"}.range(above_zero),
      InputSpec{"c", "thickness of the core, between the faces", Kind::length, "mm"}.range(
          above_zero),
      InputSpec{"f", "strength of the faces, factored", Kind::pressure, "N/mm²"}
          .range(above_zero)
          .if_known(),
      InputSpec{"tau", "shear strength of the core, factored", Kind::pressure, "N/mm²"}
          .range(above_zero)
          .if_known(),
      InputSpec{"f_p", "strength through the depth, factored", Kind::pressure, "N/mm²"}
          .range(above_zero)
          .if_known(),
      InputSpec{"l_b", "width of the bearing, across the bridge", Kind::length, "mm"}
          .range(above_zero)
          .if_known(),
      InputSpec{"M", "moment on the strip, without sign", Kind::moment, "kN m"}.range(0).if_known(),
      InputSpec{"V", "shear on the strip, without sign", Kind::force, "kN"}.range(0).if_known()};
  k.example = "t=8mm c=109mm f=60MPa tau=0.5MPa f_p=1.5MPa l_b=120mm M=4kNm V=20kN";
  k.work = sandwich_strength;
  return k;
}

WorkingKind hold_down_kind() {
  WorkingKind k;
  k.name = "hold-down";
  k.title = "Uplift and clips of a panel on two girders";
  k.about =
      "Hold-down forces of a rigid panel on two girder lines: wind from either side along a line "
      "at the "
      "quarter of the width, and uniform uplift; clips per girder line.";
  k.group = "strength";
  k.sources = {"Statics of a rigid panel on two lines (derived)",
               "AASHTO LRFD 3.8.2: 0.020 ksf upwards × deck width at the windward quarter-point "
               "(from memory)"};
  k.inputs = {
      InputSpec{"B", "width of the deck", Kind::length, "m"}.range(above_zero),
      InputSpec{"l", "length of the panel along the bridge", Kind::length, "m"}.range(above_zero),
      InputSpec{"x_1", "girder 1 from the left edge", Kind::length, "m"},
      InputSpec{"x_2", "girder 2 from the left edge", Kind::length, "m"},
      InputSpec{"g_d", "own weight of the panel per area", Kind::pressure, "kPa"}.range(0),
      InputSpec{"q", "uplift of the wind", Kind::pressure, "kPa"}.range(0).standard(
          "20 psf", "AASHTO LRFD 3.8.2, 0.020 ksf (from memory)"),
      InputSpec{"gamma_W", "load factor of wind", Kind::number, ""}.range(0),
      InputSpec{"gamma_D", "load factor of own weight where it helps", Kind::number, ""}.range(0),
      InputSpec{"R_c", "what one clip holds", Kind::force, "kN"}.range(above_zero).if_known(),
      InputSpec{"n_min", "least clips per girder line and panel", Kind::count, ""}
          .range(1)
          .standard("2", "common practice, no source"),
      InputSpec{"x_g", "centre of gravity from the left edge, if not in the middle", Kind::length,
                "m"}
          .if_known(),
      InputSpec{"n",
                "clips that there are on each girder line of the panel, in place of "
                "those needed",
                Kind::count, ""}
          .range(1)
          .if_known()};
  k.example = "B=3m l=2.4m x_1=0.6m x_2=2.4m g_d=0.6kPa gamma_W=1 gamma_D=0.9 R_c=1.5kN";
  k.work = hold_down;
  return k;
}

std::vector<WorkingKind> strength_workings() {
  return {panel_strip_kind(), sandwich_stiffness_kind(), sandwich_strength_kind(),
          hold_down_kind()};
}

}  // namespace deckquire::workings
