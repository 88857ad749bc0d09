// Strips of panel: beams that were solved in rational arithmetic outside the program, by direct
// stiffness and by the force method, with the same digits; the cases without shear deformation also
// stand in published beam tables (second-hand). D = 1.2e12 N mm2 and S = 6.0e6 N (assumed) unless
// said otherwise.
#include <cmath>

#include "support/reckoned.h"

using namespace deckquire::testing;
using deckquire::workings::Working;

namespace {

/// Pairs of values: without and with shear deformation.
struct Both {
  Working bending, shear;

  Both(Typed typed, const char* D = "1.2e12", const char* S = "6.0e6")
      : bending(reckoned("panel-strip", with(typed, {{"D", D}}))),
        shear(reckoned("panel-strip", with(typed, {{"D", D}, {"S", S}}))) {}

  static Typed with(Typed typed, const Typed& more) {
    typed.insert(typed.end(), more.begin(), more.end());
    return typed;
  }

  void check(const char* symbol, const char* unit, double without, double with_shear) const {
    CAPTURE(symbol);
    one(in(bending, symbol, unit), without, unit);
    one(in(shear, symbol, unit), with_shear, unit);
  }
  void same(const char* symbol, const char* unit, double value) const {
    check(symbol, unit, value, value);
  }
  /// A place, within 2 mm: flat near the peak.
  void place(const char* symbol, double without, double with_shear) const {
    CAPTURE(symbol);
    CHECK(std::abs(in(bending, symbol, "mm") - without) <= 2);
    CHECK(std::abs(in(shear, symbol, "mm") - with_shear) <= 2);
  }

 private:
  /// Deflections under 0.02 mm: within 0.0001 mm.
  static void one(double value, double wanted, const std::string& unit) {
    if (unit == "mm" && std::abs(wanted) < 0.02) {
      CHECK(std::abs(value - wanted) <= 1e-4);
    } else {
      CHECK(value == printed(wanted));
    }
  }
};

}  // namespace

// M = q L^2/8, d = 5 q L^4/384 D + q L^2/8 S (second-hand, any beam table; shear term Timoshenko).
TEST_CASE("strip, case 3: simple span under uniform load") {
  const Both b({{"L", "2000"}, {"supports", "0, 2000"}, {"q", "5.0 kPa"}, {"at", "1000"}});
  b.same("M_x1", "kN m", 2.500);
  b.same("R_1", "kN", 5.000);
  b.check("w_x1", "mm", 0.8681, 1.285);
  b.check("w_max", "mm", 0.8681, 1.285);
  CHECK(in(b.shear, "w_max", "mm") - in(b.bending, "w_max", "mm") == printed(0.4167));
  CHECK(in(b.shear, "w_B", "mm") == printed(0.8681));
}

// Sandwich: Allen 1969 (from memory). Cowper 1966 (rectangle second-hand, circle from memory).
TEST_CASE("strip, case 3: stiffness of sections") {
  const auto s =
      reckoned("sandwich-stiffness",
               {{"b", "1000"}, {"t", "8"}, {"c", "109"}, {"E", "22000 MPa"}, {"G", "48 MPa"}});
  CHECK(in(s, "D", "N mm2") == printed(1.207e12, 5e-4));
  CHECK(in(s, "D_f", "N mm2") == printed(1.205e12, 5e-4));
  CHECK(in(s, "S", "N") == printed(6.028e6));
  const std::pair<const char*, double> kappas[] = {
      {"0", 0.8333}, {"0.25", 0.8475}, {"0.3", 0.8497}, {"0.5", 0.8571}};
  for (const auto& [nu, kappa] : kappas) {
    const auto w =
        reckoned("sandwich-stiffness",
                 {{"section", "solid"}, {"h", "60"}, {"E", "20 GPa"}, {"G", "3 GPa"}, {"nu", nu}});
    CHECK(in(w, "kappa") == printed(kappa, 1e-4));
  }
  const auto round =
      reckoned("sandwich-stiffness",
               {{"section", "round"}, {"h", "60"}, {"E", "20 GPa"}, {"G", "3 GPa"}, {"nu", "0.3"}});
  CHECK(in(round, "kappa") == printed(0.8864, 1e-4));
  const auto solid =
      reckoned("sandwich-stiffness",
               {{"section", "solid"}, {"h", "60"}, {"E", "20000"}, {"G", "3000"}, {"nu", "0.25"}});
  CHECK(in(solid, "S", "N") == printed(1.525e8));
  const Both b({{"L", "2000"}, {"supports", "0, 2000"}, {"q", "5 kPa"}}, "3.6e11", "1.525e8");
  CHECK(in(solid, "D", "N mm2") == printed(3.6e11));
  CHECK(in(b.bending, "w_max", "mm") == printed(2.894));
  // The printed 0.01639 is a difference of two deflections: under 0.02 mm, within 0.0001 mm.
  CHECK(std::abs(in(b.shear, "w_max", "mm") - in(b.bending, "w_max", "mm") - 0.01639) <= 1e-4);
}

TEST_CASE("strip, case 4: wheel patch off the middle") {
  const Both b({{"L", "1800"},
                {"supports", "0, 1800"},
                {"b", "600"},
                {"loads", "40 kN @ 600 to 800 mm"},
                {"at", "700, 900 mm"}},
               "7.2e11", "3.6e6");
  b.same("R_1", "kN", 24.44);
  b.same("R_2", "kN", 15.56);
  b.same("M_max", "kN m", 16.16);
  b.same("x_M_max", "mm", 722.2);
  b.same("M_x1", "kN m", 16.11);
  b.same("M_x2", "kN m", 14.00);
  b.check("w_x1", "mm", 6.061, 10.54);
  b.check("w_x2", "mm", 6.255, 10.14);
  b.check("w_max", "mm", 6.286, 10.66);
  b.place("x_w_max", 844.3, 756.4);
}

// M_sup = -q a^2/2, M_mid = q (L^2 - 4 a^2)/8 and the deflections beside them (derived).
TEST_CASE("strip, case 5: one span with equal overhangs; shear turns the rising tip down") {
  const Both b({{"L", "3000"}, {"supports", "600, 2400"}, {"q", "5.0 kPa"}, {"at", "1500, 0"}});
  b.same("R_1", "kN", 7.500);
  b.same("R_2", "kN", 7.500);
  b.same("M_s1", "kN m", -0.9000);
  b.same("M_x1", "kN m", 1.125);
  b.check("w_x1", "mm", 0.2658, 0.6033);
  b.check("w_x2", "mm", -0.1350, 0.01500);
}

// Without shear: 3/8, 10/8 q L, 9 q L^2/128 of published tables (second-hand); with it M_B = -(q
// L^2/8)/(1 + 3 psi).
TEST_CASE("strip, case 6: two equal spans") {
  const Both b({{"L", "3000"}, {"supports", "0, 1500, 3000"}, {"q", "5.0 kPa"}, {"at", "750"}});
  b.check("R_1", "kN", 2.813, 3.010);
  b.check("R_2", "kN", 9.375, 8.980);
  b.check("R_3", "kN", 2.813, 3.010);
  b.check("M_s2", "kN m", -1.406, -1.110);
  b.check("M_max", "kN m", 0.7910, 0.9059);
  b.check("x_M_max", "mm", 562.5, 602.0);
  b.check("w_x1", "mm", 0.1099, 0.3789);
  b.check("w_span1", "mm", 0.1142, 0.3800);
  b.place("x_w_span1", 632.3, 712.8);
}

// Without shear: 0.4, 1.1, 1.1, 0.4 q L of published tables (second-hand).
TEST_CASE("strip, case 7: three equal spans") {
  const Both b(
      {{"L", "3600"}, {"supports", "0, 1200, 2400, 3600"}, {"q", "5.0 kPa"}, {"at", "600, 1800"}});
  b.check("R_1", "kN", 2.400, 2.486);
  b.check("R_2", "kN", 6.600, 6.514);
  b.check("M_s2", "kN m", -0.7200, -0.6171);
  b.check("M_max", "kN m", 0.5760, 0.6179);
  b.check("x_M_max", "mm", 480.0, 497.1);
  b.check("M_x2", "kN m", 0.1800, 0.2829);
  b.check("w_x1", "mm", 0.05850, 0.2162);
  b.check("w_x2", "mm", 0.004500, 0.1699);
  b.check("w_span1", "mm", 0.05948, 0.2165);
  b.place("x_w_span1", 535.2, 580.7);
}

TEST_CASE("strip, case 8: unequal spans and overhangs, curbs and a wheel") {
  const Both b({{"L", "3700"},
                {"supports", "450, 1650, 3150"},
                {"q", "5.0 kPa"},
                {"loads", "800 N @ 75 mm; 800 N @ 3625 mm; 17.8 kN @ 2300 to 2500 mm"},
                {"at", "1050, 2400, 0, 3700"}});
  b.check("R_1", "kN", 3.846, 4.366);
  b.check("R_2", "kN", 19.40, 18.46);
  b.check("R_3", "kN", 14.66, 15.07);
  CHECK(in(b.shear, "R_1", "kN") + in(b.shear, "R_2", "kN") + in(b.shear, "R_3", "kN") ==
        printed(37.90, 1e-9));
  b.same("M_s1", "kN m", -0.8063);
  b.check("M_s2", "kN m", -3.451, -2.827);
  b.same("M_s3", "kN m", -1.136);
  b.check("M_x1", "kN m", -1.229, -0.9165);
  b.check("M_x2", "kN m", 5.343, 5.655);
  b.check("w_x1", "mm", -0.2068, -0.009967);
  b.check("w_x2", "mm", 0.7711, 2.117);
  b.check("w_x3", "mm", 0.2814, 0.2426);
  b.check("w_x4", "mm", -0.7298, -0.7153);
  b.check("w_span2", "mm", 0.7727, 2.117);
  b.place("x_w_span2", 2427, 2404);
}

TEST_CASE("strip, case 9: three spans, the outer ones loaded") {
  const Typed strip{{"L", "4700"}, {"supports", "400, 1700, 3000, 4300"}, {"g", "0.60 kPa"}};
  const Both b(
      Both::with(strip, {{"loads", "4.309 kPa @ 400 to 1700 mm; 4.309 kPa @ 3000 to 4300 mm"},
                         {"at", "1050, 2350, 0"}}));
  b.check("R_1", "kN", 3.117, 3.156);
  b.check("R_4", "kN", 3.117, 3.156);
  b.check("R_2", "kN", 3.895, 3.856);
  b.check("R_3", "kN", 3.895, 3.856);
  b.same("M_s1", "kN m", -0.04800);
  b.check("M_x1", "kN m", 0.7851, 0.8104);
  b.check("M_s2", "kN m", -0.4559, -0.4052);
  b.check("M_x2", "kN m", -0.3292, -0.2784);
  b.check("M_max", "kN m", 0.7951, 0.8181);
  b.check("w_x1", "mm", 0.1078, 0.2851);
  b.check("w_x2", "mm", -0.06166, -0.03161);
  b.check("w_x3", "mm", -0.1083, -0.1223);
  // Pattern loading finds that combination by itself: it is the worst for the outer spans' moment.
  const Both worst(Both::with(strip, {{"q", "4.309 kPa"}, {"pattern", "bays"}}));
  worst.check("M_max", "kN m", 0.7951, 0.8181);
}

TEST_CASE("strip, case 10: the couple of a rail post on an overhang") {
  const Both b({{"L", "2800"},
                {"supports", "500, 2300"},
                {"loads", "-2.625 kN m @ 100 mm"},
                {"at", "0, 1400, 2800"}});
  b.same("R_1", "kN", 1.458);
  b.same("R_2", "kN", -1.458);
  b.same("M_s1", "kN m", -2.625);
  b.same("M_x2", "kN m", -1.312);
  b.check("w_x1", "mm", 0.9187, 1.040);
  b.same("w_x2", "mm", -0.4430);
  b.check("w_x3", "mm", 0.3281, 0.2066);
}
