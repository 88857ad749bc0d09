// Text of numbers and words, independent of the locale.
#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "base/units.h"

namespace deckquire {

/// How lengths are printed on the drawings: whole millimetres, or feet, inches and sixteenths.
enum class UnitSystem { metric, imperial };

/// v with exactly `places` decimals, halves away from zero, never "-0".
std::string decimal(double v, int places);

/// v with up to `places` decimals, trailing zeros dropped.
std::string shortest_decimal(double v, int places);

/// The print unit: 1 mm or 1/16 in.
Length print_unit(UnitSystem u);

/// a as a whole number of `unit`, halves away from zero.
std::int64_t whole_units(Length a, Length unit);

/// A dimension as the drawings print it. Metric: millimetres, whole, or with one decimal when a is
/// not whole to 0.05 mm ("2400", "12.5"). Imperial: feet, inches, sixteenths in lowest terms
/// ("7'-10 1/2\"", "9 1/16\"", "0\"").
std::string print_length(Length a, UnitSystem u);

/// Whole print units only (dimension chains, see whole_units).
std::string print_whole_units(std::int64_t n, UnitSystem u);

/// A station: "0+012.400" (metres, three decimals) or "1+24.50" (feet, two decimals).
std::string print_station(Length a, UnitSystem u);

/// A level: metres to 0.001 or feet to 0.01, unit not printed.
std::string print_level(Length a, UnitSystem u);

/// Mass in kg or lb, whole; area in m2 or sq ft, two decimals; unit not printed.
std::string print_mass(Mass m, UnitSystem u);
std::string print_area(Area a, UnitSystem u);

/// A temperature with its unit: "15 °C", "60 °F"; up to one decimal.
std::string print_temperature(Temperature t, UnitSystem u);

/// A machine number: shortest text that reads back as the same double ('.' decimal, no exponent for
/// |v| in [1e-6, 1e15)).
std::string machine_number(double v);

/// The candidate nearest to `word` (edit distance at most 1 + length/3), or empty.
std::string nearest_word(std::string_view word, const std::vector<std::string>& candidates);

/// True when s is well-formed UTF-8 without surrogates or noncharacters, and with no control
/// character besides tab, line feed and carriage return.
bool is_clean_utf8(std::string_view s);

/// Appends s with & < > " as entities; tab and line ends as character references, so that they
/// survive in attributes.
void append_escaped(std::string& out, std::string_view s);
std::string escaped(std::string_view s);

/// "3" -> "03": at least `digits` digits.
std::string padded(int n, int digits);

/// The lines of a text, without their '\n'; at least one.
std::vector<std::string> split_lines(const std::string& text);

std::string join(const std::vector<std::string>& parts, std::string_view separator);

}  // namespace deckquire
