// Grouping shapes into marks: against the quadratic method, in any order, and how long it takes.
#include "deck/typing.h"

#include <chrono>
#include <map>
#include <set>

#include "deck/identity.h"
#include "deck/random_shapes.h"
#include "support/thorough.h"

using namespace deckquire;
using trial::Recipe;

namespace {

struct Marks {
  std::vector<Typing::Placed> places;
  std::vector<int> representatives;  // index of the first shape of each mark
};

Marks group(const std::vector<PanelShape>& shapes, Length tolerance) {
  Typing typing(tolerance);
  Marks out;
  for (const PanelShape& s : shapes) {
    out.places.push_back(typing.place(s));
    if (out.places.back().first)
      out.representatives.push_back(static_cast<int>(out.places.size()) - 1);
  }
  return out;
}

/// The same by comparing with every representative in turn: the oracle.
Marks group_slowly(const std::vector<PanelShape>& shapes, Length tolerance) {
  Marks out;
  const auto fit = [&](const PanelShape& s, bool& turned) {
    const PanelShape half = half_turn(s);
    for (std::size_t m = 0; m < out.representatives.size(); ++m) {
      const PanelShape& r = shapes[static_cast<std::size_t>(out.representatives[m])];
      turned = !same_type(r, s, tolerance);
      if (!turned || same_type(r, half, tolerance)) return static_cast<int>(m);
    }
    turned = false;
    return -1;
  };
  for (std::size_t i = 0; i < shapes.size(); ++i) {
    Typing::Placed p;
    p.mark = fit(shapes[i], p.turned);
    if (p.mark < 0) {
      bool ignored = false;
      p.opposite_of = fit(mirror(shapes[i]), ignored);
      p.mark = static_cast<int>(out.representatives.size());
      p.first = true;
      out.representatives.push_back(static_cast<int>(i));
    }
    out.places.push_back(p);
  }
  return out;
}

/// How many shapes each mark has, the marks in no order.
std::multiset<int> quantities(const Marks& m) {
  std::vector<int> n(m.representatives.size());
  for (const auto& p : m.places) ++n[static_cast<std::size_t>(p.mark)];
  return {n.begin(), n.end()};
}

PanelShape of_length(double length) {
  PanelShape s;
  s.length = length;
  s.depth = 150;
  s.outline = {{0, -1500}, {length, -1500}, {length, 1500}, {0, 1500}};
  return s;
}

/// Of sorted places of the features of each kind, from the low corner of the part: there is no
/// pairing within d where two of these lists differ by more than d somewhere.
double greatest_difference(const PanelShape& a, const PanelShape& b) {
  double worst = std::abs(a.length - b.length);
  const auto list = [](const PanelShape& s, bool along) {
    const PanelPoint low = bounds(s.outline).low;
    std::map<FeatureKind, std::vector<double>> out;
    for (const Feature& f : s.features)
      if (f.kind != FeatureKind::tag)
        out[f.kind].push_back(along ? f.at.x - low.x : f.at.y - low.y);
    for (auto& [kind, values] : out) std::sort(values.begin(), values.end());
    return out;
  };
  for (bool along : {true, false}) {
    auto la = list(a, along), lb = list(b, along);
    REQUIRE(la.size() == lb.size());
    for (auto& [kind, values] : la) {
      REQUIRE(values.size() == lb[kind].size());
      for (std::size_t i = 0; i < values.size(); ++i)
        worst = std::max(worst, std::abs(values[i] - lb[kind][i]));
    }
  }
  return worst;
}

}  // namespace

// Case T4 of the algorithms reference: joining whatever is near to any member gives one group.
TEST_CASE("typing: lengths in small steps do not chain into one mark (case T4)") {
  const std::vector<double> lengths{2500, 2501, 2503, 2504, 2506, 2507, 2509};
  std::vector<PanelShape> shapes;
  for (double l : lengths) shapes.push_back(of_length(l));
  const Marks m = group(shapes, mm(2));
  REQUIRE(m.representatives.size() == 4);
  std::vector<int> marks;
  for (const auto& p : m.places) marks.push_back(p.mark);
  CHECK(marks == std::vector<int>{0, 0, 1, 1, 2, 2, 3});
  int single_link = 1;
  for (std::size_t i = 1; i < lengths.size(); ++i)
    single_link += lengths[i] - lengths[i - 1] > 2 ? 1 : 0;
  CHECK(single_link == 1);
}

TEST_CASE("typing: random panels are grouped as by comparing with every representative") {
  const Recipe recipes[] = {
      {5, 3, 4, false}, {0.4, 6, 3, false}, {1, 4, 2, true}, {50, 1, 6, true}};
  for (const Recipe& r : recipes)
    for (std::uint64_t seed = 1; seed <= (thorough ? 6U : 2U); ++seed)
      for (Length tolerance : {mm(0), mm(1), mm(12)}) {
        CAPTURE(seed);
        CAPTURE(tolerance.in_mm());
        const auto shapes = trial::random_shapes(seed, 250, r);
        const Marks quick = group(shapes, tolerance), slow = group_slowly(shapes, tolerance);
        REQUIRE(quick.representatives == slow.representatives);
        for (std::size_t i = 0; i < shapes.size(); ++i) {
          CHECK(quick.places[i].mark == slow.places[i].mark);
          CHECK(quick.places[i].turned == slow.places[i].turned);
          CHECK(quick.places[i].opposite_of == slow.places[i].opposite_of);
        }
      }
}

TEST_CASE("typing: decks of the examples, shaken, have the marks of the quadratic method") {
  std::size_t marks = 0;
  for (const char* name : {"saltmarsh", "orchard", "ropewalk", "heron"})
    for (std::uint64_t seed = 1; seed <= 3; ++seed) {
      Project p = trial::example(name);
      trial::Dice dice{seed};
      p.deck.marks.tolerance = mm(dice.upto(4));
      if (p.deck.scuppers)
        for (ScupperData& s : p.deck.scuppers->scuppers) s.station += mm(dice.upto(41) - 20);
      for (HatchData& h : p.deck.hatches) h.offset += mm(dice.upto(5));
      for (SpliceData& s : p.bridge.splices) s.station += mm(dice.upto(7) - 3);
      Findings ignored;  // what is too near to what does not matter here
      const Bridge bridge = build_bridge(p, ignored);
      const Deck deck = build_deck(p, bridge, ignored);
      std::vector<PanelShape> shapes;
      for (const Panel& panel : deck.panels) shapes.push_back(panel.shape);
      const Marks slow = group_slowly(shapes, p.deck.marks.tolerance);
      REQUIRE(slow.representatives.size() == deck.marks.size());
      for (std::size_t i = 0; i < shapes.size(); ++i) {
        CHECK(slow.places[i].mark == deck.panels[i].mark);
        CHECK(slow.places[i].turned == deck.panels[i].turned);
        if (slow.places[i].first)
          CHECK(slow.places[i].opposite_of ==
                deck.marks[static_cast<std::size_t>(slow.places[i].mark)].opposite_of);
      }
      marks += deck.marks.size();
    }
  CHECK(marks > 100);
}

TEST_CASE("typing: two panels of one mark differ by twice the tolerance at most") {
  trial::Dice dice{77};
  std::vector<PanelShape> shapes;
  for (const PanelShape& s : trial::random_shapes(5, 40, {5, 2, 4, false}))
    for (int i = 0; i < 8; ++i) shapes.push_back(trial::shaken(s, dice, 1.5));
  const Marks m = group(shapes, mm(2));
  CHECK(m.representatives.size() < shapes.size());
  std::vector<PanelShape> as_drawn;
  for (std::size_t i = 0; i < shapes.size(); ++i)
    as_drawn.push_back(m.places[i].turned ? half_turn(shapes[i]) : shapes[i]);
  double worst = 0;
  for (std::size_t i = 0; i < shapes.size(); ++i)
    for (std::size_t k = 0; k < i; ++k) {
      if (m.places[i].mark != m.places[k].mark) continue;
      worst = std::max(worst, greatest_difference(as_drawn[i], as_drawn[k]));
      CHECK(as_drawn[i].fall == as_drawn[k].fall);
      CHECK(as_drawn[i].back == as_drawn[k].back);
    }
  CHECK(worst <= 2 * 2.0 + 1e-5);
  CHECK(worst > 2);  // the bound is of use: members do differ by more than one tolerance
}

TEST_CASE("typing: the order of equal panels does not change their marks") {
  std::vector<PanelShape> shapes = trial::random_shapes(9, 150, {25, 2, 3, true});
  const auto copies = shapes;
  shapes.insert(shapes.end(), copies.begin(), copies.end());
  const auto before = quantities(group(shapes, mm(1)));
  trial::Dice dice{4};
  for (int round = 0; round < 5; ++round) {
    for (std::size_t i = shapes.size(); i > 1; --i)
      std::swap(shapes[i - 1], shapes[static_cast<std::size_t>(dice.upto(static_cast<int>(i)))]);
    CHECK(quantities(group(shapes, mm(1))) == before);
  }
}

TEST_CASE("typing: a layout turned end for end as a whole has the same marks") {
  for (std::uint64_t seed = 20; seed < 26; ++seed) {
    auto shapes = trial::random_shapes(seed, 200, {25, 2, 3, true});
    const auto before = quantities(group(shapes, mm(1)));
    std::reverse(shapes.begin(), shapes.end());
    for (PanelShape& s : shapes) s = half_turn(s);
    CHECK(quantities(group(shapes, mm(1))) == before);
  }
}

TEST_CASE("typing: a hand never joins; it names the mark whose opposite it is") {
  int hands = 0;
  for (const PanelShape& s : trial::random_shapes(31, 300, {5, 3, 4, true})) {
    const PanelShape image = mirror(s);
    const bool symmetric = same_type(s, image, mm(1)) || same_type(s, half_turn(image), mm(1));
    Typing typing(mm(1));
    typing.place(s);
    const auto other = typing.place(image);
    CHECK(other.first == !symmetric);
    if (!other.first) continue;
    CHECK(other.opposite_of == 0);
    CHECK(typing.place(half_turn(image)).mark == other.mark);
    ++hands;
  }
  CHECK(hands > 100);
}

TEST_CASE("typing: a shape without an outline is of a mark of its own") {
  Typing typing(mm(1));
  CHECK(typing.place({}).first);
  CHECK(typing.place({}).mark == 1);
}

// Measured: 0.75 s and 0.27 s, quick build, one core of a small machine. The bound is wide, for a
// busy one; the quadratic method would be far beyond it.
TEST_CASE("typing: ten thousand panels of thousands of marks take a moment") {
  for (const Recipe& r : {Recipe{1, 400, 6, true}, Recipe{1, 9999, 0, false}}) {
    const auto shapes = trial::random_shapes(3, 10000, r);
    const auto start = std::chrono::steady_clock::now();
    const Marks m = group(shapes, mm(0.4));
    const std::chrono::duration<double> took = std::chrono::steady_clock::now() - start;
    CAPTURE(m.representatives.size());
    CAPTURE(took.count());

    CHECK(m.representatives.size() > 5000);
    CHECK(took.count() < 20);
  }
}
