// Workings run as a user runs them: from what is typed.
#pragma once

#include <doctest/doctest.h>

#include <stdexcept>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include "workings/reckoner.h"

namespace deckquire::testing {

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
inline doctest::Approx printed(double value, double part = 0.001) {
  return doctest::Approx(value).epsilon(part).scale(0);
}

}  // namespace deckquire::testing
