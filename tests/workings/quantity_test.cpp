// Units typed by hand: every label reads back, exact definitions, what is said to a wrong one.
#include "workings/quantity.h"

#include <cmath>
#include <set>

#include <doctest/doctest.h>

#include "support/dice.h"

using namespace deckquire::workings;
using deckquire::testing::Dice;

namespace {

constexpr int last = static_cast<int>(Kind::expansion);

double read(std::string_view text, Kind kind) {
  const Parsed p = parse_quantity(text, units_of(kind).front());
  INFO(text << ": " << p.fault);
  REQUIRE(p.si.has_value());
  return *p.si;
}

std::string fault(std::string_view text, Kind kind) {
  const Parsed p = parse_quantity(text, units_of(kind).front());
  CHECK_FALSE(p.si.has_value());
  return p.fault;
}

bool near(double a, double b) {
  return std::abs(a - b) <= 1e-12 * std::max(std::abs(a), std::abs(b));
}

/// The letters of a label that a keyboard has.
std::string typed(std::string_view label) {
  std::string s(label);
  for (const auto& [from, to] : {std::pair<std::string_view, std::string_view>{"²", "2"},
                                 {"³", "^3"},
                                 {"⁴", "4"},
                                 {"⁻⁶", "^-6"},
                                 {"°", "deg"}})
    for (std::size_t at; (at = s.find(from)) != std::string::npos;) s.replace(at, from.size(), to);
  return s;
}

}  // namespace

TEST_CASE("quantity: every kind has units of its own, the SI unit first") {
  for (int k = 0; k <= last; ++k) {
    const Kind kind = static_cast<Kind>(k);
    const auto& units = units_of(kind);
    REQUIRE_FALSE(units.empty());
    CHECK(units.front().si == 1);
    CHECK(units.front().offset == 0);
    std::set<std::string_view> labels;
    for (const Unit& u : units) {
      CHECK(u.kind == kind);
      CHECK(labels.insert(u.label).second);
      CHECK(find_unit(kind, u.label)->label == u.label);
      CHECK(find_unit(kind, typed(u.label))->label == u.label);
    }
    CHECK(find_unit(kind, "nonsense") == nullptr);
    CHECK_FALSE(words_of(kind).empty());
    CHECK_FALSE(unit_words(kind).empty());
  }
}

TEST_CASE("quantity: a value printed in any unit and typed again is the same") {
  Dice dice{11};
  for (int k = 0; k <= last; ++k)
    for (const Unit& u : units_of(static_cast<Kind>(k)))
      for (int i = 0; i < 20; ++i) {
        const bool whole = u.kind == Kind::count;
        const double v = whole ? dice.upto(1000) : std::pow(10, dice.next() * 12 - 6);
        const double si = u.to_si(i % 3 == 0 ? -v : v);
        const std::string text = print_given(si, u) + " " + std::string(u.label);
        INFO(text);
        const Parsed back = parse_quantity(text, units_of(u.kind).front());
        REQUIRE(back.si.has_value());
        CHECK(std::abs(*back.si - si) <= 1e-9 * (std::abs(si) + std::abs(u.offset)));
        const Parsed bare = parse_quantity(print_given(si, u), u);
        CHECK(std::abs(*bare.si - si) <= 1e-9 * (std::abs(si) + std::abs(u.offset)));
      }
}

TEST_CASE("quantity: conversions by definition") {
  // NIST SP 811 (2008), appendix B.8, from memory: inch, foot, gallon (U.S.), pound, pound-force,
  // with the digits printed there. The acre is 43 560 square feet, here of the international foot.
  CHECK(near(read("1 in", Kind::length), 0.0254));
  CHECK(near(read("1ft", Kind::length), 0.3048));
  CHECK(read("1 ft3/s", Kind::flow) == doctest::Approx(2.831685e-2).epsilon(2e-7));
  CHECK(read("1 gpm", Kind::flow) == doctest::Approx(6.309020e-5).epsilon(2e-7));
  CHECK(read("1 acre", Kind::area) == doctest::Approx(4046.856).epsilon(1e-6));
  CHECK(read("1 lb", Kind::mass) == doctest::Approx(0.4535924).epsilon(1e-7));
  CHECK(read("1 psi", Kind::pressure) == doctest::Approx(6894.757).epsilon(1e-7));
  CHECK(read("90 psf", Kind::pressure) == doctest::Approx(90 * 47.88026).epsilon(1e-7));
  CHECK(read("1 kip", Kind::force) == doctest::Approx(4448.222).epsilon(1e-7));
  CHECK(read("1 lbf ft", Kind::moment) == doctest::Approx(1.355818).epsilon(1e-6));
  CHECK(near(read("3600 mm/h", Kind::rain), 1e-3));
  CHECK(near(read("2 %", Kind::number), 0.02));
  CHECK(near(read("180 deg", Kind::angle), 3.14159265358979323846));
  CHECK(near(read("212 °F", Kind::temperature), 100));
  CHECK(near(read("-40 degF", Kind::temperature), -40));
  CHECK(near(read("18 degF", Kind::temperature_change), 10));
  CHECK(near(read("12e-6/K", Kind::expansion), 12e-6));
  CHECK(near(read("12 10^-6/K", Kind::expansion), 12e-6));
}

TEST_CASE("quantity: the ways of writing") {
  CHECK(near(read("8'-0 1/4\"", Kind::length), 8 * 0.3048 + 0.25 * 0.0254));
  CHECK(near(read("5'6\"", Kind::length), 5.5 * 0.3048));
  CHECK(near(read("8'", Kind::length), 8 * 0.3048));
  CHECK(near(read("1/2 in", Kind::length), 0.0127));
  CHECK(near(read("1 1/2 in", Kind::length), 0.0381));
  CHECK(near(read("7/24", Kind::number), 7.0 / 24));
  CHECK(near(read("1:50", Kind::number), 0.02));
  CHECK(near(read("  1.5L/s ", Kind::flow), 0.0015));
  CHECK(near(read("1.5 l/s", Kind::flow), 0.0015));
  CHECK(near(read("3 kN*m", Kind::moment), 3000));
  CHECK(near(read("3 kN·m", Kind::moment), 3000));
  CHECK(near(read("3kNm", Kind::moment), 3000));
  CHECK(near(read("−3 m", Kind::length), -3));
  CHECK(near(read("+3", Kind::length), 3));
  CHECK(near(read("1e-3 m", Kind::length), 1e-3));
  CHECK(read("250", Kind::count) == 250);
  const Parsed bare = parse_quantity("250", *find_unit(Kind::length, "mm"));
  CHECK(near(*bare.si, 0.25));
}

TEST_CASE("quantity: a wrong value is told what would be right") {
  CHECK(fault("", Kind::flow) == "is empty; write 1.5 m³/s");
  CHECK(fault("much", Kind::number) == "'much' is no number; write 0.02 or 2 %");
  CHECK(fault("1.5 psi", Kind::flow) ==
        "'psi' is no unit of flow; the units are m³/s, L/s, L/min, m³/h, ft³/s, US gpm");
  CHECK(fault("1,5 m", Kind::length) == "'1,5 m' has a comma; the decimal sign is a point");
  CHECK(fault("1.5", Kind::count) == "'1.5' is no whole number");
  for (const char* bad : {"nan", "inf", "1e999", "--1", "1..2 m", "1/0", "0x10", "5 m m", "'"})
    CHECK_FALSE(parse_quantity(bad, units_of(Kind::length).front()).si.has_value());
}

TEST_CASE("quantity: print with significant digits") {
  const Unit& m = *find_unit(Kind::length, "m");
  CHECK(print_in(0.6, m) == "0.6000");
  CHECK(print_in(12, m) == "12.00");
  CHECK(print_in(0, m) == "0");
  CHECK(print_in(-0.0, m) == "0");
  CHECK(print_in(9.99996, m) == "10.00");
  CHECK(print_in(0.0001, m) == "0.0001000");
  CHECK(print_in(0.0000675, m) == "6.750e-5");
  CHECK(print_in(999999.6, m) == "1.000e6");
  CHECK(print_in(123456.4, m) == "123456");
  CHECK(print_in(-2.5, m, 2) == "-2.5");
  CHECK(print_in(2.5, *find_unit(Kind::length, "mm")) == "2500");
  CHECK(print_in(100, *find_unit(Kind::temperature, "°F")) == "212.0");
  CHECK(print_given(0.25, *find_unit(Kind::length, "mm")) == "250");
  CHECK(print_given(0.015, units_of(Kind::number).front()) == "0.015");
  CHECK(print_given(150 / 3.6e6, *find_unit(Kind::rain, "mm/h")) == "150");
  CHECK(print_given(2.5e7, m) == "25000000");
  CHECK(print_given(6.75e-5, m) == "6.75e-5");
}
