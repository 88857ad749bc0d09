// What several workings do with their inputs.
#pragma once

#include <string>

#include "workings/reckoner.h"

namespace deckquire::workings {

constexpr double above_zero = 1e-12;  // least of what must not be nothing

/// WorkingError where an input that this case needs was left out.
inline void need(const Reckoner& r, const char* symbol, const char* words) {
  if (!r.given(symbol)) throw WorkingError(std::string(symbol) + " is missing (" + words + ")");
}

/// A value of a code or table, or what was given in its place: `instead` is an optional input.
inline void code_value(Reckoner& r, const char* symbol, const char* instead, const char* meaning,
                       double value, Kind kind, const char* unit, const std::string& source) {
  if (r.given(instead)) {
    r.step(symbol, meaning, instead, kind, unit);
  } else {
    r.looked_up(symbol, meaning, value, kind, unit, source);
  }
}

}  // namespace deckquire::workings
