// Loads of codes. The formulas and limits as quoted by second-hand texts, marked at each case; the
// numbers worked out from them by hand.
#include "support/reckoned.h"

using namespace deckquire::testing;
using deckquire::workings::WorkingError;

// AASHTO LRFD Guide Specifications for the Design of Pedestrian Bridges, 2009 with 2015 interim,
// Art. 3.1 (second-hand, a calculation template that cites the guide article by article).
TEST_CASE("pedestrian load: AASHTO guide 2009, 90 psf") {
  const auto w = reckoned("pedestrian-load", {{"code", "aashto-2009"}});
  CHECK(in(w, "p", "kPa") == printed(4.309));
  CHECK(in(w, "p", "psf") == printed(90, 1e-9));
  CHECK(in(reckoned("pedestrian-load", {{"code", "aashto-2009"}, {"p_code", "85 psf"}}), "p",
           "kPa") == printed(4.070));
}

// CAN/CSA-S6-06 cl. 3.8.9 (second-hand: A. de la Chevrotiere, A Review of Two Codes for the Design
// of Pedestrian Bridges, Feb 2020, R2): p = 5.0 - s/30, 1.6 <= p <= 4.0.
TEST_CASE("pedestrian load: CSA S6-06") {
  const std::pair<const char*, double> rows[] = {{"20 m", 4.0}, {"30 m", 4.0},  {"45 m", 3.5},
                                                 {"75 m", 2.5}, {"102 m", 1.6}, {"120 m", 1.6}};
  for (const auto& [s, p] : rows) {
    CHECK(in(reckoned("pedestrian-load", {{"code", "csa-s6-06"}, {"s", s}}), "p", "kPa") ==
          printed(p));
  }
  CHECK_THROWS_AS(reckoned("pedestrian-load", {{"code", "csa-s6-06"}}), WorkingError);
  CHECK(
      in(reckoned("pedestrian-load", {{"code", "csa-s6-06"}, {"s", "20 m"}, {"p_most", "4.5 kPa"}}),
         "p", "kPa") == printed(5.0 - 20.0 / 30));
}

// EN 1991-2:2003 cl. 5.3.2.1 (second-hand, two texts): q = 2.0 + 120/(L + 30), 2.5 <= q <= 5.0.
TEST_CASE("pedestrian load: EN 1991-2") {
  const std::pair<const char*, double> rows[] = {{"6 m", 5.0},  {"10 m", 5.0},    {"30 m", 4.0},
                                                 {"50 m", 3.5}, {"150 m", 2.667}, {"210 m", 2.5},
                                                 {"250 m", 2.5}};
  for (const auto& [s, p] : rows) {
    CHECK(in(reckoned("pedestrian-load", {{"code", "en-1991-2"}, {"s", s}}), "p", "kPa") ==
          printed(p));
  }
}

// AASHTO guide 2009, Art. 3.2 (classes second-hand; H10 axles, 6 ft and the class below 7 ft from
// memory).
TEST_CASE("maintenance vehicle: class by clear width, with a millimetre for conversions") {
  const std::pair<const char*, double> rows[] = {
      {"2.00 m", 0},      {"2.1336 m", 8.896}, {"7 ft", 8.896},   {"3.00 m", 8.896},
      {"3.048 m", 8.896}, {"10 ft", 8.896},    {"3.05 m", 17.79}, {"4.20 m", 17.79}};
  for (const auto& [width, front] : rows) {
    const auto w = reckoned("maintenance-vehicle", {{"code", "aashto-2009"}, {"w", width}});
    CAPTURE(width);
    if (front > 0) {
      CHECK(in(w, "P_1", "kN") == printed(front));
      CHECK(in(w, "P_2", "kN") == printed(4 * front));
      CHECK(in(w, "s_a", "m") == printed(4.267));
      CHECK(in(w, "s_w", "m") == printed(1.829));
    } else {
      CHECK(in(w, "P_2", "kN") == 0);
    }
  }
}

// Statics: M = W (L/4 - c/8), R = W (1 - c/(2L)); patch assumed.
TEST_CASE("maintenance vehicle: a wheel on a simple span") {
  const auto h5 =
      reckoned("maintenance-vehicle",
               {{"code", "aashto-2009"}, {"w", "3.00 m"}, {"L", "1.8 m"}, {"c", "0.250 m"}});
  CHECK(in(h5, "W_1", "kN") == printed(4.448));
  CHECK(in(h5, "W_2", "kN") == printed(17.79));
  CHECK(in(h5, "P_2", "kN") == printed(35.59));
  CHECK(in(h5, "M", "kN m") == printed(7.451));
  CHECK(in(h5, "R", "kN") == printed(16.56));
  const auto h10 =
      reckoned("maintenance-vehicle",
               {{"code", "aashto-2009"}, {"w", "4.20 m"}, {"L", "1800 mm"}, {"c", "250 mm"}});
  CHECK(in(h10, "W_1", "kN") == printed(8.896));
  CHECK(in(h10, "P_2", "kN") == printed(71.17));
  CHECK(in(h10, "M", "kN m") == printed(14.90));
  CHECK(in(h10, "R", "kN") == printed(33.11));
  // EN 1991-2 cl. 5.6.3 (from memory): 80 kN axle, 0.2 m patch.
  const auto en = reckoned("maintenance-vehicle",
                           {{"code", "en-1991-2"}, {"w", "3 m"}, {"L", "1.8 m"}, {"c", "0.2 m"}});
  CHECK(in(en, "M", "kN m") == printed(17.00));
}
