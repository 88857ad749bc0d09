#include "writers/markup.h"

#include <charconv>
#include <cmath>

#include "base/text.h"

namespace deckquire::writers {

void append_hundredths(std::string& out, double mm) {
  char digits[24];
  const auto end = std::to_chars(digits, digits + sizeof digits, std::lround(mm * 100)).ptr;
  out.append(digits, end);
}

void append_number(std::string& out, double v) {
  out += shortest_decimal(v, 4);
}

std::string base64(std::string_view bytes) {
  static constexpr char digit[] =
      "ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz0123456789+/";
  std::string out;
  out.reserve((bytes.size() + 2) / 3 * 4);
  for (std::size_t i = 0; i < bytes.size(); i += 3) {
    unsigned bits = 0;
    for (std::size_t k = 0; k < 3; ++k)
      bits = bits << 8 | (i + k < bytes.size() ? static_cast<unsigned char>(bytes[i + k]) : 0u);
    for (std::size_t k = 0; k < 4; ++k)
      out += i + k <= bytes.size() ? digit[bits >> (18 - 6 * k) & 63] : '=';
  }
  return out;
}

std::string series_name(char letter) {
  switch (letter) {
    case 'G':
      return "General";
    case 'E':
      return "Erection";
    case 'P':
      return "Panels";
    case 'D':
      return "Details";
    case 'T':
      return "Tables";
    case 'C':
      return "Calculations";
    case 'R':
      return "Revisions";
    default:
      return "Sheets";
  }
}

}  // namespace deckquire::writers
