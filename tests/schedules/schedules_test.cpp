#include <doctest/doctest.h>

#include <cmath>
#include <map>

#include "schedules/parts.h"
#include "schedules/schedules.h"
#include "sheets/trial_set.h"
#include "support/cells.h"

using namespace deckquire;
using namespace deckquire::testing;
using deckquire::sheets::trial_names;
using deckquire::sheets::TrialSet;

namespace {

double sum(const Table& t, const std::string& name) {
  double s = 0;
  for (std::size_t i = 0; i < t.rows.size(); ++i) s += number(cell(t, i, name));
  return s;
}

std::vector<std::string> names(const Table& t, std::size_t count) {
  std::vector<std::string> out;
  for (std::size_t i = 0; i < count; ++i) out.push_back(t.columns[i].name);
  return out;
}

}  // namespace

TEST_CASE("schedules, panels and marks: begin with the columns the design fixes") {
  const TrialSet s("saltmarsh");
  const std::vector<std::string> panels = {
      "position",        "serial",        "mark",           "turned",          "span",
      "start_station_m", "end_station_m", "length_left_mm", "length_right_mm", "width_start_mm",
      "width_end_mm",    "area_m2",       "mass_kg"};
  CHECK(names(s.table("panels"), panels.size()) == panels);
  const std::vector<std::string> marks = {
      "mark", "quantity", "opposite_hand_of", "length_mm", "width_mm", "mass_kg", "sheet"};
  CHECK(names(s.table("marks"), marks.size()) == marks);
}

TEST_CASE("schedules, every row: one cell a column, and a total as wide as the rows") {
  for (const char* name : trial_names) {
    const TrialSet s(name);
    for (const Table& t : s.tables) {
      CAPTURE(t.name);
      for (const auto& row : t.rows) CHECK(row.size() == t.columns.size());
      CHECK((t.total.empty() || t.total.size() == t.columns.size()));
    }
  }
}

TEST_CASE("marks, quantities: sum to the panels; each as often as positions carry it") {
  for (const char* name : trial_names) {
    const TrialSet s(name);
    const Table &marks = s.table("marks"), &panels = s.table("panels");
    CHECK(sum(marks, "quantity") == static_cast<double>(panels.rows.size()));
    std::map<std::string, double> count;
    for (std::size_t i = 0; i < panels.rows.size(); ++i)
      count[std::get<std::string>(cell(panels, i, "mark"))] += 1;
    for (std::size_t i = 0; i < marks.rows.size(); ++i)
      CHECK(count[std::get<std::string>(cell(marks, i, "mark"))] ==
            number(cell(marks, i, "quantity")));
  }
}

TEST_CASE("spans: closure is exactly nothing, and the parts make up the span") {
  for (const char* name : trial_names) {
    const TrialSet s(name);
    const Table& t = s.table("spans");
    REQUIRE(t.rows.size() == s.deck.spans.size());
    for (std::size_t i = 0; i < t.rows.size(); ++i) {
      CHECK(std::get<Length>(cell(t, i, "closure_mm")) == Length());
      CHECK(number(cell(t, i, "panel_lengths_mm")) + number(cell(t, i, "gaps_mm")) +
                number(cell(t, i, "end_gaps_mm")) ==
            doctest::Approx(number(cell(t, i, "length_mm"))).epsilon(1e-12));
    }
  }
}

TEST_CASE("totals: marks, panels, materials and the deck agree on area and mass") {
  for (const char* name : trial_names) {
    const TrialSet s(name);
    const Table &marks = s.table("marks"), &panels = s.table("panels");
    CHECK(sum(panels, "mass_kg") == doctest::Approx(s.deck.mass.in_si()));
    CHECK(sum(panels, "area_m2") == doctest::Approx(s.deck.area.in_si()));
    CHECK(sum(marks, "mass_all_kg") == doctest::Approx(s.deck.mass.in_si()));
    const Table& m = s.table("materials");
    CHECK(number(m.total[column(m, "mass_kg")]) == doctest::Approx(s.deck.mass.in_si()));
  }
}

TEST_CASE("bill of materials: quantity for all is that for one times the quantity of the mark") {
  const TrialSet s("saltmarsh");
  double plates = 0;
  for (int i = 0; i < static_cast<int>(s.deck.marks.size()); ++i) {
    const Table t = bill_of_materials(s.project, s.deck, i);
    REQUIRE(!t.rows.empty());
    for (std::size_t r = 0; r < t.rows.size(); ++r) {
      CHECK(number(cell(t, r, "all")) ==
            doctest::Approx(number(cell(t, r, "one")) *
                            s.deck.marks[static_cast<std::size_t>(i)].quantity));
      if (std::get<std::string>(cell(t, r, "item")) == "post plate")
        plates += number(cell(t, r, "all"));
    }
  }
  CHECK(plates == static_cast<double>(s.deck.posts.size()));
}

TEST_CASE("panels, a taper of 900 over 2500: the edge of 2488 is the hypotenuse") {
  // 2488 * sqrt(1 + 0.36^2) = 2644.312, by hand.
  const TrialSet s("saltmarsh");
  const Table t = panels_table(s.bridge, s.deck);
  CHECK(number(cell(t, 4, "length_left_mm")) == doctest::Approx(2644.3121).epsilon(1e-7));
  CHECK(number(cell(t, 4, "length_right_mm")) == doctest::Approx(2488));
  CHECK(number(cell(t, 4, "width_end_mm")) - number(cell(t, 4, "width_start_mm")) ==
        doctest::Approx(895.68).epsilon(1e-7));
}

TEST_CASE("slope excess, 4 % over 25 m: 19.99 mm") {
  // 25000 * (sqrt(1 + 0.04^2) - 1) = 19.992 mm, by hand.
  AlignmentData data;
  data.to = metres(25);
  data.grades = {{metres(0), metres(10), {}}, {metres(25), metres(11), {}}};
  CHECK(slope_excess(Alignment(data), metres(0), metres(25)).in_mm() ==
        doctest::Approx(19.992).epsilon(1e-4));
}

TEST_CASE("setting out: check distances of the table are the distances of its own coordinates") {
  const TrialSet s("saltmarsh");
  const Table &points = s.table("setting-out"), &d = s.table("diagonals");
  std::map<std::string, std::size_t> row;
  for (std::size_t i = 0; i < points.rows.size(); ++i)
    row[std::get<std::string>(cell(points, i, "point"))] = i;
  CHECK(d.rows.size() == 6 * s.deck.spans.size());
  for (std::size_t i = 0; i < d.rows.size(); ++i) {
    const auto a = row.at(std::get<std::string>(cell(d, i, "from")));
    const auto b = row.at(std::get<std::string>(cell(d, i, "to")));
    const double e = number(cell(points, b, "easting_m")) - number(cell(points, a, "easting_m"));
    const double n = number(cell(points, b, "northing_m")) - number(cell(points, a, "northing_m"));
    CHECK(1000 * std::hypot(e, n) == doctest::Approx(number(cell(d, i, "distance_mm"))));
  }
}

TEST_CASE("cells: drawings in the project's units, machines in SI at full precision") {
  const Length a = inches(96);
  CHECK(print_cell(a, Measure::length, UnitSystem::metric) == "2438.4");
  CHECK(print_cell(a, Measure::length, UnitSystem::imperial) == "8'-0\"");
  CHECK(machine_cell(a, Measure::length) == "2438.4");
  CHECK(machine_cell(a, Measure::station) == "2.4384");
  CHECK(print_cell(0.0125, Measure::percent, UnitSystem::metric) == "1.25");
  CHECK(machine_cell(0.0125, Measure::percent) == "0.0125");
  CHECK(print_cell(30.48, Measure::coordinate, UnitSystem::imperial) == "100.000");
  CHECK(print_cell(Cell(), Measure::mass, UnitSystem::metric) == "");
}

// Four end joints of a deck 3 m wide, plate 160 wide and 8 thick, 7850 kg/m3.
TEST_CASE("materials, cover plates of end joints: steel, as the detail says") {
  const TrialSet set("saltmarsh");
  const Table& t = set.table("materials");
  for (std::size_t i = 0; i < t.rows.size(); ++i) {
    if (std::get<std::string>(cell(t, i, "item")) != "joint cover plate") continue;
    CHECK(number(cell(t, i, "mass_kg")) == doctest::Approx(12.0 * 0.160 * 0.008 * 7850));
    CHECK(std::get<std::string>(cell(t, i, "description")).find("S355") != std::string::npos);
    return;
  }
  FAIL("no cover plates");
}

TEST_CASE("joints in rows: both panels of a bay beside it, and the row joint as long as its panels") {
  const TrialSet s("ropewalk");
  const Table joints = joints_table(s.project, s.bridge, s.deck);
  CHECK(std::get<std::string>(cell(joints, 1, "back")) == "1-2");
  CHECK(std::get<std::string>(cell(joints, 1, "ahead")) == "3-4");
  CHECK(std::get<std::string>(cell(joints, 0, "back")) == "support");
  const Table rows = row_joints_table(s.project, s.bridge, s.deck);
  REQUIRE(rows.rows.size() == 1);
  // From the middle of the first end gap to that of the last: 60072 - 32, by hand.
  CHECK(std::get<Length>(cell(rows, 0, "length_mm")) == mm(60040));
}

TEST_CASE("joints at a skew: as long as the deck is wide over the cosine") {
  TrialSet s("quickstart");
  s.project.deck.joints.skew = degrees(30);
  s.deck = build_deck(s.project, s.bridge, s.findings);
  // 2400 / cos 30, by hand.
  CHECK(joint_length(s.bridge, s.deck, s.deck.joints[2]).in_mm() == doctest::Approx(2771.2813));
  const Table t = joints_table(s.project, s.bridge, s.deck);
  CHECK(std::get<std::string>(cell(t, 0, "skew_deg")) == "30.00");
}
