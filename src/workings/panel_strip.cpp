// panel-strip: a strip of panel on its girders.
#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "workings/cautions.h"
#include "workings/inputs.h"
#include "workings/lists.h"
#include "workings/strength.h"
#include "workings/strip_inputs.h"
#include "workings/strip_pattern.h"

namespace deckquire::workings {

namespace {

/// The largest or smallest of something, from one load case or from all patterns.
struct Told {
  double value = 0, x = 0;
  std::string with;  // which bays are loaded; empty: one load case
};

struct Solved {
  Strip strip;
  std::vector<StripBay> bays;
  bool patterns = false;
  StripResult one;
  PatternResult many;

  const StripResult& any() const { return patterns ? many.always : one; }
  StripState largest(double x, Side side) const {
    return patterns ? many.largest(x, side) : one.at(x, side);
  }
  StripState smallest(double x, Side side) const {
    return patterns ? many.smallest(x, side) : one.at(x, side);
  }
};

Strip strip_of(const Reckoner& r) {
  Strip s;
  s.length = r.value("L");
  for (double x : typed_values(r.text("supports"), Kind::length, "mm", "supports")) {
    s.supports.push_back({x, r.text("hold") == "down"});
  }
  s.stretches = typed_stretches(r.given("weaker") ? r.text("weaker") : "", s.length, r.value("D"),
                                r.given("S") ? r.value("S") : no_shear_deformation);
  return s;
}

PatternLoads loads_of(Reckoner& r, const Strip& strip) {
  const double g =
      r.step("g_b", "permanent load of the strip", "g*b/1000", Kind::line_load, "kN/m");
  const double q = r.step("q_b", "variable load of the strip", "q*b/1000", Kind::line_load, "kN/m");
  PatternLoads loads;
  if (r.given("loads")) loads.always = typed_loads(r.text("loads"), r.value("b"));
  if (g != 0) loads.always.push_back(uniform_load(g, 0, strip.length));
  if (q == 0) return loads;
  if (r.text("pattern") == "bays") {
    loads.parts = each_bay(strip, q);
  } else {
    loads.always.push_back(uniform_load(q, 0, strip.length));
  }
  return loads;
}

std::string loaded(const Solved& s, const std::vector<bool>& parts) {
  std::string words;
  for (std::size_t i = 0; i < parts.size(); ++i) {
    if (parts[i]) words += (words.empty() ? "" : ", ") + s.bays[i].name;
  }
  return words.empty() ? "no bay loaded" : "variable load on " + words;
}

Told told(const Solved& s, const StripPeak& one, const PatternPeak& many) {
  if (!s.patterns) return {one.value, one.x, ""};
  return {many.value, many.x, loaded(s, many.parts)};
}

/// The place is a result of its own where it is asked for most.
void tell_peak(Reckoner& r, const std::string& symbol, const std::string& meaning, const Told& t,
               double divisor, Kind kind, const char* unit, bool place) {
  r.found(symbol, meaning, t.value / divisor, kind, unit,
          fmt::format("at x = {:.1f} mm{}{}", t.x, t.with.empty() ? "" : ", ", t.with));
  r.result(symbol);
  if (!place) return;
  r.found("x_" + symbol, "its place", t.x, Kind::length, "mm", "of the step before");
  r.result("x_" + symbol);
}

void tell_reactions(Reckoner& r, const Solved& s) {
  for (std::size_t i = 0; i < s.strip.supports.size(); ++i) {
    const std::string at = fmt::format("support {} at {:g} mm", i + 1, s.strip.supports[i].x);
    const std::string R = fmt::format("R_{}", i + 1);
    if (!s.patterns) {
      const char* words =
          s.one.lifted[i] ? "the strip has lifted off" : "from the step of shear at the support";
      r.found(R, "reaction of " + at, s.one.reactions[i] / 1e3, Kind::force, "kN", words);
      r.result(R);
      r.found(fmt::format("M_s{}", i + 1), "moment over " + at,
              s.one.at(s.strip.supports[i].x).M / 1e6, Kind::moment, "kN m", "from the solution");
      r.result(fmt::format("M_s{}", i + 1));
      continue;
    }
    r.found(R, "largest reaction of " + at, s.many.reactions[i].max / 1e3, Kind::force, "kN",
            "every bay that adds to it loaded");
    r.found(R + "_min", "smallest reaction of " + at, s.many.reactions[i].min / 1e3, Kind::force,
            "kN", "every bay that takes from it loaded");
    r.result(R);
    r.result(R + "_min");
  }
}

void tell_peaks(Reckoner& r, const Solved& s) {
  const StripPeaks p = s.patterns ? StripPeaks{} : s.one.peaks();
  const PatternResult& m = s.many;
  const auto tell = [&](const char* symbol, const char* meaning, const StripPeak& one,
                        const PatternPeak& many, double divisor, Kind kind, const char* unit) {
    tell_peak(r, symbol, meaning, told(s, one, many), divisor, kind, unit, kind != Kind::force);
  };
  tell("M_max", "largest moment (sagging)", p.max_M, m.max_M, 1e6, Kind::moment, "kN m");
  tell("M_min", "smallest moment (hogging)", p.min_M, m.min_M, 1e6, Kind::moment, "kN m");
  tell("V_max", "largest shear", p.max_V, m.max_V, 1e3, Kind::force, "kN");
  tell("V_min", "smallest shear", p.min_V, m.min_V, 1e3, Kind::force, "kN");
  tell("w_max", "largest deflection (down)", p.max_w, m.max_w, 1, Kind::length, "mm");
  tell("w_min", "smallest deflection (up)", p.min_w, m.min_w, 1, Kind::length, "mm");
}

/// The largest movement of each bay, and its limit.
void tell_bays(Reckoner& r, const Solved& s) {
  for (const StripBay& bay : s.bays) {
    const StripPeaks p = s.patterns ? StripPeaks{} : s.one.peaks(bay.from, bay.to);
    const bool up = -p.min_w.value > p.max_w.value;
    const PatternPeak m = s.patterns ? s.many.worst_w(bay.from, bay.to) : PatternPeak{};
    const Told t = told(s, up ? p.min_w : p.max_w, m);
    tell_peak(r, "w_" + bay.suffix, "largest movement of " + bay.name, t, 1, Kind::length, "mm",
              true);
    const char* k = bay.overhang ? "k_arm" : "k_span";
    const std::string words = "deflection of " + bay.name;
    if (r.given(k)) {
      r.verdict(words, std::abs(t.value) / 1e3, (bay.to - bay.from) / 1e3 / r.value(k),
                Kind::length, "mm");
    } else {
      r.not_checked(fmt::format("{}: needs {}", words, k));
    }
  }
}

void tell_places(Reckoner& r, const Solved& s) {
  if (!r.given("at")) return;
  int i = 0;
  for (double x : typed_values(r.text("at"), Kind::length, "mm", "at")) {
    if (x < 0 || x > s.strip.length) {
      throw WorkingError(fmt::format("at: {:g} mm lies off the strip", x));
    }
    ++i;
    const auto tell = [&](const char* symbol, const char* meaning, double StripState::*what,
                          double divisor, Kind kind, const char* unit) {
      const double hi = std::max(s.largest(x, Side::left).*what, s.largest(x, Side::right).*what);
      const double lo = std::min(s.smallest(x, Side::left).*what, s.smallest(x, Side::right).*what);
      const std::string name = fmt::format("{}_x{}", symbol, i);
      r.found(name, fmt::format("{} at x = {:g} mm", meaning, x), (-lo > hi ? lo : hi) / divisor,
              kind, unit, "from the solution; where it jumps or varies, the larger in size");
      r.result(name);
    };
    tell("M", "moment", &StripState::M, 1e6, Kind::moment, "kN m");
    tell("V", "shear", &StripState::V, 1e3, Kind::force, "kN");
    tell("w", "deflection", &StripState::w, 1, Kind::length, "mm");
  }
}

void judge_strength(Reckoner& r, const Solved& s, const std::vector<double>& hold_down) {
  const StripPeaks p = s.patterns ? StripPeaks{} : s.one.peaks();
  const auto larger = [&](const StripPeak& one, const PatternPeak& many, double sign) {
    return std::max(0.0, sign * told(s, one, many).value);
  };
  const auto judge = [&](const char* words, double demand, const char* capacity, Kind kind,
                         const char* unit) {
    if (r.given(capacity)) {
      r.verdict(words, demand, r.si(capacity), kind, unit);
    } else {
      r.not_checked(fmt::format("{}: needs {}", words, capacity));
    }
  };
  judge("sagging moment", larger(p.max_M, s.many.max_M, 1) / 1e3, "M_sag", Kind::moment, "kN m");
  judge("hogging moment", larger(p.min_M, s.many.min_M, -1) / 1e3, "M_hog", Kind::moment, "kN m");
  judge("shear", std::max(larger(p.max_V, s.many.max_V, 1), larger(p.min_V, s.many.min_V, -1)),
        "V_R", Kind::force, "kN");
  double most = 0;
  for (std::size_t i = 0; i < s.strip.supports.size(); ++i) {
    most = std::max(most, s.patterns ? s.many.reactions[i].max : s.one.reactions[i]);
  }
  judge("bearing on a support", most, "R_R", Kind::force, "kN");
  const double pull = *std::max_element(hold_down.begin(), hold_down.end());
  if (pull > 0) judge("holding a support down", pull, "R_up", Kind::force, "kN");
}

void draw_curves(Reckoner& r, const Solved& s) {
  const Unit &mm = *find_unit(Kind::length, "mm"), &kNm = *find_unit(Kind::moment, "kN m"),
             &kN = *find_unit(Kind::force, "kN");
  const auto draw = [&](const char* title, const Unit& unit, double scale,
                        double StripState::*what) {
    const std::string name(title);
    const auto& pieces = s.any().pieces;
    const auto add = [&](Curve c) {
      c.down = what == &StripState::w;
      r.curve(std::move(c));
    };
    if (!s.patterns) {
      add(curve_of(s.strip, pieces, title, mm, unit, scale,
                   [&](double x, Side side) { return s.one.at(x, side).*what; }));
      return;
    }
    add(curve_of(s.strip, pieces, (name + ", largest").c_str(), mm, unit, scale,
                 [&](double x, Side side) { return s.many.largest(x, side).*what; }));
    add(curve_of(s.strip, pieces, (name + ", smallest").c_str(), mm, unit, scale,
                 [&](double x, Side side) { return s.many.smallest(x, side).*what; }));
  };
  draw("moment", kNm, 1e-3, &StripState::M);
  draw("shear", kN, 1, &StripState::V);
  draw("deflection", mm, 1e-3, &StripState::w);
}

/// The same strip without shear deformation, for comparison.
void tell_bending_alone(Reckoner& r, Solved s, const PatternLoads& loads) {
  if (!r.given("S")) return;
  for (StripStretch& stretch : s.strip.stretches) stretch.S = no_shear_deformation;
  double w = 0;
  if (s.patterns) {
    const PatternResult p = solve_patterns(s.strip, loads);
    w = std::max(p.max_w.value, -p.min_w.value);
  } else {
    const StripPeaks p = solve(s.strip, loads.always).peaks();
    w = std::max(p.max_w.value, -p.min_w.value);
  }
  r.found("w_B", "largest movement without shear deformation, for comparison", w, Kind::length,
          "mm", "the same strip with S without bound");
  r.result("w_B");
}

void panel_strip(Reckoner& r) {
  Solved s;
  s.strip = strip_of(r);
  const PatternLoads loads = loads_of(r, s.strip);
  if (const std::string fault = fault_of(s.strip, loads.always); !fault.empty())
    throw WorkingError(fault);
  if (loads.always.empty() && loads.parts.empty()) {
    throw WorkingError("there is no load: give g, q or loads");
  }
  s.patterns = !loads.parts.empty();
  s.bays = bays_of(s.strip);
  if (s.patterns) {
    s.many = solve_patterns(s.strip, loads);
  } else {
    s.one = solve(s.strip, loads.always);
  }
  StripResult worst = s.any();
  for (const StripResult& part : s.many.parts) {
    worst.force_residual = std::max(worst.force_residual, part.force_residual);
    worst.moment_residual = std::max(worst.moment_residual, part.moment_residual);
  }
  tell_solution(r, worst);
  tell_reactions(r, s);
  tell_peaks(r, s);
  tell_bays(r, s);
  tell_places(r, s);
  tell_bending_alone(r, s, loads);
  std::vector<double> hold_down;
  bool lifted = false;
  for (std::size_t i = 0; i < s.strip.supports.size(); ++i) {
    hold_down.push_back(-(s.patterns ? s.many.reactions[i].min : s.one.reactions[i]));
    lifted = lifted || (!s.patterns && s.one.lifted[i]);
  }
  if (r.text("hold") == "push") {
    r.limit("the strip rests on every support", !lifted,
            "it lifts off where a reaction is 0: hold it down there, or accept that it moves");
  }
  judge_strength(r, s, hold_down);
  draw_curves(r, s);
  if (!r.given("S"))
    r.caution("Without S the strip does not deform in shear: sandwich panels sag more.");
  r.caution(
      "Stiffness is constant but for the weaker parts entered; for a crowned panel the depth at "
      "the edge is "
      "on the safe side.");
  r.caution(cautions::aid);
  r.caution(cautions::laminate);
  r.caution(cautions::local);
}

}  // namespace

WorkingKind panel_strip_kind() {
  WorkingKind k;
  k.name = "panel-strip";
  k.title = "Strip of a panel on its girders";
  k.about =
      "A strip across the bridge on two or more girders, with overhangs, with or without shear "
      "deformation; the "
      "variable load lies everywhere, or on each bay or not (patterns). Supports: 600, 2400 mm. "
      "Loads, parted by "
      "semicolons: 800 N @ 75 mm; 17.8 kN @ 2300 to 2500 mm (a patch); 2.6 kN m @ 100 mm (a "
      "couple, clockwise); "
      "5 kPa @ 0 to 900 mm. Weaker parts: 0.6 @ 1200 to 1500 mm (of D and S), or 0.6 0.8 @ … (of "
      "D, of S).";
  k.group = "strength";
  k.sources = {
      "Timoshenko's beam: w' = θ + V/S, θ' = −M/D, θ continuous over supports (derived; "
      "three-moment "
      "equation with shear, agrees with the stiffness method)"};
  k.inputs = {
      InputSpec{"L", "length of the strip across the bridge", Kind::length, "mm"}.range(above_zero),
      InputSpec{"supports", "girders, from the left edge"}.as_list(),
      InputSpec{"b", "width of the strip, along the bridge", Kind::length, "mm"}
          .range(above_zero)
          .standard("1000", "a strip of one metre"),
      InputSpec{"D", "bending stiffness of the whole strip, E I", Kind::bending_stiffness, "N mm²"}
          .range(above_zero),
      InputSpec{"S", "shear stiffness of the whole strip, κ G A", Kind::force, "N"}
          .range(above_zero)
          .if_known(),
      InputSpec{"weaker", "parts of less stiffness"}.as_list().if_known(),
      InputSpec{"hold", "supports hold the strip down, or can only push"}
          .one_of({"down", "push"})
          .standard("down", "clips hold the panel down"),
      InputSpec{"g", "permanent load", Kind::pressure, "kPa"}.standard("0", "none"),
      InputSpec{"q", "variable load", Kind::pressure, "kPa"}.standard("0", "none"),
      InputSpec{"pattern", "where the variable load lies"}
          .one_of({"everywhere", "bays"})
          .standard("everywhere", "one load case"),
      InputSpec{"loads", "further loads, always there"}.as_list().if_known(),
      InputSpec{"at", "places at which results are wanted"}.as_list().if_known(),
      InputSpec{"k_span",
                "span over largest deflection (AASHTO guide 2009 Art. 5: 360, pedestrian load, "
                "second-hand)",
                Kind::number, ""}
          .range(above_zero)
          .if_known(),
      InputSpec{"k_arm", "overhang over largest deflection (AASHTO guide 2009: 220, from memory)",
                Kind::number, ""}
          .range(above_zero)
          .if_known(),
      InputSpec{"M_sag", "sagging moment that the strip can take", Kind::moment, "kN m"}
          .range(0)
          .if_known(),
      InputSpec{"M_hog", "hogging moment that the strip can take", Kind::moment, "kN m"}
          .range(0)
          .if_known(),
      InputSpec{"V_R", "shear that the strip can take", Kind::force, "kN"}.range(0).if_known(),
      InputSpec{"R_R", "bearing that the strip can take", Kind::force, "kN"}.range(0).if_known(),
      InputSpec{"R_up", "what holds the strip down at one support", Kind::force, "kN"}
          .range(0)
          .if_known()};
  k.example =
      "L=3700 \"supports=450, 1650, 3150 mm\" q=5kPa D=1.2e12 S=6e6 \"loads=800 N @ 75 mm; 17.8 kN "
      "@ 2300 to 2500 mm\" k_span=360 k_arm=220";
  k.work = panel_strip;
  return k;
}

}  // namespace deckquire::workings
