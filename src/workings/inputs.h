// Short ways to declare the inputs of a working, and what several workings do with them.
#pragma once

#include <string>
#include <utility>
#include <vector>

#include "workings/reckoner.h"

namespace deckquire::workings {

constexpr double anything = -1e300, above_zero = 1e-12;

inline InputSpec must_give(std::string symbol, std::string meaning, Kind kind, std::string unit,
                           double least = anything) {
  InputSpec s;
  s.symbol = std::move(symbol), s.meaning = std::move(meaning);
  s.kind = kind, s.unit = std::move(unit), s.least = least;
  return s;
}

inline InputSpec may_give(std::string symbol, std::string meaning, Kind kind, std::string unit,
                          double least = anything) {
  InputSpec s = must_give(std::move(symbol), std::move(meaning), kind, std::move(unit), least);
  s.optional = true;
  return s;
}

/// With a default and where that comes from.
inline InputSpec has_default(std::string symbol, std::string meaning, Kind kind, std::string unit,
                             std::string fallback, std::string why, double least = anything) {
  InputSpec s = must_give(std::move(symbol), std::move(meaning), kind, std::move(unit), least);
  s.fallback = std::move(fallback), s.why = std::move(why);
  return s;
}

/// One word out of several; the default may be empty.
inline InputSpec choice(std::string symbol, std::string meaning, std::vector<std::string> choices,
                        std::string fallback = "", std::string why = "") {
  InputSpec s;
  s.symbol = std::move(symbol), s.meaning = std::move(meaning);
  s.choices = std::move(choices), s.fallback = std::move(fallback), s.why = std::move(why);
  return s;
}

inline InputSpec optional_choice(std::string symbol, std::string meaning, std::vector<std::string> choices) {
  InputSpec s = choice(std::move(symbol), std::move(meaning), std::move(choices));
  s.optional = true;
  return s;
}

inline InputSpec typed_list(std::string symbol, std::string meaning, bool optional) {
  InputSpec s;
  s.symbol = std::move(symbol), s.meaning = std::move(meaning);
  s.list = true, s.optional = optional;
  return s;
}

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
    r.found(symbol, meaning, value, kind, unit, source);
  }
}

}  // namespace deckquire::workings
