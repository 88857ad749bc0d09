#include "deck/features.h"
#include "deck/random_shapes.h"

using namespace deckquire;

namespace {

/// Reference cases T1, T2: 2480 x 3000, one scupper; the corner (0, 0) of the case is the back
/// right.
PanelShape with_scupper(double x, double y, Fall fall) {
  PanelShape s;
  s.length = 2480;
  s.outline = {{0, -1500}, {2480, -1500}, {2480, 1500}, {0, 1500}};
  s.left_back = s.left_ahead = 1500;
  s.right_back = s.right_ahead = -1500;
  s.depth = 150;
  s.fall = fall;
  s.slope = fall == Fall::none ? 0 : 0.02;
  s.high_line = fall == Fall::left ? -1500 : 0;
  Feature f;
  f.kind = FeatureKind::scupper;
  f.at = {x, y - 1500};
  f.length = 360;
  f.width = 260;
  f.variant = static_cast<int>(y > 1500 ? Side::left : Side::right);
  s.features.push_back(f);
  return s;
}

bool equal(const PanelShape& a, const PanelShape& b) {
  return same_type(a, b, mm(1));
}
bool opposite(const PanelShape& a, const PanelShape& b) {
  return equal(mirror(a), b) || equal(half_turn(mirror(a)), b);
}

}  // namespace

TEST_CASE("types: four scuppers without a fall are two marks, one the opposite hand (case T1)") {
  const auto a = with_scupper(400, 150, Fall::none), b = with_scupper(2080, 2850, Fall::none),
             c = with_scupper(400, 2850, Fall::none), d = with_scupper(2080, 150, Fall::none);
  CHECK(!equal(a, b));
  CHECK(equal(half_turn(a), b));
  CHECK(equal(half_turn(c), d));
  CHECK(!equal(a, c));
  CHECK(!equal(half_turn(a), c));
  CHECK(opposite(a, c));
}

TEST_CASE("types: a fall to one side makes four marks of them (case T2)") {
  const auto a = with_scupper(400, 150, Fall::left), b = with_scupper(2080, 2850, Fall::left),
             c = with_scupper(400, 2850, Fall::left), d = with_scupper(2080, 150, Fall::left);
  const PanelShape all[] = {a, b, c, d};
  for (int i = 0; i < 4; ++i)
    for (int k = 0; k < i; ++k) {
      CHECK(!equal(all[i], all[k]));
      CHECK(!equal(half_turn(all[i]), all[k]));
    }
  CHECK(opposite(a, d));
  CHECK(opposite(b, c));
  CHECK(!opposite(a, c));
}

TEST_CASE("types: the tolerance is to the first of a mark, exactly at it is within (case T4)") {
  std::vector<PanelShape> marks;
  for (double length : {2500, 2501, 2503, 2504, 2506, 2507, 2509}) {
    PanelShape s = with_scupper(400, 150, Fall::none);
    s.length = length;
    s.outline[1].x = s.outline[2].x = length;
    bool found = false;
    for (const PanelShape& m : marks) found = found || same_type(m, s, mm(2));
    if (!found) marks.push_back(s);
  }
  CHECK(marks.size() == 4);
  PanelShape s = marks[0];
  s.length = s.outline[1].x = s.outline[2].x = 2502;
  CHECK(same_type(marks[0], s, mm(2)));
}

TEST_CASE("types: a crown in the middle of an eccentric deck turns, off the middle it does not") {
  PanelShape s = with_scupper(400, 150, Fall::crown);
  s.features.clear();
  for (PanelPoint& p : s.outline) p.y += 300;  // left 1800, right 1200
  s.high_line = 300;
  CHECK(equal(half_turn(s), s));
  s.high_line = 0;
  CHECK(!equal(half_turn(s), s));
  s.fall = Fall::none;
  CHECK(equal(half_turn(s), s));
}

TEST_CASE("types: end joints and surfaces tell panels apart") {
  PanelShape a = with_scupper(1240, 150, Fall::none);
  a.features.clear();
  PanelShape b = a;
  b.back = EdgeEnd::end_joint;
  CHECK(!equal(a, b));
  CHECK(!equal(half_turn(b), b));
  b = a;
  b.surface = 1;
  CHECK(!equal(a, b));
}

TEST_CASE("types: turned twice or mirrored twice is the same panel; order does not matter") {
  for (const char* name : {"saltmarsh", "quickstart", "orchard"}) {
    const Project p = trial::example(name);
    const auto b = trial::build(p);
    for (const Panel& panel : b.deck.panels) {
      const PanelShape& s = panel.shape;
      CHECK(same_type(half_turn(half_turn(s)), s, mm(0)));
      CHECK(same_type(mirror(mirror(s)), s, mm(0)));
      CHECK(same_type(mirror(half_turn(s)), half_turn(mirror(s)), mm(0)));
      const PanelShape& drawn = b.deck.marks[static_cast<std::size_t>(panel.mark)].shape;
      CHECK(same_type(panel.turned ? half_turn(drawn) : drawn, s, p.deck.marks.tolerance));
      if (panel.turned) CHECK(!same_type(drawn, s, p.deck.marks.tolerance));
    }
  }
}

TEST_CASE("types: turns and mirrors of random panels, skewed ones too, undo themselves") {
  int turn = 0, skewed = 0;
  for (const PanelShape& s : trial::random_shapes(11, 400, {5, 3, 5, true})) {
    CHECK(same_type(half_turn(half_turn(s)), s, mm(0)));
    CHECK(same_type(mirror(mirror(s)), s, mm(0)));
    CHECK(same_type(mirror(half_turn(s)), half_turn(mirror(s)), mm(0)));
    CHECK(half_turn(half_turn(s)).curbs.size() == s.curbs.size());
    turn += same_type(half_turn(s), s, mm(0)) ? 1 : 0;
    skewed += s.square() ? 0 : 1;
  }
  CHECK(turn > 0);
  CHECK(turn < 100);
  CHECK(skewed > 200);
}

TEST_CASE("types: a parallelogram turns, its mirror image leans the other way") {
  PanelShape s = with_scupper(1240, 1500, Fall::none);
  s.features.clear();
  s.back_slope = s.ahead_slope = 0.2;
  s.outline = {{-300, -1500}, {2180, -1500}, {2780, 1500}, {300, 1500}};
  CHECK(equal(half_turn(s), s));
  CHECK(half_turn(s).back_slope == 0.2);
  CHECK(!equal(mirror(s), s));
  CHECK(mirror(s).back_slope == -0.2);
  // One skewed end: turned, it is at the ahead end, with the same slope.
  s.ahead_slope = 0;
  s.outline = {{-300, -1500}, {2480, -1500}, {2480, 1500}, {300, 1500}};
  CHECK(!equal(half_turn(s), s));
  CHECK(half_turn(s).ahead_slope == 0.2);
  CHECK(half_turn(s).outline ==
        Ring<PanelFrame>{{0, -1500}, {2180, -1500}, {2780, 1500}, {0, 1500}});
}

TEST_CASE("types: the same part in another row is the same part, with skewed ends too") {
  for (const PanelShape& s : trial::random_shapes(12, 200, {5, 3, 5, true})) {
    const PanelShape other = trial::in_row(s, 3020);
    CHECK(same_type(s, other, mm(0)));
    CHECK(same_type(half_turn(s), half_turn(other), mm(0)));
    CHECK(same_type(mirror(s), mirror(other), mm(0)));
    if (s.fall == Fall::none) continue;
    PanelShape lower = other;  // the same plan under a top that runs on: thinner, another part
    lower.high_line -= 3020;
    CHECK(!same_type(s, lower, mm(1)));
  }
}

TEST_CASE("types: a turned panel weighs the same, about a point turned with it") {
  const Project p = trial::example("saltmarsh");
  const auto b = trial::build(p);
  for (const Mark& m : b.deck.marks) {
    const Masses turned = weigh(half_turn(m.shape), p.deck), image = weigh(mirror(m.shape), p.deck);
    CHECK(turned.total.in_si() == doctest::Approx(m.masses.total.in_si()).epsilon(1e-12));
    CHECK(turned.x == doctest::Approx(m.shape.length - m.masses.x).epsilon(1e-9));
    CHECK(turned.y == doctest::Approx(-m.masses.y).epsilon(1e-9));
    CHECK(image.total.in_si() == doctest::Approx(m.masses.total.in_si()).epsilon(1e-12));
    CHECK(image.x == doctest::Approx(m.masses.x).epsilon(1e-9));
  }
}

TEST_CASE("types: openings are compared by their coordinates") {
  PanelShape a = with_scupper(400, 150, Fall::none);
  a.openings = {circle_ring(PanelPoint{400, -1350}, 110)};
  PanelShape b = a;
  b.openings = {circle_ring(PanelPoint{404, -1350}, 110)};
  CHECK(!equal(a, b));
  b.openings = {circle_ring(PanelPoint{400, -1350}, 120)};
  CHECK(!equal(a, b));
  b.openings = {circle_ring(PanelPoint{400.5, -1350}, 110)};
  CHECK(equal(a, b));
}

TEST_CASE("types: corners at nearly one station may come in either order") {
  PanelShape a = with_scupper(400, 150, Fall::none), b = a;
  a.outline = {{0, -1500}, {2480, -1500}, {2480, 1500}, {0.4, 1500}};
  b.outline = {{0, 1500}, {0.4, -1500}, {2480, -1500}, {2480, 1500}};
  CHECK(equal(a, b));
}

TEST_CASE("types: two fittings nearer than the tolerance find a partner each") {
  PanelShape a = with_scupper(400, 150, Fall::none);
  a.features.push_back(a.features[0]);
  PanelShape b = a;
  a.features[1].at.x = 403;  // 400 and 403
  b.features[0].at.x = 402;  // 402 and 405: the first one may take either of the other's
  b.features[1].at.x = 405;
  CHECK(same_type(a, b, mm(2)));
  CHECK(same_type(b, a, mm(2)));
  b.features[1].at.x = 405.1;
  CHECK(!same_type(a, b, mm(2)));
}

TEST_CASE("types: the tag of a turned panel is at its ahead left corner") {
  const auto b = trial::build(trial::example("saltmarsh"));
  for (const Panel& p : b.deck.panels)
    for (const Feature& f : p.shape.features)
      if (f.kind == FeatureKind::tag) {
        CHECK((f.at.x > p.shape.length / 2) == p.turned);
        CHECK((f.at.y > 0) == p.turned);
      }
}

TEST_CASE("types: marks of the main example, in order of first position") {
  const auto b = trial::build(trial::example("saltmarsh"));
  REQUIRE(b.deck.marks.size() == 15);
  int quantity = 0, last = -1;
  for (const Mark& m : b.deck.marks) {
    quantity += m.quantity;
    CHECK(m.positions.front() > last);
    last = m.positions.front();
    CHECK(m.quantity == static_cast<int>(m.positions.size()));
  }
  CHECK(quantity == 38);
  // A taper out and the taper back in: opposite hands; the other lookout turns both round.
  CHECK(b.deck.marks[7].opposite_of == 4);
  CHECK(b.deck.panels[30].mark == 7);
  CHECK(b.deck.panels[30].turned);
  CHECK(b.deck.panels[33].mark == 4);
  CHECK(b.deck.panels[33].turned);
  CHECK(b.deck.marks[0].positions == std::vector<int>{0, 11, 12, 25, 26});
  CHECK(b.deck.panels[0].serial == "0417-001");
}

TEST_CASE("types: a tongue at one end gives a panel a direction, an open joint does not") {
  Project p = trial::example("saltmarsh");
  p.deck.joints.kind = JointKind::open;
  const auto open = trial::build(p);
  p.deck.joints.kind = JointKind::lapped;
  const auto lapped = trial::build(p);
  // The last panel of the first span is its first end for end, until one has the tongue and the
  // other the groove.
  CHECK(open.deck.panels[0].mark == open.deck.panels[11].mark);
  CHECK(open.deck.panels[11].turned);
  CHECK(lapped.deck.panels[0].mark != lapped.deck.panels[11].mark);
  for (const Panel& panel : lapped.deck.panels) CHECK(!panel.turned);
  const PanelShape& inner = lapped.deck.panels[1].shape;
  CHECK(inner.back == EdgeEnd::groove);
  CHECK(inner.ahead == EdgeEnd::tongue);
  CHECK(!equal(half_turn(inner), inner));
}

TEST_CASE("types: two zones of one surface are one surface") {
  Project p = trial::example("saltmarsh");
  const std::size_t marks = trial::build(p).deck.marks.size();
  SurfaceData again = p.deck.surfaces[0];
  again.from = p.deck.spans[1].from;
  again.to = p.deck.spans[1].to;
  p.deck.surfaces.insert(p.deck.surfaces.begin() + 1, again);
  CHECK(trial::build(p).deck.marks.size() == marks);
  p.deck.surfaces[1].colour = "sand";
  CHECK(trial::build(p).deck.marks.size() > marks);
}

TEST_CASE("types: panels of two rows under a crown are one part, the one turned") {
  const auto b = trial::build(trial::example("ropewalk"));
  REQUIRE(!b.findings.has_errors());
  int shared = 0;
  for (std::size_t i = 0; i + 1 < b.deck.panels.size(); ++i) {
    const Panel &left = b.deck.panels[i], &right = b.deck.panels[i + 1];
    if (left.bay != right.bay || left.mark != right.mark) continue;
    CHECK(left.turned != right.turned);
    ++shared;
  }
  CHECK(shared > 5);
}
