// Curves, spirals and grades against figures from outside the project.
//  * S1-S3: worked examples and tables of J. Mahun's open-access surveying text (horizontal and
//    vertical curves).
//  * S4: a public clothoid worksheet: A = 12, R = 9, L = 16, angle 8/9 rad; X and Y by the series
//    of the Fresnel integrals.
//  * S5-S7: computed outside the program, by hand and by numerical integration.
// The program has one crossfall: the warp of S7 is tested on its levels, and on a skewed panel.
#include <algorithm>
#include <array>
#include <cmath>

#include <doctest/doctest.h>

#include "base/geometry.h"
#include "bridge/curve_data.h"
#include "checks/warp.h"

using namespace deckquire;
using doctest::Approx;

namespace {

/// From station 0 towards the east.
AlignmentData eastward(Length to) {
  AlignmentData a;
  a.to = to;
  a.bearing = degrees(90);
  a.grades = {{Length(), Length(), {}}};
  return a;
}

double in_feet(double millimetres) {
  return millimetres / 304.8;
}

bool within(double value, double published, double by) {
  return std::abs(value - published) <= by;
}

/// S5: tangent 20 m, clothoid 20 m to R 60 m left, arc 40 m, from (1000, 2000).
Alignment winding() {
  AlignmentData a = eastward(metres(80));
  a.easting = metres(1000);
  a.northing = metres(2000);
  a.transitions = {{metres(20), metres(40), {}}};
  a.curves = {{metres(40), metres(80), metres(60), true, {}}};
  a.grades = {{metres(0), metres(10), {}},
              {metres(35), metres(11.4), {}, metres(70)},
              {metres(100), metres(9.45), {}}};
  return Alignment(a);
}

/// Half a micrometre of rounding; the northing at station 40 is 2001.10890847 by the series,
/// printed one up.
bool at(const SurveyPoint& p, double easting, double northing) {
  return within(p.easting, easting, 6e-7) && within(p.northing, northing, 6e-7);
}

}  // namespace

TEST_CASE("S1: curve data of a 55 degree curve of 500 ft radius, as published") {
  const double deflection = 55 * pi / 180;
  const double t = 500 * std::tan(deflection / 2);
  AlignmentData a = eastward(feet(3200));
  a.curves = {{feet(2500 - t), feet(2500 - t + 500 * deflection), feet(500), false, {}}};
  const auto all = element_data(Alignment(a));
  REQUIRE(all.size() == 3);
  const ElementData& e = all[1];
  REQUIRE(e.curve);
  CHECK(e.turn == Approx(-deflection));
  CHECK(within(in_feet(*e.curve->tangent), 260.284, 6e-4));
  CHECK(within(in_feet(e.curve->length), 479.966, 6e-4));  // printed as 479.965
  CHECK(within(in_feet(e.curve->long_chord), 461.749, 6e-4));
  CHECK(within(in_feet(*e.curve->external), 63.691, 6e-4));
  CHECK(within(in_feet(e.curve->middle_ordinate), 56.495, 6e-4));  // printed as 56.494
  CHECK(within(in_feet(e.from), 2239.716, 6e-4));
  CHECK(within(in_feet(e.to), 2719.682, 6e-4));  // printed as 27+19.681
  CHECK(within(in_feet(e.intersection->x), 2500, 1e-4));
  // Back along the far tangent: ahead of the intersection by T, station 27+60.284 if measured so.
  const double far = std::hypot(e.end.x - e.intersection->x, e.end.y - e.intersection->y);
  CHECK(within(2500 + in_feet(far), 2760.284, 6e-4));
}

TEST_CASE("S2: levels of a crest curve of 500 ft, as its published table") {
  AlignmentData a = eastward(feet(10000));
  a.grades = {{feet(5000), feet(1325 - 650 * 0.05), {}},
              {feet(5650), feet(1325), {}, feet(500)},
              {feet(6650), feet(1325 - 35), {}}};
  const Alignment line(a);
  const double table[] = {1312.500, 1316.650, 1319.100, 1319.850, 1318.900, 1316.250};
  for (int i = 0; i < 6; ++i)
    CHECK(within(line.level(feet(5400 + 100 * i)).in_feet(), table[i], 6e-4));
  REQUIRE(line.vertical_curves().size() == 1);
  const VerticalCurve v = line.vertical_curves()[0];
  CHECK(v.begin == feet(5400));
  CHECK(v.end == feet(5900));
  CHECK(v.high);
  REQUIRE(v.turning);
  CHECK(within(v.turning->in_feet(), 5694.118, 6e-4));
  CHECK(within(v.level_turning.in_feet(), 1319.853, 6e-4));
  CHECK(within(line.grade(*v.turning), 0, 1e-9));
}

TEST_CASE("S3: levels and low point of a sag curve of 425 ft, as its published table") {
  AlignmentData a = eastward(feet(10000));
  const double middle = 8800 + 212.5, level = 1220 - 8.5;
  a.grades = {{feet(middle - 300), feet(level + 12), {}},
              {feet(middle), feet(level), {}, feet(425)},
              {feet(middle + 400), feet(level + 11), {}}};
  const Alignment line(a);
  CHECK(within(line.level(feet(8800)).in_feet(), 1220, 1e-6));
  CHECK(within(line.level(feet(8900)).in_feet(), 1216.794, 6e-4));
  CHECK(within(line.level(feet(9000)).in_feet(), 1215.176, 6e-4));
  CHECK(
      within(line.level(feet(9100)).in_feet(), 1215.147, 6e-4));  // the print's 1216.147: misprint
  CHECK(within(line.level(feet(9200)).in_feet(), 1216.706, 6e-4));
  CHECK(within(line.level(feet(9225)).in_feet(), 1217.344, 6e-4));
  const VerticalCurve v = line.vertical_curves().at(0);
  CHECK(!v.high);
  REQUIRE(v.turning);
  CHECK(within(v.turning->in_feet(), 9051.852, 6e-4));
  CHECK(within(v.level_turning.in_feet(), 1214.963, 6e-4));
}

TEST_CASE("S4: end of the clothoid A 12, R 9, L 16, as the worksheet's Fresnel integrals") {
  AlignmentData a = eastward(metres(17));
  a.transitions = {{metres(0), metres(16), {}}};
  a.curves = {{metres(16), metres(17), metres(9), true, {}}};
  const Alignment line(a);
  CHECK(within(line.ground(16000, 0).x, 14781.21239, 6e-6));
  CHECK(within(line.ground(16000, 0).y, 4479.82012, 6e-6));
  CHECK(within(line.heading(16000) * 180 / pi, 50.929582, 6e-7));
  CHECK(element_data(line)[0].parameter == Approx(12000));
}

TEST_CASE("S4: a flat clothoid as the series X = L(1 - t2/10 + t4/216), Y = L(t/3 - t3/42)") {
  AlignmentData a = eastward(metres(60));
  a.transitions = {{metres(0), metres(30), {}}};
  a.curves = {{metres(30), metres(60), metres(150), false, {}}};
  const GroundPoint p = Alignment(a).ground(30000, 0);
  const double t = 30.0 / 2 / 150;
  const double x = 1 - t * t / 10 + std::pow(t, 4) / 216 - std::pow(t, 6) / 9360;
  const double y = t / 3 - std::pow(t, 3) / 42 + std::pow(t, 5) / 1320 - std::pow(t, 7) / 75600;
  CHECK(within(p.x, 30000 * x, 1e-6));
  CHECK(within(p.y, -30000 * y, 1e-6));
}

TEST_CASE("S5: points, direction and levels along tangent, clothoid and arc") {
  const Alignment line = winding();
  CHECK(at(line.survey(metres(30), Length()), 1029.998264, 2000.138872));
  CHECK(at(line.survey(metres(40), Length()), 1039.944516, 2001.108909));
  CHECK(at(line.survey(metres(60), Length()), 1058.756280, 2007.622549));
  CHECK(at(line.survey(metres(80), Length()), 1074.401359, 2019.932768));
  CHECK(within(line.heading(80000) * 180 / pi, 47.746483, 6e-7));
  CHECK(line.level(metres(30)) == metres(10.75));
  CHECK(line.level(metres(40)) == metres(10.80));
  CHECK(line.level(metres(60)) == metres(10.60));
  CHECK(line.level(metres(80)) == metres(10.05));
}

TEST_CASE("S6: corners of a panel on the curve of S5") {
  const Alignment line = winding();
  const Length left = mm(1500), back = metres(60), ahead = metres(62.5);
  CHECK(at(line.survey(back, left), 1058.037142, 2008.938922));
  CHECK(at(line.survey(back, -left), 1059.475419, 2006.306175));
  CHECK(at(line.survey(ahead, left), 1060.151288, 2010.151742));
  CHECK(at(line.survey(ahead, -left), 1061.697983, 2007.581191));
  const Length fall = left * 0.02;
  CHECK(line.level(back) - fall == metres(10.570));
  CHECK(line.level(ahead) - fall == metres(10.516875));
}

TEST_CASE("S7: a panel of 2.5 m lies 0.781 mm below the crest of the parabola of S5") {
  const Alignment line = winding();
  const Length a = metres(30), b = metres(32.5);
  const Length chord = (line.level(a) + line.level(b)) / 2.0;
  CHECK(within((line.level(metres(31.25)) - chord).in_mm(), 0.78125, 1e-5));
}

TEST_CASE("S7: the fall changes by 4 % in 20 m: a panel of 2.5 by 3.0 m is warped by 15 mm") {
  const auto level = [](PanelPoint p) { return -p.y * 0.04 * p.x / 20000; };
  const PanelPoint corners[]{{0, 0}, {2500, 0}, {2500, 3000}, {0, 3000}};
  std::array<Corner, 4> c;
  for (std::size_t i = 0; i < 4; ++i) c[i] = {corners[i], level(corners[i])};
  CHECK(within(std::abs(c[0].level - c[1].level + c[2].level - c[3].level), 15.0, 1e-9));
  CHECK(within(off_best_plane(c), 3.75, 1e-9));
  // The best plane by its normal equations: over the corners of a rectangle, measured from its
  // middle, x, y and 1 are orthogonal, so each coefficient stands alone.
  double mean = 0, a = 0, b = 0;
  for (const Corner& k : c) {
    mean += k.level / 4;
    a += k.level * (k.at.x - 1250) / (4 * 1250.0 * 1250);
    b += k.level * (k.at.y - 1500) / (4 * 1500.0 * 1500);
  }
  for (const Corner& k : c)
    CHECK(within(std::abs(k.level - mean - a * (k.at.x - 1250) - b * (k.at.y - 1500)), 3.75, 1e-9));
}

TEST_CASE("off the best plane: nothing on a plane, whatever the corners; else the least squares") {
  // A trapezium, as a panel with one skewed end has.
  const PanelPoint corners[]{{0, 0}, {2000, -100}, {2600, 2400}, {0, 2400}};
  std::array<Corner, 4> c;
  for (std::size_t i = 0; i < 4; ++i)
    c[i] = {corners[i], 7 + corners[i].x * 0.03 - corners[i].y * 0.011};
  CHECK(within(off_best_plane(c), 0, 1e-9));
  c[2].level += 10;
  // No plane does better: every one near the best has a greater sum of squares. The best is found
  // by going down from the true plane.
  double p[]{7, 0.03, -0.011};
  const auto squares = [&] {
    double sum = 0;
    for (const Corner& k : c) sum += std::pow(k.level - p[0] - p[1] * k.at.x - p[2] * k.at.y, 2);
    return sum;
  };
  for (double step = 1; step > 1e-9; step /= 2)
    for (int round = 0; round < 400; ++round)
      for (int i = 0; i < 3; ++i)
        for (double by : {step, -step}) {
          const double was = p[i], before = squares();
          p[i] += by * (i == 0 ? 1 : 1e-3);
          if (squares() >= before) p[i] = was;
        }
  double worst = 0;
  for (const Corner& k : c)
    worst = std::max(worst, std::abs(k.level - p[0] - p[1] * k.at.x - p[2] * k.at.y));
  CHECK(within(off_best_plane(c), worst, 1e-3));
}
