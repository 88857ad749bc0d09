// Pipes and outlets against published figures.
//  H22-4: FHWA HEC-22, Urban Drainage Design Manual, 4th ed., FHWA-HIF-24-006, 2024.
//  H22-3: the same, 3rd ed., FHWA-NHI-10-009, 2009.
//  NSPC: 2006 National Standard Plumbing Code - Illustrated, table 13.6.1, p. 321.
//  EN-3: EN 12056-3:2000, tables 7 and 8 (second-hand: as another text quotes them).
//  OBC: Ontario Building Code, Div. B, 7.4.10.3 and 7.4.10.4.
// REF figures were computed outside the program with exact exponents; OWN cases have no published
// answer.
#include <doctest/doctest.h>
#include <fmt/format.h>

#include "support/reckoned.h"

using namespace deckquire;
using testing::pub;
using testing::Reckoned;
using testing::ref;

TEST_CASE("published drainage C10: sloping pipes") {
  // a, b: H22-4 ex. 9.1 (its rounded constant 0.46 gives 1.691 ft).
  const Reckoned a("pipe-size", "units=us Q=17.6 n=0.013 S=0.015");
  ref(a("D"), 1.687);
  pub(a("D"), 1.69, 0.005);
  const Reckoned b("pipe-flow", "units=us D=1.75 n=0.013 S=0.015");
  ref(b("Qf"), 19.41);
  pub(b("Qf"), 19.3, 0.01);
  ref(b("Vf"), 8.068);
  pub(b("Vf"), 8.0, 0.01);
  // c: H22-3 ex. 7-2 SI.
  const Reckoned c("pipe-flow", "D=0.530 n=0.013 S=0.015");
  ref(c("Qf"), 0.5402);
  pub(c("Qf"), 0.54, 0.005);
  ref(c("Vf"), 2.449);
  pub(c("Vf"), 2.44, 0.005);
  // d, e: OWN.
  const Reckoned d("pipe-flow", "D=100mm n=0.010 S=2%");
  ref(d("Qf", "L/s"), 9.497);
  ref(d("Vf"), 1.209);
  const Reckoned e("pipe-part-full", "D=100mm n=0.010 S=2% Q=3.494L/s");
  ref(e("ry"), 0.4198);
  ref(e("V"), 1.117);
  CHECK_THROWS_AS(Reckoned("pipe-part-full", "D=100mm n=0.010 S=2% Q=10.5L/s"),
                  workings::WorkingError);
}

TEST_CASE("published drainage C10: ratios of a pipe that is not full") {
  // Geometry of the circle; H22-3 §7.2.4: V about 0.6 m/s at 25 % depth where the full pipe has
  // 0.9.
  struct Row {
    double y, Q, V;
  };
  for (const Row& row : {Row{0.25, 0.1370, 0.7007}, Row{0.5, 0.5, 1}, Row{0.75, 0.9119, 1.1335},
                         Row{0.938, 1.0757, 1.1041}}) {
    const Reckoned r("pipe-part-full", fmt::format("D=1 n=0.012 S=1% y={}", row.y));
    ref(r("rQ"), row.Q, 0.0005);
    ref(r("rV"), row.V, 0.0005);
  }
  const Reckoned half("pipe-part-full", "D=0.15 n=0.01 S=1% y=0.075");
  CHECK(half("rQ") == doctest::Approx(0.5).epsilon(1e-13));
  CHECK(half("rV") == doctest::Approx(1).epsilon(1e-13));
  pub(Reckoned("pipe-part-full", "D=1 n=0.012 S=1% y=0.25")("rV") * 0.9, 0.6, 0.06);
}

TEST_CASE("published drainage C10: slope for a velocity; bend") {
  // g: H22-3 table 7-7, 3 ft/s, n 0.012; h: OWN with H22-4 eq. 9.33.
  const double inches[] = {8, 10, 12}, slopes[] = {0.006387, 0.004743, 0.003720};
  const double printed[] = {0.0064, 0.0048, 0.0037};
  for (int k = 0; k < 3; ++k) {
    const Reckoned g("pipe-slope", fmt::format("units=us D={}in n=0.012 V=3", inches[k]));
    ref(g("S"), slopes[k]);
    pub(g("S"), printed[k], 0.015);
  }
  ref(Reckoned("pipe-slope", "D=0.100")("S"), 0.01108);
  ref(Reckoned("pipe-slope", "D=0.150")("S"), 0.006454);
  ref(Reckoned("pipe-slope", "D=0.200")("S"), 0.004398);
  // i: OWN with H22-4 eq. 9.6.
  ref(Reckoned("pipe-bend", "delta=45° V=1.2")("H", "mm"), 10.90);
}

TEST_CASE("published drainage C11: vertical pipes") {
  // a: NSPC, r = 7/24, printed in whole gpm.
  const int sizes[] = {3, 4, 6};
  const double gpm[] = {66.76, 143.8, 423.9}, litres[] = {4.212, 9.071, 26.74},
               table[] = {67, 144, 424};
  for (int k = 0; k < 3; ++k) {
    const Reckoned r("downpipe", fmt::format("units=us D={} f=7/24", sizes[k]));
    ref(r("Qv"), gpm[k]);
    ref(r("Qv", "L/s"), litres[k]);
    CHECK(std::abs(r("Qv") - table[k]) <= 0.5);
  }
  // b: NSPC, area of a 4 in leader; the reference divides the table's 144 gpm less its rounding.
  const Reckoned b1("downpipe", "units=us D=4 f=7/24 i=1");
  ref(b1("A"), 13838);
  pub(b1("A"), 13840, 0.001);
  const Reckoned b4("downpipe", "units=us D=4 f=7/24 i=4");
  ref(b4("A"), 3459.6);
  pub(b4("A"), 3460, 0.001);
  // c: EN-3 table 8, kb 0.25 mm, filling 0.20 and 0.33.
  struct Row {
    int bore;
    double low, high, low_printed, high_printed;
  };
  for (const Row& row : {Row{50, 0.7319, 1.687, 0.7, 1.7}, Row{75, 2.158, 4.973, 2.2, 5.0},
                         Row{100, 4.648, 10.71, 4.6, 10.7}, Row{150, 13.71, 31.59, 13.7, 31.6}}) {
    const Reckoned low("downpipe", fmt::format("D={}mm f=0.20", row.bore));
    const Reckoned high("downpipe", fmt::format("D={}mm f=0.33", row.bore));
    ref(low("Qv"), row.low, 0.0005);
    ref(high("Qv"), row.high, 0.0005);
    CHECK(std::abs(low("Qv") - row.low_printed) <= 0.05);
    CHECK(std::abs(high("Qv") - row.high_printed) <= 0.05);
  }
  // Both forms of Wyly and Eaton agree within 0.3 %.
  pub(Reckoned("downpipe", "D=4in f=7/24")("Qv"), b1("Qv", "L/s"), 0.003);
}

TEST_CASE("published drainage C11: outlet in the sole of a scupper; load of a leader") {
  // d, e: formulas of EN-3 table 7, OWN numbers; the two branches meet at h = D/2.
  const int heads[] = {30, 50, 80};
  const double open[] = {2.191, 4.714, 5.963};
  for (int k = 0; k < 3; ++k) {
    const Reckoned r("scupper-outlet", fmt::format("D=100mm h={}mm", heads[k]));
    ref(r("Q"), open[k]);
    const Reckoned strainer("scupper-outlet",
                            fmt::format("D=100mm h={}mm cover=grating", heads[k]));
    ref(strainer("Q"), open[k] / 2);
    const Reckoned back("scupper-outlet", fmt::format("D=100mm Q={:.12g}L/s", r("Q")));
    CHECK(back("h") == doctest::Approx(heads[k]).epsilon(1e-9));
  }
  const Reckoned meet("scupper-outlet", "D=100mm h=50mm");
  CHECK(meet("Q1") == doctest::Approx(meet("Q2")).epsilon(1e-13));
  // f: OBC, OWN numbers.
  const Reckoned f("leader-load", "r15=25mm A=108m2 Qc=1.165L/s");
  ref(f("load"), 2700);
  ref(f("steady"), 1049);
}
