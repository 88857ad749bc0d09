#include "workings/lists.h"

#include <fmt/format.h>

#include "workings/reckoner.h"

namespace deckquire::workings {

namespace {

const Unit& unit_named(Kind kind, std::string_view label) {
  if (const Unit* u = find_unit(kind, label)) return *u;
  throw std::logic_error(fmt::format("'{}' is no unit of its kind", label));
}

/// What follows the number: the unit as it is typed, perhaps none.
std::string unit_typed(const std::string& text) {
  const auto last = text.find_last_of("0123456789.");
  return last == std::string::npos ? std::string() : trim(text.substr(last + 1));
}

/// "600" before "2400 mm" is in millimetres too.
void share_unit(std::vector<std::string>& items) {
  if (items.empty()) return;
  const std::string unit = unit_typed(items.back());
  for (std::string& item : items) {
    if (unit_typed(item).empty()) item += (unit.empty() ? "" : " ") + unit;
  }
}

}  // namespace

std::string trim(std::string_view text) {
  const auto first = text.find_first_not_of(" \t");
  if (first == std::string_view::npos) return {};
  return std::string(text.substr(first, text.find_last_not_of(" \t") - first + 1));
}

std::vector<std::string> split(std::string_view text, std::string_view separator) {
  std::vector<std::string> parts;
  for (;;) {
    const auto at = text.find(separator);
    if (const std::string part = trim(text.substr(0, at)); !part.empty()) parts.push_back(part);
    if (at == std::string_view::npos) return parts;
    text.remove_prefix(at + separator.size());
  }
}

double typed_value(std::string_view text, Kind kind, std::string_view unit, std::string_view what) {
  const Unit& u = unit_named(kind, unit);
  const Parsed p = parse_quantity(text, u);
  if (!p.si) throw WorkingError(fmt::format("{}: {}", what, p.fault));
  return u.from_si(*p.si);
}

std::vector<double> typed_values(std::string_view text, Kind kind, std::string_view unit,
                                 std::string_view what) {
  std::vector<std::string> items = split(text, ",");
  share_unit(items);
  std::vector<double> values;
  for (const std::string& item : items) values.push_back(typed_value(item, kind, unit, what));
  return values;
}

TypedRange typed_range(std::string_view text, Kind kind, std::string_view unit,
                       std::string_view what) {
  std::vector<std::string> ends = split(text, " to ");
  if (ends.empty() || ends.size() > 2) {
    throw WorkingError(
        fmt::format("{}: '{}' is no place; write 75 mm, or 2300 to 2500 mm", what, text));
  }
  share_unit(ends);
  const double from = typed_value(ends.front(), kind, unit, what);
  return {from, ends.size() == 2 ? typed_value(ends.back(), kind, unit, what) : from};
}

}  // namespace deckquire::workings
