// Uplift, heat, tolerances.
#include <cmath>

#include "support/reckoned.h"

using namespace deckquire::testing;
using deckquire::workings::WorkingError;

// Statics of a rigid panel; 0.020 ksf of AASHTO LRFD 3.8.2 (from memory); the rest assumed.
TEST_CASE("hold-down, case 14") {
  Typed typed{{"B", "3.0 m"},      {"l", "2.4 m"},      {"x_1", "0.6 m"},
              {"x_2", "2.4 m"},    {"q", "20 psf"},     {"g_d", "0.60 kPa"},
              {"gamma_W", "1.00"}, {"gamma_D", "0.90"}, {"R_c", "1.5 kN"}};
  const auto w = reckoned("hold-down", typed);
  CHECK(in(w, "U", "kN") == printed(6.895));
  CHECK(in(w, "G", "kN") == printed(3.888));
  CHECK(in(w, "T_1a", "kN") == printed(4.376));
  CHECK(in(w, "T_2a", "kN") == printed(-1.369));
  CHECK(in(w, "T_2b", "kN") == printed(4.376));  // wind from the other side
  CHECK(in(w, "T_1b", "kN") == printed(-1.369));
  CHECK(in(w, "q_n", "kPa") == printed(0.4176));
  CHECK(in(w, "T_n", "kN") == printed(3.007));
  CHECK(in(w, "n_1") == 3);
  CHECK(in(w, "n_2") == 3);
  CHECK(in(w, "F_c", "kN") == printed(1.459));
  CHECK(w.kept());
  // Two clips that hold just their share stay two: 1.4 kN over girder 1, 0.7 kN each, rounding or
  // not.
  const auto just = reckoned("hold-down", {{"B", "2 m"},
                                           {"l", "1 m"},
                                           {"x_1", "0.5 m"},
                                           {"x_2", "1.5 m"},
                                           {"q", "0.7 kPa"},
                                           {"g_d", "0"},
                                           {"gamma_W", "1"},
                                           {"gamma_D", "1"},
                                           {"R_c", "0.7 kN"},
                                           {"n_min", "1"}});
  CHECK(in(just, "T_1", "kN") == printed(1.4, 1e-9));
  CHECK(in(just, "n_1") == 2);
  CHECK(just.kept());
  typed.pop_back();
  const auto unknown = reckoned("hold-down", typed);
  CHECK(unknown.verdicts.empty());
  CHECK(unknown.not_checked.size() == 2);
}

// Free expansion; alpha of steel AASHTO LRFD 6.4.1 (second-hand), of the laminate assumed.
TEST_CASE("gaps in heat and cold, case 15") {
  const Typed panel{
      {"p", "2400 mm"},         {"L", "2394 mm"}, {"T_0", "15"},  {"alpha_s", "11.7e-6 1/K"},
      {"alpha_f", "20e-6 1/K"}, {"T_sc", "-30"},  {"T_fc", "-30"}};
  const auto gap = [&](const char* steel, const char* deck) {
    Typed t = panel;
    t.insert(t.end(), {{"T_sh", steel}, {"T_fh", deck}, {"T_i", "0"}});
    return reckoned("thermal-gap", t);
  };
  const auto even = gap("45", "45");
  CHECK(in(even, "c", "mm") == printed(0.01980));
  CHECK(in(even, "g_h", "mm") == printed(5.406));
  CHECK(in(even, "g_c", "mm") == printed(6.891));
  CHECK(in(even, "g_i", "mm") == printed(6.297));
  const auto sun = gap("45", "60");
  CHECK(in(sun, "g_h", "mm") == printed(4.688));
  CHECK(in(sun, "g_s", "mm") == printed(4.312));
  CHECK(sun.kept());
  // 113 degF is 45 degC, 140 degF 60 degC.
  CHECK(in(gap("113 degF", "140 degF"), "g_h", "mm") == printed(4.688));
}

TEST_CASE("movement of a girder's end, case 15") {
  const auto w = reckoned("girder-movement", {{"x", "24 m"}, {"T_sh", "45"}, {"T_sc", "-30"}});
  CHECK(in(w, "u_h", "mm") == printed(8.424));
  CHECK(in(w, "u_c", "mm") == printed(-12.64));
  CHECK(in(w, "u", "mm") == printed(21.06));
  // The panel's edge a metre beyond its fixing, with the deck as hot as the steel: 20e-6 x 1000 x
  // 30 more.
  const auto edge = reckoned("girder-movement", {{"x", "24 m"},
                                                 {"T_sh", "45"},
                                                 {"T_sc", "-30"},
                                                 {"x_f", "1 m"},
                                                 {"alpha_f", "20e-6"},
                                                 {"T_fh", "45"},
                                                 {"T_fc", "-30"}});
  CHECK(in(edge, "u_h", "mm") == printed(8.424 + 0.6));
}

TEST_CASE("tolerance stack, case 20") {
  const auto w =
      reckoned("tolerance-stack", {{"parts", "10 x 2394 +- 3 mm; 9 x 6 ± 2 mm; 0 +- 5 mm"}});
  CHECK(in(w, "G", "mm") == printed(23994, 1e-9));
  CHECK(in(w, "T_w", "mm") == printed(53.00));
  CHECK(in(w, "T_r", "mm") == printed(12.29));
  CHECK(in(w, "T_k", "mm") == printed(18.43));
  // A published example (second-hand), inches; the text rounds in two steps to 0.00794.
  const auto inch = reckoned(
      "tolerance-stack", {{"parts", "1 +- 0.005 in; 1 +- 0.003 in; 1 +- 0.002 in; 1 +- 0.005 in"}});
  CHECK(in(inch, "T_w", "in") == printed(0.01500));
  CHECK(in(inch, "T_r", "in") == printed(0.007937));
  CHECK_THROWS_AS(reckoned("tolerance-stack", {{"parts", "2394 mm"}}), WorkingError);
}
