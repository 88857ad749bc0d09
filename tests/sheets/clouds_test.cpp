#include "sheets/clouds.h"

#include <doctest/doctest.h>

#include <cmath>

#include "paper/layer.h"
#include "paper/overlaps.h"
#include "sheets/drawn_set.h"
#include "support/dice.h"

using namespace deckquire;
using namespace deckquire::sheets;
using paper::PaperBox;
using paper::PaperPoint;

namespace {

std::vector<PaperPoint> ends(const paper::Path& path) {
  std::vector<PaperPoint> out;
  std::size_t at = 0;
  for (paper::Op op : path.ops) {
    at += op == paper::Op::curve ? 3 : op == paper::Op::close ? 0 : 1;
    if (op == paper::Op::curve || op == paper::Op::move) out.push_back(path.points[at - 1]);
  }
  return out;
}

/// Strokes of groups of kind "cloud".
std::vector<const paper::Stroke*> cloud_strokes(const paper::Sheet& sheet) {
  std::vector<const paper::Stroke*> out;
  int inside = 0;
  for (const paper::Item& item : sheet.items) {
    const auto* g = std::get_if<paper::GroupStart>(&item);
    if (g && (inside > 0 || g->kind == "cloud")) ++inside;
    if (inside > 0 && std::holds_alternative<paper::GroupEnd>(item)) --inside;
    if (const auto* s = std::get_if<paper::Stroke>(&item); s && inside > 0) out.push_back(s);
  }
  return out;
}

}  // namespace

TEST_CASE("clouds: near spots share one, numbered from the top") {
  const auto clouds = clouds_of({{300, 100, 310, 110}, {100, 400, 110, 410}, {100, 391, 110, 395}});
  REQUIRE(clouds.size() == 2);
  CHECK(clouds[0].number == 1);
  CHECK(clouds[0].boxes.size() == 2);
  CHECK(clouds[1].boxes[0].low == PaperPoint{300, 100});
}

// Reference case L9: two overlapping boxes, already inflated: union of perimeter 400, arcs over
// chords of 10. Here a corner of the ring stands where each edge's room ends.
TEST_CASE("clouds: the ring of an empty sheet, arcs of 8 to 12 mm, 0.5 mm wide, outside the spot") {
  const paper::Style style = trial_style("a1");
  const paper::Lettering lettering(style.fonts);
  paper::Sheet sheet;
  sheet.width = style.width, sheet.height = style.height;
  sheet.pens.assign(style.pens.begin(), style.pens.end());
  REQUIRE(draw_clouds(sheet, "B", {{100, 100, 180, 150}, {140, 130, 220, 190}}, style, lettering) ==
          0);
  const auto strokes = cloud_strokes(sheet);
  REQUIRE(strokes.size() == 2);  // ring, triangle
  CHECK(sheet.pens[strokes[0]->pen].width >= 0.5);
  const auto points = ends(strokes[0]->path);
  double around = 0;
  for (std::size_t i = 1; i < points.size(); ++i) {
    const double d = std::hypot(points[i].x - points[i - 1].x, points[i].y - points[i - 1].y);
    CHECK(d >= 8);
    CHECK(d <= 12);
    around += d;
  }
  CHECK(std::abs(around - 2 * (122 + 92)) < 1e-6);  // the union's, 1 mm out on every side
  CHECK(points.front() == points.back());
  for (paper::Layer layer : paper::layers_of(sheet).of) CHECK(layer == paper::Layer::revisions);
}

namespace {

void check_sound(const paper::Sheet& sheet, const std::vector<history::Spot>& spots,
                 const paper::Style& style, const paper::Lettering& lettering) {
  paper::Sheet clouded = sheet;
  CHECK(draw_clouds(clouded, "B", spots, style, lettering) == 0);
  for (const auto& f : paper::faults(clouded, style.least_height, style.frame())) MESSAGE(f);
  CHECK(paper::faults(clouded, style.least_height, style.frame()).size() ==
        paper::faults(sheet, style.least_height, style.frame()).size());
  // No letters of the sheet under a line of the clouds, of whatever width.
  std::vector<paper::PlacedText> texts;
  std::vector<paper::PlacedLine> lines;
  for (const paper::Item& item : clouded.items)
    if (const auto* t = std::get_if<paper::Text>(&item)) texts.push_back({t, text_box(*t), 0});
  for (const paper::Stroke* s : cloud_strokes(clouded)) lines.push_back({&s->path, 0.5, 1});
  CHECK(paper::line_clashes(texts, lines).empty());
  CHECK(paper::text_clashes(texts).empty());
  // What was there before is there still, untouched.
  REQUIRE(clouded.items.size() > sheet.items.size());
  clouded.items.resize(sheet.items.size());
  CHECK(paper::dump(clouded) == paper::dump(sheet));
}

}  // namespace

TEST_CASE("clouds: anywhere on real sheets no letters are crossed and every delta finds a place") {
  testing::Dice dice{11};
  for (const char* paper_size : {"a1", "a3"}) {
    const DrawnSet& set = drawn_set("quickstart", paper_size);
    const PaperBox frame = set.set.style.frame();
    for (const paper::Sheet& sheet : set.sheets) {
      std::vector<history::Spot> spots;
      for (int i = 0; i < 5; ++i) {
        const double x = frame.low.x + 5 + dice.next() * (frame.width() - 60);
        const double y = frame.low.y + 5 + dice.next() * (frame.height() - 50);
        spots.push_back({x, y, x + dice.next() * 50, y + dice.next() * 40});
      }
      CAPTURE(sheet.number);
      check_sound(sheet, spots, set.set.style, set.set.lettering);
    }
  }
}

TEST_CASE("clouds: only the delta of an earlier revision") {
  const DrawnSet& set = drawn_set("quickstart");
  paper::Sheet sheet = set.sheets.back();
  REQUIRE(draw_clouds(sheet, "B", {{200, 200, 240, 230}}, set.set.style, set.set.lettering,
                      CloudParts::delta) == 0);
  for (const paper::Stroke* s : cloud_strokes(sheet))
    for (paper::Op op : s->path.ops) CHECK(op != paper::Op::curve);
}
