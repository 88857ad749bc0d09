// Cells of tables by the names of their columns: for tests.
#pragma once

#include <doctest/doctest.h>

#include <string>

#include "schedules/table.h"

namespace deckquire::testing {

inline std::size_t column(const Table& t, const std::string& name) {
  for (std::size_t i = 0; i < t.columns.size(); ++i)
    if (t.columns[i].name == name) return i;
  FAIL("no column " << name);
  return 0;
}

inline const Cell& cell(const Table& t, std::size_t row, const std::string& name) {
  return t.rows[row][column(t, name)];
}

/// A count, a length in mm, or a plain figure in its SI unit.
inline double number(const Cell& c) {
  if (const auto* n = std::get_if<std::int64_t>(&c)) return static_cast<double>(*n);
  if (const auto* a = std::get_if<Length>(&c)) return a->in_mm();
  return std::get<double>(c);
}

}  // namespace deckquire::testing
