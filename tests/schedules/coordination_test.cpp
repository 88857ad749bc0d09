// What railing supplier, drain trade and steel erector get, against plane geometry written out here.
#include <doctest/doctest.h>

#include <cmath>
#include <map>

#include "schedules/parts.h"
#include "sheets/trial_set.h"
#include "support/cells.h"

using namespace deckquire;
using namespace deckquire::testing;
using deckquire::sheets::TrialSet;

namespace {

std::string text(const Cell& c) {
  return std::holds_alternative<std::string>(c) ? std::get<std::string>(c) : "";
}

}  // namespace

TEST_CASE("posts: the distance to the next is that of their coordinates, the slope that of the line") {
  const TrialSet s("quickstart");
  const Table& t = s.table("posts");
  std::map<std::string, std::vector<std::size_t>> sides;
  for (std::size_t i = 0; i < t.rows.size(); ++i) sides[text(cell(t, i, "side"))].push_back(i);
  REQUIRE(sides.size() == 2);
  for (const auto& [side, rows] : sides) {
    CHECK(std::holds_alternative<std::monostate>(cell(t, rows.back(), "next_mm")));
    for (std::size_t k = 0; k + 1 < rows.size(); ++k) {
      const double run = number(cell(t, rows[k + 1], "station_m")) - number(cell(t, rows[k], "station_m"));
      // A straight bridge at an even grade of 201 in 20056: the slope's length over the plan's.
      CHECK(number(cell(t, rows[k], "next_mm")) ==
            doctest::Approx(run * std::hypot(1, 201.0 / 20056)).epsilon(1e-6));
      CHECK(number(cell(t, rows[k], "slope")) == doctest::Approx(201.0 / 20056));
    }
    for (std::size_t i : rows) CHECK(text(cell(t, i, "plate")) == "HP1");
  }
}

TEST_CASE("outlets: what lies below, and how far down, or that nobody said") {
  const TrialSet s("saltmarsh");
  const Table& t = s.table("scuppers");
  bool creek = false;
  for (std::size_t i = 0; i < t.rows.size(); ++i) {
    // Salt Creek from 31.5 to 63.5 at 97.4, Staithe Lane from 70.2 to 75.6 at 96.85.
    const double at = number(cell(t, i, "station_m")) / 1000;
    const std::string below = text(cell(t, i, "below"));
    CHECK((below == "water Salt Creek") == (at > 31.5 && at < 63.5));
    CHECK((below == "road Staithe Lane") == (at > 70.2 && at < 75.6));
    if (below != "water Salt Creek") continue;
    creek = true;
    CHECK(number(cell(t, i, "clearance_mm")) ==
          doctest::Approx(number(cell(t, i, "outlet_level_m")) - 97400));
  }
  CHECK(creek);
  const TrialSet silent("quickstart");
  CHECK(text(cell(silent.table("scuppers"), 0, "below")) == "not stated");
}

TEST_CASE("recesses: one line for every hollow, its room that of the design") {
  const TrialSet s("saltmarsh");
  const Table& t = s.table("recesses");
  std::size_t hollows = 0;
  for (const Panel& p : s.deck.panels)
    for (const Feature& f : p.shape.features) hollows += f.kind == FeatureKind::recess ? 1 : 0;
  CHECK(t.rows.size() == hollows);
  const SectionData& section = s.project.deck.section;
  for (std::size_t i = 0; i < t.rows.size(); ++i) {
    CHECK(number(cell(t, i, "above_mm")) == doctest::Approx(section.recess_over.in_mm()));
    CHECK(number(cell(t, i, "around_mm")) <= section.recess_around.in_mm() + 1e-6);
  }
}

TEST_CASE("check distances: the six of a span close, four corners in one plane") {
  for (const char* name : {"saltmarsh", "heron"}) {
    const TrialSet s(name);
    const Table& t = s.table("diagonals");
    REQUIRE(t.rows.size() == 6 * s.deck.spans.size());
    for (std::size_t i = 0; i < t.rows.size(); i += 6) {
      const auto d = [&](std::size_t k) { return number(cell(t, i + k, "distance_mm")); };
      // Corners a b c d around: a = back left, b = ahead left, c = ahead right, d = back right. From the
      // back end (0, 0) to (0, -w) both ahead corners by the law of cosines; the ahead end between them.
      const double ac = d(0), db = d(1), ab = d(2), dc = d(3), w = d(4), end = d(5);
      const auto place = [&](double from_a, double from_d) {
        const double y = (from_d * from_d - from_a * from_a - w * w) / (2 * w);
        return std::pair(std::sqrt(from_a * from_a - y * y), y);
      };
      const auto b = place(ab, db), c = place(ac, dc);
      CHECK(std::hypot(b.first - c.first, b.second - c.second) == doctest::Approx(end).epsilon(1e-6));
      for (std::size_t k = 0; k < 6; ++k)
        CHECK(number(cell(t, i + k, "tape_mm")) ==
              doctest::Approx(std::hypot(d(k), number(cell(t, i + k, "rise_mm")))));
    }
  }
}

TEST_CASE("tape from the abutments: panels, gaps and end gaps along the slope, and both ways meet") {
  const TrialSet s("quickstart");
  const Table& t = s.table("ties");
  REQUIRE(t.rows.size() == s.deck.joints.size());
  const double slope = std::hypot(1, 201.0 / 20056);
  CHECK(number(cell(t, 0, "left_from_mm")) == doctest::Approx(32));
  // Seven panels of 2489, one of 2485, seven gaps of 12; the end gap of 32 is level.
  CHECK(number(cell(t, 4, "left_from_mm")) == doctest::Approx(32 + 4 * 2501 * slope));
  CHECK(text(cell(t, 4, "left")) == "5BL");
  CHECK(text(cell(t, 8, "right")) == "8AR");
  for (std::size_t i = 0; i < t.rows.size(); ++i)
    for (const char* side : {"left", "right"})
      CHECK(number(cell(t, i, std::string(side) + "_from_mm")) + number(cell(t, i, std::string(side) + "_to_mm")) ==
            doctest::Approx(64 + (7 * 2489 + 2485 + 7 * 12) * slope));
  // On a curve the outer edge is the longer one: 45.046 m of arc at 45 m, 3 m from edge to edge; the last
  // joint is skewed by 15 degrees, its left end ahead.
  const TrialSet bent("heron");
  const Table& h = bent.table("ties");
  const double left = number(cell(h, h.rows.size() - 1, "left_from_mm")),
               right = number(cell(h, h.rows.size() - 1, "right_from_mm"));
  CHECK(right - left == doctest::Approx(3000 * (45.046 / 45 - std::tan(15 * pi / 180))).epsilon(0.002));
}
