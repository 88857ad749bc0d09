// Loads, rain and factors of the design data on the cover.
#include <fmt/format.h>

#include "base/text.h"
#include "sheets/cover.h"

namespace deckquire::sheets {
namespace {

using Rows = std::vector<std::vector<std::string>>;

bool metric(const Project& p) {
  return p.units == UnitSystem::metric;
}
// Foot 0.3048 m, pound 0.45359237 kg, standard gravity 9.80665 m/s2: exact by definition.
constexpr double pound_force = 0.45359237 * 9.80665, square_foot = 0.3048 * 0.3048;

std::string pressure(const Project& p, Pressure v) {
  return metric(p) ? shortest_decimal(v.in_si() / 1e3, 3) + " kPa"
                   : shortest_decimal(v.in_si() / pound_force * square_foot, 1) + " psf";
}
std::string force(const Project& p, Force v) {
  return metric(p) ? shortest_decimal(v.in_si() / 1e3, 2) + " kN"
                   : shortest_decimal(v.in_si() / pound_force, 0) + " lbf";
}
std::string line_load(const Project& p, double per_m) {
  return metric(p) ? shortest_decimal(per_m / 1e3, 2) + " kN/m"
                   : shortest_decimal(per_m / pound_force * 0.3048, 0) + " lb/ft";
}
std::string length(const Project& p, Length v) {
  return print_length(v, p.units);
}

void add_loads(Rows& rows, const Project& p) {
  const Conditions& c = p.conditions;
  if (c.pedestrian)
    rows.push_back({"Pedestrian load", pressure(p, c.pedestrian->load), c.pedestrian->code});
  if (const auto& v = c.vehicle)
    rows.push_back(
        {"Vehicle, wheels of an axle",
         fmt::format("2 × {}, {} apart, patch {} × {}", force(p, v->wheel), length(p, v->gauge),
                     length(p, v->patch_along), length(p, v->patch_across)),
         v->code});
  if (c.wind) rows.push_back({"Wind, uplift", pressure(p, c.wind->uplift), c.wind->code});
  if (const auto& r = c.rail)
    rows.push_back({"Rail load",
                    fmt::format("{} and {}, {} above deck", line_load(p, r->line),
                                force(p, r->point), length(p, r->height)),
                    r->code});
  if (const auto& f = c.factors)
    rows.push_back(
        {"Load factors",
         fmt::format("dead {}, people {}, wheels {}, wind {}, dead against wind {}, "
                     "rail {}",
                     f->dead, f->pedestrian, f->vehicle, f->wind, f->dead_against_wind, f->rail),
         f->code});
  if (const auto& d = c.deflection)
    rows.push_back(
        {"Deflection", fmt::format("span / {}, overhang / {}", d->span, d->arm), d->code});
}

void add_rain(Rows& rows, const Project& p) {
  const auto& rain = p.conditions.rain;
  if (!rain) {
    rows.push_back({"Rain", "not stated", ""});
    return;
  }
  if (!rain->words.empty()) rows.push_back({"Rain", rain->words, rain->code});
  if (!rain->intensity) return;
  rows.push_back({rain->words.empty() ? "Rain" : "Rain, as checked",
                  metric(p) ? shortest_decimal(*rain->intensity * 3.6e6, 1) + " mm/h"
                            : shortest_decimal(*rain->intensity * 3600 / 0.0254, 2) + " in/h",
                  rain->code});
}

}  // namespace

std::vector<std::vector<std::string>> load_rows(const Project& project) {
  Rows rows;
  add_loads(rows, project);
  add_rain(rows, project);
  return rows;
}

}  // namespace deckquire::sheets
