// Clashes: each rule at its limit in plan and through the depth; the index against all pairs.
#include "checks/clash.h"

#include <cmath>
#include <ctime>
#include <limits>

#include "checks/parts.h"
#include "deck/trial.h"
#include "support/dice.h"

using namespace deckquire;

namespace {

PlanShape box(double x, double y, double length, double width) {
  return {{{x, y}, {x + length, y}, {x + length, y + width}, {x, y + width}}, 0};
}

Clearances table() {
  Findings findings;
  return Clearances(trial::example("saltmarsh"), findings);
}

/// A feature of its own for each of many things.
const Feature* feature(int n) {
  static const std::vector<Feature> all = [] {
    std::vector<Feature> made(100);
    for (std::size_t i = 0; i < made.size(); ++i) made[i].source = std::to_string(i);
    return made;
  }();
  return &all[static_cast<std::size_t>(n)];
}

/// Two bodies of one panel, `plan` apart in plan and `depth` through the depth.
Bodies two(const ClearanceRule& r, double plan, double depth) {
  Bodies all;
  for (Part p : {r.a, r.b}) {
    Thing t;
    t.part = p;
    t.feature = feature(static_cast<int>(all.things.size()));
    all.things.push_back(t);
  }
  all.bodies.push_back({0, box(0, 0, 100, 60), 0, 50});
  all.bodies.push_back({1, box(100 + plan, 20, 40, 40), 50 + depth, 90 + depth});
  return all;
}

/// The things of a deck's panels by chance: any part, any panel of four, any shape and height.
Bodies random_bodies(testing::Dice& dice, int n) {
  Bodies all;
  for (int i = 0; i < n; ++i) {
    Thing t;
    t.part = static_cast<Part>(dice.upto(part_count));
    t.panel = dice.upto(4);
    t.feature = feature(i);
    all.things.push_back(t);
    for (int k = 0; k <= dice.upto(2); ++k) {
      PlanShape s = box(dice.next() * 2500, dice.next() * 1500, 20 + dice.next() * 200, 60);
      const double angle = dice.upto(3) * 0.3;
      for (PlanPoint& p : s.core)
        p = {p.x * std::cos(angle) - p.y * std::sin(angle),
             p.x * std::sin(angle) + p.y * std::cos(angle)};
      if (dice.upto(3) == 0) s = {{s.core[0]}, 10 + dice.next() * 60};
      const double low = dice.next() * 120;
      all.bodies.push_back({i, s, low, low + dice.next() * 60});
    }
  }
  return all;
}

std::vector<Clash> all_pairs(const Bodies& all, const Clearances& clearances) {
  std::map<std::pair<int, int>, Clash> worst;
  const auto thing = [&](const Body& b) -> const Thing& {
    return all.things[static_cast<std::size_t>(b.thing)];
  };
  for (std::size_t i = 0; i < all.bodies.size(); ++i)
    for (std::size_t j = i + 1; j < all.bodies.size(); ++j) {
      const Body *a = &all.bodies[i], *b = &all.bodies[j];
      if (thing(*b).part < thing(*a).part) std::swap(a, b);
      const ClearanceRule* rule = clearances.between(thing(*a).part, thing(*b).part);
      if (!rule || !comparable(thing(*a), thing(*b))) continue;
      const auto clash = clash_of(*a, *b, *rule);
      if (!clash) continue;
      const auto [at, fresh] = worst.try_emplace({clash->a, clash->b}, *clash);
      const auto rank = [](const Clash& c) { return std::pair(c.overlap(), c.shortfall()); };
      if (!fresh && rank(*clash) > rank(at->second)) at->second = *clash;
    }
  std::vector<Clash> out;
  for (const auto& [pair, clash] : worst) out.push_back(clash);
  return out;
}

}  // namespace

TEST_CASE("clash: every rule holds strictly, in plan and through the depth") {
  const Clearances all = table();
  int rules = 0;
  for (int a = 0; a < part_count; ++a)
    for (int b = a; b < part_count; ++b) {
      const ClearanceRule* r = all.between(Part(a), Part(b));
      if (!r) continue;
      ++rules;
      CAPTURE(part_name(r->a));
      CAPTURE(part_name(r->b));
      const auto clashes = [&](double plan, double depth) {
        return find_clashes(two(*r, plan, depth), all).size();
      };
      CHECK(clashes(r->plan, -10) == 0);
      CHECK(clashes(r->plan - 0.01, -10) == 1);
      CHECK(clashes(r->plan - 0.01, r->depth) == 0);
      CHECK(clashes(r->plan - 0.01, r->depth - 0.01) == 1);
      CHECK(clashes(-30, r->depth) == 0);
      CHECK(find_clashes(two(*r, -5, -10), all)[0].overlap());
    }
  CHECK(rules > 60);
}

TEST_CASE("clash: a thing within another has no crossing edges, and clashes") {
  const Clearances all = table();
  Bodies b = two(*all.between(Part::hatch, Part::sleeve), 0, -10);
  b.bodies[1].plan = {{{50, 30}}, 5};
  const auto found = find_clashes(b, all);
  REQUIRE(found.size() == 1);
  CHECK(found[0].plan == doctest::Approx(-35));
  CHECK(found[0].overlap());
}

TEST_CASE("clash: neighbours count over a joint, but another panel's edges do not") {
  const Clearances all = table();
  for (Part other : {Part::hatch, Part::joint, Part::edge, Part::flange}) {
    Bodies b = two(*all.between(Part::hatch, other), 0, -10);
    b.bodies[1].plan = box(90, 20, 40, 40);
    b.things[0].panel = 3;
    b.things[1].panel = 3;
    CHECK(find_clashes(b, all).size() == 1);
    b.things[1].panel = 4;
    CHECK(find_clashes(b, all).size() == (other == Part::hatch ? 1 : 0));
  }
}

TEST_CASE("clash: the index finds what all pairs find, on thousands of placements") {
  const Clearances clearances = table();
  testing::Dice dice{417};
  std::size_t found = 0;
  for (int round = 0; round < 3000; ++round) {
    CAPTURE(round);
    const Bodies all = random_bodies(dice, 2 + dice.upto(40));
    const auto a = find_clashes(all, clearances), b = all_pairs(all, clearances);
    REQUIRE(a.size() == b.size());
    for (std::size_t i = 0; i < a.size(); ++i) {
      REQUIRE(a[i].a == b[i].a);
      REQUIRE(a[i].b == b[i].b);
      REQUIRE(a[i].plan == b[i].plan);
      REQUIRE(a[i].depth == b[i].depth);
    }
    found += a.size();
  }
  CHECK(found > 5000);
}

TEST_CASE("clash: the index finds what all pairs find on the examples, asking for more and more") {
  for (const char* name : {"saltmarsh", "ropewalk", "heron"}) {
    CAPTURE(name);
    Project project = trial::example(name);
    for (double least : {60.0, 250.0}) {
      project.deck.clearances.clear();
      for (int p = 0; p < part_count; ++p)
        project.deck.clearances.push_back(
            {part_name(Part(p)), "", mm(least), mm(p % 2 == 0 ? 500 : 20), {"x", 1, 1}});
      const trial::Built b = trial::build(project);
      const Plan plan(b.bridge);
      Findings findings;
      const Clearances clearances(project, findings);
      Bodies all = bodies_of(project, b.bridge, b.deck, plan);
      const auto x = find_clashes(all, clearances), y = all_pairs(all, clearances);
      REQUIRE(x.size() == y.size());
      CHECK(x.size() > 50);
      for (std::size_t i = 0; i < x.size(); ++i) {
        REQUIRE(x[i].a == y[i].a);
        REQUIRE(x[i].b == y[i].b);
      }
    }
  }
}

TEST_CASE("clash: turning the whole bridge in plan changes no distance") {
  // The same straight bridge, once by stations and once on the ground, where a far and faint curve
  // makes the program think in eastings and northings.
  Project project = trial::example("ropewalk");
  project.deck.clearances.push_back({"post plate", "scupper", mm(400), mm(500), {"x", 1, 1}});
  project.deck.clearances.push_back({"hatch", "opening", mm(900), mm(500), {"x", 1, 1}});
  const trial::Built straight = trial::build(project);
  const auto distances = [&](const trial::Built& b) {
    Findings findings;
    const Clearances clearances(project, findings);
    std::vector<double> out;
    const Plan plan(b.bridge);
    for (const Clash& c : find_clashes(bodies_of(project, b.bridge, b.deck, plan), clearances))
      out.push_back(c.plan);
    std::sort(out.begin(), out.end());
    return out;
  };
  const auto one = distances(straight);
  CHECK(!one.empty());
  AlignmentData& line = project.bridge.alignment;
  for (GirderData& g : project.bridge.girders) g.to = line.to;
  line.curves.push_back({line.to + metres(100), line.to + metres(101), metres(500), true, {}});
  line.to += metres(101);
  for (double bearing : {0.1, 1.0, 2.5, 4.0}) {
    line.bearing = Angle::si(bearing);
    const trial::Built turned = trial::build(project);
    CHECK(!Plan(turned.bridge).straight());
    const auto other = distances(turned);
    REQUIRE(other.size() == one.size());
    for (std::size_t i = 0; i < one.size(); ++i) CHECK(other[i] == doctest::Approx(one[i]));
  }
}

TEST_CASE("obstructions: a mast nearer to a panel than its clearance is found") {
  const Project project = trial::example("saltmarsh");
  trial::Built b = trial::build(project);
  const auto said = [&] {
    Findings findings;
    check_obstructions({project, b.bridge, b.deck, findings, Plan(b.bridge)});
    return trial::codes(findings);
  };
  CHECK(said() == "");
  Obstruction& mast = b.bridge.obstructions[0];
  mast.offset += mm(1);  // 1 off the middle of the opening made for it
  CHECK(said() == "obstruction-too-near");
  mast.offset -= mm(1);
  mast.diameter = *mast.diameter + mm(1);
  CHECK(said() == "obstruction-too-near");
  mast.diameter = *mast.diameter - mm(1);
  CHECK(said() == "");
  mast.offset = mm(1400);  // in the midst of the laminate
  CHECK(said() == "obstruction-too-near");
  mast.offset = mm(2400 + 150 + 50);  // beside the deck's edge
  mast.station = mm(15026);
  CHECK(said() == "");
  mast.offset = mm(2400 + 150 + 49);
  CHECK(said() == "obstruction-too-near");
}

TEST_CASE("bearing: the least width at any place along a panel counts") {
  Project project = trial::example("quickstart");
  const auto said = [&] { return trial::codes_of(project); };
  CHECK(said() == "");
  project.deck.section.least_bearing = project.bridge.girders[0].flange;
  if (project.deck.pads) {  // the pad is narrower than the flange
    CHECK(said() == "bearing-narrow");
    project.deck.section.least_bearing = project.deck.pads->width;
  }
  CHECK(said() == "");
  project.deck.section.least_bearing += mm(1);
  CHECK(said() == "bearing-narrow");
}

TEST_CASE("checks: ten times the panels take at most twelve times as long, and little of it") {
  const auto seconds = [](int spans) {
    const Project whole = trial::example("causeway");
    Project p = whole;
    p.deck.spans.clear();
    p.deck.scuppers->scuppers.clear();
    p.deck.hatches.clear();
    p.bridge.girders[0].to = p.bridge.girders[0].from;  // as long as the bridge
    const Length each = mm(40020);
    for (int i = 0; i < spans; ++i) {
      SpanData s = whole.deck.spans[0];
      s.name = std::to_string(i + 1);
      s.from = each * i;
      s.to = each * (i + 1);
      s.runs.clear();
      s.rule = PanelsRule{16, std::nullopt, s.place};
      p.deck.spans.push_back(s);
    }
    p.bridge.alignment.to = each * spans;
    for (GirderData& g : p.bridge.girders) g.from = g.to = p.bridge.alignment.from;
    p.bridge.splices.clear();
    Findings findings;
    const Bridge bridge = build_bridge(p, findings);
    const Deck deck = build_deck(p, bridge, findings);
    REQUIRE(static_cast<int>(deck.panels.size()) == 16 * spans);
    std::clock_t least = std::numeric_limits<std::clock_t>::max();
    for (int k = 0; k < 20; ++k) {  // the least: other programs must not count
      const std::clock_t before = std::clock();
      check_fit(p, bridge, deck, findings);
      least = std::min(least, std::clock() - before);
    }
    return static_cast<double>(least) / CLOCKS_PER_SEC;
  };
  const double few = seconds(6), many = seconds(60);
  MESSAGE("96 panels: " << few << " s, 960 panels: " << many << " s");
  CHECK(many < 14 * few);  // 12 and what the clock's coarseness allows
  CHECK(many < 0.5);
}
