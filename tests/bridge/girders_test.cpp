#include <cmath>

#include "bridge/bridge.h"
#include "deck/trial.h"

using namespace deckquire;
using doctest::Approx;

namespace {

/// A curve of 40 m radius to the left, bearings every 10 m, the project else as the main example.
Project curved() {
  Project p = trial::example("saltmarsh");
  BridgeData& b = p.bridge;
  b.alignment.from = Length();
  b.alignment.to = metres(40);
  b.alignment.bearing = degrees(90);
  b.alignment.grades = {{metres(0), metres(10), {}}};
  b.alignment.curves = {{metres(0), metres(40), metres(40), true, {}}};
  b.supports.clear();
  for (int i = 0; i <= 4; ++i)
    b.supports.push_back({"P" + std::to_string(i), "pier", metres(10 * i), {}});
  b.girders = {{"G1", mm(1000), mm(300), metres(0), metres(40), {}, true},
               {"G2", mm(-1000), mm(300), metres(0), metres(40), {}, false}};
  b.splices.clear();
  b.obstructions.clear();
  p.deck.edges = {{metres(0), mm(1500), mm(1500), {}}};
  return p;
}

Bridge built(const Project& p) {
  Findings f;
  return build_bridge(p, f);
}

std::string codes(const Project& p) {
  Findings f;
  build_bridge(p, f);
  return trial::codes(f);
}

double side(const Ring<GroundFrame>& r, std::size_t i) {
  const GroundPoint d = r[(i + 1) % r.size()] - r[i];
  return std::hypot(d.x, d.y);
}

}  // namespace

TEST_CASE("girder: a straight one beside a curve keeps its offset at supports and bows between") {
  const Bridge bridge = built(curved());
  const Girder &straight = bridge.girders[0], &parallel = bridge.girders[1];
  for (int s = 0; s <= 40; s += 10)
    CHECK(girder_offset(bridge, straight, 1000.0 * s) == Approx(1000));
  // Radius 39 m, 10 m of stations turn by 0.25 rad: the chord's middle lies R cos(1/8) from the
  // centre.
  CHECK(girder_offset(bridge, straight, 15000) == Approx(40000 - 39000 * std::cos(0.125)));
  CHECK(girder_offset(bridge, straight, 12500) ==
        Approx(40000 - 39000 * std::cos(0.125) / std::cos(0.0625)));
  CHECK(girder_offset(bridge, parallel, 15000) == -1000);
  CHECK(girder_heading(bridge, straight, 12000) == Approx(0.375));
  CHECK(girder_heading(bridge, straight, 10000) == Approx(0.375));  // ahead of the kink
  CHECK(girder_heading(bridge, parallel, 12000) == Approx(0.3));
}

TEST_CASE("girder: a straight one beside a straight line is exactly where its offset says") {
  Project p = trial::example("saltmarsh");
  for (GirderData& g : p.bridge.girders) g.straight = true;
  const Bridge bridge = built(p);
  for (int i = 0; i < 30; ++i)
    CHECK(girder_offset(bridge, bridge.girders[0], 3137.7 * i) == bridge.girders[0].offset.in_mm());
}

TEST_CASE("girder: its line has the kinks, or follows the curve to half a millimetre") {
  const Bridge bridge = built(curved());
  CHECK(girder_line(bridge, bridge.girders[0]).size() == 5);
  const auto line = girder_line(bridge, bridge.girders[1]);
  const GroundPoint centre{0, 40000};
  for (std::size_t i = 1; i < line.size(); ++i) {
    const GroundPoint middle = (line[i - 1] + line[i]) * 0.5 - centre;
    CHECK(std::hypot(middle.x, middle.y) > 41000 - 0.5);
    CHECK(std::hypot(middle.x, middle.y) < 41000);
  }
  CHECK(line.size() < 110);
}

TEST_CASE("splice on a curve: a rectangle of its own size along its girder") {
  Project p = curved();
  p.bridge.splices = {{}};
  SpliceData& d = p.bridge.splices[0];
  d.girder = "all";
  d.station = metres(15);
  d.length = mm(800);
  d.width = mm(250);
  const Bridge bridge = built(p);
  REQUIRE(bridge.splices.size() == 2);
  for (const Splice& s : bridge.splices) {
    const auto ring = splice_ring(bridge, s);
    REQUIRE(ring.size() == 4);
    CHECK(side(ring, 0) == Approx(800));
    CHECK(side(ring, 1) == Approx(250));
    CHECK(area(ring) == Approx(800 * 250));
  }
  // At the chord's middle the plate of the straight girder is square to the line through it.
  const Box<BridgeFrame> straight = bridge.splices[0].plan;
  const double middle = 40000 - 39000 * std::cos(0.125);
  CHECK(straight.centre().x == Approx(15000));
  const double inner = 40000 - middle - 125, outer = 40000 - middle + 125;
  CHECK(straight.high.x == Approx(15000 + 40000 * std::atan2(400, inner)));
  CHECK(straight.high.y == Approx(40000 - inner));
  CHECK(straight.low.y == Approx(40000 - std::hypot(outer, 400)));
}

TEST_CASE("obstruction on a curve: true to size, square to the line at its station") {
  Project p = curved();
  ObstructionData d;
  d.name = "M1";
  d.kind = "mast";
  d.station = metres(20);
  d.offset = mm(1700);
  d.length = mm(600);
  d.width = mm(400);
  d.clearance = mm(50);
  p.bridge.obstructions = {d};
  d.name = "M2";
  d.length = d.width = std::nullopt;
  d.diameter = mm(300);
  p.bridge.obstructions.push_back(d);
  const Bridge bridge = built(p);
  const Obstruction &box = bridge.obstructions[0], &round = bridge.obstructions[1];
  const auto ring = obstruction_ring(bridge, box), free = kept_free_ring(bridge, box);
  CHECK(area(ring) == Approx(600 * 400));
  CHECK(area(free) == Approx(700 * 500));
  const GroundPoint along = ring[1] - ring[0];
  CHECK(std::atan2(along.y, along.x) == Approx(0.5));  // 20 m of 40 m radius
  CHECK(area(kept_free_ring(bridge, round)) == Approx(pi * 200 * 200));
  // Corners as stations: the box is 500 / 38.55 m wide at the offset of its inner side.
  const double inner = 40000 - 1700 - 250;
  CHECK(bounds(box.kept_free).high.x == Approx(20000 + 40000 * std::atan2(350, inner)));
}

TEST_CASE("alignment: contradictions, each one finding") {
  const Project good = curved();
  CHECK(codes(good) == "");
  Project p = good;
  AlignmentData& a = p.bridge.alignment;
  a.curves = {{metres(0), metres(40), mm(1500), true, {}}};
  for (GirderData& g : p.bridge.girders) g.straight = false;
  CHECK(codes(p) == "curve-too-tight");
  a.curves[0].radius = mm(1501);
  CHECK(codes(p) == "");
  a.curves[0].left = false;
  p.deck.edges[0].left = mm(5000);  // the outer side may be as wide as it likes
  CHECK(codes(p) == "");
  p = good;
  a.curves[0].radius = mm(500);  // 12.7 full circles, of any width
  CHECK(codes(p) == "curve-too-long");
  p = good;
  a.curves[0].to = metres(41);
  CHECK(codes(p) == "element-outside-alignment");
  a.curves[0].to = metres(20);
  a.curves.push_back({metres(19), metres(30), metres(90), true, {}});
  CHECK(codes(p) == "elements-overlap");
  a.curves[1].from = metres(20);
  CHECK(codes(p) == "");
  std::swap(a.curves[0], a.curves[1]);
  CHECK(codes(p) == "elements-out-of-order");
  p = good;
  a.curves[0].from = metres(10);
  a.transitions = {{metres(2), metres(8), {}}};
  a.curves[0].place.line = 2;  // below the transition
  CHECK(codes(p) == "transition-between-equals");
  a.transitions[0].to = metres(10);
  CHECK(codes(p) == "");
}

TEST_CASE("alignment: contradictions of vertical curves, each one finding") {
  Project p = curved();
  auto& g = p.bridge.alignment.grades;
  g = {{metres(0), metres(10), {}},
       {metres(10), metres(10.5), {}, metres(8)},
       {metres(20), metres(10.5), {}, metres(12)},
       {metres(40), metres(10), {}}};
  CHECK(codes(p) == "");
  g[2].curve = metres(12.002);
  CHECK(codes(p) == "vertical-curves-overlap");
  g[2].curve = Length();
  g[1].curve = metres(20.002);
  CHECK(codes(p) == "vertical-curve-outside vertical-curves-overlap");
  g[1].curve = metres(8);
  g[0].curve = metres(5);
  CHECK(codes(p) == "vertical-curve-at-end");
  g[0].curve = Length();
  g[3].curve = metres(5);
  CHECK(codes(p) == "vertical-curve-at-end");
}

TEST_CASE("edges: a straight girder that comes out from under the deck between its supports") {
  Project p = curved();
  p.deck.edges[0].left = mm(1160);
  p.bridge.girders[0].straight = false;
  CHECK(codes(p) == "");  // flange face at 1150
  p.bridge.girders[0].straight = true;
  CHECK(codes(p) == "edge-inside-flange");  // 304 more at the middle of the chord
  p.deck.edges[0].left = mm(1455);
  CHECK(codes(p) == "");
}
