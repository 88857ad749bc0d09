// Rain on the deck: runoff, inflow into a gutter, and the times that water takes.
#include <fmt/format.h>

#include <algorithm>
#include <string_view>

#include "base/text.h"
#include "workings/drainage_parts.h"

namespace deckquire::workings::drainage {
namespace {

/// "x : y, x : y" with a kind each.
std::vector<std::pair<double, double>> pairs_of(const std::string& list, const std::string& symbol,
                                                std::string_view between, const Unit& first,
                                                const Unit& second) {
  std::vector<std::pair<double, double>> out;
  for (std::size_t from = 0; from <= list.size();) {
    const std::size_t end = std::min(list.find(',', from), list.size());
    const std::string item = list.substr(from, end - from);
    from = end + 1;
    const auto at = item.find(between);
    if (at == std::string::npos)
      throw WorkingError(
          fmt::format("{}: '{}' has no '{}' between its two values", symbol, item, between));
    const Parsed a = parse_quantity(item.substr(0, at), first);
    const Parsed b = parse_quantity(item.substr(at + between.size()), second);
    if (!a.si || !b.si) throw WorkingError(symbol + ": " + (a.si ? b.fault : a.fault));
    out.push_back({*a.si, *b.si});
  }
  return out;
}

void rational(Reckoner& r) {
  r.constant("Ku", "constant of the rational method", r.either(360, 1.0),
             r.either("SI: m³/s, mm/h, ha; HEC-22 3rd ed., eq. 3-1",
                      "US: ft³/s, in/h, acre; HEC-22 4th ed., eq. 4.1 (exactly 1/1.00833)"));
  r.step("Q", "runoff", "C*i*A/Ku", Kind::flow, flow_unit(r));
  r.condition(r.either("A <= 80", "A <= 200"), "the area is one that the method is for",
              "take a method for larger catchments");
  r.result("Q", r.either("L/s", "ft³/s"));
}

void coefficient(Reckoner& r) {
  const Unit& area = *find_unit(Kind::area, r.either("ha", "acre"));
  const Unit& number = units_of(Kind::number).front();
  std::string products, areas;
  int k = 0;
  for (const auto& [a, c] : pairs_of(r.text("areas"), "areas", "@", area, number)) {
    if (!(a > 0) || !(c > 0 && c <= 1))
      throw WorkingError("areas: every area is above 0 and every coefficient in 0 to 1");
    const std::string i = std::to_string(++k);
    r.looked_up("C" + i, "runoff coefficient of part " + i, c, "areas");
    r.looked_up("A" + i, "area of part " + i, area.from_si(a), Kind::area, area.label, "areas");
    products += (k > 1 ? " + C" : "C") + i + "*A" + i;
    areas += (k > 1 ? " + A" : "A") + i;
  }
  r.step("A", "area", areas, Kind::area, area.label);
  r.step("C", "runoff coefficient of the whole", "(" + products + ")/A", Kind::number, "");
  r.result("C");
  r.result("A");
}

void intensity(Reckoner& r) {
  const Unit& minute = *find_unit(Kind::time, "min");
  const Unit& rate = *find_unit(Kind::rain, r.either("mm/h", "in/h"));
  const auto table = pairs_of(r.text("idf"), "idf", ":", minute, rate);
  for (std::size_t k = 0; k + 1 < table.size(); ++k)
    if (table[k].first >= table[k + 1].first)
      throw WorkingError("idf: the durations are in rising order");
  const double t = r.si("t");
  if (t > table.back().first)
    throw WorkingError(
        fmt::format("t = {} min is beyond the last duration of idf, {} min; the table is "
                    "not extended",
                    print_given(t, minute), print_given(table.back().first, minute)));
  const auto look_up = [&](const std::string& end, const std::pair<double, double>& row) {
    r.looked_up("t" + end, "duration", minute.from_si(row.first), Kind::time, "min", "idf");
    r.looked_up("i" + end, "its intensity", rate.from_si(row.second), Kind::rain, rate.label,
                "idf");
  };
  if (t <= table.front().first) {
    look_up("1", table.front());
    r.step("i", "intensity; no shorter duration than the first of the table", "i1", Kind::rain,
           rate.label);
  } else {
    const auto next =
        std::find_if(table.begin(), table.end(), [&](const auto& row) { return row.first >= t; });
    look_up("1", *(next - 1));
    look_up("2", *next);
    r.step("i", "intensity, linear between the durations beside t",
           "i1 + (i2 - i1)*(t - t1)/(t2 - t1)", Kind::rain, rate.label);
  }
  r.result("i");
}

void deck_inflow(Reckoner& r) {
  r.step("q", "flow into the gutter per length", r.either("C*i*w/3600000", "C*i*w/43560"),
         Kind::inflow, r.either("m²/s", "ft²/s"));
  r.result("q");
  if (!r.given("length")) return;
  r.step("Q", "flow at the end of the length", "q*length", Kind::flow, flow_unit(r));
  r.result("Q", r.either("L/s", "ft³/s"));
}

void sheet_time(Reckoner& r) {
  if (r.given("i") == r.given("P2"))
    throw WorkingError(
        "give either i (rain intensity; mm/h, in/h), for the kinematic wave, or P2 (depth of the "
        "2-year "
        "24-hour rain; mm, in), and not both");
  if (r.given("i")) {
    r.constant("Ku", "constant of the kinematic wave", r.either(6.92, 0.933),
               "HEC-22 3rd ed., eq. 3-3");
    r.step("N", "time at an intensity of 1", "Ku*(n*L/S^(1/2))^0.6", Kind::number, "");
    r.step("t", "time of sheet flow", "N/i^0.4", Kind::time, "min");
    r.caution(
        "The intensity depends on the time: repeat with the intensity at t until both agree.");
  } else {
    r.constant("Ku", "constant of the rain depth form", r.either(5.5, 0.42),
               "HEC-22 4th ed., eq. 4.3");
    r.step("t", "time of sheet flow", "Ku/P2^(1/2)*(n*L/S^(1/2))^0.8", Kind::time, "min");
  }
  r.condition(r.either("L <= 91.44", "L <= 300"), "the water still flows as a sheet",
              "take shallow concentrated flow for the rest of the path");
  r.result("t");
}

void gutter_time(Reckoner& r) {
  if (!(r.si("T2") > r.si("T1")))
    throw WorkingError("T2 must be larger than T1: the flow grows along the reach");
  r.constant("Ku", "constant of the mean velocity", r.either(0.564, 0.84),
             "HEC-22 4th ed., eq. 5.15");
  r.step("KG", "conveyance term", "SL^(1/2)*Sx^(2/3)/n", Kind::number, "");
  r.step("Va", "mean velocity along the reach", "Ku*KG*(T2^(8/3) - T1^(8/3))/(T2^2 - T1^2)",
         Kind::velocity, velocity_unit(r));
  r.step("t", "time of flow", "L/(60*Va)", Kind::time, "min");
  r.result("Va");
  r.result("t");
}

void deck_time(Reckoner& r) {
  r.constant("Ku", "constant of the kinematic wave", r.either(6.92, 0.933),
             "HEC-22 3rd ed., eq. 3-3");
  r.step("S", "slope of the path, down the cross slope and the grade", "sqrt(Sx^2 + SL^2)",
         Kind::number, "");
  r.step("L", "length of the path to the gutter", "w*sqrt(1 + (SL/Sx)^2)", Kind::length,
         length_unit(r));
  r.step("ts", "time of sheet flow", "Ku/i^0.4*(n*L/S^(1/2))^0.6", Kind::time, "min");
  r.step("tg", "time in the gutter, from the high point to the spread T",
         r.either("40000*Sx*T^2/(C*i*w)", "484*Sx*T^2/(C*i*w)"), Kind::time, "min");
  r.step("t", "time of both", "ts + tg", Kind::time, "min");
  r.step("tc", "time of concentration", "max(t, tmin)", Kind::time, "min");
  r.result("t");
  r.result("tc");
}

InputSpec slope(std::string symbol, std::string meaning) {
  return InputSpec{std::move(symbol), std::move(meaning)}.range(1e-5, 0.5);
}

InputSpec length_of(std::string symbol, std::string meaning) {
  return InputSpec{std::move(symbol), std::move(meaning), Kind::length, "m", "ft"}.range(0.01, 1e5);
}

InputSpec sheet_roughness() {
  return InputSpec{"n", "Manning's roughness for sheet flow"}.range(0.005, 1);
}

}  // namespace

std::vector<WorkingKind> runoff() {
  return {
      {.name = "rational-runoff",
       .title = "Runoff by the rational method",
       .about = "Flow from an area under steady rain.",
       .sources = {hec22_4 + ", eq. 4.1", hec22_3 + ", eq. 3-1"},
       .inputs = {runoff_coefficient(), rain(),
                  InputSpec{"A", "area that drains", Kind::area, "ha", "acre"}.range(1e-4, 1e8)},
       .us_constants = true,
       .work = rational,
       .example = "C=0.9 i=150mm/h A=108m2"},
      {.name = "runoff-coefficient",
       .title = "Runoff coefficient of an area of several surfaces",
       .about = "Mean of the coefficients, weighted by area.",
       .sources = {hec22_4 + ", eq. 4.2"},
       .inputs =
           {InputSpec{"areas", "parts, each area @ coefficient, with commas between"}.as_list()},
       .us_constants = true,
       .work = coefficient,
       .example = "areas=\"108 m2 @ 0.9, 40 m2 @ 0.75\""},
      {.name = "rain-intensity",
       .title = "Rain intensity out of a table of durations",
       .about = "Linear between durations, never above the intensity of the first.",
       .sources = {hec22_4 + ", §9.2.2 and ex. 9.2 (no duration below 5 min)"},
       .inputs =
           {InputSpec{"t", "time of concentration", Kind::time, "min"}.range(1),
            InputSpec{"idf", "table, each duration : intensity, with commas between"}.as_list()},
       .us_constants = true,
       .work = intensity,
       .example = "t=7.5 idf=\"5 min: 180 mm/h, 10 min: 150 mm/h, 15 min: 130 mm/h\""},
      {.name = "deck-inflow",
       .title = "Flow from the deck into one gutter, per length",
       .about = "The width is half the deck where the high line is in the middle.",
       .sources = {hec22_4 + ", eq. 4.1, for a strip of deck"},
       .inputs = {runoff_coefficient(), rain(), draining_width(),
                  length_of("length", "length of the gutter").if_known()},
       .us_constants = true,
       .work = deck_inflow,
       .example = "C=0.9 i=150mm/h w=1.8 length=60"},
      {.name = "sheet-flow-time",
       .title = "Time of sheet flow",
       .about = "By the kinematic wave (give i) or from the depth of rain (give P2).",
       .sources = {hec22_3 + ", eq. 3-3 (kinematic wave)", hec22_4 + ", eq. 4.3 (rain depth)"},
       .inputs = {sheet_roughness(), length_of("L", "length of the path"),
                  slope("S", "slope of the path"), rain().if_known(),
                  InputSpec{"P2", "depth of the 2-year 24-hour rain", Kind::length, "mm", "in"}
                      .range(1e-3, 2)
                      .if_known()},
       .us_constants = true,
       .work = sheet_time,
       .example = "n=0.015 L=1.8 S=2% i=150mm/h"},
      {.name = "gutter-time",
       .title = "Time of flow in a gutter that gains water",
       .about = "Between the spreads at both ends of a reach; T1 = 0 from a high point.",
       .sources = {hec22_4 + ", eqs 5.15, 5.16, C.7"},
       .inputs = {length_of("L", "length of the reach"),
                  InputSpec{"T1", "spread at the upper end", Kind::length, "m", "ft"}
                      .range(0, 100)
                      .standard("0", "the reach begins at a high point"),
                  InputSpec{"T2", "spread at the lower end", Kind::length, "m", "ft"}.range(1e-3,
                                                                                            100),
                  roughness(), cross_slope(), grade()},
       .us_constants = true,
       .work = gutter_time,
       .example = "L=22.16 T2=0.6 n=0.015 Sx=2% SL=2.5%"},
      {.name = "deck-time",
       .title = "Time of concentration of a deck with cross slope and grade",
       .about =
           "Sheet flow to the gutter and gutter flow from the high point to the first scupper.",
       .sources =
           {hec22_3 + ", eq. 3-3 (sheet flow)",
            "FHWA HEC-21, Design of Bridge Deck Drainage, 1993 (gutter), from memory; follows "
            "from HEC-22 4th ed., eqs 5.15 and 4.1",
            "least time: " + hec22_4 + ", §9.2.2; Caltrans Bridge Design Aids 17, 2006"},
       .inputs = {draining_width(), cross_slope(), grade(), roughness(), runoff_coefficient(),
                  rain(), spread(),
                  InputSpec{"tmin", "least time", Kind::time, "min"}.range(0, 3600).standard(
                      "5 min", "HEC-22 4th ed., §9.2.2")},
       .us_constants = true,
       .work = deck_time,
       .example = "w=1.8 Sx=2% SL=2.5% n=0.015 C=0.9 i=150mm/h T=0.6"},
  };
}

}  // namespace deckquire::workings::drainage
