// What is said about two panels, and about marks that could be one.
#include "deck/differences.h"

#include "deck/merging.h"
#include "deck/random_shapes.h"

using namespace deckquire;

namespace {

bool one_part(const PanelShape& a, const PanelShape& b, Length tolerance) {
  return same_type(a, b, tolerance) || same_type(a, half_turn(b), tolerance);
}

std::vector<std::string> words(const ShapeComparison& c) {
  std::vector<std::string> out;
  for (const Difference& d : c.list) out.push_back(d.words);
  return out;
}

/// A plain panel of the main example, to be changed.
struct Plain {
  Project project = trial::example("saltmarsh");
  trial::Built built = trial::build(project);
  const PanelShape shape = trial::mark_at(built.deck, 14).shape;

  std::vector<std::string> against(const PanelShape& changed) const {
    return words(compare_shapes(changed, shape, project));
  }
};

Feature& nth(PanelShape& s, FeatureKind kind, int n) {
  for (Feature& f : s.features)
    if (f.kind == kind && n-- == 0) return f;
  FAIL("no such feature");
  return s.features.front();
}

using Words = std::vector<std::string>;

}  // namespace

TEST_CASE("differences: none just where two panels are one part") {
  const Project p = trial::example("saltmarsh");
  int same = 0, other = 0;
  const auto shapes = trial::random_shapes(8, 120, {500, 1, 1, false});
  for (std::size_t i = 0; i < shapes.size(); ++i)
    for (std::size_t k = 0; k <= i; ++k) {
      const ShapeComparison c = compare_shapes(shapes[i], shapes[k], p);
      const bool one = one_part(shapes[i], shapes[k], p.deck.marks.tolerance);
      CHECK(c.list.empty() == one);
      (one ? same : other) += 1;
      if (one)
        CHECK(same_type(shapes[i], c.turned ? half_turn(shapes[k]) : shapes[k],
                        p.deck.marks.tolerance));
    }
  CHECK(same > 200);
  CHECK(other > 1000);
}

TEST_CASE(
    "differences: every two marks of the examples are told apart, with a measure or a count") {
  for (const char* name : {"saltmarsh", "quickstart", "orchard"}) {
    const Project p = trial::example(name);
    const auto b = trial::build(p);
    for (const Mark& m : b.deck.marks)
      for (const Mark& n : b.deck.marks) {
        const ShapeComparison c = compare_shapes(m.shape, n.shape, p);
        CHECK(c.list.empty() == (&m == &n));
        for (const Difference& d : c.list) CHECK(d.words.size() > 8);
      }
  }
}

TEST_CASE("differences: one change of a panel is one line, in the project's units") {
  const Plain plain;
  PanelShape s = plain.shape;
  nth(s, FeatureKind::post_plate, 0).at.x += 12;
  const std::string post = nth(s, FeatureKind::post_plate, 0).source;
  CHECK(plain.against(s) == Words{"post plate " + post + " at x = 631 instead of 619"});

  s = plain.shape;
  s.surface = 1;
  CHECK(plain.against(s) == Words{"graphite surface heavy, 10 thick instead of slate grey surface "
                                  "light, 4 thick"});
  s = plain.shape;
  s.ahead = EdgeEnd::end_joint;
  CHECK(plain.against(s) == Words{"end joint at its ahead end instead of panel joint"});

  s = plain.shape;
  s.depth += 20;
  CHECK(plain.against(s) == Words{"depth 170 instead of 150"});

  s = plain.shape;
  s.fall = Fall::left;
  CHECK(plain.against(s) == Words{"the top falls to the left instead of to both sides"});

  s = plain.shape;
  s.curbs.pop_back();
  CHECK(plain.against(s) == Words{"no right curb"});
}

TEST_CASE("differences: depths, extra things and two with the same to be said") {
  const Plain plain;
  PanelShape with = plain.shape;
  Feature hatch = trial::feature(FeatureKind::hatch, {1244, 0}, 600, 600);
  hatch.source = "H7";
  with.features.push_back(hatch);
  CHECK(plain.against(with) == Words{"a hatch more: H7 at x = 1244, y = 1500"});
  CHECK(words(compare_shapes(plain.shape, with, plain.project)) ==
        Words{"a hatch less: H7 at x = 1244, y = 1500"});

  PanelShape deeper = with;
  nth(deeper, FeatureKind::hatch, 0).depth += 20;
  CHECK(words(compare_shapes(deeper, with, plain.project)) ==
        Words{"hatch H7 20 deeper (20 instead of 0)"});

  PanelShape other_hatch = with;
  nth(other_hatch, FeatureKind::hatch, 0).variant = 1;
  CHECK(words(compare_shapes(other_hatch, with, plain.project)) ==
        Words{"hatch H7 with another rebate, cover or bolts"});

  PanelShape s = plain.shape;
  for (int i : {0, 1}) nth(s, FeatureKind::post_plate, i).at.x += 5;  // both at the first station
  const auto said = plain.against(s);
  REQUIRE(said.size() == 1);
  CHECK(said[0].starts_with("post plates "));
  CHECK(said[0].ends_with(" at x = 624 instead of 619"));
}

TEST_CASE("differences: of the ways to lay a panel the one with fewer differences is told") {
  const Plain plain;
  PanelShape s = plain.shape;
  s.features.push_back(trial::feature(FeatureKind::hatch, {900, 200}, 600, 600));
  PanelShape turned = half_turn(s);
  nth(turned, FeatureKind::hatch, 0).at.x += 30;
  const ShapeComparison c = compare_shapes(s, turned, plain.project);
  CHECK(c.turned);
  CHECK(words(c) == Words{"hatch at x = 900 instead of 870"});
}

TEST_CASE("differences: lengths, tapers and skews of outlines") {
  const Plain plain;
  PanelShape a;
  a.length = 2488;
  a.depth = 150;
  a.fall = Fall::none;
  a.outline = {{0, -1500}, {2488, -1500}, {2488, 1500}, {0, 1500}};
  a.left_back = a.left_ahead = 1500;
  a.right_back = a.right_ahead = -1500;
  PanelShape b = a;
  b.length = b.outline[1].x = b.outline[2].x = 2476;
  CHECK(words(compare_shapes(a, b, plain.project)) == Words{"length 2488 instead of 2476"});
  b = a;
  b.left_ahead = b.outline[2].y = 2400;
  CHECK(words(compare_shapes(a, b, plain.project)) ==
        Words{"left edge runs straight ahead, the other's runs out by 900"});
  b = a;
  b.back_slope = b.ahead_slope = 0.25;
  b.outline = {{-375, -1500}, {2113, -1500}, {2863, 1500}, {375, 1500}};
  CHECK(words(compare_shapes(a, b, plain.project)) ==
        Words{"back end square instead of skewed by 14.04\u00b0, its left corner ahead",
              "ahead end square instead of skewed by 14.04\u00b0, its left corner ahead"});
}

TEST_CASE("differences: imperial projects are answered in feet and inches") {
  Plain plain;
  plain.project.units = UnitSystem::imperial;
  PanelShape s = plain.shape;
  nth(s, FeatureKind::post_plate, 0).at.x = 25.4 * 30;
  PanelShape t = s;
  nth(t, FeatureKind::post_plate, 0).at.x = 25.4 * 30.5;
  const auto said = words(compare_shapes(s, t, plain.project));
  REQUIRE(said.size() == 1);
  CHECK(said[0].ends_with(" at x = 2'-6\" instead of 2'-6 1/2\""));
  // More than the tolerance, less than the print unit.
  nth(t, FeatureKind::post_plate, 0).at.x = 25.4 * 30 + 0.4;
  plain.project.deck.marks.tolerance = mm(0.1);
  CHECK(words(compare_shapes(s, t, plain.project))[0].ends_with("762 instead of 762.4 mm"));
}
