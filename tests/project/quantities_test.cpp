#include "project/quantities.h"

#include <doctest/doctest.h>

#include <string>

using namespace deckquire;

namespace {

constexpr std::int64_t unread = -1;  // no length below is one nanometre below nothing

std::int64_t nm(const char* text, const char* unit = "mm", Kind kind = Kind::length) {
  const Reading r = read_amount(kind, text, OwnUnit{unit});
  const auto* a = std::get_if<Amount>(&r);
  return a == nullptr ? unread : a->nanometres;
}

double si(Kind kind, const char* text) {
  const Reading r = read_amount(kind, text, OwnUnit{});
  const auto* a = std::get_if<Amount>(&r);
  return a == nullptr ? -999 : a->si;
}

}  // namespace

TEST_CASE("length: a bare number, in each unit of a project, is in that unit") {
  CHECK(nm("2440") == 2'440'000'000);
  CHECK(nm("2.44", "m") == 2'440'000'000);
  CHECK(nm("96", "in") == 2'438'400'000);  // 25.4 mm an inch: exact by definition (1959)
  CHECK(nm("8", "ft") == 2'438'400'000);
  CHECK(nm("-3.5") == -3'500'000);
}

TEST_CASE("length: with a unit of its own, is in that unit") {
  CHECK(nm("2.44 m") == 2'440'000'000);
  CHECK(nm("2.44m") == 2'440'000'000);
  CHECK(nm("96 in") == 2'438'400'000);
  CHECK(nm("7.5 ft") == 2'286'000'000);
  CHECK(nm("12 cm") == 120'000'000);
  CHECK(nm(" 12 mm ") == 12'000'000);
}

TEST_CASE("length: in feet and inches, is exact to the nanometre") {
  CHECK(nm("8'-0 1/4\"") == 2'444'750'000);
  CHECK(nm("8' 6\"") == 2'590'800'000);
  CHECK(nm("8 ft 6 in") == 2'590'800'000);
  CHECK(nm("8'") == 2'438'400'000);
  CHECK(nm("9 1/2\"") == 241'300'000);
  CHECK(nm("9-1/2\"") == 241'300'000);
  CHECK(nm("1/64 in") == 396'875);
  CHECK(nm("-3'-3\"") == -990'600'000);
  CHECK(nm("83 1/4", "in") == 2'114'550'000);
}

TEST_CASE("length: decimals that no double holds, summed, stay exact") {
  CHECK(nm("0.1 m") * 3 == nm("0.3 m"));
  CHECK(nm("8856.250 m") == 8'856'250'000'000);
  CHECK(nm("123456789.123456789 mm") == 123'456'789'123'457);  // rounded to the nanometre
  CHECK(nm("1/3 in") == 8'466'667);
}

TEST_CASE("length: anything else is refused") {
  for (const char* text : {"",         "mm",
                           "abc",      "1e3",
                           "0x10",     "NaN",
                           "inf",      "-",
                           "--1",      "1,5",
                           "1 2",      "+1",
                           ".5",       "5.",
                           "1/0",      "1//2",
                           "1'-13\"",  "1' 2 mm",
                           "12 kg",    "12 mm x",
                           "1.2.3",    "1234567890123 mm",
                           "7.5' 6\"", "\xC2\xBD in"})
    CHECK_MESSAGE(nm(text) == unread, text);
}

TEST_CASE("station: metric, is kilometres and metres") {
  CHECK(nm("0+012.400", "mm", Kind::station) == 12'400'000'000);
  CHECK(nm("12+345.678", "m", Kind::station) == 12'345'678'000'000);
  CHECK(nm("-0+010.000", "mm", Kind::station) == -10'000'000'000);
  CHECK(nm("12.4 m", "mm", Kind::station) == 12'400'000'000);
  for (const char* text : {"0+12.4", "0+0012.4", "+012.4", "0+", "0+012.", "0+012 m"})
    CHECK_MESSAGE(nm(text, "mm", Kind::station) == unread, text);
}

TEST_CASE("station: in feet, is hundreds of feet and feet") {
  CHECK(nm("1+24.50", "in", Kind::station) == 37'947'600'000);  // 124.5 ft
  CHECK(nm("1+24.50", "ft", Kind::station) == 37'947'600'000);
  CHECK(nm("221 ft 0 1/2 in", "in", Kind::station) == 67'373'500'000);
  CHECK(nm("0+012.400", "ft", Kind::station) == unread);
}

// Factors: NIST Special Publication 811 (2008), appendix B.8 (from memory).
TEST_CASE("other quantities: with their units, are in SI") {
  CHECK(si(Kind::slope, "1.5 %") == 0.015);
  CHECK(si(Kind::slope, "0.015") == 0.015);
  CHECK(si(Kind::density, "1850 kg/m3") == 1850);
  CHECK(si(Kind::density, "1 lb/ft3") == doctest::Approx(16.01846).epsilon(1e-6));
  CHECK(si(Kind::area_mass, "1 psf") == doctest::Approx(4.882428).epsilon(1e-6));
  CHECK(si(Kind::mass, "1 lb") == 0.45359237);
  CHECK(si(Kind::force, "1 lbf") == doctest::Approx(4.448222).epsilon(1e-6));
  CHECK(si(Kind::force, "1 kip") == doctest::Approx(4448.222).epsilon(1e-6));
  CHECK(si(Kind::angle, "180") == doctest::Approx(pi));
  CHECK(si(Kind::temperature, "-40 F") == doctest::Approx(-40));
  CHECK(si(Kind::temperature, "212 F") == doctest::Approx(100));
  CHECK(si(Kind::scale, "1:50") == 50);
  CHECK(si(Kind::density, "1850") == -999);
  CHECK(si(Kind::temperature, "15") == -999);
  CHECK(si(Kind::integer, "2.5") == -999);
}

TEST_CASE("date: of the Gregorian calendar, is one") {
  for (const char* good : {"2026-10-02", "2024-02-29", "2000-02-29"}) CHECK(is_date(good));
  for (const char* bad : {"2026-02-29", "2100-02-29", "2026-13-01", "2026-00-10", "2026-04-31",
                          "2026-4-3", "02.10.2026", "2026-10-02 ", ""})
    CHECK_FALSE(is_date(bad));
}

// ASME Y14.35: letters I, O, Q, S, X and Z are not used (from memory).
TEST_CASE("revision: one or two letters that cannot be misread, is one") {
  for (const char* good : {"A", "H", "J", "Y", "AA", "AB"}) CHECK(is_revision(good));
  for (const char* bad : {"I", "O", "Q", "S", "X", "Z", "a", "1", "AI", "AAA", ""})
    CHECK_FALSE(is_revision(bad));
}

TEST_CASE("thread: metric or inch, is one") {
  for (const char* good : {"M16", "M20x1.5", "5/8-11", "1-8", "1/2 in", "3/8\""})
    CHECK(is_thread(good));
  for (const char* bad : {"M", "16", "M0", "5/8-", "M16 long", "x", ""})
    CHECK_FALSE(is_thread(bad));
}
