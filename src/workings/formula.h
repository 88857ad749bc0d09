// Formulas as text that is both printed and evaluated.
#pragma once

#include <functional>
#include <string>
#include <string_view>

namespace deckquire::workings {

/// + - * / ^ (right to left), unary minus, parentheses, numbers, names (letters, digits, _ and ',
/// beginning with a letter), and min max sqrt abs acos cos sin tan exp ln ceil floor with their arguments.
/// A name or a shape that is not known is a logic_error: formulas are written by us and all tested.
double evaluate(std::string_view formula, const std::function<double(std::string_view)>& value_of);

/// The formula with each name replaced by its number (negative ones in parentheses), for the line
/// below it.
std::string with_numbers(std::string_view formula,
                         const std::function<std::string(std::string_view)>& text_of);

/// For print: * as ×, sqrt(…) as √(…), Greek names ("alpha", "theta") as letters, <= as ≤.
std::string typeset(std::string_view formula);

}  // namespace deckquire::workings
