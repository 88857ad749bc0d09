#include "project/quantities.h"

#include <fmt/core.h>

#include <algorithm>
#include <array>
#include <optional>
#include <vector>

namespace deckquire {
namespace {

__extension__ typedef __int128 Wide;

constexpr Wide largest_nanometres =
    Wide{100'000'000} * 1'000'000'000;  // 100 000 km: survey coordinates

bool is_digit(char c) {
  return c >= '0' && c <= '9';
}
bool is_blank(char c) {
  return c == ' ' || c == '\t' || c == '\n' || c == '\r';
}

/// A non-negative number as written: top / bottom, both whole.
struct Ratio {
  std::int64_t top = 0, bottom = 1;
  double value() const { return static_cast<double>(top) / static_cast<double>(bottom); }
};

/// Walks over a text.
struct Cursor {
  std::string_view rest;
  void skip_blanks() {
    while (!rest.empty() && is_blank(rest.front())) rest.remove_prefix(1);
  }
  bool take(std::string_view word) {
    if (rest.substr(0, word.size()) != word) return false;
    rest.remove_prefix(word.size());
    return true;
  }
  std::string_view digits() {
    std::size_t n = 0;
    while (n < rest.size() && is_digit(rest[n])) ++n;
    const std::string_view found = rest.substr(0, n);
    rest.remove_prefix(n);
    return found;
  }
};

std::int64_t whole(std::string_view digits) {
  std::int64_t n = 0;
  for (char c : digits) n = n * 10 + (c - '0');
  return n;
}

/// Digits with an optional decimal part; at most nine before and nine after the point, so that all
/// later products fit.
std::optional<Ratio> take_decimal(Cursor& c) {
  const Cursor before = c;
  const std::string_view head = c.digits();
  std::string_view tail;
  if (c.take(".")) tail = c.digits();
  const bool shaped = !head.empty() && (tail.data() == nullptr || !tail.empty());
  if (!shaped || head.size() > 9 || tail.size() > 9) {
    c = before;
    return std::nullopt;
  }
  Ratio r;
  for (std::size_t i = 0; i < tail.size(); ++i) r.bottom *= 10;
  r.top = whole(head) * r.bottom + whole(tail);
  return r;
}

/// "n/d" with a denominator up to 9999.
std::optional<Ratio> take_fraction(Cursor& c) {
  const Cursor before = c;
  const std::string_view top = c.digits();
  const bool slash = c.take("/");
  const std::string_view bottom = c.digits();
  if (top.empty() || top.size() > 6 || !slash || bottom.empty() || bottom.size() > 4 ||
      whole(bottom) == 0) {
    c = before;
    return std::nullopt;
  }
  return Ratio{whole(top), whole(bottom)};
}

/// "7.5", "1/4", "9 1/2" or "9-1/2".
std::optional<Ratio> take_number(Cursor& c) {
  if (auto fraction = take_fraction(c)) return fraction;
  auto number = take_decimal(c);
  if (!number || number->bottom != 1) return number;
  Cursor ahead = c;
  if (!ahead.take("-")) ahead.skip_blanks();
  if (auto fraction = take_fraction(ahead)) {
    c = ahead;
    number->top = number->top * fraction->bottom + fraction->top;
    number->bottom = fraction->bottom;
  }
  return number;
}

/// Nearest whole number, halves up (the sign is put on later, so: away from zero).
Wide rounded_quotient(Wide top, Wide bottom) {
  return (2 * top + bottom) / (2 * bottom);
}

struct LengthUnit {
  std::string_view name;
  std::int64_t nanometres;
};
constexpr std::array<LengthUnit, 8> length_units{{{"mm", 1'000'000},
                                                  {"cm", 10'000'000},
                                                  {"m", 1'000'000'000},
                                                  {"in", 25'400'000},
                                                  {"ft", 304'800'000},
                                                  {"\"", 25'400'000},
                                                  {"'", 304'800'000},
                                                  {"km", 1'000'000'000'000}}};

std::optional<std::int64_t> length_unit(std::string_view name) {
  for (const LengthUnit& u : length_units)
    if (u.name == name) return u.nanometres;
  return std::nullopt;
}

Wide nanometres(const Ratio& r, std::int64_t unit) {
  return rounded_quotient(Wide{r.top} * unit, r.bottom);
}

/// Everything up to the next blank, digit or sign: the written unit.
std::string_view take_unit(Cursor& c) {
  c.skip_blanks();
  if (!c.rest.empty() && (c.rest.front() == '"' || c.rest.front() == '\'')) {
    const std::string_view mark = c.rest.substr(0, 1);
    c.rest.remove_prefix(1);
    return mark;
  }
  std::size_t n = 0;
  while (n < c.rest.size() && !is_blank(c.rest[n]) && !is_digit(c.rest[n]) && c.rest[n] != '-') ++n;
  const std::string_view found = c.rest.substr(0, n);
  c.rest.remove_prefix(n);
  return found;
}

Refusal wrong_type(Kind kind) {
  return {"wrong-type", "is not " + what_it_is(kind), "write " + how_to_write(kind)};
}

/// Looks like a unit that someone might write: letters, perhaps with a figure or a slash behind.
bool is_unit(std::string_view s) {
  const auto is_letter = [](char c) { return (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z'); };
  if (s.empty() || s.size() > 12 || !is_letter(s[0])) return false;
  return std::all_of(s.begin(), s.end(), [&](char c) {
    return is_letter(c) || is_digit(c) || c == '/' || c == '^' || c == '.';
  });
}

Refusal wrong_unit(Kind kind, std::string_view unit) {
  return {"wrong-unit",
          fmt::format("has the unit '{}', which is none for {}", unit, what_it_is(kind)),
          "write " + how_to_write(kind)};
}

bool is_feet(std::string_view unit) {
  return unit == "ft" || unit == "'";
}
bool is_inches(std::string_view unit) {
  return unit == "in" || unit == "\"";
}

/// The inches behind feet: `-0 1/4"` or ` 6 in`. nullopt when what follows is not that.
std::optional<Wide> take_inches(Cursor& c) {
  c.skip_blanks();
  c.take("-");
  c.skip_blanks();
  const auto inches = take_number(c);
  if (!inches || !is_inches(take_unit(c))) return std::nullopt;
  if (inches->top >= 12 * inches->bottom) return std::nullopt;
  return nanometres(*inches, 25'400'000);
}

Reading finished_length(Kind kind, Wide nm, bool negative) {
  if (nm > largest_nanometres) return wrong_type(kind);
  const auto whole_nm = static_cast<std::int64_t>(negative ? -nm : nm);
  return Amount{whole_nm, static_cast<double>(whole_nm) / 1e9};
}

Reading read_length(Kind kind, std::string_view text, const OwnUnit& own) {
  Cursor c{trimmed(text)};
  const bool negative = c.take("-");
  const auto number = take_number(c);
  if (!number) return wrong_type(kind);
  const std::string_view written = take_unit(c);
  const auto unit = length_unit(written.empty() ? std::string_view(own.name) : written);
  if (!unit)
    return is_unit(written) && c.rest.empty() ? wrong_unit(kind, written) : wrong_type(kind);
  Wide nm = nanometres(*number, *unit);
  c.skip_blanks();
  if (is_feet(written) && number->bottom == 1 && !c.rest.empty()) {
    const auto inches = take_inches(c);
    if (!inches) return wrong_type(kind);
    nm += *inches;
    c.skip_blanks();
  }
  if (!c.rest.empty()) return wrong_type(kind);
  return finished_length(kind, nm, negative);
}

/// "0+012.400": kilometres and metres; "1+24.50": hundreds of feet and feet.
Reading read_station(std::string_view text, const OwnUnit& own) {
  const std::string_view s = trimmed(text);
  if (s.find('+') == std::string_view::npos) return read_length(Kind::station, s, own);
  const bool metric = own.system() == UnitSystem::metric;
  Cursor c{s};
  const bool negative = c.take("-");
  const std::string_view hundreds = c.digits();
  const bool plus = c.take("+");
  const std::size_t figures = std::min(c.rest.find('.'), c.rest.size());
  const auto rest = take_decimal(c);
  if (hundreds.empty() || hundreds.size() > 6 || !plus || figures != (metric ? 3 : 2) || !rest ||
      !c.rest.empty())
    return Refusal{"wrong-type",
                   metric ? "is not a station like 0+012.400 (kilometres + metres)"
                          : "is not a station like 1+24.50 (hundreds of feet + feet)",
                   metric ? "write three figures between + and the point"
                          : "write two figures between + and the point"};
  const std::int64_t unit = metric ? 1'000'000'000 : 304'800'000;
  const Wide nm = Wide{whole(hundreds)} * unit * (metric ? 1000 : 100) + nanometres(*rest, unit);
  return finished_length(Kind::station, nm, negative);
}

/// value_si = number * scale + shift.
struct Unit {
  Kind kind;
  std::string_view name;
  double scale;
  double shift;
};
// Avoirdupois pound 0.45359237 kg, foot 0.3048 m, standard gravity 9.80665 m/s2: exact by
// definition.
constexpr double pound = 0.45359237, foot = 0.3048, pound_force = pound * 9.80665;
constexpr std::array<Unit, 45> all_units{{
    {Kind::density, "kg/m3", 1, 0},
    {Kind::density, "lb/ft3", pound / (foot * foot * foot), 0},
    {Kind::density, "pcf", pound / (foot * foot * foot), 0},
    {Kind::area_mass, "kg/m2", 1, 0},
    {Kind::area_mass, "lb/ft2", pound / (foot * foot), 0},
    {Kind::area_mass, "psf", pound / (foot * foot), 0},
    {Kind::mass, "kg", 1, 0},
    {Kind::mass, "t", 1000, 0},
    {Kind::mass, "lb", pound, 0},
    {Kind::angle, "deg", pi / 180, 0},
    {Kind::angle, "\u00b0", pi / 180, 0},
    {Kind::angle, "rad", 1, 0},
    {Kind::angle, "", pi / 180, 0},
    {Kind::temperature, "C", 1, 0},
    {Kind::temperature, "F", 5.0 / 9.0, -32 * 5.0 / 9.0},
    {Kind::force, "N", 1, 0},
    {Kind::force, "kN", 1000, 0},
    {Kind::force, "lbf", pound_force, 0},
    {Kind::force, "kip", 1000 * pound_force, 0},
    {Kind::pressure, "Pa", 1, 0},
    {Kind::pressure, "kPa", 1e3, 0},
    {Kind::pressure, "kN/m2", 1e3, 0},
    {Kind::pressure, "MPa", 1e6, 0},
    {Kind::pressure, "N/mm2", 1e6, 0},
    {Kind::pressure, "GPa", 1e9, 0},
    {Kind::pressure, "psf", pound_force / (foot * foot), 0},
    {Kind::pressure, "psi", pound_force / (foot * foot) * 144, 0},
    {Kind::pressure, "ksi", pound_force / (foot * foot) * 144000, 0},
    {Kind::line_load, "N/m", 1, 0},
    {Kind::line_load, "kN/m", 1e3, 0},
    {Kind::line_load, "lb/ft", pound_force / foot, 0},
    {Kind::moment, "N m", 1, 0},
    {Kind::moment, "Nm", 1, 0},
    {Kind::moment, "kN m", 1e3, 0},
    {Kind::moment, "lbf ft", pound_force * foot, 0},
    {Kind::moment, "lbf in", pound_force * foot / 12, 0},
    {Kind::rain, "mm/h", 1e-3 / 3600, 0},
    {Kind::rain, "in/h", 0.0254 / 3600, 0},
    {Kind::expansion, "ppm/C", 1e-6, 0},
    {Kind::expansion, "ppm/F", 1.8e-6, 0},
    {Kind::number, "", 1, 0},
    {Kind::slope, "%", 0.01, 0},
    {Kind::slope, "", 1, 0},
    {Kind::integer, "", 1, 0},
    {Kind::scale, "", 1, 0},
}};

/// Per cent by one division of whole numbers, so that "1.5 %" and "0.015" are the same double.
double in_si(const Ratio& r, const Unit& u) {
  if (u.name == "%") return static_cast<double>(r.top) / (100.0 * static_cast<double>(r.bottom));
  return r.value() * u.scale;
}

Reading read_other(Kind kind, std::string_view text) {
  Cursor c{trimmed(text)};
  const bool negative = c.take("-");
  const auto number = take_decimal(c);
  if (!number) return wrong_type(kind);
  c.skip_blanks();
  for (const Unit& u : all_units) {
    if (u.kind != kind || u.name != c.rest) continue;
    const double v = in_si(*number, u);
    return Amount{0, (negative ? -v : v) + u.shift};
  }
  if (c.rest.empty()) return Refusal{"wrong-unit", "has no unit", "write " + how_to_write(kind)};
  return is_unit(c.rest) ? wrong_unit(kind, c.rest) : wrong_type(kind);
}

Reading read_whole_number(Kind kind, std::string_view text) {
  Cursor c{trimmed(text)};
  if (kind == Kind::scale) c.take("1:");
  const bool negative = c.take("-");
  const std::string_view figures = c.digits();
  if (figures.empty() || figures.size() > 9 || !c.rest.empty()) return wrong_type(kind);
  const auto n = static_cast<double>(whole(figures));
  return Amount{0, negative ? -n : n};
}

}  // namespace

UnitSystem OwnUnit::system() const {
  return name == "in" || name == "ft" ? UnitSystem::imperial : UnitSystem::metric;
}

std::string_view trimmed(std::string_view s) {
  while (!s.empty() && is_blank(s.front())) s.remove_prefix(1);
  while (!s.empty() && is_blank(s.back())) s.remove_suffix(1);
  return s;
}

Reading read_amount(Kind kind, std::string_view text, const OwnUnit& own) {
  switch (kind) {
    case Kind::length:
      return read_length(kind, text, own);
    case Kind::station:
      return read_station(text, own);
    case Kind::integer:
    case Kind::scale:
      return read_whole_number(kind, text);
    default:
      return read_other(kind, text);
  }
}

std::string what_it_is(Kind kind) {
  const std::string words = how_to_write(kind);
  return words.substr(0, words.find(" like"));
}

std::string how_to_write(Kind kind) {
  switch (kind) {
    case Kind::text:
      return "a text";
    case Kind::name:
      return "a name of up to 40 characters";
    case Kind::word:
      return "one of the words allowed here";
    case Kind::letters:
      return "one to four capital letters like DP";
    case Kind::series:
      return "letters of sheet series like G E P D T C";
    case Kind::integer:
      return "a whole number like 4";
    case Kind::length:
      return "a length like 2440, 2.44 m, 96 in or 8'-0 1/4\"";
    case Kind::station:
      return "a station like 0+012.400, 1+24.50 (feet) or 12.4 m";
    case Kind::slope:
      return "a slope or share like 1.5 % or 0.015";
    case Kind::density:
      return "a density like 1850 kg/m3 or 115 lb/ft3";
    case Kind::area_mass:
      return "a mass per area like 7.2 kg/m2 or 1.5 psf";
    case Kind::mass:
      return "a mass like 24000 kg or 53000 lb";
    case Kind::angle:
      return "an angle like 62.5 or 62.5 deg";
    case Kind::temperature:
      return "a temperature like -15 C or 5 F";
    case Kind::force:
      return "a force like 12 kN or 2.7 kip";
    case Kind::pressure:
      return "a pressure like 5 kPa, 400 MPa or 90 psf";
    case Kind::line_load:
      return "a load per length like 0.73 kN/m or 50 lb/ft";
    case Kind::moment:
      return "a torque like 85 N m or 63 lbf ft";
    case Kind::rain:
      return "a rain intensity like 120 mm/h or 5 in/h";
    case Kind::expansion:
      return "an expansion like 12 ppm/C or 6.5 ppm/F";
    case Kind::number:
      return "a number like 1.35";
    case Kind::date:
      return "a date like 2026-10-02";
    case Kind::revision:
      return "one or two revision letters like A or AB, without I O Q S X Z";
    case Kind::thread:
      return "a thread like M16 or 5/8-11";
    case Kind::scale:
      return "a scale like 1:50";
  }
  return {};
}

bool is_date(std::string_view s) {
  if (s.size() != 10 || s[4] != '-' || s[7] != '-') return false;
  for (std::size_t i : {0U, 1U, 2U, 3U, 5U, 6U, 8U, 9U})
    if (!is_digit(s[i])) return false;
  const auto year = whole(s.substr(0, 4)), month = whole(s.substr(5, 2)), day = whole(s.substr(8));
  if (year < 1900 || year > 2199 || month < 1 || month > 12) return false;
  const bool leap = (year % 4 == 0 && year % 100 != 0) || year % 400 == 0;
  constexpr std::array<int, 12> days{31, 28, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31};
  const int last = days[static_cast<std::size_t>(month - 1)] + (month == 2 && leap ? 1 : 0);
  return day >= 1 && day <= last;
}

bool is_revision(std::string_view s) {
  if (s.empty() || s.size() > 2) return false;
  return s.find_first_not_of("ABCDEFGHJKLMNPRTUVWY") == std::string_view::npos;
}

bool is_thread(std::string_view s) {
  Cursor c{s};
  if (c.take("M")) {
    const auto size = take_decimal(c);
    if (size && size->top > 0 && c.take("x")) return take_decimal(c) && c.rest.empty();
    return size && size->top > 0 && c.rest.empty();
  }
  auto size = take_fraction(c);
  if (!size) size = take_decimal(c);
  if (!size || size->top <= 0) return false;
  if (c.take("-")) return !c.digits().empty() && c.rest.empty();
  c.skip_blanks();
  return is_inches(c.rest);
}

}  // namespace deckquire
