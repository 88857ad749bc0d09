// Panels on curves, at skewed ends and in rows: their corners on the ground.
#include <array>
#include <cmath>

#include "deck/trial.h"

using namespace deckquire;
using doctest::Approx;

namespace {

double apart(GroundPoint a, GroundPoint b) {
  return std::hypot(a.x - b.x, a.y - b.y);
}

/// back right, ahead right, ahead left, back left.
std::array<GroundPoint, 4> corners(const Panel& p) {
  return {p.frame.ground(p.right_edge.front()), p.frame.ground(p.right_edge.back()),
          p.frame.ground(p.left_edge.back()), p.frame.ground(p.left_edge.front())};
}

/// Plain panels of one length on an arc; gaps 0, so that the pitch is the length (case D9).
Project on_arc(double radius, int panels, double length) {
  Project p = trial::example("quickstart");
  const Length end = mm(panels * length);
  p.bridge.alignment.to = end;
  p.bridge.alignment.curves.push_back({Length(), end, mm(radius), true, {}});
  p.bridge.supports.back().station = end;
  p.bridge.splices.clear();
  for (GirderData& g : p.bridge.girders) g.from = g.to = Length();  // the whole bridge
  p.deck.edges = {{Length(), mm(1500), mm(1500), {}}};
  p.deck.joints.gap = p.deck.joints.end_gap = Length();
  p.deck.spans[0].to = end;
  p.deck.spans[0].rule.reset();
  p.deck.spans[0].runs = {{mm(length), panels, {}}};
  p.deck.posts.reset();
  p.deck.scuppers.reset();
  return p;
}

/// Distance of a point from the line through two others.
double from_line(GroundPoint p, GroundPoint a, GroundPoint b) {
  return std::abs((b.x - a.x) * (p.y - a.y) - (b.y - a.y) * (p.x - a.x)) / apart(a, b);
}

}  // namespace

TEST_CASE("placing: wedges of 2500 at 60 m radius, as computed by another formula (case D9)") {
  // Chord 2 r sin(p / 2R), sagitta r (1 - cos(p / 2R)); area (r2^2 - r1^2) sin(p / R) / 2.
  const auto b = trial::build(on_arc(60000, 8, 2500));
  for (const Panel& p : b.deck.panels) {
    const auto c = corners(p);
    CHECK(apart(c[3], c[2]) == Approx(2437.324).epsilon(3e-7));
    CHECK(apart(c[0], c[1]) == Approx(2562.315).epsilon(3e-7));
    CHECK(apart(c[0], c[3]) == Approx(3000).epsilon(1e-9));
    CHECK(p.chord_right == Approx(13.346).epsilon(1e-4));
    CHECK(area(p.shape.outline) ==
          Approx((61500.0 * 61500 - 58500.0 * 58500) * std::sin(2500.0 / 60000) / 2).epsilon(1e-9));
  }
  // One wedge but for the end joints; a wedge does not fit end for end, and its mirror image is
  // itself from the other end.
  CHECK(b.deck.marks.size() == 3);
  CHECK(b.deck.marks[2].opposite_of == 0);
  CHECK(b.deck.marks[1].quantity == 6);
}

TEST_CASE("placing: the corners of a curved bridge lie on its edges, a true gap apart") {
  const Project project = trial::example("heron");
  const auto b = trial::build(project);
  const Alignment& line = b.bridge.alignment;
  for (const Panel& p : b.deck.panels)
    for (const GroundPoint& c : corners(p)) {
      const auto at = line.locate(c, p.start.in_mm());
      REQUIRE(at);
      CHECK(std::abs(at->y) == Approx(1500).epsilon(1e-9));
    }
  const double gap = project.deck.joints.gap.in_mm();
  for (std::size_t i = 0; i + 1 < b.deck.panels.size(); ++i) {
    const auto back = corners(b.deck.panels[i]), ahead = corners(b.deck.panels[i + 1]);
    const double wide = b.deck.joints[i + 1].end ? project.deck.joints.end_gap.in_mm() : gap;
    CHECK(from_line(ahead[0], back[1], back[2]) == Approx(wide).epsilon(1e-7));
    CHECK(from_line(ahead[3], back[1], back[2]) == Approx(wide).epsilon(1e-7));
  }
}

TEST_CASE("placing: a skewed end is a straight line at its angle, its gap square to it") {
  const Project project = trial::example("heron");
  const auto b = trial::build(project);
  const Panel& last = b.deck.panels.back();
  const auto c = corners(last);
  const Joint& joint = b.deck.joints.back();
  const double line = std::atan2(c[2].y - c[1].y, c[2].x - c[1].x);
  const double square = b.bridge.alignment.heading(joint.station.in_mm()) + pi / 2;
  CHECK(std::remainder(square - line, 2 * pi) * 180 / pi == Approx(15).epsilon(1e-9));
  // All of the end gap lies inside the deck.
  const GroundPoint end = b.bridge.alignment.ground(project.bridge.alignment.to.in_mm(), 0);
  CHECK(from_line(end, c[1], c[2]) == Approx(32).epsilon(1e-5));
}

TEST_CASE("placing: parallelograms of one skew are one type, turned or not") {
  Project p = on_arc(60000, 8, 2500);
  p.bridge.alignment.curves.clear();
  p.deck.joints.skew = degrees(20);
  const auto b = trial::build(p);
  CHECK(b.deck.marks.size() == 2);  // with and without an end joint
  CHECK(b.deck.panels.back().turned);
  const PanelShape& s = b.deck.panels[3].shape;
  CHECK(s.back_slope == Approx(std::tan(degrees(20).in_si())));
  CHECK(area(s.outline) == Approx(2500.0 * 3000));
  const Masses square = weigh(trial::build([&] {
                                p.deck.joints.skew = Angle();
                                return p;
                              }())
                                  .deck.panels[3]
                                  .shape,
                              p.deck);
  // The same parts but for the longer end skins: heavier by less than a hundredth.
  const double ratio = weigh(s, p.deck).total / square.total;
  CHECK(ratio > 1);
  CHECK(ratio < 1.01);
}

TEST_CASE("placing: two rows share marks end for end, with the gap between them") {
  const auto b = trial::build(trial::example("ropewalk"));
  CHECK(b.findings.empty());
  REQUIRE(b.deck.panels.size() == 48);
  for (std::size_t i = 0; i < 48; i += 2) {
    const Panel &left = b.deck.panels[i], &right = b.deck.panels[i + 1];
    CHECK(left.bay == right.bay);
    CHECK(left.right_edge.front().y - right.left_edge.front().y == Approx(12));
    CHECK(left.shape.right_joint);
    CHECK(!left.shape.left_joint);
    CHECK(left.shape.curbs.front().side == Side::left);
  }
  const Panel &plain = b.deck.panels[4], &across = b.deck.panels[5];
  CHECK(plain.mark == across.mark);
  CHECK(plain.turned != across.turned);
}

TEST_CASE("placing: panel, bridge and ground points agree there and back") {
  const auto b = trial::build(trial::example("heron"));
  trial::Dice dice{7};
  for (const Panel& p : b.deck.panels)
    for (int i = 0; i < 20; ++i) {
      const PanelPoint at{dice.next() * 2500, dice.next() * 3000 - 1500};
      const BridgePoint on = p.frame.bridge(b.bridge.alignment, at);
      const PanelPoint back = p.frame.panel(b.bridge.alignment, on);
      CHECK(std::hypot(back.x - at.x, back.y - at.y) < 1e-5);
      const GroundPoint g = b.bridge.alignment.ground(on.x, on.y);
      CHECK(apart(g, p.frame.ground(at)) < 1e-5);
    }
}
