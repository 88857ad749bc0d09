#include <doctest/doctest.h>
#include "sheets/panel_drawing.h"

#include <cmath>

using namespace deckquire;
using namespace deckquire::sheets;

namespace {

/// A plain panel 2400 x 3000 x 150, crowned 2 %, curbs 150 wide both sides.
PanelShape plain_panel() {
  PanelShape s;
  s.length = 2400;
  s.outline = {{0, -1500}, {2400, -1500}, {2400, 1500}, {0, 1500}};
  s.high_line = 0;
  s.fall = Fall::crown;
  s.slope = 0.02;
  s.depth = 150;
  s.left_back = s.left_ahead = 1500;
  s.right_back = s.right_ahead = -1500;
  s.curbs = {{Side::left, {{0, 1350}, {2400, 1350}, {2400, 1500}, {0, 1500}}},
             {Side::right, {{0, -1500}, {2400, -1500}, {2400, -1350}, {0, -1350}}}};
  s.surface = 0;
  return s;
}

DeckData plain_deck() {
  DeckData d;
  d.section.depth = mm(150);
  d.section.top_skin = d.section.bottom_skin = mm(8);
  d.section.edge_skin = mm(6);
  d.section.curb = {CurbSides::both, mm(100), mm(150), mm(15), {}};
  SurfaceData surface;
  surface.thickness = mm(4);
  surface.stop = mm(15);
  d.surfaces = {surface};
  return d;
}

double sum(const std::vector<Ring<SectionFrame>>& rings) {
  double a = 0;
  for (const auto& r : rings) a += area(r);
  return a;
}

Feature feature(FeatureKind kind, PanelPoint at, double length, double width, double depth) {
  Feature f;
  f.kind = kind;
  f.at = at;
  f.length = length;
  f.width = width;
  f.depth = depth;
  return f;
}

}  // namespace

TEST_CASE("section across, plain crowned panel, areas are those of trapezoids") {
  const PanelSection s = cut_across(plain_panel(), plain_deck(), 1200);
  // Edge depth 150 - 0.02 * 1500 = 120: two trapezoids of 1500 (mensuration).
  REQUIRE(s.body.size() == 1);
  CHECK(sum(s.body) == doctest::Approx(2 * 1500 * (150 + 120) / 2.0));
  // Core: 6 in from the edges, 8 from top and soffit; its outer depth is 120 + 0.02 * 6 - 16.
  CHECK(sum(s.core) == doctest::Approx(2 * 1494 * (134 + 104.12) / 2.0));
  CHECK(sum(s.skins) + sum(s.core) == doctest::Approx(sum(s.body)));
  // Curb: level top at 123 + 100, inner face leans out by 15.
  REQUIRE(s.curbs.size() == 2);
  const double whole = 150 * (223 - (123 + 120) / 2.0), off = 15 * 100 / 2.0;
  CHECK(sum(s.curbs) == doctest::Approx(2 * (whole - off)));
  CHECK(sum(s.surface) == doctest::Approx(2 * (1350 - 15) * 4.0));
}

TEST_CASE("section across, every ring, counter-clockwise") {
  PanelShape shape = plain_panel();
  shape.features = {feature(FeatureKind::recess, {1200, 1000}, 800, 300, 44)};
  const PanelSection s = cut_across(shape, plain_deck(), 1200);
  for (const auto* list : {&s.body, &s.skins, &s.core, &s.curbs, &s.surface})
    for (const auto& r : *list) CHECK(area(r) > 0);
}

TEST_CASE("section across, recess in the soffit, body loses its box and keeps a lining") {
  PanelShape shape = plain_panel();
  shape.features = {feature(FeatureKind::recess, {1200, 1000}, 800, 300, 44)};
  const PanelSection plain = cut_across(plain_panel(), plain_deck(), 1200);
  const PanelSection s = cut_across(shape, plain_deck(), 1200);
  CHECK(sum(plain.body) - sum(s.body) == doctest::Approx(300.0 * 44));
  // The core keeps off by the skin of 8 all round: (300 + 16) wide, 44 + 8 high less the old skin.
  CHECK(sum(plain.core) - sum(s.core) == doctest::Approx(316.0 * 44));
  CHECK(sum(s.skins) + sum(s.core) == doctest::Approx(sum(s.body)));
  // Beside the recess nothing changes.
  CHECK(sum(cut_across(shape, plain_deck(), 100).body) == doctest::Approx(sum(plain.body)));
}

TEST_CASE("section across, opening through the panel, body in two pieces") {
  PanelShape shape = plain_panel();
  shape.openings = {{{900, -300}, {1500, -300}, {1500, 300}, {900, 300}}};
  const PanelSection s = cut_across(shape, plain_deck(), 1200);
  REQUIRE(s.body.size() == 2);
  CHECK(s.core.size() == 2);
  CHECK(s.surface.size() == 2);
  CHECK(sum(s.body) == doctest::Approx(2 * 1200 * (144 + 120) / 2.0));
  CHECK(sum(s.skins) + sum(s.core) == doctest::Approx(sum(s.body)));
}

TEST_CASE("section across, drip grooves, soffit notched near both edges") {
  DeckData deck = plain_deck();
  deck.section.drip = DripData{mm(12), mm(8), mm(20)};
  const double without = sum(cut_across(plain_panel(), plain_deck(), 1200).body);
  CHECK(without - sum(cut_across(plain_panel(), deck, 1200).body) == doctest::Approx(2 * 12 * 8));
}

TEST_CASE("section across, left is on the left, looking ahead") {
  PanelShape shape = plain_panel();
  for (PanelPoint& p : shape.outline)
    if (p.y > 0) p.y = 2000;
  shape.left_back = shape.left_ahead = 2000;
  const Box<SectionFrame> b = bounds(cut_across(shape, plain_deck(), 1200).body.front());
  CHECK(b.low.x == doctest::Approx(-2000));
  CHECK(b.high.x == doctest::Approx(1500));
}

TEST_CASE("across, a notched outline, intervals in order") {
  const Ring<PanelFrame> c{{0, 0},   {100, 0}, {100, 100}, {60, 100},
                           {60, 40}, {40, 40}, {40, 100},  {0, 100}};
  const auto mid = across(c, 50);
  REQUIRE(mid.size() == 1);
  CHECK(mid[0].second == doctest::Approx(40));
  CHECK(across(c, 20)[0].second == doctest::Approx(100));
  CHECK(across(c, 150).empty());
}
