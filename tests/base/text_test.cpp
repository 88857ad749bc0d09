#include "base/text.h"

#include <doctest/doctest.h>

#include "base/findings.h"

using namespace deckquire;

TEST_CASE("a metric length prints whole millimetres, and one decimal only when it needs one") {
  CHECK(print_length(mm(2400), UnitSystem::metric) == "2400");
  CHECK(print_length(mm(12.5), UnitSystem::metric) == "12.5");
  CHECK(print_length(mm(-3), UnitSystem::metric) == "-3");
  CHECK(print_length(mm(0.04), UnitSystem::metric) == "0");
}

// Forms: drawing-practice rules for feet and inches (zero inches written, no 0' below one foot,
// lowest terms).
TEST_CASE("an imperial length prints feet, inches and sixteenths in lowest terms") {
  const auto in = [](double v) { return print_length(inches(v), UnitSystem::imperial); };
  CHECK(in(0) == "0\"");
  CHECK(in(9.0625) == "9 1/16\"");
  CHECK(in(0.5) == "1/2\"");
  CHECK(in(72) == "6'-0\"");
  CHECK(in(72.5) == "6'-0 1/2\"");
  CHECK(in(94.5) == "7'-10 1/2\"");
  CHECK(in(-94.5) == "-7'-10 1/2\"");
  CHECK(in(11.97) == "1'-0\"");
}

TEST_CASE("a station prints in the form of the trade") {
  CHECK(print_station(metres(12.4), UnitSystem::metric) == "0+012.400");
  CHECK(print_station(metres(1234.567), UnitSystem::metric) == "1+234.567");
  CHECK(print_station(metres(-0.25), UnitSystem::metric) == "-0+000.250");
  CHECK(print_station(feet(124.5), UnitSystem::imperial) == "1+24.50");
}

TEST_CASE("decimals round half away from zero and never print minus nothing") {
  CHECK(decimal(0.125, 2) == "0.13");
  CHECK(decimal(2.675, 2) == "2.68");
  CHECK(decimal(-0.001, 2) == "0.00");
  CHECK(decimal(-1.005, 2) == "-1.01");
  CHECK(shortest_decimal(1.50, 2) == "1.5");
  CHECK(shortest_decimal(100, 2) == "100");
}

TEST_CASE("lengths add up exactly where doubles would not") {
  Length sum;
  for (int i = 0; i < 10; ++i) sum += mm(0.1);
  CHECK(sum == mm(1));
  for (int i = 0; i < 64; ++i) sum += inches(1.0 / 64);
  CHECK(sum == mm(26.4));
}

TEST_CASE("machine numbers read back as they were") {
  CHECK(machine_number(2488) == "2488");
  CHECK(machine_number(0.1) == "0.1");
  CHECK(machine_number(-0.0) == "0");
  CHECK(std::stod(machine_number(1.0 / 3)) == 1.0 / 3);
}

TEST_CASE("the nearest word is found, and none when all are far") {
  CHECK(nearest_word("lenght", {"length", "width"}) == "length");
  CHECK(nearest_word("zzz", {"length", "width"}).empty());
}

// Table 3-7 of the Unicode Standard 15.0 lists the well-formed sequences.
TEST_CASE("only well-formed UTF-8 without controls and noncharacters is clean") {
  CHECK(is_clean_utf8("Ø 16 × 2 ≤ ½"));
  CHECK_FALSE(is_clean_utf8("\xC0\xAF"));          // overlong
  CHECK_FALSE(is_clean_utf8("\xED\xA0\x80"));      // surrogate
  CHECK_FALSE(is_clean_utf8("\xF4\x90\x80\x80"));  // beyond U+10FFFF
  CHECK_FALSE(is_clean_utf8("\xEF\xBF\xBF"));      // U+FFFF
  CHECK_FALSE(is_clean_utf8("a\x01"));
  CHECK_FALSE(is_clean_utf8("\xE2\x82"));
}

TEST_CASE("findings come in the order of their places, each as one line") {
  Findings f;
  f.warning({"a.xml", 9, 1}, "late", "second", "look");
  f.error({"a.xml", 2, 7}, "unknown-attribute", "what", "do this");
  REQUIRE(f.has_errors());
  CHECK(to_line(f.sorted()[0]) == "a.xml:2:7: error [unknown-attribute]: what; do this");
  CHECK(to_line({Severity::note, {"a.xml", 0, 0}, "x", "y", "z"}) == "a.xml: note [x]: y; z");
}

// 60 F is 15.6 C; ISO 80000-5: t(F) = 9/5 t(C) + 32.
TEST_CASE("a temperature prints in the units of the sheets") {
  const Temperature t = Temperature::si(140.0 / 9);
  CHECK(print_temperature(t, UnitSystem::metric) == "15.6 °C");
  CHECK(print_temperature(t, UnitSystem::imperial) == "60 °F");
}
