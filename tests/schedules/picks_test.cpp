// Picks: case E4 of the algorithms reference (part 7), case 18 of the strength reference, radii by hand,
// the chart's next larger radius, and the same numbers as the calculation sheets.
#include "schedules/picks.h"

#include <cmath>

#include "deck/trial.h"
#include "schedules/setting_order.h"
#include "workings/reckoner.h"

using namespace trial;

namespace {

std::vector<int> as_they_stand(const Deck& deck) {
  std::vector<int> order;
  for (std::size_t i = 0; i < deck.panels.size(); ++i) order.push_back(static_cast<int>(i));
  return order;
}

CraneData crane(const std::string& name, Length station, Length offset,
                std::vector<std::pair<double, double>> chart) {
  CraneData c;
  c.name = name, c.station = station, c.offset = offset, c.tackle = Mass::si(150);
  for (const auto& [radius, mass] : chart) c.chart.push_back({metres(radius), Mass::si(mass), {}});
  return c;
}

}  // namespace

TEST_CASE("picks: slings of case E4, and hook height for the angle") {
  // algorithms.md part 7, E4: half-spacings 0.725 and 0.880 m, hook 2.0 m, factor 1.3, two legs carry.
  const auto w = workings::reckon_typed(
      *workings::find_working("sling"),
      {{"W", "26.0456kN"}, {"l_x", "1.45m"}, {"l_y", "1.76m"}, {"h", "2.0m"}, {"phi", "1.3"}, {"n_e", "2"}});
  CHECK(w.result("l_l") == doctest::Approx(2.30218).epsilon(1e-5));
  CHECK(w.result("beta_l") * 180 / pi == doctest::Approx(60.3128).epsilon(1e-5));
  CHECK(w.result("T") == doctest::Approx(19487.5).epsilon(1e-4));
  CHECK(w.result("h_2") == doctest::Approx(1.97486).epsilon(1e-5));
}

TEST_CASE("picks: legs and hook stand at the project's angle, over the farthest insert") {
  const Project p = example("saltmarsh");
  const Built b = build(p);
  const double angle = p.deck.lifting.angle.in_si();
  for (const Pick& k : picks_of(p, b.bridge, b.deck, as_they_stand(b.deck))) {
    const Mark& m = b.deck.marks[static_cast<std::size_t>(b.deck.panels[static_cast<std::size_t>(k.panel)].mark)];
    double far = 0;
    for (const Feature& f : m.shape.features)
      if (f.kind == FeatureKind::lifting_insert)
        far = std::max(far, std::hypot(f.at.x - m.masses.x, f.at.y - m.masses.y));
    CHECK(k.inserts == 4);
    CHECK(k.leg == doctest::Approx(far / std::cos(angle)).epsilon(1e-9));
    CHECK(k.hook == doctest::Approx(far * std::tan(angle)).epsilon(1e-9));
  }
}

TEST_CASE("picks: the force is that of the calculation sheets, and not checked without a factor") {
  Project p = example("saltmarsh");
  const Built b = build(p);
  Findings findings;
  const Calculations all = calculate(p, b.bridge, b.deck, findings);
  std::vector<double> most(b.deck.marks.size(), 0);
  for (const Calculation& c : all.list) {
    if (c.topic != Topic::lifting) continue;
    const char* symbol = c.working.name == "sling" ? "T" : c.working.name == "pick-points" ? "F" : nullptr;
    if (symbol == nullptr) continue;
    double& force = most[static_cast<std::size_t>(c.marks.front())];
    force = std::max(force, c.working.result(symbol));
  }
  int seen = 0;
  for (const Pick& k : picks_of(p, b.bridge, b.deck, as_they_stand(b.deck))) {
    REQUIRE(k.force);
    const Panel& panel = b.deck.panels[static_cast<std::size_t>(k.panel)];
    CHECK(*k.force == doctest::Approx(most[static_cast<std::size_t>(panel.mark)]).epsilon(1e-6));
    ++seen;
  }
  CHECK(seen == static_cast<int>(b.deck.panels.size()));
  p.deck.lifting.handling.reset();
  for (const Pick& k : picks_of(p, b.bridge, b.deck, as_they_stand(b.deck))) {
    CHECK_FALSE(k.force);
    CHECK(k.unchecked.find("handling") != std::string::npos);
    CHECK(k.leg > 0);
  }
  const Table t = picks_table(p, b.bridge, b.deck);
  CHECK(std::get<std::string>(t.rows.front()[7]) == "not checked");
}

TEST_CASE("picks: centres of gravity in place are those of the panels weighed in place") {
  for (const char* name : {"saltmarsh", "ropewalk"}) {
    const Project p = example(name);
    const Built b = build(p);
    int turned = 0;
    for (const Panel& panel : b.deck.panels) {
      const Masses here = weigh(panel.shape, p.deck);
      const PanelPoint c = centre_in_place(b.deck, panel);
      // Panels of a mark are alike to its tolerance only.
      CHECK(std::hypot(c.x - here.x, c.y - here.y) <= p.deck.marks.tolerance.in_mm() + 0.5);
      turned += panel.turned ? 1 : 0;
    }
    CHECK(turned > 0);
  }
}

TEST_CASE("picks: a radius is a distance between two surveyed points, straight on beyond the bridge") {
  const Project p = example("saltmarsh");  // straight, bearing 62.5 degrees
  const Built b = build(p);
  const CraneData beyond = crane("X", metres(-6), metres(-6), {});
  const GroundPoint axis = crane_axis(b.bridge, beyond);
  const SurveyPoint origin = b.bridge.alignment.survey(Length(), Length());
  // By hand: 6 m back along the bearing, then 6 m to the right of it.
  const double bearing = 62.5 * pi / 180;
  CHECK(axis.x / 1e3 == doctest::Approx(-6 * std::sin(bearing) + 6 * std::cos(bearing)));
  CHECK(axis.y / 1e3 == doctest::Approx(-6 * std::cos(bearing) - 6 * std::sin(bearing)));
  Project q = p;
  q.conditions.erection.cranes = {beyond};
  q.conditions.erection.cranes[0].chart = {{metres(200), Mass::si(5000), {}}};
  for (const Panel& panel : b.deck.panels) {
    const int i = index_of(b.deck, panel);
    const BridgePoint g = panel.frame.bridge(b.bridge.alignment, centre_in_place(b.deck, panel));
    const SurveyPoint there = b.bridge.alignment.survey(mm(g.x), mm(g.y));
    const double east = there.easting - origin.easting - axis.x / 1e3;
    const double north = there.northing - origin.northing - axis.y / 1e3;
    const auto reaches = crane_reaches(q, b.bridge, b.deck, i);
    REQUIRE(reaches.size() == 1);
    CHECK(reaches[0].radius / 1e3 == doctest::Approx(std::hypot(east, north)).epsilon(1e-6));
    // And by station and offset, as the bridge is straight.
    CHECK(reaches[0].radius / 1e3 == doctest::Approx(std::hypot(g.x / 1e3 + 6, g.y / 1e3 + 6)).epsilon(1e-6));
  }
}

TEST_CASE("picks: beyond the end of a curve a crane stands on the tangent") {
  const Project p = example("heron");
  const Built b = build(p);
  const Alignment& line = b.bridge.alignment;
  REQUIRE_FALSE(line.straight());
  const GroundPoint end = line.ground(line.to().in_mm(), 0);
  const GroundPoint axis = crane_axis(b.bridge, crane("X", line.to() + metres(10), Length(), {}));
  CHECK(std::hypot(axis.x - end.x, axis.y - end.y) == doctest::Approx(10000));
  CHECK(std::remainder(std::atan2(axis.y - end.y, axis.x - end.x) - line.heading(line.to().in_mm()), 2 * pi) ==
        doctest::Approx(0).epsilon(1e-9));
}

TEST_CASE("picks: the chart is read at the next larger radius; the nearest crane that holds is taken") {
  Project p = example("saltmarsh");
  const Built b = build(p);
  const Panel& panel = b.deck.panels.front();
  const double mass = b.deck.marks[static_cast<std::size_t>(panel.mark)].masses.total.in_si();
  auto& cranes = p.conditions.erection.cranes;
  const auto first = [&] { return picks_of(p, b.bridge, b.deck, {0}).front().crane; };
  // About 10.2 m away: 12 m is the next line; what 10 m would take does not count, nor a value between.
  cranes = {crane("A", panel.start + metres(1.25), metres(10.2), {{10, 9000}, {12, mass + 149}, {20, 500}})};
  REQUIRE(first());
  CHECK_FALSE(first()->holds());
  CHECK(first()->takes->in_si() == doctest::Approx(mass + 149));
  cranes[0].chart[1].mass = Mass::si(mass + 150);  // panel and tackle, just
  CHECK(first()->holds());
  // A nearer one that does not hold is passed over.
  cranes.push_back(crane("B", panel.start + metres(1.25), metres(5), {{6, 300}}));
  CHECK(first()->crane == 0);
  cranes[1].chart[0].mass = Mass::si(9000);
  CHECK(first()->crane == 1);
  // Beyond every line of the chart.
  cranes = {crane("C", panel.start - metres(60), Length(), {{10, 9000}})};
  REQUIRE(first());
  CHECK_FALSE(first()->takes);
  cranes[0].chart.clear();
  CHECK_FALSE(first());
}

TEST_CASE("picks: one error for all panels that no crane takes, and what was not checked is said once") {
  Project p = example("saltmarsh");
  const Built b = build(p);
  Findings none;
  CheckScope scope = check_scope(p, b.bridge, b.deck, none);
  CHECK(codes(none).find("pick-beyond-chart") == std::string::npos);
  const auto says = [&](const std::vector<std::string>& list, const std::string& words) {
    return std::count_if(list.begin(), list.end(),
                         [&](const std::string& s) { return s.find(words) != std::string::npos; });
  };
  CHECK(says(scope.not_checked, "picks from the truck") == 1);
  CHECK(says(scope.checked, "picks:") == 1);
  p.conditions.erection.cranes.pop_back();
  p.conditions.erection.cranes.pop_back();
  Findings some;
  scope = check_scope(p, b.bridge, b.deck, some);
  int found = 0;
  for (const Finding& f : some.sorted())
    if (f.code == "pick-beyond-chart") {
      ++found;
      CHECK(f.severity == Severity::error);
      CHECK(f.what.find("beyond its chart") != std::string::npos);
      CHECK(f.what.find("more where they go") != std::string::npos);
    }
  CHECK(found == 1);
  CHECK(says(scope.checked, "FAILS") >= 1);
  p.conditions.erection.cranes.clear();
  Findings unstated;
  scope = check_scope(p, b.bridge, b.deck, unstated);
  CHECK(says(scope.not_checked, "picks against the charts of cranes") == 1);
  const Table t = picks_table(p, b.bridge, b.deck);
  for (const auto& row : t.rows) CHECK(std::get<std::string>(row.back()) == "not stated");
}
