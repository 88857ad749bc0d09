// The sheets that "--sheets" asks for.
#pragma once

#include <string>
#include <vector>

namespace deckquire::commands {

/// What a list asks for, of the sheets that a set has.
struct SheetChoice {
  std::vector<bool> wanted;          // beside the set's numbers
  std::vector<std::string> strange;  // parts of the list that name no sheet
};

/// `list`: series letters, numbers (with further sheets: P03 is P03-2 too) and ranges between two
/// numbers of a series, with commas between and in either case: "E,P03-P07,t01". An empty list asks
/// for all.
SheetChoice choose_sheets(const std::string& list, const std::vector<std::string>& numbers);

}  // namespace deckquire::commands
