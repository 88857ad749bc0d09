// How much a test draws.
#pragma once

#include <string>
#include <vector>

namespace deckquire {

/// False in the tests that run under the sanitizers, ten times as slow: there the tests of whole sets
/// draw them on one paper, the most crowded, and the release build on all.
extern const bool thorough;

inline const std::vector<std::string> trial_styles =
    thorough ? std::vector<std::string>{"a1", "a3", "arch-d"} : std::vector<std::string>{"a3"};

}  // namespace deckquire
