#include "schedules/table.h"

#include <cmath>

namespace deckquire {
namespace {

// Exact by definition: international foot and avoirdupois pound.
constexpr double foot_m = 0.3048;
constexpr double cubic_foot_m3 = foot_m * foot_m * foot_m;
constexpr double gallon_l = 231 * 0.254 * 0.254 * 0.254;  // US: 231 cubic inches
constexpr double pound_force_n = 4.4482216152605;  // NIST SP 811 (2008), B.8

Length from_plain(double v, Measure m) {
  return m == Measure::length ? mm(v) : metres(v);
}

std::string print_metres(double v, UnitSystem u) {
  return decimal(u == UnitSystem::metric ? v : v / foot_m, 3);
}

std::string print_distance(Length a, Measure m, UnitSystem u) {
  switch (m) {
    case Measure::station:
      return print_station(a, u);
    case Measure::level:
      return print_level(a, u);
    case Measure::coordinate:
      return print_metres(a.in_m(), u);
    default:
      return print_length(a, u);
  }
}

std::string print_plain(double v, Measure m, UnitSystem u) {
  switch (m) {
    case Measure::length:
    case Measure::station:
    case Measure::level:
      return print_distance(from_plain(v, m), m, u);
    case Measure::coordinate:
      return print_metres(v, u);
    case Measure::run:
      return decimal(u == UnitSystem::metric ? v : v / foot_m, 1);
    case Measure::fill:
      return decimal(u == UnitSystem::metric ? v : v / gallon_l, 1);
    case Measure::mass:
      return print_mass(Mass::si(v), u);
    case Measure::reach:
      return decimal(std::ceil((u == UnitSystem::metric ? v : v / foot_m) * 10 - 1e-6) / 10, 1);
    case Measure::force:
      return u == UnitSystem::metric ? decimal(v / 1e3, 1) : decimal(v / pound_force_n, 0);
    case Measure::area:
      return print_area(Area::si(v), u);
    case Measure::volume:
      return decimal(u == UnitSystem::metric ? v : v / cubic_foot_m3, 3);
    case Measure::percent:
      return shortest_decimal(100 * v, 3);
    case Measure::text:
    case Measure::count:
      break;
  }
  return shortest_decimal(v, 2);
}

bool in_metres(Measure m) {
  return m == Measure::station || m == Measure::coordinate || m == Measure::level || m == Measure::run;
}

std::string row_unit(Measure m, UnitSystem u) {
  return m == Measure::count ? "pcs" : column_unit(m, u);
}

std::string machine_unit(Measure m) {
  if (m == Measure::area) return "m2";
  if (m == Measure::volume) return "m3";
  return row_unit(m, UnitSystem::metric);
}

}  // namespace

bool is_words(const Cell& c) {
  return std::holds_alternative<std::string>(c) || std::holds_alternative<UnitOf>(c);
}

std::string column_unit(Measure m, UnitSystem u) {
  const bool metric = u == UnitSystem::metric;
  switch (m) {
    case Measure::length:
      return metric ? "mm" : "ft-in";
    case Measure::coordinate:
    case Measure::reach:
    case Measure::level:
    case Measure::run:
      return metric ? "m" : "ft";
    case Measure::fill:
      return metric ? "L" : "gal";
    case Measure::mass:
      return metric ? "kg" : "lb";
    case Measure::force:
      return metric ? "kN" : "lbf";
    case Measure::area:
      return metric ? "m²" : "sq ft";
    case Measure::volume:
      return metric ? "m³" : "cu ft";
    case Measure::percent:
      return "%";
    case Measure::station:
    case Measure::text:
    case Measure::count:
      break;
  }
  return "";
}

std::string print_cell(const Cell& c, Measure m, UnitSystem u) {
  if (const auto* s = std::get_if<std::string>(&c)) return *s;
  if (const auto* n = std::get_if<std::int64_t>(&c)) return std::to_string(*n);
  if (const auto* a = std::get_if<Length>(&c)) return print_distance(*a, m, u);
  if (const auto* v = std::get_if<double>(&c)) return print_plain(*v, m, u);
  if (const auto* q = std::get_if<Measured>(&c)) return print_plain(q->value, q->measure, u);
  if (const auto* of = std::get_if<UnitOf>(&c)) return row_unit(of->measure, u);
  return "";
}

std::string machine_cell(const Cell& c, Measure m) {
  if (const auto* s = std::get_if<std::string>(&c)) return *s;
  if (const auto* n = std::get_if<std::int64_t>(&c)) return std::to_string(*n);
  if (const auto* a = std::get_if<Length>(&c))
    return machine_number(in_metres(m) ? a->in_m() : a->in_mm());
  if (const auto* v = std::get_if<double>(&c)) return machine_number(*v);
  if (const auto* q = std::get_if<Measured>(&c)) return machine_number(q->value);
  if (const auto* of = std::get_if<UnitOf>(&c)) return machine_unit(of->measure);
  return "";
}

}  // namespace deckquire
