// What kind a number of a working is, and the units in which it is read and printed. The project
// file has its own, narrower reader (project/quantities.h); here a value is typed by hand:
// `i=150mm/h`, `q="5 kPa"`, `a=90psf`.
#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace deckquire::workings {

enum class Kind {
  number,  // no unit; a slope may be written as "2 %", "1/50" or "1:50"
  count,   // a whole number
  length,
  area,
  volume,
  second_moment,  // m, m2, m3 (also section moduli), m4
  angle,          // rad
  time,
  velocity,
  flow,    // s, m/s, m3/s
  inflow,  // m2/s: flow into a gutter along its length, per length
  rain,    // m/s
  mass,
  density,
  area_density,  // kg, kg/m3, kg/m2
  force,
  line_load,
  pressure,
  moment,  // N, N/m, Pa, N m
  bending_stiffness,
  rotation_stiffness,  // N m2, N m
  temperature,
  temperature_change,
  acceleration,
  expansion,  // degrees C; K; m/s2; 1/K
};

/// One unit of a kind: value in SI = (typed value) * si + offset (the offset is not 0 for
/// temperatures only).
struct Unit {
  Kind kind = Kind::number;
  std::string_view label;  // as printed: "m³/s", "N/mm²"
  double si = 1;
  double offset = 0;

  double to_si(double value) const { return value * si + offset; }
  double from_si(double value) const { return (value - offset) / si; }
};

/// The unit of a kind with this label, or written in plain letters ("m3/s", "deg", "degC", "N/mm2",
/// "cfs", "gpm"); nullptr when there is none.
const Unit* find_unit(Kind kind, std::string_view label);
/// All units of a kind, the SI unit first: for help and for messages.
const std::vector<Unit>& units_of(Kind kind);
/// "m³/s, L/s, ft³/s"; for a number "a number, or %".
std::string unit_words(Kind kind);
/// "a flow".
std::string_view words_of(Kind kind);

/// A number with its unit, or a bare number in `bare`; fractions ("7/24", "1:50") where there is no
/// unit; feet and inches (8'-0 1/4", 1/2 in) as in project files. The value in SI, or a sentence
/// that says what is wrong and what would be right.
struct Parsed {
  std::optional<double> si;
  std::string fault;
};
Parsed parse_quantity(std::string_view text, const Unit& bare);

/// v (SI) in a unit with `digits` significant digits, no exponent where 1e-4 <= |v| < 1e6, trailing
/// zeros kept: "0.6000", "12.00", "0"; else "6.750e-5". Without the label. Whole digits are never
/// rounded away; a count is printed as it is.
std::string print_in(double si, const Unit& unit, int digits = 4);

/// v (SI) in a unit as it would be typed: up to ten significant digits, trailing zeros dropped.
std::string print_given(double si, const Unit& unit);

/// The same with the label behind it: "150 mm/h".
std::string print_with_unit(double si, const Unit& unit);

}  // namespace deckquire::workings
