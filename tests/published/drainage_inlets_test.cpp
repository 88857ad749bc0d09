// Grates and curb openings against published examples.
//  H22-4: FHWA HEC-22, Urban Drainage Design Manual, 4th ed., FHWA-HIF-24-006, 2024.
//  H22-3: the same, 3rd ed., FHWA-NHI-10-009, 2009.
//  EPA-II: US EPA, SWMM Reference Manual, Vol. II, Hydraulics.
// REF figures were computed outside the program with exact exponents; OWN cases have no published
// answer.
#include <doctest/doctest.h>
#include <fmt/format.h>

#include "support/reckoned.h"

using namespace deckquire;
using testing::pub;
using testing::Reckoned;
using testing::ref;

TEST_CASE("published drainage C6: one grate on grade") {
  // H22-4 ex. 7.1 (W/T rounded there to 0.2) and H22-3 ex. 4-8: 3rd edition's figure last.
  const std::string gutter = "units=us T=9.84 SL=0.04 Sx=0.025 n=0.016 W=2 L=2 grate=";
  const Reckoned a("grate-on-grade", gutter + "P-1-7/8");
  ref(a("Q"), 6.653);
  pub(a("Q"), 6.62, 0.02);
  ref(a("V"), 5.496);
  pub(a("V"), 5.4, 0.02);
  ref(a("Eo"), 0.4544);
  pub(a("Eo"), 0.45, 0.02);
  ref(a("Vo"), 8.160);
  pub(a("Vo"), 8.2, 0.02);
  CHECK(a("Rf") == 1);
  ref(a("Rs"), 0.03679);
  pub(a("Rs"), 0.038, 0.05);
  pub(a("Rs"), 0.036, 0.05);
  ref(a("Qi"), 3.157);
  pub(a("Qi"), 3.15, 0.02);
  pub(a("Qi"), 3.21, 0.02);
  ref(a("E"), 0.4745);
  pub(a("E"), 0.48, 0.02);
  ref(a("Qb"), 3.496);
  const Reckoned b("grate-on-grade", gutter + "reticuline");
  ref(b("Vo"), 4.200);
  ref(b("Rf"), 0.8833, 0.0005);
  pub(b("Rf"), 0.88, 0.035);
  pub(b("Rf"), 0.9, 0.035);
  ref(b("Rs"), 0.03679);
  ref(b("Qi"), 2.804);
  pub(b("Qi"), 2.80, 0.035);
  pub(b("Qi"), 2.89, 0.035);
  ref(b("E"), 0.4215);
  pub(b("E"), 0.42, 0.02);
  ref(b("Qb"), 3.849);
}

TEST_CASE("published drainage: splash-over velocities of every grate") {
  // EPA-II table 7-6 (UDFCD 2010): ft/s at 0.5, 1, 2, 3 and 4 ft, from the fits, to 0.005 ft/s.
  struct Row {
    const char* grate;
    double at[5];
  };
  for (const Row& row : {Row{"P-1-7/8", {4.08, 5.66, 8.16, 10.08, 11.78}},
                         Row{"P-1-7/8-4", {1.90, 2.93, 4.70, 6.17, 7.46}},
                         Row{"P-1-1/8", {3.21, 4.46, 6.44, 7.88, 8.96}},
                         Row{"curved-vane", {2.42, 3.99, 5.96, 7.11, 8.34}},
                         Row{"45-tilt-bar", {2.22, 3.30, 5.07, 6.48, 7.71}},
                         Row{"30-tilt-bar", {1.63, 2.66, 4.47, 6.00, 7.31}},
                         Row{"reticuline", {1.38, 2.39, 4.20, 5.77, 7.16}}}) {
    const double lengths[5] = {0.5, 1, 2, 3, 4};
    for (int k = 0; k < 5; ++k) {
      INFO(row.grate << " at " << lengths[k] << " ft");
      const Reckoned r("grate-on-grade",
                       fmt::format("units=us Q=1 SL=0.02 Sx=0.02 n=0.015 W=1 L={} grate={}",
                                   lengths[k], row.grate));
      CHECK(std::abs(r("Vo") - row.at[k]) <= 0.0051);
      // The fit is the same in both systems; only the unit changes.
      const Reckoned si("grate-on-grade",
                        fmt::format("Q=0.03 SL=0.02 Sx=0.02 n=0.015 W=0.3 L={}ft grate={}",
                                    lengths[k], row.grate));
      CHECK(si("Vo", "ft/s") == doctest::Approx(r("Vo")).epsilon(1e-12));
    }
  }
}

TEST_CASE("published drainage: clear share of every grate") {
  // H22-4 table 7.5; the 45° tilt bar was not tested.
  const std::pair<const char*, double> rows[] = {{"P-1-7/8", 0.90},     {"P-1-7/8-4", 0.80},
                                                 {"P-1-1/8", 0.60},     {"curved-vane", 0.35},
                                                 {"30-tilt-bar", 0.34}, {"reticuline", 0.80}};
  const std::string sag = "Q=3L/s Sx=2% W=0.25 L=0.3 c=0 grate=";
  for (const auto& [grate, share] : rows)
    CHECK(Reckoned("grate-in-sag", sag + grate)("p") == share);
  CHECK_THROWS_AS(Reckoned("grate-in-sag", sag + "45-tilt-bar"), workings::WorkingError);
}

TEST_CASE("drainage: a grate in a sag clear of the curb, OWN") {
  // Four sides take water: 2 (0.6 + 0.25); half of the width blocked leaves 2 x 0.6 + 0.25.
  const std::string sag = "Q=3L/s Sx=2% W=0.25 L=0.6 side=clear c=";
  CHECK(Reckoned("grate-in-sag", sag + "0")("P") == doctest::Approx(1.7));
  CHECK(Reckoned("grate-in-sag", sag + "50%")("P") == doctest::Approx(1.45));
}

TEST_CASE("published drainage C6: edges of the method, OWN") {
  const Reckoned all("grate-on-grade", "T=0.2 SL=0.02 Sx=0.02 n=0.015 W=0.25 L=0.3");
  CHECK(all("Eo") == 1);
  CHECK(all("Qi") == all("Rf") * all("Q"));
  CHECK(all("V") < all("Vo"));
  CHECK(all("Rf") == 1);
  const Reckoned over("grate-on-grade",
                      "T=3 SL=0.3 Sx=0.05 n=0.012 W=0.25 L=0.15 grate=reticuline");
  CHECK(over("V") - over("Vo") > 3.39);
  CHECK(over("Rf") == 0);
  CHECK(over("E") >= 0);
  for (const Reckoned* r : {&all, &over})
    CHECK((*r)("Qi") + (*r)("Qb") == doctest::Approx((*r)("Q")).epsilon(1e-14));
}

TEST_CASE("published drainage C7: two grates in series") {
  // H22-4 ex. 7.9. It shows the metric spread in the US velocity formula, and 0.4 for 0.04: slips.
  const std::string grate = " Sx=0.04 SL=0.03 n=0.016 W=2 L=3 grate=P-1-7/8-4";
  const Reckoned a("grate-on-grade", "units=us Q=3.32" + grate);
  ref(a("T"), 5.966);
  pub(a("T"), 5.99, 0.015);
  ref(a("d"), 0.2386);
  pub(a("d"), 0.24, 0.015);
  ref(a("V"), 4.664);
  pub(a("V"), 4.61, 0.015);
  ref(a("Vo"), 6.170);
  ref(a("Eo"), 0.6634);
  pub(a("Eo"), 0.66, 0.01);
  CHECK(a("Rf") == 1);
  ref(a("Rs"), 0.1727);
  pub(a("Rs"), 0.18, 0.05);
  ref(a("Qi"), 2.396);
  pub(a("Qi"), 2.39, 0.01);
  ref(a("Qb"), 0.9245);
  pub(a("Qb"), 0.93, 0.025);
  const Reckoned b("grate-on-grade", fmt::format("units=us Q={:.12g}", a("Qb") + 1.81) + grate);
  ref(b("Q"), 2.734);
  pub(b("Q"), 2.74, 0.005);
  ref(b("T"), 5.547);
  pub(b("T"), 5.6, 0.015);
  ref(b("d"), 0.2219);
  pub(b("d"), 0.22, 0.015);
  ref(b("V"), 4.444);
  ref(b("Eo"), 0.6965);
  ref(b("Rs"), 0.1855);
  ref(b("Qi"), 2.059);
  pub(b("Qi"), 2.05, 0.01);
  ref(b("Qb"), 0.6759);
  pub(b("Qb"), 0.69, 0.025);
  // H22-3 ex. 4-15 SI, inlet 40. Of inlet 41 it prints T 1.50 m and Qi 0.057 where its formulas
  // give 1.70 m and 0.058: slips, not chased.
  const Reckoned si("grate-on-grade",
                    "Q=0.095 Sx=0.04 SL=0.03 n=0.016 W=0.6 L=0.9 grate=P-1-7/8-4");
  ref(si("T"), 1.827);
  pub(si("T"), 1.83, 0.02);
  ref(si("V"), 1.423);
  pub(si("V"), 1.41, 0.02);
  ref(si("Eo"), 0.6541);
  pub(si("Eo"), 0.66, 0.02);
  ref(si("Rs"), 0.1673);
  pub(si("Rs"), 0.17, 0.02);
  ref(si("Qi"), 0.06764);
  pub(si("Qi"), 0.068, 0.02);
  ref(si("Qb"), 0.02736);
  pub(si("Qb"), 0.027, 0.02);
}

TEST_CASE("published drainage C7: flanking inlets") {
  // H22-4 ex. 7.10, K = 100 ft for each per cent; it rounds the depth before use.
  const std::string curve = " Lvc=500ft G1=-2.5% G2=2.5%";
  const Reckoned rounded("flanking-scuppers", "d=0.20ft" + curve);
  ref(rounded("K", "ft"), 100);
  ref(rounded("X", "ft"), 38.47);
  pub(rounded("X", "ft"), 38.5, 0.003);
  ref(Reckoned("flanking-scuppers", "d=0.1968ft" + curve)("X", "ft"), 38.16);
  // What the formula is for: depth there is 37 % less, on the parabola y = x^2/(200 K).
  const Reckoned si("flanking-scuppers", "d=60mm Lvc=40 G1=-2.5% G2=2.5%");
  CHECK(si("X") * si("X") / (200 * si("K")) == doctest::Approx(0.37 * 0.06).epsilon(1e-12));
}

TEST_CASE("published drainage C8: grate in a sag, half of it blocked from the curb") {
  // H22-4 ex. 7.5, H22-3 ex. 4-11: two grates of 2 x 3 ft end to end.
  const std::string sag = "units=us Q=6.71 Sx=0.05 Tmax=9.84 W=2 L=6 grate=P-1-7/8-4 c=50%";
  const Reckoned a("grate-in-sag", sag);
  ref(a("Sx") * a("Tmax"), 0.4920);
  ref(a("da"), 0.4420);
  pub(a("da"), 0.44, 0.005);
  ref(a("Pn"), 7.611);
  pub(a("Pn"), 7.66, 0.01);  // the depth is rounded to 0.44 there
  const Reckoned fourth("grate-in-sag", sag + " weir=4th");
  ref(fourth("Pn"), 7.690);
  pub(fourth("Pn"), 7.66, 0.01);
  ref(a("P"), 8.000);
  ref(a("d"), 0.4276);
  pub(a("d"), 0.43, 0.01);
  ref(a("dc"), 0.4776);
  ref(a("T"), 9.551);
  REQUIRE(a.w.verdicts.size() == 1);
  CHECK(a.w.verdicts[0].kept());
  // d: the source prints 2.15 ft2, which does not follow from its own formula: not chased.
  ref(a("An"), 1.877);
  // e: the source leaves out the opening ratio: 3.0 ft2, as one clear grate of 2 x 3 ft, half
  // blocked.
  const Reckoned e("grate-in-sag", "units=us Q=6.71 Sx=0.05 W=2 L=3 p=1 c=50%");
  ref(e("Ag"), 3.0);
  ref(e("do"), 0.1730);
  pub(e("do"), 0.17, 0.02);
  // f: with the ratio; the weir governs. OWN.
  ref(a("Ag"), 4.8);
  ref(a("do"), 0.06760);
  CHECK(a("d") == a("dw"));
  // g: EPA-II §7.6.4: weir and orifice meet at 1.79 A/P.
  ref(a("dt") / (a("Ag") / a("P")), 1.792);
  pub(a("dt") / (a("Ag") / a("P")), 1.79, 0.002);
  // h: H22-3 ex. 4-11 in SI: depth 0.135 m over a grate 0.6 m wide, perimeter 2.4 m.
  const Reckoned h("grate-in-sag", "Q=0.19 Sx=0.05 Tmax=3 W=0.6 L=1.8 grate=P-1-7/8-4");
  ref(h("da"), 0.135);
  ref(h("Pn"), 2.308);
  pub(h("Pn"), 2.31, 0.015);
  ref(h("P"), 2.4);
  ref(h("d"), 0.1315);
  pub(h("d"), 0.130, 0.015);
  ref(h("dt") / (h("Ag") / h("P")), 1.788);
}

TEST_CASE("published drainage C9: opening in the curb") {
  // a: H22-4 ex. 7.2A; b: H22-3 ex. 4-9a.
  const Reckoned a("curb-opening", "units=us Q=1.77 SL=0.01 Sx=0.02 n=0.016 L=9.84");
  ref(a("LT"), 23.94);
  pub(a("LT"), 23.9, 0.01);
  ref(a("E"), 0.6143);
  pub(a("E"), 0.61, 0.01);
  ref(a("Qi"), 1.087);
  pub(a("Qi"), 1.08, 0.01);
  const Reckoned b("curb-opening", "Q=0.05 SL=0.01 Sx=0.02 n=0.016 L=3");
  ref(b("LT"), 7.290);
  pub(b("LT"), 7.29, 0.01);
  ref(b("E"), 0.6150);
  pub(b("E"), 0.61, 0.01);
  ref(b("Qi"), 0.03075);
  pub(b("Qi"), 0.031, 0.01);
  // c, d: H22-4 ex. 7.6; with the depression it rounds d to 0.16 and cuts the result off.
  const Reckoned c("curb-opening-in-sag", "units=us T=8.2 Sx=0.02 L=8.2 h=0.43");
  ref(c("d"), 0.164);
  ref(c("Qi"), 1.617);
  pub(c("Qi"), 1.6, 0.02);
  const Reckoned d("curb-opening-in-sag", "units=us T=8.2 Sx=0.02 L=8.2 h=0.43 a=1in W=2");
  ref(d("P"), 11.8);
  ref(d("Qi"), 1.824);
  pub(d("Qi"), 1.7, 0.08);
}

TEST_CASE("drainage: an opening in the curb that drowns, OWN") {
  // By hand: L 0.6, h 0.10, d 0.2: 0.67 x 0.1 x 0.6 x sqrt(19.62 x 0.15) = 0.068963 m3/s, below the
  // weir's 0.37 x sqrt(19.62) x 0.6 x 0.2^1.5 = 0.087953; at d 0.12 the weir's is the lower one.
  const Reckoned deep("curb-opening-in-sag", "T=10 Sx=0.02 L=0.6 h=0.1");
  ref(deep("Qi"), 0.068963, 1e-4);
  ref(deep("Qw"), 0.087953, 1e-4);
  const Reckoned between("curb-opening-in-sag", "T=6 Sx=0.02 L=0.6 h=0.1");
  CHECK(between("Qi") == std::min(between("Qw"), between("Qo")));
}
