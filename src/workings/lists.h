// Inputs that are lists of typed values: "600, 2400 mm", "800 N @ 75 mm; 5 kPa @ 0 to 1200 mm".
#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "workings/quantity.h"

namespace deckquire::workings {

/// Without spaces at its ends.
std::string trim(std::string_view text);
/// Parts between separators, trimmed, empty ones left out.
std::vector<std::string> split(std::string_view text, std::string_view separator);

/// A value of a kind in the unit of that label, a bare number taken in it; WorkingError beginning
/// with `what` ("supports") otherwise.
double typed_value(std::string_view text, Kind kind, std::string_view unit, std::string_view what);

/// "600, 2400 mm": the unit of the last one holds for bare numbers before it.
std::vector<double> typed_values(std::string_view text, Kind kind, std::string_view unit,
                                 std::string_view what);

/// "75 mm" (both ends the same) or "2300 to 2500 mm".
struct TypedRange {
  double from = 0, to = 0;
};
TypedRange typed_range(std::string_view text, Kind kind, std::string_view unit,
                       std::string_view what);

}  // namespace deckquire::workings
