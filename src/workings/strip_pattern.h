// Loads of which each may be there or not: the worst of every quantity over all combinations. The
// strip is linear, so each part is solved once, and at every place the parts that make it worse are
// added.
#pragma once

#include <vector>

#include "workings/strip.h"

namespace deckquire::workings {

/// What is always there, and parts that may or may not be.
struct PatternLoads {
  std::vector<StripLoad> always;
  std::vector<std::vector<StripLoad>> parts;
};

/// A uniform load on each overhang and span by itself, from left to right.
std::vector<std::vector<StripLoad>> each_bay(const Strip& strip, double per_mm);

struct PatternPeak {
  double value = 0, x = 0;
  std::vector<bool> parts;  // which are there in this combination
};

struct PatternResult {
  StripResult always;
  std::vector<StripResult> parts;
  PatternPeak max_M, min_M, max_V, min_V, max_w, min_w;  // exact, as in strip.h
  struct Reaction {
    double max = 0, min = 0;
  };
  std::vector<Reaction> reactions;

  /// The largest (smallest) of each quantity at x over all combinations; each by itself.
  StripState largest(double x, Side side = Side::right) const;
  StripState smallest(double x, Side side = Side::right) const;
  /// The worst within from .. to.
  PatternPeak worst_w(double from, double to) const;
};

/// WorkingError as in solve(), and where a support can only push: combinations do not add up there.
PatternResult solve_patterns(const Strip& strip, const PatternLoads& loads);

}  // namespace deckquire::workings
