// Numbers by chance that are the same on every machine.
#pragma once

#include <cstdint>

namespace deckquire::testing {

/// A linear congruence: the standard library's distributions differ between libraries.
struct Dice {
  std::uint64_t state;
  /// In [0, 1).
  double next() {
    state = state * 6364136223846793005u + 1442695040888963407u;
    return static_cast<double>(state >> 11) / 9007199254740992.0;
  }
  /// In [0, n).
  int upto(int n) { return static_cast<int>(next() * n); }
};

}  // namespace deckquire::testing
