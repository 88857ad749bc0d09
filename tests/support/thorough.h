// How much a test draws.
#pragma once

#include <string>
#include <vector>

namespace deckquire {

/// False under the sanitizers, which run ten times as slow: there the tests of whole sets draw them on
/// one paper, the most crowded, and the release build on all.
#if defined(__SANITIZE_ADDRESS__)
constexpr bool thorough = false;
#else
constexpr bool thorough = true;
#endif

inline const std::vector<std::string> trial_styles =
    thorough ? std::vector<std::string>{"a1", "a3", "arch-d"} : std::vector<std::string>{"a3"};

}  // namespace deckquire
