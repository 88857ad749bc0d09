// Heat, gaps and tolerances.
#include <fmt/format.h>

#include <cmath>

#include "workings/cautions.h"
#include "workings/groups.h"
#include "workings/inputs.h"
#include "workings/lists.h"

namespace deckquire::workings {

namespace {

constexpr const char* steel_why =
    "structural steel, AASHTO LRFD 6.4.1: 6.5 millionths per °F (second-hand)";

void draw_gaps(Reckoner& r, double cold, double hot) {
  Curve c{"gap, girder and deck at one temperature",
          *find_unit(Kind::temperature, "°C"),
          *find_unit(Kind::length, "mm"),
          {},
          {},
          {}};
  for (double T = std::ceil(cold / 5) * 5; T <= hot; T += 5) {
    c.x.push_back(T);
    c.y.push_back((r.value("p") * (1 + r.value("alpha_s") * (T - r.value("T_0"))) -
                   r.value("L") * (1 + r.value("alpha_f") * (T - r.value("T_0")))) /
                  1e3);
  }
  r.curve(c);
}

void thermal_gap(Reckoner& r) {
  r.condition("L < p", "the panel is shorter than the pitch", "there is no gap: shorten the panel");
  r.step("g_0", "gap as drawn, at the reference temperature", "p - L", Kind::length, "mm");
  r.step("c", "closing of the gap per degree, girder and deck alike", "alpha_f*L - alpha_s*p",
         Kind::length, "mm");
  r.step("g_h", "gap in the hottest case",
         "p*(1 + alpha_s*(T_sh - T_0)) - L*(1 + alpha_f*(T_fh - T_0))", Kind::length, "mm");
  r.step("g_c", "gap in the coldest case",
         "p*(1 + alpha_s*(T_sc - T_0)) - L*(1 + alpha_f*(T_fc - T_0))", Kind::length, "mm");
  r.step("g_s", "least gap to set at the reference temperature",
         "g_min + g_0 - min(g_h, g_c, g_0) + t_L", Kind::length, "mm");
  for (const char* s : {"g_0", "c", "g_h", "g_c", "g_s"}) r.result(s);
  if (r.given("T_i")) {
    r.step("g_i", "gap to set when girder and deck are at the temperature of setting",
           "p*(1 + alpha_s*(T_i - T_0)) - L*(1 + alpha_f*(T_i - T_0))", Kind::length, "mm");
    r.result("g_i");
  } else {
    r.not_checked("gap at the temperature of setting: needs T_i");
  }
  r.step("g_least", "least gap with the length tolerance", "min(g_h, g_c, g_0) - t_L", Kind::length,
         "mm");
  r.step("g_most", "largest gap with the length tolerance", "max(g_h, g_c, g_0) + t_L",
         Kind::length, "mm");
  r.result("g_least");
  r.result("g_most");
  r.verdict("least gap asked for against the least that is left", "g_min", "g_least");
  if (r.text("joint") == "open") {
    r.verdict("widest gap", "g_most", "g_max");
  } else {
    r.not_checked("stretch and squeeze of what closes the joint: its maker's limits");
  }
  if (r.given("a")) {
    r.step(
        "u_h",
        "movement across the bridge that the fixing on two girders must let happen, hottest case",
        "abs(alpha_f*(T_fh - T_0) - alpha_s*(T_sh - T_0))*a", Kind::length, "mm");
    r.step("u_c", "the same, coldest case", "abs(alpha_f*(T_fc - T_0) - alpha_s*(T_sc - T_0))*a",
           Kind::length, "mm");
    r.step("u", "the larger", "max(u_h, u_c)", Kind::length, "mm");
    r.result("u");
    r.verdict("play of the fixing across", "u", "play");
  } else {
    r.not_checked("play across the bridge: needs a (distance of the girders)");
  }
  draw_gaps(r, std::min(r.value("T_sc"), r.value("T_fc")),
            std::max(r.value("T_sh"), r.value("T_fh")));
  r.caution(
      "Holds where each panel is fixed to the girder at its middle; fixed at one end, the same "
      "movement "
      "gathers at the other.");
  r.caution(cautions::gaps);
  r.caution(cautions::field);
}

std::vector<InputSpec> temperatures(bool deck) {
  std::vector<InputSpec> t{
      InputSpec{"T_0", "reference temperature", Kind::temperature, "°C"}.standard(
          "15", "common practice, no source"),
      InputSpec{"T_sh", "steel at its hottest", Kind::temperature, "°C"},
      InputSpec{"T_sc", "steel at its coldest", Kind::temperature, "°C"}};
  if (!deck) return t;
  t.push_back(InputSpec{"T_fh", "deck in the same hottest case", Kind::temperature, "°C"});
  t.push_back(InputSpec{"T_fc", "deck in the same coldest case", Kind::temperature, "°C"});
  return t;
}

WorkingKind thermal_gap_kind() {
  WorkingKind k;
  k.name = "thermal-gap";
  k.title = "Gap between panels in heat and cold";
  k.about =
      "Gap between two panels fixed to a girder at their middles, with girder and deck at "
      "temperatures of "
      "their own.";
  k.group = "movement";
  k.sources = {"Free expansion of panel and girder (derived)",
               "Steel: AASHTO LRFD 6.4.1 (second-hand); laminate: lies between 8.6 along and 22.1 "
               "across the fibres, "
               "millionths per °C (Kaw, Mechanics of Composite Materials, Table 2.1, second-hand)"};
  k.inputs = {
      InputSpec{"p", "pitch of the panels", Kind::length, "mm"}.range(above_zero),
      InputSpec{"L", "length of a panel", Kind::length, "mm"}.range(above_zero),
      InputSpec{"alpha_s", "expansion of the girder", Kind::expansion, "1/K"}.standard(
          "11.7e-6 1/K", steel_why),
      InputSpec{"alpha_f", "expansion of the panel along the bridge", Kind::expansion, "1/K"}};
  for (InputSpec& t : temperatures(true)) k.inputs.push_back(std::move(t));
  k.inputs.insert(
      k.inputs.end(),
      {InputSpec{"T_i", "temperature at which the panels are set", Kind::temperature, "°C"}
           .if_known(),
       InputSpec{"g_min", "least gap at any time", Kind::length, "mm"}.range(0).standard(
           "3", "common practice, no source"),
       InputSpec{"g_max", "widest gap to walk on", Kind::length, "mm"}.range(0).standard(
           "0.5 in", "1/2 in, US ADA standards 302.3 (from memory)"),
       InputSpec{"joint", "open to walk over, or closed by a sealant, a lap or a cover plate"}
           .one_of({"open", "closed"})
           .standard("open", "the case to be judged"),
       InputSpec{"t_L", "tolerance of the length of one panel", Kind::length, "mm"}
           .range(0)
           .standard("0", "none entered"),
       InputSpec{"a", "distance of the two girders that a panel is fixed on", Kind::length, "mm"}
           .range(0)
           .if_known(),
       InputSpec{"play", "play of the fixing across the bridge", Kind::length, "mm"}
           .range(0)
           .if_known()});
  k.example = "p=2400 L=2394 alpha_f=20e-6 T_sh=45 T_fh=60 T_sc=-30 T_fc=-30 T_i=5 a=1800 play=2mm";
  k.work = thermal_gap;
  return k;
}

/// Girder and panels at one temperature each time, so that whoever sets a panel reads one thermometer;
/// `gap`: the formula, with {0} for that temperature.
void gaps_by_temperature(Reckoner& r, const char* gap) {
  const bool us = r.text("scale") == "F";
  const double first = us ? 32 : 0, step = us ? 9 : 5;
  ResultTable table{{"Girder and panels at", "Gap to set"}, {}};
  for (int i = 0; i <= 8; ++i) {
    const std::string k = std::to_string(i + 1), T = "T_" + k;
    const double shown = first + i * step;
    r.found(T, "girder and panels at", us ? (shown - 32) / 1.8 : shown, Kind::temperature, "°C",
            us ? fmt::format("{:g} °F", shown) : "row of the table");
    r.step("g_" + k, "gap to set then", fmt::format(fmt::runtime(gap), T), Kind::length, "mm");
    r.result(T, us ? "°F" : "°C");
    r.result("g_" + k, us ? "in" : "mm");
    table.rows.push_back({T, "g_" + k});
  }
  r.table(std::move(table));
  r.caution(cautions::gaps);
  r.caution(cautions::field);
}

void setting_gaps(Reckoner& r) {
  gaps_by_temperature(r, "p*(1 + alpha_s*({0} - T_0)) - L*(1 + alpha_f*({0} - T_0))");
}

void end_setting_gaps(Reckoner& r) {
  if (r.given("x_f"))
    need(r, "alpha_f", "expansion of the panel, as x_f is given");
  gaps_by_temperature(r, r.given("x_f") ? "g - alpha_s*x*({0} - T_0) - alpha_f*x_f*({0} - T_0)"
                                        : "g - alpha_s*x*({0} - T_0)");
}

WorkingKind end_setting_gaps_kind() {
  WorkingKind k;
  k.name = "end-setting-gaps";
  k.title = "Gap to set at the deck's end, by temperature";
  k.about =
      "The gap to leave where the steel parts with the joint, when girder and panels have a temperature, so "
      "that it is as drawn at the reference temperature.";
  k.group = "movement";
  k.sources = {"Free expansion, as girder-movement with girder and deck at one temperature (derived)"};
  k.inputs = {
      InputSpec{"g", "gap at the reference temperature", Kind::length, "mm"}.range(0),
      InputSpec{"x", "distance from the girder's fixed point to the last panel's fixing", Kind::length, "mm"}
          .range(0),
      InputSpec{"alpha_s", "expansion of the girder", Kind::expansion, "1/K"}.standard("11.7e-6 1/K", steel_why),
      InputSpec{"x_f", "distance on from that fixing to the panel's edge", Kind::length, "mm"}
          .range(0)
          .if_known(),
      InputSpec{"alpha_f", "expansion of the panel", Kind::expansion, "1/K"}.if_known(),
      InputSpec{"T_0", "reference temperature", Kind::temperature, "°C"}.standard(
          "15", "common practice, no source"),
      InputSpec{"scale", "scale of the table"}.one_of({"C", "F"}).standard("C", "SI")};
  k.example = "g=32mm x=15m x_f=1.2m alpha_f=20e-6";
  k.work = end_setting_gaps;
  return k;
}

WorkingKind setting_gaps_kind() {
  WorkingKind k;
  k.name = "setting-gaps";
  k.title = "Gap to set, by temperature";
  k.about =
      "The gap to leave between two panels when girder and panels have a temperature, so that "
      "it is as drawn at the reference temperature.";
  k.group = "movement";
  k.sources = {"Free expansion of panel and girder, as thermal-gap (derived)"};
  k.inputs = {
      InputSpec{"p", "pitch of the panels", Kind::length, "mm"}.range(above_zero),
      InputSpec{"L", "length of a panel", Kind::length, "mm"}.range(above_zero),
      InputSpec{"alpha_s", "expansion of the girder", Kind::expansion, "1/K"}.standard(
          "11.7e-6 1/K", steel_why),
      InputSpec{"alpha_f", "expansion of the panel along the bridge", Kind::expansion, "1/K"},
      InputSpec{"T_0", "reference temperature", Kind::temperature, "°C"}.standard(
          "15", "common practice, no source"),
      InputSpec{"scale", "scale of the table"}.one_of({"C", "F"}).standard("C", "SI")};
  k.example = "p=2400 L=2394 alpha_f=20e-6";
  k.work = setting_gaps;
  return k;
}

void girder_movement(Reckoner& r) {
  const bool panel = r.given("x_f");
  if (panel) {
    need(r, "alpha_f", "expansion of the panel, as x_f is given");
    need(r, "T_fh", "deck in the hottest case, as x_f is given; a temperature");
    need(r, "T_fc", "deck in the coldest case, as x_f is given; a temperature");
  }
  const auto movement = [panel](const std::string& steel, const std::string& deck) {
    return "alpha_s*x*(" + steel + " - T_0)" + (panel ? " + alpha_f*x_f*(" + deck + " - T_0)" : "");
  };
  r.step("u_h", "movement to the hottest (+: longer)", movement("T_sh", "T_fh"), Kind::length,
         "mm");
  r.step("u_c", "movement to the coldest", movement("T_sc", "T_fc"), Kind::length, "mm");
  r.step("u", "range", "u_h - u_c", Kind::length, "mm");
  for (const char* s : {"u_h", "u_c", "u"}) r.result(s);
  r.condition("T_sh >= T_sc", "hottest and coldest are not changed over",
              "enter the hotter one as T_sh");
  if (r.given("g")) {
    r.step("g_h", "gap at the hottest", "g - u_h", Kind::length, "mm");
    r.step("g_c", "gap at the coldest", "g - u_c", Kind::length, "mm");
    r.result("g_h");
    r.result("g_c");
    r.step("g_0", "least gap, at the reference temperature too", "min(g_h, g_c, g)", Kind::length,
           "mm");
    r.verdict("least gap asked for against the least that is left", "g_min", "g_0");
    if (r.given("w_p")) {
      r.step("g_w", "widest gap", "max(g_h, g_c, g)", Kind::length, "mm");
      r.step("l_p", "lap of the cover plate on either side, if it lies in the middle of it",
             "(w_p - g_w)/2", Kind::length, "mm");
      r.result("g_w");
      r.result("l_p");
      r.verdict("widest gap against the width of its cover plate", "g_w", "w_p");
    }
  } else {
    r.not_checked("gap at the abutment: needs g (gap at the reference temperature)");
  }
  r.caution(cautions::gaps);
  r.caution(cautions::field);
}

WorkingKind girder_movement_kind() {
  WorkingKind k;
  k.name = "girder-movement";
  k.title = "Movement of the deck's end with the girder";
  k.about =
      "How far the free end of a girder, and the edge of the last panel on it, moves with the "
      "temperature.";
  k.group = "movement";
  k.sources = {"Free expansion (derived)", "Steel: AASHTO LRFD 6.4.1 (second-hand)"};
  k.inputs = {
      InputSpec{"x",
                "distance from the girder's fixed point to its end, or to the last panel's fixing",
                Kind::length, "mm"}
          .range(0),
      InputSpec{"alpha_s", "expansion of the girder", Kind::expansion, "1/K"}.standard(
          "11.7e-6 1/K", steel_why)};
  for (InputSpec& t : temperatures(false)) k.inputs.push_back(std::move(t));
  k.inputs.insert(
      k.inputs.end(),
      {InputSpec{"x_f", "distance on from that fixing to the panel's edge", Kind::length, "mm"}
           .range(0)
           .if_known(),
       InputSpec{"alpha_f", "expansion of the panel", Kind::expansion, "1/K"}.if_known(),
       InputSpec{"T_fh", "deck in the hottest case", Kind::temperature, "°C"}.if_known(),
       InputSpec{"T_fc", "deck in the coldest case", Kind::temperature, "°C"}.if_known(),
       InputSpec{"g", "gap at the abutment at the reference temperature", Kind::length, "mm"}
           .range(0)
           .if_known(),
       InputSpec{"g_min", "least gap at any time", Kind::length, "mm"}.range(0).standard(
           "3", "common practice, no source"),
       InputSpec{"w_p", "width of the plate that covers the gap", Kind::length, "mm"}
           .range(0)
           .if_known()});
  k.example = "x=24m T_sh=45 T_sc=-30 g=25mm w_p=160mm";
  k.work = girder_movement;
  return k;
}

struct StackPart {
  double count = 1, size = 0, tolerance = 0;
};

/// "10 x 2394 +- 3 mm": how often, size, tolerance; "-6 +- 2" counts against the others.
StackPart typed_part(const std::string& item) {
  StackPart part;
  std::string rest = item;
  if (const auto halves = split(item, " x "); halves.size() == 2) {
    part.count = typed_value(halves[0], Kind::count, "", "parts");
    rest = halves[1];
  }
  std::vector<std::string> sides = split(rest, "+-");
  if (sides.size() != 2) sides = split(rest, "±");
  if (sides.size() != 2 || part.count < 1) {
    throw WorkingError(
        fmt::format("parts: '{}' is no part; write 10 x 2394 +- 3 mm, or 6 +- 2 mm", item));
  }
  const auto last = sides[1].find_last_of("0123456789.");
  const auto own = sides[0].find_last_of("0123456789.");
  if (own + 1 == sides[0].size() && last != std::string::npos)
    sides[0] += sides[1].substr(last + 1);
  part.size = typed_value(sides[0], Kind::length, "mm", "parts");
  part.tolerance = typed_value(sides[1], Kind::length, "mm", "parts");
  if (part.tolerance < 0)
    throw WorkingError(fmt::format("parts: '{}' has a tolerance below 0", item));
  return part;
}

void tolerance_stack(Reckoner& r) {
  double nominal = 0, worst = 0, squares = 0;
  int i = 0;
  for (const std::string& item : split(r.text("parts"), ";")) {
    const StackPart part = typed_part(item);
    ++i;
    nominal += part.count * part.size;
    worst += part.count * part.tolerance;
    squares += part.count * part.tolerance * part.tolerance;
  }
  if (i == 0) throw WorkingError("parts: there is none; write 10 x 2394 +- 3 mm; 9 x 6 +- 2 mm");
  r.found("G", "nominal sum", nominal, Kind::length, "mm",
          fmt::format("over {} kinds of parts, each as often as said", i));
  r.found("T_w", "worst case, ±", worst, Kind::length, "mm", "sum of all tolerances");
  r.found("Q", "sum of the squares of all tolerances", squares, Kind::area, "mm²",
          "each part as often as said");
  r.step("T_r", "root of the sum of squares, ±", "sqrt(Q)", Kind::length, "mm");
  r.step("T_k", "the same, inflated, ±", "k*T_r", Kind::length, "mm");
  for (const char* s : {"G", "T_w", "T_r", "T_k"}) r.result(s);
  r.verdict("worst case", "T_w", "T_max");
  r.caution(
      "The root of the sum of squares holds for independent, centred, near-normal dimensions only; "
      "take the "
      "worst case for holes that must fit girders and for least gaps.");
  r.caution(cautions::field);
}

WorkingKind tolerance_stack_kind() {
  WorkingKind k;
  k.name = "tolerance-stack";
  k.title = "Sum of tolerances along a run";
  k.about =
      "Worst case and root of the sum of squares of a chain of parts, parted by semicolons: how "
      "often x size +- "
      "tolerance, as in 10 x 2394 +- 3 mm; 9 x 6 +- 2 mm; 0 +- 5 mm.";
  k.group = "movement";
  k.sources = {"F. Scholz, Tolerance Stack Analysis Methods, 1995 (methods)",
               "Inflation by 1.5 where centring or independence is doubtful (second-hand)"};
  k.inputs = {
      InputSpec{"parts", "parts of the run"}.as_list(),
      InputSpec{"k", "inflation of the root of the sum of squares", Kind::number, ""}
          .range(1)
          .standard("1.5", "second-hand"),
      InputSpec{"T_max", "largest deviation that fits", Kind::length, "mm"}.range(0).if_known()};
  k.example = "\"parts=10 x 2394 +- 3 mm; 9 x 6 +- 2 mm; 0 +- 5 mm\"";
  k.work = tolerance_stack;
  return k;
}

}  // namespace

std::vector<WorkingKind> movement_workings() {
  return {thermal_gap_kind(), setting_gaps_kind(), end_setting_gaps_kind(), girder_movement_kind(), tolerance_stack_kind()};
}

}  // namespace deckquire::workings
