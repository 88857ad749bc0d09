// What every JSON text needs.
#pragma once

#include <string>

namespace deckquire {

/// A JSON string with its quotes. `s` is clean UTF-8.
std::string json_string(const std::string& s);

}  // namespace deckquire
