// Mass, centre of gravity, slings, trucks.
#include <cmath>

#include "support/reckoned.h"

using namespace deckquire::testing;
using deckquire::workings::WorkingError;

// Trapezoid by the textbook form A = (a + b) h/2, x = h (a + 2b)/(3 (a + b)).
TEST_CASE("mass in plan, case 16: trapezoid with hatch and scupper") {
  const Typed typed{{"corners", "0 0, 3000 0, 3000 2400, 0 1900"},
                    {"openings", "1800 700, 2400 700, 2400 1300, 1800 1300; round 300 250 150"},
                    {"m_A", "62.0 kg/m2"}};
  const auto w = reckoned("plan-centroid", typed);
  CHECK(in(w, "A_0", "m2") == printed(6.450));
  CHECK(in(w, "x_0", "mm") == printed(1558));
  CHECK(in(w, "y_0", "mm") == printed(1080));
  CHECK(in(w, "A", "m2") == printed(6.072));
  CHECK(in(w, "x", "mm") == printed(1530));
  CHECK(in(w, "y", "mm") == printed(1087));
  CHECK(in(w, "m", "kg") == printed(376.5));
  CHECK(in(w, "G", "kN") == printed(3.692));
  // The other way round the same.
  const auto turned =
      reckoned("plan-centroid", {{"corners", "0 1900, 3000 2400, 3000 0, 0 0"}, {"m_A", "62.0"}});
  CHECK(in(turned, "A", "m2") == printed(6.450));
  CHECK_THROWS_AS(reckoned("plan-centroid", {{"corners", "0 0, 1 1, 2 2"}, {"m_A", "62"}}),
                  WorkingError);
}

// Volumes x densities, all assumed.
TEST_CASE("mass by parts, case 17: crowned panel with curbs") {
  const Typed panel{{"B", "3000"},     {"L", "2400"},     {"t_e", "100"}, {"s", "2 %"},
                    {"t_s", "8"},      {"rho_s", "1850"}, {"n_w", "17"},  {"t_w", "6"},
                    {"rho_w", "1850"}, {"rho_c", "80"},   {"n_k", "2"},   {"b_k", "150"},
                    {"h_k", "120"},    {"rho_k", "1200"}, {"n_p", "4"},   {"a_p", "200"},
                    {"b_p", "150"},    {"t_p", "16"},     {"z_p", "205"}, {"t_o", "6"},
                    {"rho_o", "1900"}};
  const auto w = reckoned("panel-mass", panel);
  const struct {
    const char* part;
    double kg, z;
  } rows[] = {{"bottom", 106.6, 4.000}, {"top", 106.6, 111.0},   {"webs", 56.04, 57.88},
              {"core", 54.60, 57.88},   {"curbs", 103.7, 161.5}, {"plates", 15.07, 205.0},
              {"overlay", 73.89, 119.5}};
  for (const auto& row : rows) {
    CAPTURE(row.part);
    CHECK(in(w, std::string("m_") + row.part, "kg") == printed(row.kg));
    CHECK(in(w, std::string("z_") + row.part, "mm") == printed(row.z));
  }
  CHECK(in(w, "m", "kg") == printed(516.4));
  CHECK(in(w, "z", "mm") == printed(91.64));
  CHECK(in(w, "m_A", "kg/m2") == printed(71.73));
  CHECK(in(w, "G", "kN") == printed(5.064));
  Typed no_density = panel;
  no_density.pop_back();
  CHECK_THROWS_AS(reckoned("panel-mass", no_density), WorkingError);
  Typed more = panel;
  more.emplace_back("more", "10 kg @ 50 mm; -4 kg @ 20 mm");
  const auto with = reckoned("panel-mass", more);
  CHECK(in(with, "m", "kg") - in(w, "m", "kg") == printed(6, 1e-9));
  CHECK(in(with, "z", "mm") == printed((516.4 * 91.64 + 500 - 80) / 522.4));
}

// T = W/(n sin beta): rigging tables (second-hand). Two of four legs: US Navy NAVEDTRA 14251.
TEST_CASE("slings, case 18") {
  const std::pair<const char*, double> table[] = {
      {"90", 6.250}, {"60", 7.217}, {"45", 8.839}, {"30", 12.50}};
  for (const auto& [beta, T] : table) {
    const auto w = reckoned("sling", {{"W", "12.5 kN"}, {"n", "2"}, {"phi", "1"}, {"beta", beta}});
    CHECK(in(w, "T", "kN") == printed(T));
  }
  const auto four = reckoned(
      "sling",
      {{"W", "12.5 kN"}, {"l_x", "1.8 m"}, {"l_y", "1.2 m"}, {"h", "1.6 m"}, {"phi", "1.25"}});
  CHECK(in(four, "l_l", "m") == printed(1.931));
  CHECK(in(four, "beta_l", "deg") == printed(55.94));
  CHECK(in(four, "T_all", "kN") == printed(3.772));
  CHECK(in(four, "T_e", "kN") == printed(7.544));
  CHECK(in(four, "T", "kN") == printed(9.430));
  CHECK(in(four, "h_1", "m") == printed(1.082));
  CHECK(in(four, "h_2", "m") == printed(1.873));
  CHECK(four.kept());
  CHECK(four.cautions.size() == 4);  // 55.94° is under the 60° preferred
  CHECK(!reckoned("sling", {{"W", "12.5 kN"}, {"phi", "1"}, {"beta", "44"}}).kept());
  CHECK(four.not_checked.size() == 2);
  const auto two = reckoned("sling", {{"legs", "two-uneven"},
                                      {"W", "12.5 kN"},
                                      {"a", "1.0 m"},
                                      {"b", "1.4 m"},
                                      {"h", "1.5 m"},
                                      {"phi", "1"}});
  CHECK(in(two, "T_a", "kN") == printed(8.763));
  CHECK(in(two, "T_b", "kN") == printed(7.124));
  CHECK(in(two, "beta_a", "deg") == printed(56.31));
  CHECK(in(two, "beta_b", "deg") == printed(46.97));
  CHECK(in(two, "H_a", "kN") == printed(4.861));
  CHECK(in(two, "H_b", "kN") == printed(4.861));
}

// Rigid body on equal springs.
TEST_CASE("points off the centre of gravity, case 18") {
  const Typed points{{"W", "12.5 kN"},
                     {"points", "0.9, 0.6 m; 0.9, -0.6 m; -0.9, 0.6 m; -0.9, -0.6 m"},
                     {"y_g", "-0.05 m"},
                     {"phi", "1"}};
  const auto at = [&](const char* x) {
    Typed t = points;
    t.emplace_back("x_g", x);
    return reckoned("pick-points", t);
  };
  const auto w = at("0.10 m");
  CHECK(in(w, "R_1", "kN") == printed(3.212));
  CHECK(in(w, "R_2", "kN") == printed(3.733));
  CHECK(in(w, "R_3", "kN") == printed(2.517));
  CHECK(in(w, "R_4", "kN") == printed(3.038));
  CHECK(w.kept());
  CHECK(!at("0.95 m").kept());  // outside the points: it tips
  CHECK_THROWS_AS(reckoned("pick-points", {{"W", "1 kN"},
                                           {"points", "0, 0 m; 1, 1 m; 2, 2 m"},
                                           {"x_g", "0"},
                                           {"y_g", "0"},
                                           {"phi", "1"}}),
                  WorkingError);
}

// Simple beam with overhangs (any beam table): M = -w a^2/2 over the inserts, w (l^2 - 4 a^2)/8
// between.
TEST_CASE("bending in the lift") {
  const auto w = reckoned("lift-bending", {{"m", "516.4 kg"},
                                           {"phi", "1.25"},
                                           {"L", "2400"},
                                           {"inserts", "600, 1800 mm"},
                                           {"D", "1.2e12"},
                                           {"M_sag", "3 kN m"}});
  const double q = 516.4 * 9.80665 * 1.25 / 2400;
  CHECK(in(w, "M_min", "kN m") == printed(-q * 600 * 600 / 2e6, 1e-9));
  CHECK(std::abs(in(w, "M_max", "kN m")) < 1e-9);  // l = 2 a: nothing is left in the middle
  CHECK(in(w, "R_1", "kN") == printed(q * 1.2, 1e-9));
  CHECK(w.verdicts.size() == 1);
  CHECK(w.not_checked.size() == 1);
}

// Statics; limits of 23 CFR 658.17. All lengths and masses assumed.
TEST_CASE("truck, case 19") {
  const auto w = reckoned("truck-axles", {{"m", "1138.52 lb"},
                                          {"l", "3.00 m"},
                                          {"t", "0.3215 m"},
                                          {"h_d", "1.524 m"},
                                          {"h_max", "4.115 m"},
                                          {"L_d", "14.63 m"},
                                          {"s", "0.10 m"},
                                          {"A_s", "11200 lb"},
                                          {"A_d", "13800 lb"},
                                          {"A_t", "8000 lb"},
                                          {"w", "18 ft"},
                                          {"f", "1 ft"},
                                          {"k", "40 ft"},
                                          {"x", "21 ft"}});
  CHECK(in(w, "n_h") == 8);
  CHECK(in(w, "n_s") == 4);
  CHECK(in(w, "n_v") == 32);
  CHECK(in(w, "n_g") == 41);
  CHECK(in(w, "n_d") == 39);
  CHECK(in(w, "n_t") == 43);
  CHECK(in(w, "n_most") == 32);
  CHECK(in(w, "P", "lb") == printed(36430));
  CHECK(in(w, "P", "kg") == printed(16530));
  CHECK(in(w, "W_s", "lb") == printed(12160));
  CHECK(in(w, "W_d", "lb") == printed(30140));
  CHECK(in(w, "W_t", "lb") == printed(27130));
  CHECK(in(w, "G", "lb") == printed(69430));
  CHECK(w.kept());
}

// Formula: 23 CFR 658.17 (second-hand). (25, 3), (16, 4), (13, 3) and (9, 3) stand in the table of
// West Virginia Code 17C-17-9.
TEST_CASE("bridge formula, case 19: an exact half goes down") {
  const struct {
    const char *L, *N;
    double rounded, unrounded;
  } rows[] = {{"51", "5", 80000, 79875}, {"36", "4", 66000, 66000},     {"20", "3", 51000, 51000},
              {"25", "3", 54500, 54750}, {"16", "4", 52500, 52666.667}, {"13", "3", 45500, 45750},
              {"9", "3", 42500, 42750}};
  for (const auto& row : rows) {
    const auto w = reckoned("bridge-formula", {{"L", row.L}, {"N", row.N}});
    CAPTURE(row.L);
    CHECK(std::abs(in(w, "W_u", "lb") - row.unrounded) < 0.01);
    CHECK(std::abs(in(w, "W_r", "lb") - row.rounded) < 0.01);
  }
  CHECK(!reckoned("bridge-formula", {{"L", "25"}, {"N", "3"}, {"W", "54600"}}).kept());
}
