// Text of the project file -> quantities. Lengths are exact: decimals and fractions become whole
// nanometres without passing through a double.
#pragma once

#include <cstdint>
#include <string>
#include <string_view>
#include <variant>

#include "base/text.h"
#include "base/units.h"

namespace deckquire {

/// What an attribute or a text holds.
enum class Kind {
  text,     // any text on one line
  name,     // a short text that others refer to
  word,     // one of a few words
  letters,  // one to four capital letters
  series,   // letters of sheet series
  integer,
  length,
  station,
  slope,  // 1.5 % or 0.015
  density,
  area_mass,
  mass,
  angle,
  temperature,
  force,
  pressure,   // kPa, MPa, psf, psi
  line_load,  // kN/m, lb/ft
  moment,     // N m, lbf ft
  rain,       // mm/h, in/h
  expansion,  // ppm/C, ppm/F
  number,     // plain, with or without decimals
  date,
  revision,  // letters of a revision
  thread,    // M16, 5/8-11
  scale      // 50 or 1:50
};

/// How bare numbers and stations read in a project.
struct OwnUnit {
  std::string name = "mm";  // mm, m, in, ft; empty: not known, lengths are not judged
  UnitSystem system() const;
};

/// A quantity as read: lengths and stations in whole nanometres, the rest in SI (Quantity of
/// base/units.h: kg/m3, kg/m2, kg, rad, degrees Celsius, N, Pa, N/m, N m, m/s, 1/K; slope as a ratio).
struct Amount {
  std::int64_t nanometres = 0;
  double si = 0;
};

/// Why a text is no such quantity.
struct Refusal {
  std::string code;  // "wrong-type", "wrong-unit" ...
  std::string what;  // completes 'gap="12 kg" '
  std::string remedy;
};

using Reading = std::variant<Amount, Refusal>;

/// Reads a number of the kinds integer, length, station, slope, density, area_mass, mass, angle,
/// temperature, force, pressure, line_load, moment, rain, expansion, number and scale. Surrounding blanks
/// are allowed.
Reading read_amount(Kind kind, std::string_view text, const OwnUnit& own);

/// How a value of that kind is written, with examples: "a length like 2440, 2.44 m or 8'-0 1/4\"".
std::string how_to_write(Kind kind);

/// "a length".
std::string what_it_is(Kind kind);

/// True for a date YYYY-MM-DD that is in the calendar, years 1900 to 2199.
bool is_date(std::string_view text);

/// True for one or two letters without I O Q S X Z (ASME Y14.35: not used, they read as figures or
/// as other marks).
bool is_revision(std::string_view text);

/// True for a metric thread ("M16", "M20x1.5") or an inch one ("5/8-11", "1/2 in", "1-8").
bool is_thread(std::string_view text);

std::string_view trimmed(std::string_view s);

}  // namespace deckquire
