// Formulas as text that is both printed and evaluated.
#pragma once

#include <functional>
#include <string>
#include <string_view>
#include <vector>

namespace deckquire::workings {

/// + - * / ^ (right to left, before unary minus: -a^2 is -(a^2)), parentheses, numbers, names
/// (letters, digits, _ and ', beginning with a letter), pi, and min max (two or more arguments)
/// sqrt abs acos cos sin tan exp ln ceil floor (one). A name or a shape that is not known is a
/// logic_error: formulas are written by us and all tested.
double evaluate(std::string_view formula, const std::function<double(std::string_view)>& value_of);

/// The formula with each name replaced by its number (negative ones in parentheses), for the line
/// below it. pi stays.
std::string with_numbers(std::string_view formula,
                         const std::function<std::string(std::string_view)>& text_of);

/// The names in a formula, each once, in order; without functions and pi.
std::vector<std::string> names_in(std::string_view formula);

/// For print: * as ×, ^2 as ², sqrt(…) as √(…), Greek names ("alpha", "theta_1") as
/// letters, 6.75e-5 as (6.75 × 10⁻⁵), <= as ≤, with even spaces.
std::string typeset(std::string_view formula);

}  // namespace deckquire::workings
