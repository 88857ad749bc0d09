// Small pieces of XML, HTML and JSON text, independent of the locale.
#pragma once

#include <string>
#include <string_view>

#include "base/text.h"

namespace deckquire::writers {

/// Appends a paper length as whole hundredths of a millimetre, halves away from zero.
void append_hundredths(std::string& out, double mm);

/// Appends with up to four decimals, trailing zeros dropped.
void append_number(std::string& out, double v);

/// "General" of 'G', "Erection" of 'E' ...; "Sheets" of a letter that has no series.
std::string series_name(char letter);

std::string base64(std::string_view bytes);

}  // namespace deckquire::writers
