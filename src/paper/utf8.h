// Walking UTF-8 text.
#pragma once

#include <cstddef>
#include <string_view>

namespace deckquire::paper {

/// Stands for a byte that starts no valid sequence; beyond every code point.
inline constexpr char32_t broken_byte = 0x110000;

/// The code point at `at`, which moves past it (at least one byte). A byte that starts no valid
/// sequence gives broken_byte and is passed alone.
char32_t next_code_point(std::string_view text, std::size_t& at);

}  // namespace deckquire::paper
