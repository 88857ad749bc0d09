#include "workings/strip_inputs.h"

#include <fmt/format.h>

#include <algorithm>

#include "workings/lists.h"

namespace deckquire::workings {

namespace {

/// The two halves of "800 N @ 75 mm".
std::pair<std::string, std::string> value_and_place(const std::string& item, const char* what,
                                                    const char* example) {
  const std::vector<std::string> halves = split(item, "@");
  if (halves.size() != 2) {
    throw WorkingError(
        fmt::format("{}: '{}' is no value at a place; write {}", what, item, example));
  }
  return {halves[0], halves[1]};
}

StripLoad typed_load(const std::string& item, double width) {
  const auto [value, place] = value_and_place(item, "loads", "800 N @ 75 mm");
  const TypedRange at = typed_range(place, Kind::length, "mm", "loads");
  const auto last = value.find_last_of("0123456789.");
  const std::string unit = last == std::string::npos ? "" : trim(value.substr(last + 1));
  const bool spread = at.from < at.to;
  if (at.from > at.to) {
    throw WorkingError(
        fmt::format("loads: '{}' runs from right to left; write the smaller place first", item));
  }
  if (!unit.empty() && find_unit(Kind::force, unit)) {
    const double force = typed_value(value, Kind::force, "N", "loads");
    return spread ? uniform_load(force / (at.to - at.from), at.from, at.to)
                  : point_load(force, at.from);
  }
  if (!unit.empty() && find_unit(Kind::moment, unit) && !spread) {
    return couple_load(typed_value(value, Kind::moment, "N mm", "loads"), at.from);
  }
  if (!unit.empty() && find_unit(Kind::line_load, unit) && spread) {
    return uniform_load(typed_value(value, Kind::line_load, "N/mm", "loads"), at.from, at.to);
  }
  if (!unit.empty() && find_unit(Kind::pressure, unit) && spread) {
    return uniform_load(typed_value(value, Kind::pressure, "N/mm²", "loads") * width, at.from,
                        at.to);
  }
  throw WorkingError(
      fmt::format("loads: '{}' is none of: a force at a place or over a range (800 N @ 75 mm, 17.8 "
                  "kN @ 2300 to 2500 mm), "
                  "a couple at a place (2.6 kN m @ 100 mm), a load per length or area over a range "
                  "(5 kPa @ 0 to 1200 mm)",
                  item));
}

}  // namespace

std::vector<StripLoad> typed_loads(std::string_view text, double width) {
  std::vector<StripLoad> loads;
  for (const std::string& item : split(text, ";")) loads.push_back(typed_load(item, width));
  return loads;
}

std::vector<StripStretch> typed_stretches(std::string_view weaker, double length, double D,
                                          double S) {
  struct Weak {
    double from, to, of_D, of_S;
  };
  std::vector<Weak> weak;
  std::vector<double> ends{length};
  for (const std::string& item : split(weaker, ";")) {
    const auto [value, place] = value_and_place(item, "weaker", "0.6 @ 1200 to 1500 mm");
    const TypedRange at = typed_range(place, Kind::length, "mm", "weaker");
    std::vector<double> factors;
    for (const std::string& f : split(value, " ")) {
      factors.push_back(typed_value(f, Kind::number, "", "weaker"));
    }
    const bool sense = !factors.empty() && factors.size() <= 2 &&
                       std::all_of(factors.begin(), factors.end(), [](double f) { return f > 0; });
    if (!sense || !(at.from < at.to) || at.from < 0 || at.to > length) {
      throw WorkingError(
          fmt::format("weaker: '{}' is no part of the strip with one or two factors above 0; "
                      "write 0.6 @ 1200 to 1500 mm, or 0.6 0.8 @ … for D and S",
                      item));
    }
    weak.push_back({at.from, at.to, factors.front(), factors.back()});
    ends.insert(ends.end(), {at.from, at.to});
  }
  std::sort(ends.begin(), ends.end());
  ends.erase(std::unique(ends.begin(), ends.end()), ends.end());
  std::vector<StripStretch> stretches;
  double from = 0;
  for (double to : ends) {
    if (to <= 0) continue;
    StripStretch s{to, D, S};
    for (const Weak& w : weak) {
      if (w.from <= from && to <= w.to) s.D *= w.of_D, s.S *= w.of_S;
    }
    stretches.push_back(s);
    from = to;
  }
  return stretches;
}

std::vector<StripBay> bays_of(const Strip& strip) {
  std::vector<StripBay> bays;
  const auto& at = strip.supports;
  if (at.front().x > 0) bays.push_back({"left overhang", "left", 0, at.front().x, true});
  for (std::size_t i = 0; i + 1 < at.size(); ++i) {
    bays.push_back(
        {fmt::format("span {}", i + 1), fmt::format("span{}", i + 1), at[i].x, at[i + 1].x, false});
  }
  if (at.back().x < strip.length) {
    bays.push_back({"right overhang", "right", at.back().x, strip.length, true});
  }
  return bays;
}

void tell_solution(Reckoner& r, const StripResult& solved) {
  r.found(
      "e_R", "imbalance of loads and reactions, over all of them",
      std::max(solved.force_residual, solved.moment_residual), Kind::number, "",
      fmt::format(
          "{} stretches between supports, ends of loads and changes of stiffness; support moments "
          "from "
          "the continuity of the section's rotation over each support (three-moment equation with "
          "shear); exact "
          "within each stretch, and largest values from the roots of the slopes and the jumps, not "
          "from samples; "
          "checked by the balance of forces and of moments about the left end",
          solved.pieces.size()));
  r.limit("loads and reactions balance to a thousand-millionth",
          solved.force_residual < 1e-9 && solved.moment_residual < 1e-9,
          "do not use these results");
}

}  // namespace deckquire::workings
