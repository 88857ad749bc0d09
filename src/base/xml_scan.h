// The checks of XML form that the parser does not make.
#pragma once

#include <cstddef>
#include <optional>
#include <string>
#include <string_view>

namespace deckquire {

struct XmlBreach {
  std::size_t offset = 0;
  std::string code, what, remedy;
};

/// The first breach in the text as written: encoding, DOCTYPE, processing instructions, entities
/// and character references, '<' in attribute values.
std::optional<XmlBreach> first_breach(std::string_view text);

}  // namespace deckquire
