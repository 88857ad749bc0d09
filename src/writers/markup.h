// Small pieces of XML, HTML and JSON text, independent of the locale.
#pragma once

#include <string>
#include <string_view>

namespace deckquire::writers {

/// Appends s with & < > " as entities; tab and line ends as character references, so that they
/// survive in attributes.
void append_escaped(std::string& out, std::string_view s);
std::string escaped(std::string_view s);

/// Appends a paper length as whole hundredths of a millimetre, halves away from zero.
void append_hundredths(std::string& out, double mm);

/// Appends with up to four decimals, trailing zeros dropped.
void append_number(std::string& out, double v);

std::string base64(std::string_view bytes);

}  // namespace deckquire::writers
