#include "paper/utf8.h"

namespace deckquire::paper {

namespace {

/// Bytes of the sequence that a lead byte opens; 0 when it opens none.
std::size_t sequence_length(unsigned char lead) {
  if (lead < 0x80) return 1;
  if (lead >= 0xC2 && lead <= 0xDF) return 2;
  if (lead >= 0xE0 && lead <= 0xEF) return 3;
  if (lead >= 0xF0 && lead <= 0xF4) return 4;
  return 0;
}

}  // namespace

char32_t next_code_point(std::string_view text, std::size_t& at) {
  static constexpr unsigned char lead_bits[] = {0, 0x7F, 0x1F, 0x0F, 0x07};
  static constexpr char32_t smallest[] = {0, 0, 0x80, 0x800, 0x10000};
  const auto lead = static_cast<unsigned char>(text[at]);
  if (lead < 0x80) {
    ++at;
    return lead;
  }
  const std::size_t length = sequence_length(lead);
  const std::size_t start = at++;
  if (length == 0 || start + length > text.size()) return broken_byte;
  char32_t c = lead & lead_bits[length];
  for (std::size_t i = 1; i < length; ++i) {
    const auto next = static_cast<unsigned char>(text[start + i]);
    if ((next & 0xC0) != 0x80) return broken_byte;
    c = c << 6 | (next & 0x3Fu);
  }
  if (c < smallest[length] || c > 0x10FFFF || (c >= 0xD800 && c <= 0xDFFF)) return broken_byte;
  at = start + length;
  return c;
}

}  // namespace deckquire::paper
