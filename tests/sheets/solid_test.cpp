// Axonometric pictures of simple solids, counted and measured by hand.
#include <algorithm>
#include <cmath>
#include <random>
#include <vector>

#include <doctest/doctest.h>

#include "sheets/solid.h"

using namespace deckquire;
using namespace deckquire::sheets;

namespace {

using Loop = std::vector<Spot>;

/// Six faces of a box; `inward`: of a hollow in something else.
void add_box(Solid& s, Spot low, Spot high, bool inward = false, bool top = true,
             bool bottom = true, int part = 0) {
  const auto p = [&](int i) {
    return Spot{i & 1 ? high.x : low.x, i & 2 ? high.y : low.y, i & 4 ? high.z : low.z};
  };
  const auto face = [&](int a, int b, int c, int d) {
    Loop l{p(a), p(b), p(c), p(d)};
    if (inward) std::reverse(l.begin(), l.end());
    s.faces.push_back({{l}, 0, part});
  };
  if (bottom) face(0, 2, 3, 1);
  if (top) face(4, 5, 7, 6);
  face(0, 1, 5, 4);
  face(1, 3, 7, 5);
  face(3, 2, 6, 7);
  face(2, 0, 4, 6);
}

Solid cube(double a) {
  Solid s;
  add_box(s, {0, 0, 0}, {a, a, a});
  return s;
}

/// A plate with a rectangular opening through it, or with a hollow `deep` into its underside.
Solid plate(Spot size, Spot low, Spot high, double deep) {
  Solid s;
  add_box(s, {0, 0, 0}, size, false, true, true);
  const auto hole = [&](double z) {
    return Loop{{low.x, low.y, z}, {low.x, high.y, z}, {high.x, high.y, z}, {high.x, low.y, z}};
  };
  s.faces[0].loops.push_back(hole(0));
  const bool through = deep >= size.z;
  if (through) s.faces[1].loops.push_back(hole(size.z));
  add_box(s, {low.x, low.y, 0}, {high.x, high.y, through ? size.z : deep}, true, !through, false);
  return s;
}

double length(const PictureLine& l) {
  return std::hypot(l.b.x - l.a.x, l.b.y - l.a.y);
}

double total(const std::vector<PictureLine>& lines, LineKind kind) {
  double sum = 0;
  for (const PictureLine& l : lines)
    if (l.kind == kind) sum += length(l);
  return sum;
}

int count(const std::vector<PictureLine>& lines, LineKind kind) {
  return static_cast<int>(std::count_if(lines.begin(), lines.end(),
                                        [&](const PictureLine& l) { return l.kind == kind; }));
}

}  // namespace

// ISO 5456-3:1996, 5.1 (isometric axonometry): two axes at 30 degrees to the horizontal, the third
// upright, the same scale along all three. That the true projection shortens them to the root of
// 2/3 = 0.816 (and the drawing to scale 1 is so much larger) is in any drafting manual, e.g. US
// Navy NAVEDTRA 14276 (Draftsman), Isometric scale: "approximately 80 percent".
TEST_CASE("solid, isometric axes, at 30 degrees and to one scale") {
  for (const bool above : {true, false}) {
    const Projection p = isometric(above);
    const double rise = above ? 30 : -30;
    for (const PicturePoint& axis : {p.x, p.y, p.z})
      CHECK(std::hypot(axis.x, axis.y) == doctest::Approx(1));
    CHECK(std::atan2(p.x.y, p.x.x) * 180 / pi == doctest::Approx(rise));
    CHECK(std::atan2(p.y.y, -p.y.x) * 180 / pi == doctest::Approx(rise));
    CHECK(p.z == PicturePoint{0, 1});
    // An orthogonal projection: the direction to the viewer falls on one point, and what is square
    // to it and 1 long becomes the root of 3/2 long.
    const PicturePoint eye = p(p.viewer);
    CHECK(std::hypot(eye.x, eye.y) == doctest::Approx(0));
    const double r = std::sqrt(0.5);
    const PicturePoint level = p({r, -r, 0});
    CHECK(level.x == doctest::Approx(std::sqrt(1.5)));
    CHECK(level.y == doctest::Approx(0));
    const double h = std::sqrt(1.0 / 6), up = above ? 1 : -1;
    const PicturePoint steep = p({up * h, up * h, 2 * h});
    CHECK(steep.x == doctest::Approx(0));
    CHECK(steep.y == doctest::Approx(std::sqrt(1.5)));
  }
}

TEST_CASE("solid, a cube, shows nine of its twelve edges, six of them round it") {
  for (const bool above : {true, false}) {
    const auto lines = visible_lines(cube(100), isometric(above));
    CHECK(lines.size() == 9);
    CHECK(count(lines, LineKind::outline) == 6);
    CHECK(count(lines, LineKind::edge) == 3);
    for (const PictureLine& l : lines) CHECK(length(l) == doctest::Approx(100));
  }
}

TEST_CASE("solid, an opening through a plate, shows its far walls down to the near rim") {
  // 300 x 300 x 20 with an opening of 100 x 100: through it one sees its two far walls (edges at
  // the rim) and their meeting line, 20 long; the rim below them is seen less 20 on each side,
  // where the near rim stands before it, and is an outline: the soffit beside it is turned away.
  const Solid s = plate({300, 300, 20}, {100, 100, 0}, {200, 200, 20}, 20);
  const auto lines = visible_lines(s, isometric(true));
  CHECK(count(lines, LineKind::edge) == 3 + 2 + 1);
  CHECK(total(lines, LineKind::edge) == doctest::Approx(300 + 300 + 20 + 2 * 100 + 20));
  CHECK(count(lines, LineKind::outline) == 6 + 2 + 2);
  CHECK(total(lines, LineKind::outline) == doctest::Approx(4 * 300 + 2 * 20 + 2 * 100 + 2 * 80));
}

TEST_CASE("solid, a hollow in the underside, is seen from below only") {
  const Solid s = plate({300, 300, 60}, {100, 100, 0}, {200, 200, 40}, 40);
  CHECK(visible_lines(s, isometric(true)).size() == 9);
  // From below: the two far walls' rims and their meeting line 40 long; the roof's sides at the far
  // walls are seen less 40, each begins under the near rim.
  const auto lines = visible_lines(s, isometric(false));
  CHECK(count(lines, LineKind::edge) == 3 + 2 + 1 + 2);
  CHECK(total(lines, LineKind::edge) == doctest::Approx(660 + 2 * 100 + 40 + 2 * 60));
  CHECK(total(lines, LineKind::outline) == doctest::Approx(4 * 300 + 2 * 60 + 2 * 100));
}

TEST_CASE("solid, a box behind another, is hidden as far as the other reaches") {
  // Seen from above the near box, 100 wide, stands before the foot of the far one.
  Solid s;
  add_box(s, {0, 0, 0}, {100, 100, 100});
  const double alone = total(visible_lines(s, isometric(true)), LineKind::outline);
  add_box(s, {500, 500, 0}, {600, 600, 100}, false, true, true, 1);
  CHECK(total(visible_lines(s, isometric(true)), LineKind::outline) == doctest::Approx(2 * alone));
  // (x, y, z) and (x + d, y + d, z - d) fall on one point: lowered by 500 the far box lies behind.
  Solid behind;
  add_box(behind, {0, 0, 0}, {100, 100, 100});
  add_box(behind, {510, 510, -490}, {590, 590, -410}, false, true, true, 1);
  CHECK(visible_lines(behind, isometric(true)).size() == 9);
  CHECK_FALSE(in_sight(behind, isometric(true), {550, 550, -410}));
  CHECK(in_sight(behind, isometric(true), {50, 50, 100}));
}

TEST_CASE("solid, faces of one part in one plane, show no joint") {
  Solid s;
  add_box(s, {0, 0, 0}, {100, 100, 100}, false, false);
  s.faces.push_back({{{{0, 0, 100}, {40, 0, 100}, {40, 100, 100}, {0, 100, 100}}}});
  s.faces.push_back({{{{40, 0, 100}, {100, 0, 100}, {100, 100, 100}, {40, 100, 100}}}});
  CHECK(visible_lines(s, isometric(true)).size() == 9);
  s.faces.back().part = 1;
  CHECK(visible_lines(s, isometric(true)).size() == 10);
}

TEST_CASE("solid, a stretch that two loops of a face share, is no edge") {
  // The hollow lies at the end of the plate: its side in that end is open.
  Solid s;
  add_box(s, {0, 0, 0}, {100, 100, 50});
  s.faces[0].loops.push_back({{0, 40, 0}, {0, 60, 0}, {20, 60, 0}, {20, 40, 0}});
  s.faces[5].loops.push_back({{0, 40, 0}, {0, 40, 14}, {0, 60, 14}, {0, 60, 0}});
  s.faces.push_back({{{{0, 40, 14}, {0, 60, 14}, {20, 60, 14}, {20, 40, 14}}}});  // roof
  s.faces.push_back({{{{0, 40, 0}, {0, 40, 14}, {20, 40, 14}, {20, 40, 0}}}});
  s.faces.push_back({{{{20, 60, 0}, {20, 60, 14}, {0, 60, 14}, {0, 60, 0}}}});
  s.faces.push_back({{{{20, 40, 0}, {20, 40, 14}, {20, 60, 14}, {20, 60, 0}}}});
  for (const PictureLine& l : visible_lines(s, isometric(false))) {
    const PicturePoint m = (l.a + l.b) * 0.5, open = isometric(false)({0, 50, 0});
    CHECK(std::hypot(m.x - open.x, m.y - open.y) > 1);
  }
}

TEST_CASE("solid, its faces in any order and turned in any way, gives the same picture") {
  Solid s = plate({300, 200, 60}, {100, 50, 0}, {200, 150, 40}, 40);
  add_box(s, {20, 20, 60}, {60, 180, 120}, false, true, false, 1);
  s.traces.push_back({{{70, 70, 60}, {250, 70, 60}}, LineKind::trace});
  std::mt19937 turn(7);
  for (const bool above : {true, false}) {
    const auto first = visible_lines(s, isometric(above));
    for (int k = 0; k < 20; ++k) {
      Solid other = s;
      std::shuffle(other.faces.begin(), other.faces.end(), turn);
      for (Face& f : other.faces)
        for (auto& loop : f.loops) std::rotate(loop.begin(), loop.begin() + (k % 4), loop.end());
      const auto lines = visible_lines(other, isometric(above));
      REQUIRE(lines.size() == first.size());
      for (std::size_t i = 0; i < lines.size(); ++i) {
        CHECK(lines[i].kind == first[i].kind);
        CHECK(std::abs(lines[i].a.x - first[i].a.x) < 1e-6);
        CHECK(std::abs(lines[i].a.y - first[i].a.y) < 1e-6);
        CHECK(std::abs(lines[i].b.x - first[i].b.x) < 1e-6);
        CHECK(std::abs(lines[i].b.y - first[i].b.y) < 1e-6);
      }
    }
  }
}

TEST_CASE("solid, against points along every line, agrees with sight of each by itself") {
  // Another way to the same answer: in_sight() casts one ray at a time.
  Solid s = plate({300, 200, 60}, {100, 50, 0}, {200, 150, 40}, 40);
  add_box(s, {20, 20, 60}, {60, 180, 120}, false, true, false, 1);
  Solid traced = s;
  traced.traces.push_back({{{10, 5, 60}, {290, 195, 60}}, LineKind::trace});
  const Projection p = isometric(true);
  const auto lines = visible_lines(traced, p);
  const double whole = std::hypot(p({280, 190, 0}).x, p({280, 190, 0}).y);
  double seen = 0;
  constexpr int steps = 20000;
  for (int i = 0; i < steps; ++i) {
    const double t = (i + 0.5) / steps;
    if (in_sight(s, p, {10 + 280 * t, 5 + 190 * t, 60})) seen += whole / steps;
  }
  CHECK(total(lines, LineKind::trace) == doctest::Approx(seen).epsilon(0.002));
  CHECK(seen < 0.9 * whole);
}
