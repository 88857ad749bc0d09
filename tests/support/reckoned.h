// Workings by name with values as typed, for the checks against published figures.
#pragma once

#include <cmath>
#include <sstream>
#include <stdexcept>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include <doctest/doctest.h>

#include "workings/reckoner.h"

namespace deckquire::testing {

/// "Q=1.5L/s units=us": blanks part the values, except within quotes.
inline std::vector<std::pair<std::string, std::string>> typed_values(const std::string& line) {
  std::vector<std::pair<std::string, std::string>> out;
  std::string word;
  bool quoted = false;
  for (char c : line + " ") {
    if (c == '"') quoted = !quoted;
    if (c != ' ' || quoted) {
      if (c != '"') word += c;
      continue;
    }
    const auto at = word.find('=');
    if (at != std::string::npos) out.emplace_back(word.substr(0, at), word.substr(at + 1));
    word.clear();
  }
  return out;
}

struct Reckoned {
  workings::Working w;

  Reckoned(const std::string& name, const std::string& values)
      : w(workings::reckon_typed(*workings::find_working(name), typed_values(values))) {}

  /// Any symbol of the working, in the unit named (empty: its formula's).
  double operator()(std::string_view symbol, std::string_view unit = {}) const {
    for (const auto& s : w.steps)
      if (s.symbol == symbol) return in(s.si, s.unit, unit);
    for (const auto& i : w.inputs)
      if (i.symbol == symbol) return in(i.si, i.unit, unit);
    throw std::logic_error(w.name + " has no " + std::string(symbol));
  }

 private:
  static double in(double si, const workings::Unit& own, std::string_view unit) {
    return unit.empty() ? own.from_si(si) : workings::find_unit(own.kind, unit)->from_si(si);
  }
};

using Typed = std::vector<std::pair<std::string, std::string>>;

inline workings::Working reckoned(std::string_view name, const Typed& typed) {
  const workings::WorkingKind* kind = workings::find_working(name);
  if (!kind) throw std::logic_error("no working " + std::string(name));
  return workings::reckon_typed(*kind, typed);
}

/// A result in a unit, whatever unit it is printed in.
inline double in(const workings::Working& w, std::string_view symbol, std::string_view unit = "") {
  for (const workings::Result& r : w.results) {
    if (r.symbol != symbol) continue;
    const workings::Unit* u = workings::find_unit(r.unit.kind, unit);
    if (!u) throw std::logic_error("no unit " + std::string(unit) + " for " + std::string(symbol));
    return u->from_si(r.si);
  }
  throw std::logic_error(w.name + " has no result " + std::string(symbol));
}

/// Within a thousandth of a printed value: the rounding to four digits.
inline doctest::Approx printed(double value, double share = 0.001) {
  return doctest::Approx(value).epsilon(share).scale(0);
}

inline bool within(double value, double reference, double share) {
  INFO("value " << value << ", reference " << reference);
  const bool is = std::abs(value - reference) <= share * std::abs(reference);
  CHECK(is);
  return is;
}
/// The reference computed outside the program with exact exponents: 0.2 %.
inline void ref(double value, double reference, double share = 0.002) {
  within(value, reference, share);
}
/// The figure printed in the source, with the tolerance that its rounding needs.
inline void pub(double value, double printed, double share) {
  within(value, printed, share);
}

}  // namespace deckquire::testing
