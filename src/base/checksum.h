// Checksums: what tells whether two texts are the same without keeping both.
#pragma once

#include <string>
#include <string_view>

namespace deckquire {

/// SHA-256 (FIPS 180-4) of the bytes, as 64 digits 0-9 a-f.
std::string sha256(std::string_view bytes);

}  // namespace deckquire
