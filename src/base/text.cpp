#include "base/text.h"

#include <algorithm>
#include <array>
#include <charconv>
#include <cmath>
#include <numeric>

#include <fmt/format.h>

namespace deckquire {
namespace {

/// Binary doubles sit a hair beside the decimal half that was meant; this much decides for "up".
constexpr double half_slack = 1e-9;

std::string sixteenths(std::int64_t n) {
  const std::int64_t whole = n / 16, rest = n % 16;
  if (rest == 0) return fmt::format("{}", whole);
  const std::int64_t g = std::gcd(rest, std::int64_t{16});
  if (whole == 0) return fmt::format("{}/{}", rest / g, 16 / g);
  return fmt::format("{} {}/{}", whole, rest / g, 16 / g);
}

std::string feet_inches(std::int64_t n) {
  const std::string sign = n < 0 ? "-" : "";
  n = std::abs(n);
  const std::int64_t foot = 12 * 16;
  if (n < foot) return sign + sixteenths(n) + "\"";
  const std::int64_t rest = n % foot;
  // A fraction alone after feet takes a zero: 6'-0 1/2".
  const std::string inch = rest > 0 && rest < 16 ? "0 " + sixteenths(rest) : sixteenths(rest);
  return fmt::format("{}{}'-{}\"", sign, n / foot, inch);
}

bool is_continuation(unsigned char c) {
  return (c & 0xC0) == 0x80;
}

/// Length of the well-formed sequence at s[i], 0 when there is none.
std::size_t sequence_length(std::string_view s, std::size_t i) {
  const auto byte = [&](std::size_t k) { return static_cast<unsigned char>(s[k]); };
  const unsigned char c = byte(i);
  const std::size_t n = c < 0x80         ? 1
                        : (c >> 5) == 6  ? 2
                        : (c >> 4) == 14 ? 3
                        : (c >> 3) == 30 ? 4
                                         : 0;
  if (n == 0 || i + n > s.size()) return 0;
  std::uint32_t point = n == 1 ? c : c & (0x7Fu >> n);
  for (std::size_t k = 1; k < n; ++k) {
    if (!is_continuation(byte(i + k))) return 0;
    point = (point << 6) | (byte(i + k) & 0x3Fu);
  }
  constexpr std::array<std::uint32_t, 5> least{0, 0, 0x80, 0x800, 0x10000};
  const bool overlong = point < least[n];
  const bool surrogate = point >= 0xD800 && point <= 0xDFFF;
  const bool noncharacter = (point & 0xFFFE) == 0xFFFE || (point >= 0xFDD0 && point <= 0xFDEF);
  const bool control =
      (point < 0x20 && c != '\t' && c != '\n' && c != '\r') || (point >= 0x7F && point < 0xA0);
  return overlong || surrogate || noncharacter || control || point > 0x10FFFF ? 0 : n;
}

}  // namespace

std::string decimal(double v, int places) {
  const double scale = std::pow(10.0, places);
  const double units = std::floor(std::abs(v) * scale + 0.5 + half_slack);
  if (!(units < 9e15)) return fmt::format("{:.{}f}", v, places);
  std::string digits = fmt::format("{:0{}}", static_cast<std::int64_t>(units), places + 1);
  if (places > 0) digits.insert(digits.size() - static_cast<std::size_t>(places), ".");
  return (v < 0 && units > 0 ? "-" : "") + digits;
}

std::string shortest_decimal(double v, int places) {
  std::string s = decimal(v, places);
  if (places == 0) return s;
  s.erase(s.find_last_not_of('0') + 1);
  if (s.back() == '.') s.pop_back();
  return s;
}

Length print_unit(UnitSystem u) {
  return u == UnitSystem::metric ? mm(1) : Length::from_nanometres(1587500);
}

std::int64_t whole_units(Length a, Length unit) {
  const std::int64_t n = a.in_nanometres(), d = unit.in_nanometres();
  return n >= 0 ? (n + d / 2) / d : -((-n + d / 2) / d);
}

std::string print_length(Length a, UnitSystem u) {
  if (u == UnitSystem::imperial) return print_whole_units(whole_units(a, print_unit(u)), u);
  return shortest_decimal(a.in_mm(), 1);
}

std::string print_whole_units(std::int64_t n, UnitSystem u) {
  return u == UnitSystem::metric ? fmt::format("{}", n) : feet_inches(n);
}

std::string print_station(Length a, UnitSystem u) {
  const bool metric = u == UnitSystem::metric;
  const std::int64_t unit = metric ? 1000000 : 3048000;  // nm: 1 mm, 0.01 ft
  const std::int64_t n = whole_units(abs(a), Length::from_nanometres(unit));
  const std::int64_t full = metric ? 1000000 : 10000;  // of these in a full station
  const std::string sign = a < Length() && n > 0 ? "-" : "";
  const std::int64_t rest = n % full;
  return metric ? fmt::format("{}{}+{:03}.{:03}", sign, n / full, rest / 1000, rest % 1000)
                : fmt::format("{}{}+{:02}.{:02}", sign, n / full, rest / 100, rest % 100);
}

std::string print_level(Length a, UnitSystem u) {
  return u == UnitSystem::metric ? decimal(a.in_m(), 3) : decimal(a.in_feet(), 2);
}

std::string print_mass(Mass m, UnitSystem u) {
  constexpr double kg_per_lb = 0.45359237;  // exact, international pound
  return decimal(u == UnitSystem::metric ? m.in_si() : m.in_si() / kg_per_lb, 0);
}

std::string print_area(Area a, UnitSystem u) {
  constexpr double m2_per_sq_ft = 0.3048 * 0.3048;
  return decimal(u == UnitSystem::metric ? a.in_si() : a.in_si() / m2_per_sq_ft, 2);
}

std::string print_temperature(Temperature t, UnitSystem u) {
  if (u == UnitSystem::metric) return shortest_decimal(t.in_si(), 1) + " °C";
  return shortest_decimal(t.in_si() * 9 / 5 + 32, 1) + " °F";
}

std::string machine_number(double v) {
  std::array<char, 64> buffer{};
  const double size = std::abs(v);
  const auto form = size == 0 || (size >= 1e-6 && size < 1e15) ? std::chars_format::fixed
                                                               : std::chars_format::scientific;
  const auto end = std::to_chars(buffer.data(), buffer.data() + buffer.size(), v, form).ptr;
  const std::string s(buffer.data(), end);
  return s == "-0" ? "0" : s;
}

std::string nearest_word(std::string_view word, const std::vector<std::string>& candidates) {
  std::string best;
  std::size_t best_distance = 2 + word.size() / 3;
  for (const std::string& c : candidates) {
    if (c.size() > word.size() + best_distance || word.size() > c.size() + best_distance) continue;
    std::vector<std::size_t> row(c.size() + 1);
    std::iota(row.begin(), row.end(), std::size_t{0});
    for (std::size_t i = 1; i <= word.size(); ++i) {
      std::size_t diagonal = row[0];
      row[0] = i;
      for (std::size_t j = 1; j <= c.size(); ++j) {
        const std::size_t change = diagonal + (word[i - 1] == c[j - 1] ? 0 : 1);
        diagonal = row[j];
        row[j] = std::min({change, row[j] + 1, row[j - 1] + 1});
      }
    }
    if (row.back() < best_distance) {
      best_distance = row.back();
      best = c;
    }
  }
  return best;
}

bool is_clean_utf8(std::string_view s) {
  for (std::size_t i = 0; i < s.size();) {
    const std::size_t n = sequence_length(s, i);
    if (n == 0) return false;
    i += n;
  }
  return true;
}

void append_escaped(std::string& out, std::string_view s) {
  for (char c : s) {
    switch (c) {
      case '&':
        out += "&amp;";
        break;
      case '<':
        out += "&lt;";
        break;
      case '>':
        out += "&gt;";
        break;
      case '"':
        out += "&quot;";
        break;
      case '\t':
        out += "&#9;";
        break;
      case '\n':
        out += "&#10;";
        break;
      case '\r':
        out += "&#13;";
        break;
      default:
        out += c;
    }
  }
}

std::string escaped(std::string_view s) {
  std::string out;
  append_escaped(out, s);
  return out;
}

std::string padded(int n, int digits) {
  return fmt::format("{:0{}}", n, digits);
}

std::vector<std::string> split_lines(const std::string& text) {
  std::vector<std::string> out;
  std::size_t from = 0;
  for (std::size_t to; (to = text.find('\n', from)) != std::string::npos; from = to + 1) {
    out.push_back(text.substr(from, to - from));
  }
  out.push_back(text.substr(from));
  return out;
}

std::string join(const std::vector<std::string>& parts, std::string_view separator) {
  return fmt::format("{}", fmt::join(parts, separator));
}

}  // namespace deckquire
