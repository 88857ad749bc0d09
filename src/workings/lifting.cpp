// Slings, insert forces, and the panel as a beam between its inserts.
#include "workings/lifting.h"

#include <fmt/format.h>

#include <algorithm>

#include "workings/cautions.h"
#include "workings/groups.h"
#include "workings/inputs.h"
#include "workings/lists.h"
#include "workings/strip_inputs.h"

namespace deckquire::workings {

namespace {

void angle_limits(Reckoner& r, const char* beta) {
  const std::string b = beta;
  r.condition(b + " >= beta_0", "never flatter than this (30°: ASME B30.9 and B30.26, second-hand)",
              "do not lift so: longer slings or a spreader");
  r.condition(b + " >= beta_1", "least angle (45°: US Navy rigging manual)",
              "longer slings or a spreader");
  if (r.value(beta) < r.value("beta_2") * (1 - 1e-9)) {
    r.caution(
        "Flatter than the angle preferred (60°, second-hand): longer slings where there is "
        "height.");
  }
}

void symmetrical(Reckoner& r) {
  if (r.given("beta")) {
    r.step("beta_l", "angle of a leg from the horizontal", "beta", Kind::angle, "°");
  } else {
    need(r, "h",
         "height of the hook above the inserts, or give beta, the angle of a leg; a length");
    need(r, "l_x", "distance of the inserts, or give beta, the angle of a leg; a length");
    r.step("e_l", "insert from the hook in plan", "sqrt((l_x/2)^2 + (l_y/2)^2)", Kind::length, "m");
    r.step("l_l", "length of a leg", "sqrt(e_l^2 + h^2)", Kind::length, "m");
    r.step("beta_l", "angle of a leg from the horizontal", "acos(e_l/l_l)*180/pi", Kind::angle,
           "°");
    r.step("h_1", "height of the hook for the least angle", "e_l*tan(beta_1*pi/180)", Kind::length,
           "m");
    r.step("h_2", "height of the hook for the angle preferred", "e_l*tan(beta_2*pi/180)",
           Kind::length, "m");
    for (const char* s : {"l_l", "h_1", "h_2"}) r.result(s);
  }
  r.condition("n_e <= n", "not more legs are counted on than there are", "count on fewer legs");
  r.step("T_all", "tension of a leg if all shared evenly, without handling factor",
         "W/(n*sin(beta_l*pi/180))", Kind::force, "kN");
  r.step("T_e", "tension of a leg, by the legs counted on, without handling factor",
         "W/(n_e*sin(beta_l*pi/180))", Kind::force, "kN");
  r.step("T", "tension of a leg, with handling factor", "phi*T_e", Kind::force, "kN");
  r.step("H", "pull along the panel at an insert", "T*cos(beta_l*pi/180)", Kind::force, "kN");
  for (const char* s : {"beta_l", "T_all", "T_e", "T", "H"}) r.result(s);
  angle_limits(r, "beta_l");
  r.verdict("tension of a leg against what a sling leg may carry", "T", "T_w");
  r.verdict("pull at an insert against its strength at this angle", "T", "F_i");
}

void uneven(Reckoner& r) {
  need(r, "a", "first leg from the hook in plan; a length");
  need(r, "b", "second leg from the hook in plan; a length");
  need(r, "h", "height of the hook above the inserts; a length");
  r.step("l_a", "length of the first leg", "sqrt(a^2 + h^2)", Kind::length, "m");
  r.step("l_b", "length of the second leg", "sqrt(b^2 + h^2)", Kind::length, "m");
  r.step("beta_a", "angle of the first leg", "acos(a/l_a)*180/pi", Kind::angle, "°");
  r.step("beta_b", "angle of the second leg", "acos(b/l_b)*180/pi", Kind::angle, "°");
  r.step("T_a", "tension of the first leg, without handling factor", "W*b/(a + b)*l_a/h",
         Kind::force, "kN");
  r.step("T_b", "tension of the second leg, without handling factor", "W*a/(a + b)*l_b/h",
         Kind::force, "kN");
  r.step("H_a", "horizontal part of the first leg", "T_a*a/l_a", Kind::force, "kN");
  r.step("H_b", "horizontal part of the second leg", "T_b*b/l_b", Kind::force, "kN");
  r.step("T", "larger tension, with handling factor", "phi*max(T_a, T_b)", Kind::force, "kN");
  r.step("beta_l", "flatter angle", "min(beta_a, beta_b)", Kind::angle, "°");
  for (const char* s : {"T_a", "T_b", "beta_a", "beta_b", "H_a", "H_b", "T"}) r.result(s);
  angle_limits(r, "beta_l");
  r.verdict("tension of a leg against what a sling leg may carry", "T", "T_w");
  r.verdict("pull at an insert against its strength at this angle", "T", "F_i");
}

void sling(Reckoner& r) {
  if (r.text("legs") == "two-uneven") {
    uneven(r);
  } else {
    symmetrical(r);
  }
  r.caution(
      "A rigid panel on four legs may hang on two of them; the strength of an insert in inclined "
      "pull is a "
      "limit of its own.");
  r.caution(cautions::lifting);
  r.caution(cautions::weight);
}

WorkingKind sling_kind() {
  WorkingKind k;
  k.name = "sling";
  k.title = "Tension of sling legs";
  k.about =
      "Legs from one hook: alike on all sides (two or four inserts), or two legs of uneven reach.";
  k.group = "lifting";
  k.sources = {
      "Statics of the hook (derived)",
      "Two of four legs counted on: US Navy NAVEDTRA 14251 p. 6-36 and 14080, bridle hitch",
      "Least angles: ASME B30.9 and B30.26, 30° (second-hand); US Navy manual, 45°; 60° preferred "
      "(second-hand)"};
  k.inputs = {
      InputSpec{"legs", "legs"}
          .one_of({"alike", "two-uneven"})
          .standard("alike", "symmetrical about the hook"),
      InputSpec{"W", "weight lifted", Kind::force, "kN"}.range(above_zero),
      InputSpec{"n", "legs", Kind::count, ""}.range(1).standard("4", "four inserts"),
      InputSpec{"n_e", "legs counted on", Kind::count, ""}.range(1).standard(
          "2", "a rigid panel may hang on two: US Navy NAVEDTRA 14251"),
      InputSpec{"phi", "handling factor (snatching, suction of a mould); 1 for the weight alone",
                Kind::number, ""}
          .range(1),
      InputSpec{"beta", "angle of a leg from the horizontal", Kind::angle, "°"}
          .range(above_zero)
          .if_known(),
      InputSpec{"l_x", "distance of the inserts along", Kind::length, "m"}.range(0).if_known(),
      InputSpec{"l_y", "distance of the inserts across", Kind::length, "m"}.range(0).standard(
          "0", "two inserts"),
      InputSpec{"h", "height of the hook above the inserts", Kind::length, "m"}
          .range(above_zero)
          .if_known(),
      InputSpec{"a", "first leg from the hook in plan", Kind::length, "m"}.range(0).if_known(),
      InputSpec{"b", "second leg from the hook in plan", Kind::length, "m"}.range(0).if_known(),
      InputSpec{"beta_0", "flattest angle ever", Kind::angle, "°"}.range(0).standard(
          "30", "ASME B30.9, B30.26 (second-hand)"),
      InputSpec{"beta_1", "least angle", Kind::angle, "°"}.range(0).standard(
          "45", "US Navy rigging manual"),
      InputSpec{"beta_2", "angle preferred", Kind::angle, "°"}.range(0).standard("60",
                                                                                 "second-hand"),
      InputSpec{"T_w", "working load of one sling leg", Kind::force, "kN"}.range(0).if_known(),
      InputSpec{"F_i", "allowable pull of one insert at this angle", Kind::force, "kN"}
          .range(0)
          .if_known()};
  for (InputSpec& s : k.inputs) {
    if (s.symbol == "beta") s.most = 1.5707963267948968;
  }
  k.example = "W=12.5kN l_x=1.8m l_y=1.2m h=1.6m phi=1.25 T_w=10kN F_i=12kN";
  k.work = sling;
  return k;
}

struct Pick {
  double x = 0, y = 0;
};

std::vector<Pick> typed_picks(const std::string& text) {
  std::vector<Pick> picks;
  for (const std::string& item : split(text, ";")) {
    const std::vector<double> at = typed_values(item, Kind::length, "m", "points");
    if (at.size() != 2) {
      throw WorkingError(
          fmt::format("points: '{}' is no point; write 0.9, 0.6 m; 0.9, -0.6 m; …", item));
    }
    picks.push_back({at[0], at[1]});
  }
  if (picks.size() < 3)
    throw WorkingError("points: give three or more; 0.9, 0.6 m; 0.9, -0.6 m; …");
  return picks;
}

void tell_spread(Reckoner& r, const std::vector<Pick>& picks) {
  double x = 0, y = 0, xx = 0, xy = 0, yy = 0;
  const double n = static_cast<double>(picks.size());
  for (const Pick& p : picks) x += p.x / n, y += p.y / n;
  for (const Pick& p : picks) {
    xx += (p.x - x) * (p.x - x), yy += (p.y - y) * (p.y - y), xy += (p.x - x) * (p.y - y);
  }
  if (xx * yy - xy * xy <= 1e-9 * xx * yy) {
    throw WorkingError(
        "points: they lie on one line, on which the panel turns over; set one beside it");
  }
  r.found("n", "points", n, Kind::count, "", "as entered");
  r.found("x_m", "middle of the points", x, Kind::length, "m", "mean of their x");
  r.found("y_m", "middle of the points", y, Kind::length, "m", "mean of their y");
  r.found("S_xx", "spread", xx, Kind::area, "m²", "sum of (x − x_m)²");
  r.found("S_yy", "spread", yy, Kind::area, "m²", "sum of (y − y_m)²");
  r.found("S_xy", "spread", xy, Kind::area, "m²", "sum of (x − x_m)(y − y_m)");
  r.step("e_x", "centre of gravity from the middle", "x_g - x_m", Kind::length, "m");
  r.step("e_y", "centre of gravity from the middle", "y_g - y_m", Kind::length, "m");
  r.step("A", "change of force along x", "W*(S_yy*e_x - S_xy*e_y)/(S_xx*S_yy - S_xy^2)",
         Kind::line_load, "kN/m");
  r.step("B", "change of force along y", "W*(S_xx*e_y - S_xy*e_x)/(S_xx*S_yy - S_xy^2)",
         Kind::line_load, "kN/m");
}

void pick_points(Reckoner& r) {
  const std::vector<Pick> picks = typed_picks(r.text("points"));
  tell_spread(r, picks);
  double least = 1e300, most = -1e300;
  for (std::size_t i = 0; i < picks.size(); ++i) {
    const std::string k = std::to_string(i + 1);
    const std::string at = fmt::format("point {}", i + 1);
    r.found("x_" + k, "x of " + at, picks[i].x, Kind::length, "m", "as entered");
    r.found("y_" + k, "y of " + at, picks[i].y, Kind::length, "m", "as entered");
    const double R =
        r.step("R_" + k, "vertical pull at " + at,
               fmt::format("W/n + A*(x_{0} - x_m) + B*(y_{0} - y_m)", k), Kind::force, "kN");
    least = std::min(least, R), most = std::max(most, R);
    r.result("R_" + k);
  }
  r.found("R_least", "least pull", least, Kind::force, "kN", "of all points");
  r.found("R_most", "largest pull", most, Kind::force, "kN", "of all points");
  r.step("F", "largest pull with handling factor", "phi*R_most", Kind::force, "kN");
  r.result("R_least");
  r.result("F");
  r.condition("R_least > 0", "every point pulls",
              "the panel tips: do not lift so; set the points about the "
              "centre of gravity");
  r.verdict("pull at one insert", "F", "F_i");
  r.caution(
      "Points equally stiff, pulled vertically, as under a spreader; on slings from one hook see "
      "sling.");
  r.caution(cautions::lifting);
  r.caution(cautions::weight);
}

WorkingKind pick_points_kind() {
  WorkingKind k;
  k.name = "pick-points";
  k.title = "Pull at lifting points off the centre of gravity";
  k.about =
      "Vertical pull at three or more equally stiff points of a rigid panel, x and y of each, "
      "parted by "
      "semicolons: 0.9, 0.6 m; 0.9, -0.6 m; -0.9, 0.6 m; -0.9, -0.6 m.";
  k.group = "lifting";
  k.sources = {"Rigid body on equal springs (derived)"};
  k.inputs = {
      InputSpec{"W", "weight lifted", Kind::force, "kN"}.range(above_zero),
      InputSpec{"points", "lifting points, x and y"}.as_list(),
      InputSpec{"x_g", "centre of gravity", Kind::length, "m"},
      InputSpec{"y_g", "centre of gravity", Kind::length, "m"},
      InputSpec{"phi", "handling factor (snatching, suction of a mould); 1 for the weight alone",
                Kind::number, ""}
          .range(1),
      InputSpec{"F_i", "allowable pull of one insert", Kind::force, "kN"}.range(0).if_known()};
  k.example =
      "W=12.5kN \"points=0.9, 0.6 m; 0.9, -0.6 m; -0.9, 0.6 m; -0.9, -0.6 m\" x_g=0.1 y_g=-0.05 "
      "phi=1.25 F_i=8kN";
  k.work = pick_points;
  return k;
}

StripResult hung(const Strip& s, const std::vector<StripLoad>& loads) {
  if (const std::string fault = fault_of(s, loads); !fault.empty())
    throw WorkingError("inserts: " + fault);
  try {
    return solve(s, loads);
  } catch (const WorkingError&) {
    throw WorkingError("the panel tips: its weight lies outside the lines of inserts; move them");
  }
}

void lift_bending(Reckoner& r) {
  r.constant("g", "standard gravity in m/s²", standard_gravity, "ISO 80000-3");
  r.step("w_g", "own weight per length, with handling factor", "phi*m*g/L", Kind::line_load,
         "N/mm");
  Strip s;
  s.length = r.value("L");
  for (double x : typed_values(r.text("inserts"), Kind::length, "mm", "inserts"))
    s.supports.push_back({x, false});  // a sling only pulls
  s.stretches = typed_stretches(r.given("weaker") ? r.text("weaker") : "", s.length, r.value("D"),
                                r.given("S") ? r.value("S") : no_shear_deformation);
  const StripResult solved = hung(s, {uniform_load(r.value("w_g"), 0, s.length)});
  tell_solution(r, solved);
  for (std::size_t i = 0; i < s.supports.size(); ++i) {
    const std::string name = fmt::format("R_{}", i + 1);
    r.found(name, fmt::format("pull of the inserts at {:g} mm, together", s.supports[i].x),
            solved.reactions[i] / 1e3, Kind::force, "kN", "from the step of shear there");
    r.result(name);
  }
  r.limit("every line of inserts pulls",
          std::find(solved.lifted.begin(), solved.lifted.end(), true) == solved.lifted.end(),
          "a line goes slack: it carries nothing, and the panel may swing");
  const StripPeaks p = solved.peaks();
  const auto tell = [&](const char* symbol, const char* meaning, StripPeak peak, double divisor,
                        Kind kind, const char* unit) {
    r.found(symbol, meaning, peak.value / divisor, kind, unit,
            fmt::format("at x = {:.1f} mm", peak.x));
    r.result(symbol);
  };
  tell("M_max", "largest moment (sagging)", p.max_M, 1e6, Kind::moment, "kN m");
  tell("M_min", "smallest moment (hogging)", p.min_M, 1e6, Kind::moment, "kN m");
  tell("w_max", "largest deflection between or beyond the inserts", p.max_w, 1, Kind::length, "mm");
  tell("w_min", "smallest deflection (up)", p.min_w, 1, Kind::length, "mm");
  for (const auto& [words, demand, capacity] :
       {std::tuple{"sagging moment in the lift", p.max_M.value, "M_sag"},
        std::tuple{"hogging moment in the lift", -p.min_M.value, "M_hog"}}) {
    if (r.given(capacity)) {
      r.verdict(words, std::max(0.0, demand / 1e3), r.si(capacity), Kind::moment, "kN m");
    } else {
      r.not_checked(fmt::format("{}: needs {}", words, capacity));
    }
  }
  r.curve(curve_of(s, solved.pieces, "moment", *find_unit(Kind::length, "mm"),
                   *find_unit(Kind::moment, "kN m"), 1e-3,
                   [&](double x, Side side) { return solved.at(x, side).M; }));
  r.caution("Own weight spread evenly along L; do it for both directions of the panel.");
  r.caution(cautions::lifting);
  r.caution(cautions::laminate);
}

WorkingKind lift_bending_kind() {
  WorkingKind k;
  k.name = "lift-bending";
  k.title = "Bending of a panel in the lift";
  k.about =
      "The panel as a beam on its lines of inserts, under its own weight with the handling factor.";
  k.group = "lifting";
  k.sources = {
      "Beam between the inserts under own weight × handling factor (common practice, no source)",
      "Solution as in panel-strip (derived)"};
  k.inputs = {
      InputSpec{"m", "mass of the panel", Kind::mass, "kg"}.range(above_zero),
      InputSpec{"phi", "handling factor (snatching, suction of a mould); 1 for the weight alone",
                Kind::number, ""}
          .range(1),
      InputSpec{"L", "length of the panel in this direction", Kind::length, "mm"}.range(above_zero),
      InputSpec{"inserts", "lines of inserts, from the edge"}.as_list(),
      InputSpec{"D", "bending stiffness of the whole panel, E I", Kind::bending_stiffness, "N mm²"}
          .range(above_zero),
      InputSpec{"S", "shear stiffness of the whole panel; left out: no shear deformation",
                Kind::force, "N"}
          .range(above_zero)
          .if_known(),
      InputSpec{"weaker", "parts of less stiffness, as in panel-strip"}.as_list().if_known(),
      InputSpec{"M_sag", "sagging moment that the panel can take", Kind::moment, "kN m"}
          .range(0)
          .if_known(),
      InputSpec{"M_hog", "hogging moment that the panel can take", Kind::moment, "kN m"}
          .range(0)
          .if_known()};
  k.example = "m=516kg phi=1.25 L=2400 \"inserts=500, 1900 mm\" D=1.2e12 S=6e6 M_sag=4 M_hog=4";
  k.work = lift_bending;
  return k;
}

}  // namespace

std::vector<WorkingKind> lifting_workings() {
  return {panel_mass_kind(), plan_centroid_kind(), sling_kind(), pick_points_kind(),
          lift_bending_kind()};
}

}  // namespace deckquire::workings
