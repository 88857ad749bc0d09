#include "workings/quantity.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <charconv>
#include <cmath>
#include <map>
#include <utility>

#include "base/text.h"
#include "base/units.h"

namespace deckquire::workings {
namespace {

// Exact by definition: foot, US gallon (231 in3), pound, standard gravity.
constexpr double foot = 0.3048, inch = 0.0254, gallon = 231 * inch * inch * inch;
constexpr double pound = 0.45359237, pound_force = pound * 9.80665;
constexpr double square(double a) {
  return a * a;
}
constexpr double cube(double a) {
  return a * a * a;
}

using Rows = std::vector<std::pair<std::string_view, double>>;

std::vector<Unit> rows(Kind kind, const Rows& labels) {
  std::vector<Unit> out;
  for (const auto& [label, si] : labels) out.push_back({kind, label, si, 0});
  return out;
}

std::vector<Unit> units_of_geometry(Kind k) {
  switch (k) {
    case Kind::length:
      return rows(k,
                  {{"m", 1}, {"mm", 1e-3}, {"cm", 1e-2}, {"km", 1e3}, {"in", inch}, {"ft", foot}});
    case Kind::area:
      return rows(k, {{"m²", 1},
                      {"mm²", 1e-6},
                      {"cm²", 1e-4},
                      {"ha", 1e4},
                      {"in²", square(inch)},
                      {"ft²", square(foot)},
                      {"acre", 43560 * square(foot)}});
    case Kind::volume:
      return rows(k, {{"m³", 1},
                      {"mm³", 1e-9},
                      {"cm³", 1e-6},
                      {"L", 1e-3},
                      {"in³", cube(inch)},
                      {"ft³", cube(foot)},
                      {"US gal", gallon}});
    case Kind::second_moment:
      return rows(k,
                  {{"m⁴", 1}, {"mm⁴", 1e-12}, {"cm⁴", 1e-8}, {"in⁴", square(inch) * square(inch)}});
    default:
      return rows(k, {{"rad", 1}, {"°", pi / 180}});
  }
}

std::vector<Unit> units_of_water(Kind k) {
  switch (k) {
    case Kind::time:
      return rows(k, {{"s", 1}, {"min", 60}, {"h", 3600}});
    case Kind::velocity:
      return rows(k, {{"m/s", 1}, {"mm/s", 1e-3}, {"km/h", 1 / 3.6}, {"ft/s", foot}});
    case Kind::flow:
      return rows(k, {{"m³/s", 1},
                      {"L/s", 1e-3},
                      {"L/min", 1e-3 / 60},
                      {"m³/h", 1.0 / 3600},
                      {"ft³/s", cube(foot)},
                      {"US gpm", gallon / 60}});
    case Kind::inflow:
      return rows(k, {{"m²/s", 1}, {"L/(s m)", 1e-3}, {"ft²/s", square(foot)}});
    default:
      return rows(k,
                  {{"m/s", 1}, {"mm/h", 1e-3 / 3600}, {"L/(s ha)", 1e-7}, {"in/h", inch / 3600}});
  }
}

std::vector<Unit> units_of_force(Kind k) {
  switch (k) {
    case Kind::force:
      return rows(
          k,
          {{"N", 1}, {"kN", 1e3}, {"MN", 1e6}, {"lbf", pound_force}, {"kip", 1e3 * pound_force}});
    case Kind::line_load:
      return rows(k, {{"N/m", 1},
                      {"kN/m", 1e3},
                      {"N/mm", 1e3},
                      {"lbf/ft", pound_force / foot},
                      {"lbf/in", pound_force / inch},
                      {"kip/ft", 1e3 * pound_force / foot}});
    case Kind::pressure:
      return rows(k, {{"Pa", 1},
                      {"kPa", 1e3},
                      {"MPa", 1e6},
                      {"GPa", 1e9},
                      {"N/mm²", 1e6},
                      {"kN/m²", 1e3},
                      {"psf", pound_force / square(foot)},
                      {"psi", pound_force / square(inch)},
                      {"ksi", 1e3 * pound_force / square(inch)}});
    case Kind::moment:
      return rows(k, {{"N m", 1},
                      {"kN m", 1e3},
                      {"N mm", 1e-3},
                      {"lbf ft", pound_force * foot},
                      {"lbf in", pound_force * inch},
                      {"kip ft", 1e3 * pound_force * foot},
                      {"kip in", 1e3 * pound_force * inch}});
    case Kind::bending_stiffness:
      return rows(k, {{"N m²", 1},
                      {"kN m²", 1e3},
                      {"N mm²", 1e-6},
                      {"lbf in²", pound_force * square(inch)},
                      {"kip in²", 1e3 * pound_force * square(inch)}});
    default:
      return rows(k, {{"N m/rad", 1},
                      {"kN m/rad", 1e3},
                      {"N mm/rad", 1e-3},
                      {"lbf in/rad", pound_force * inch}});
  }
}

std::vector<Unit> units_of_matter(Kind k) {
  switch (k) {
    case Kind::mass:
      return rows(k, {{"kg", 1}, {"g", 1e-3}, {"t", 1e3}, {"lb", pound}, {"US ton", 2000 * pound}});
    case Kind::density:
      return rows(k, {{"kg/m³", 1}, {"g/cm³", 1e3}, {"lb/ft³", pound / cube(foot)}});
    case Kind::area_density:
      return rows(k, {{"kg/m²", 1}, {"lb/ft²", pound / square(foot)}});
    case Kind::temperature:
      return {{k, "°C", 1, 0}, {k, "K", 1, -273.15}, {k, "°F", 5.0 / 9, -160.0 / 9}};
    case Kind::temperature_change:
      return rows(k, {{"K", 1}, {"°C", 1}, {"°F", 5.0 / 9}});
    case Kind::acceleration:
      return rows(k, {{"m/s²", 1}, {"ft/s²", foot}});
    case Kind::expansion:
      return rows(k, {{"1/K", 1}, {"10⁻⁶/K", 1e-6}, {"1/°F", 9.0 / 5}, {"10⁻⁶/°F", 9e-6 / 5}});
    case Kind::count:
      return rows(k, {{"", 1}});
    default:
      return rows(k, {{"", 1}, {"%", 0.01}});
  }
}

std::vector<Unit> units_made(Kind k) {
  if (k >= Kind::length && k <= Kind::angle) return units_of_geometry(k);
  if (k >= Kind::time && k <= Kind::rain) return units_of_water(k);
  if (k >= Kind::force && k <= Kind::rotation_stiffness) return units_of_force(k);
  return units_of_matter(k);
}

constexpr std::size_t kinds = static_cast<std::size_t>(Kind::expansion) + 1;

void replace(std::string& s, std::string_view from, std::string_view to) {
  for (std::size_t at = 0; (at = s.find(from, at)) != std::string::npos; at += to.size())
    s.replace(at, from.size(), to);
}

/// The plain spelling of a label, in which two labels are compared.
std::string plain(std::string_view label) {
  std::string s(label);
  constexpr std::array<std::pair<std::string_view, std::string_view>, 12> spelling{
      {{"²", "2"},
       {"³", "3"},
       {"⁴", "4"},
       {"⁻⁶", "-6"},
       {"^", ""},
       {"·", "."},
       {"*", "."},
       {" ", "."},
       {"°", "deg"},
       {"(", ""},
       {")", ""},
       {"1e-6", "10-6"}}};
  for (const auto& [from, to] : spelling) replace(s, from, to);
  // Other spellings of the trade, each already plain.
  static const std::map<std::string, std::string, std::less<>> other{{"l/s", "L/s"},
                                                                     {"lps", "L/s"},
                                                                     {"l/min", "L/min"},
                                                                     {"l", "L"},
                                                                     {"cfs", "ft3/s"},
                                                                     {"gpm", "US.gpm"},
                                                                     {"USgpm", "US.gpm"},
                                                                     {"gal", "US.gal"},
                                                                     {"L/sm", "L/s.m"},
                                                                     {"l/s.m", "L/s.m"},
                                                                     {"L/s/m", "L/s.m"},
                                                                     {"l/s/m", "L/s.m"},
                                                                     {"L/sha", "L/s.ha"},
                                                                     {"l/s.ha", "L/s.ha"},
                                                                     {"L/s/ha", "L/s.ha"},
                                                                     {"l/s/ha", "L/s.ha"},
                                                                     {"cfs/ft", "ft2/s"},
                                                                     {"ac", "acre"},
                                                                     {"sqft", "ft2"},
                                                                     {"sq.ft", "ft2"},
                                                                     {"sqin", "in2"},
                                                                     {"sq.in", "in2"},
                                                                     {"fps", "ft/s"},
                                                                     {"in/hr", "in/h"},
                                                                     {"mm/hr", "mm/h"},
                                                                     {"hr", "h"},
                                                                     {"lb/sqft", "lb/ft2"},
                                                                     {"pcf", "lb/ft3"},
                                                                     {"plf", "lbf/ft"},
                                                                     {"lb/ft", "lbf/ft"},
                                                                     {"klf", "kip/ft"},
                                                                     {"lbf/ft2", "psf"},
                                                                     {"lbf/in2", "psi"},
                                                                     {"kips", "kip"},
                                                                     {"tonne", "t"},
                                                                     {"Nm", "N.m"},
                                                                     {"kNm", "kN.m"},
                                                                     {"Nmm", "N.mm"},
                                                                     {"ft.lbf", "lbf.ft"},
                                                                     {"in.lbf", "lbf.in"},
                                                                     {"ft.kip", "kip.ft"},
                                                                     {"in.kip", "kip.in"},
                                                                     {"Nm2", "N.m2"},
                                                                     {"kNm2", "kN.m2"},
                                                                     {"Nmm2", "N.mm2"},
                                                                     {"Nm/rad", "N.m/rad"},
                                                                     {"kNm/rad", "kN.m/rad"},
                                                                     {"C", "degC"},
                                                                     {"F", "degF"},
                                                                     {"/K", "1/K"},
                                                                     {"/degC", "1/K"},
                                                                     {"1/degC", "1/K"},
                                                                     {"10-6/degC", "10-6/K"},
                                                                     {"/degF", "1/degF"},
                                                                     {"degrees", "deg"},
                                                                     {"\"", "in"},
                                                                     {"'", "ft"},
                                                                     {"N/m2", "Pa"}};
  const auto found = other.find(s);
  return found == other.end() ? s : found->second;
}

std::string_view trimmed(std::string_view s) {
  while (!s.empty() && (s.front() == ' ' || s.front() == '\t')) s.remove_prefix(1);
  while (!s.empty() && (s.back() == ' ' || s.back() == '\t')) s.remove_suffix(1);
  return s;
}

/// An unsigned decimal number at the beginning, taken off.
std::optional<double> take_number(std::string_view& s) {
  if (s.empty() || !((s[0] >= '0' && s[0] <= '9') || s[0] == '.')) return {};
  double v = 0;
  const auto end = std::from_chars(s.data(), s.data() + s.size(), v);
  if (end.ec != std::errc() || !std::isfinite(v)) return {};
  s.remove_prefix(static_cast<std::size_t>(end.ptr - s.data()));
  return v;
}

/// A number, a fraction or both ("3", "1/4", "3 1/4"), taken off; what follows it is left.
std::optional<double> take_amount(std::string_view& s) {
  auto v = take_number(s);
  if (!v) return v;
  std::string_view rest = s;
  const auto take_divisor = [&]() -> std::optional<double> {
    if (rest.empty() || (rest[0] != '/' && rest[0] != ':')) return {};
    rest.remove_prefix(1);
    const auto d = take_number(rest);
    return d && *d > 0 ? d : std::nullopt;
  };
  if (const auto d = take_divisor()) {
    s = rest;
    return *v / *d;
  }
  rest = s;
  if (rest.empty() || rest[0] != ' ') return v;
  rest = trimmed(rest);
  const auto top = take_number(rest);
  const auto bottom = top ? take_divisor() : std::nullopt;
  if (!bottom) return v;
  s = rest;
  return *v + *top / *bottom;
}

/// 8'-0 1/4", after its sign; nothing when it is none.
std::optional<double> feet_and_inches(std::string_view s) {
  const auto feet_part = take_number(s);
  if (!feet_part || s.empty() || s[0] != '\'') return {};
  s = trimmed(s.substr(1));
  if (s.empty()) return *feet_part * foot;
  if (s[0] == '-') s = trimmed(s.substr(1));
  const auto inches_part = take_amount(s);
  s = trimmed(s);
  if (!inches_part || s != "\"") return {};
  return *feet_part * foot + *inches_part * inch;
}

Parsed fault(std::string words) {
  return {std::nullopt, std::move(words)};
}

std::string example(const Unit& bare) {
  if (bare.kind == Kind::number) return "0.02 or 2 %";
  if (bare.kind == Kind::count) return "3";
  return fmt::format("1.5 {}", bare.label);
}

}  // namespace

const std::vector<Unit>& units_of(Kind kind) {
  static const std::array<std::vector<Unit>, kinds> all = [] {
    std::array<std::vector<Unit>, kinds> made;
    for (std::size_t k = 0; k < kinds; ++k) made[k] = units_made(static_cast<Kind>(k));
    return made;
  }();
  return all[static_cast<std::size_t>(kind)];
}

const Unit* find_unit(Kind kind, std::string_view label) {
  const std::string wanted = plain(label);
  for (const Unit& u : units_of(kind))
    if (u.label == label || plain(u.label) == wanted) return &u;
  return nullptr;
}

std::string unit_words(Kind kind) {
  if (kind == Kind::number) return "a number, or %";
  if (kind == Kind::count) return "a whole number";
  std::vector<std::string> labels;
  for (const Unit& u : units_of(kind)) labels.emplace_back(u.label);
  return join(labels, ", ");
}

std::string_view words_of(Kind kind) {
  constexpr std::array<std::string_view, kinds> words{"a number",
                                                      "a count",
                                                      "a length",
                                                      "an area",
                                                      "a volume",
                                                      "a second moment of area",
                                                      "an angle",
                                                      "a time",
                                                      "a velocity",
                                                      "a flow",
                                                      "an inflow per length",
                                                      "a rain intensity",
                                                      "a mass",
                                                      "a density",
                                                      "a mass per area",
                                                      "a force",
                                                      "a load per length",
                                                      "a pressure",
                                                      "a moment",
                                                      "a bending stiffness",
                                                      "a rotation stiffness",
                                                      "a temperature",
                                                      "a temperature change",
                                                      "an acceleration",
                                                      "a coefficient of expansion"};
  return words[static_cast<std::size_t>(kind)];
}

Parsed parse_quantity(std::string_view text, const Unit& bare) {
  std::string_view s = trimmed(text);
  const std::string said(s);
  if (s.empty()) return fault("is empty; write " + example(bare));
  double sign = 1;
  if (s[0] == '+' || s[0] == '-') {
    sign = s[0] == '-' ? -1 : 1;
    s = trimmed(s.substr(1));
  } else if (s.starts_with("−")) {
    sign = -1;
    s = trimmed(s.substr(std::string_view("−").size()));
  }
  if (bare.kind == Kind::length)
    if (const auto v = feet_and_inches(s)) return {sign * *v, {}};
  const auto v = take_amount(s);
  if (!v) return fault(fmt::format("'{}' is no number; write {}", said, example(bare)));
  s = trimmed(s);
  if (s.starts_with(','))
    return fault(fmt::format("'{}' has a comma; the decimal sign is a point", said));
  const Unit* unit = s.empty() ? &bare : find_unit(bare.kind, s);
  if (!unit)
    return fault(fmt::format("'{}' is no unit of {}; the units are {}", s,
                             words_of(bare.kind).substr(words_of(bare.kind).find(' ') + 1),
                             bare.kind == Kind::number ? "%, or none" : unit_words(bare.kind)));
  if (bare.kind == Kind::count && *v != std::floor(*v))
    return fault(fmt::format("'{}' is no whole number", said));
  return {unit->to_si(sign * *v), {}};
}

namespace {

/// "6.750e-05" as "6.750e-5", "1e+06" as "1e6".
std::string short_exponent(std::string s) {
  const auto e = s.find('e');
  if (e == std::string::npos) return s;
  const int exponent = std::stoi(s.substr(e + 1));
  return s.substr(0, e) + "e" + std::to_string(exponent);
}

}  // namespace

std::string print_in(double si, const Unit& unit, int digits) {
  const double v = unit.from_si(si);
  if (v == 0) return "0";
  if (!std::isfinite(v)) return "not a number";
  if (unit.kind == Kind::count) return fmt::format("{:.10g}", v);
  const std::string rounded = fmt::format("{:.{}e}", v, digits - 1);
  const int exponent = std::stoi(rounded.substr(rounded.find('e') + 1));
  if (exponent < -4 || exponent > 5) return short_exponent(rounded);
  return fmt::format("{:.{}f}", v, std::max(0, digits - 1 - exponent));
}

std::string print_given(double si, const Unit& unit) {
  const double v = unit.from_si(si);
  if (!std::isfinite(v)) return "not a number";
  const double size = std::abs(v);
  if (size >= 1e6 && size < 1e15 && v == std::floor(v)) return fmt::format("{:.0f}", v);
  return v == 0 ? "0" : short_exponent(fmt::format("{:.10g}", v));
}

std::string print_with_unit(double si, const Unit& unit) {
  return print_given(si, unit) + (unit.label.empty() ? "" : " ") + std::string(unit.label);
}

}  // namespace deckquire::workings
