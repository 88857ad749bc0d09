// The setting out of the curved example against plane trigonometry written out here.
#include <doctest/doctest.h>

#include <cmath>
#include <map>

#include "schedules/parts.h"
#include "sheets/trial_set.h"
#include "support/cells.h"

using namespace deckquire;
using deckquire::testing::column;
using deckquire::sheets::TrialSet;

namespace {

// heron.xml: 15.026 m at a bearing of 40 degrees, then a curve of 45 m radius to the left.
constexpr double straight = 15026, radius = 45000;

struct At {
  double east = 0, north = 0;  // mm
  At ahead(double bearing, double x, double left = 0) const {
    return {east + x * std::sin(bearing) - left * std::cos(bearing),
            north + x * std::cos(bearing) + left * std::sin(bearing)};
  }
};

double apart(At a, At b) {
  return std::hypot(a.east - b.east, a.north - b.north);
}

double bearing_at(double station) {
  return 40 * pi / 180 - std::max(0.0, station - straight) / radius;
}

At place_of(double station) {
  const At start{1520000, 3310000};
  const double b = 40 * pi / 180;
  if (station <= straight) return start.ahead(b, station);
  const At centre = start.ahead(b, straight, radius);
  return centre.ahead(bearing_at(station), 0, -radius);
}

/// Bearing of a panel's chord. No panel lies over the beginning of the curve.
double chord_bearing(const Panel& p) {
  return (bearing_at(p.start.in_mm()) + bearing_at(p.end.in_mm())) / 2;
}

/// Points of the table by name, in the survey's mm.
std::map<std::string, At> points_of(const Table& t) {
  std::map<std::string, At> out;
  for (const auto& row : t.rows)
    out[std::get<std::string>(row[0])] = {1000 * std::get<double>(row[column(t, "easting_m")]),
                                          1000 * std::get<double>(row[column(t, "northing_m")])};
  return out;
}

double level_of(const Table& t, const std::string& point) {
  for (const auto& row : t.rows)
    if (std::get<std::string>(row[0]) == point)
      return std::get<Length>(row[column(t, "level_m")]).in_m();
  FAIL("no point " << point);
  return 0;
}

}  // namespace

TEST_CASE("setting out on a curve: every corner where its panel lies on the chord, to 0.1 mm") {
  const TrialSet s("heron");
  const auto points = points_of(corners_table(s.bridge, s.deck));
  CHECK(points.size() == 10 * s.deck.panels.size());
  for (const Panel& p : s.deck.panels) {
    const At origin = place_of(p.start.in_mm());
    const double b = chord_bearing(p);
    const auto check = [&](PanelPoint at, const char* name) {
      const auto found = points.find(std::to_string(p.position) + name);
      REQUIRE(found != points.end());
      CHECK(apart(found->second, origin.ahead(b, at.x, at.y)) < 0.1);
    };
    check(p.left_edge.front(), "BL");
    check(p.left_edge.back(), "AL");
    check(p.right_edge.front(), "BR");
    check(p.right_edge.back(), "AR");
    check({0, 0}, "BC");
    check({p.shape.length, 0}, "AC");
  }
}

TEST_CASE("setting out on a curve: the loop of edges, gaps and ends closes within 0.1 mm") {
  const TrialSet s("heron");
  const auto points = points_of(setting_out_table(s.project, s.bridge, s.deck));
  const auto& panels = s.deck.panels;
  // Legs of the panels as made, gaps square to the joint, turned at each joint.
  At at = points.at("1BL");
  const At start = at;
  const auto leg = [&](const Panel& p, PanelPoint a, PanelPoint b) {
    at = at.ahead(chord_bearing(p), b.x - a.x, b.y - a.y);
  };
  const auto gap = [&](const Panel& back, const Panel& ahead, double way) {
    const double from = back.end.in_mm(), to = ahead.start.in_mm();
    at = at.ahead(bearing_at((from + to) / 2), way * (to - from));
  };
  double length = 0;
  for (std::size_t i = 0; i < panels.size(); ++i) {
    if (i > 0) gap(panels[i - 1], panels[i], 1);
    leg(panels[i], panels[i].left_edge.front(), panels[i].left_edge.back());
    length += panels[i].shape.length;
  }
  leg(panels.back(), panels.back().left_edge.back(), panels.back().right_edge.back());
  CHECK(apart(at, points.at(std::to_string(panels.size()) + "AR")) < 0.1);
  for (std::size_t i = panels.size(); i-- > 0;) {
    leg(panels[i], panels[i].right_edge.back(), panels[i].right_edge.front());
    if (i > 0) gap(panels[i - 1], panels[i], -1);
  }
  leg(panels.front(), panels.front().right_edge.front(), panels.front().left_edge.front());
  CHECK(apart(at, start) < 0.1);
  CHECK(length > 55000);
}

TEST_CASE("setting out: levels of a panel by hand") {
  // Panel 3 on +2.4 %; one-way fall of 2 % to the left, high line at the alignment.
  const TrialSet s("heron");
  const Table t = corners_table(s.bridge, s.deck);
  const double back = 12.300 + 0.024 * 5.032;
  CHECK(level_of(t, "3BC") - level_of(t, "3BL") == doctest::Approx(0.030));
  CHECK(level_of(t, "3BR") - level_of(t, "3BLG") == doctest::Approx(0.02 * 2.850));
  CHECK(level_of(t, "3AC") - level_of(t, "3BC") == doctest::Approx(0.024 * 2.488));
  const double high = s.deck.panels[2].shape.depth - s.deck.panels[2].shape.top(0);
  CHECK(level_of(t, "3BC") == doctest::Approx(back - high / 1000));
}

TEST_CASE("alignment tables: the curve's figures by hand, and none for a straight bridge") {
  const TrialSet s("heron");
  const Table elements = alignment_table(s.bridge), curves = curves_table(s.bridge);
  REQUIRE(elements.rows.size() == 3);
  const auto& end = elements.rows[2];
  const At last = place_of(60072);
  CHECK(std::get<double>(end[column(elements, "easting_m")]) ==
        doctest::Approx(last.east / 1000).epsilon(1e-12));
  CHECK(std::get<double>(end[column(elements, "northing_m")]) ==
        doctest::Approx(last.north / 1000).epsilon(1e-12));
  // 40 - 57.354349 + 360 degrees.
  CHECK(std::get<std::string>(end[column(elements, "bearing_deg")]) == "342.645651");
  REQUIRE(curves.rows.size() == 1);
  const double half = 45.046 / 45 / 2;
  CHECK(std::get<double>(curves.rows[0][column(curves, "tangent_m")]) ==
        doctest::Approx(45 * std::tan(half)));
  CHECK(std::get<double>(curves.rows[0][column(curves, "middle_ordinate_m")]) ==
        doctest::Approx(45 * (1 - std::cos(half))));
  const Table parabolas = vertical_curves_table(s.bridge);
  REQUIRE(parabolas.rows.size() == 1);
  // At PVI the curve is (g2 - g1) L / 8 off the grade point, which is at 13.200.
  const double change = (13.425 - 13.200) / 22.572 - 0.024;
  CHECK(std::get<Length>(parabolas.rows[0][column(parabolas, "pvi_level_m")]).in_m() ==
        doctest::Approx(13.200 + change * 16 / 8).epsilon(1e-9));
  const TrialSet plain("saltmarsh");
  for (const Table& t : make_schedules(plain.project, plain.bridge, plain.deck)) {
    CHECK(t.name != "alignment");
    CHECK(t.name != "curves");
    CHECK(t.name != "vertical-curves");
  }
}
