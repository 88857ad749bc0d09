// Clashes of a random deck, all pairs.
#include <algorithm>
#include <set>

#include "checks/clash.h"
#include "deck/random_checks.h"
#include "support/geos.h"

namespace trial {
namespace {

constexpr double slack = 0.01;  // mm: nearer to a rule's limit than this either answer will do

struct Measured {
  const Body* body;
  Box<PlanFrame> box;
  OracleArea core;
};

double through_depth(const Body& a, const Body& b) {
  return std::max(a.low - b.high, b.low - a.high);
}

/// By GEOS; never less than 0.
double apart(const Measured& a, const Measured& b) {
  return std::max(0.0, a.core.distance(b.core) - a.body->plan.radius - b.body->plan.radius);
}

void report_missed(const Case& c, const Bodies& all, const Body& a, const Body& b, double d) {
  const auto name = [&](const Body& x) {
    return part_name(all.things[static_cast<std::size_t>(x.thing)].part);
  };
  c.say("{} and {} are {} mm apart, and nothing says so", name(a), name(b), d);
}

}  // namespace

void check_through(const Case& c) {
  const auto through = [](const Feature& f) {
    return f.kind == FeatureKind::hatch || f.kind == FeatureKind::sleeve ||
           f.kind == FeatureKind::notch;
  };
  for (const Panel& p : c.deck().panels)
    for (const Feature& f : p.shape.features) {
      if (!through(f)) continue;
      const OracleArea hole = OracleArea::of(corners_of(f));
      for (const Feature& g : p.shape.features)
        if (&g != &f && OracleArea::of(corners_of(g)).common(hole).area() > 1)
          c.say("{} {} lies in {} {} of panel {}", feature_name(g.kind), g.source,
                feature_name(f.kind), f.source, p.position);
    }
}

void check_clashes(const Case& c) {
  Findings ignored;
  const Bridge& bridge = c.built.bridge;
  const Clearances rules(c.project(), ignored);
  const Bodies all = bodies_of(c.project(), bridge, c.deck(), deckquire::Plan(bridge));
  std::set<std::pair<int, int>> found;
  for (const Clash& k : find_clashes(all, rules)) found.insert(std::minmax(k.a, k.b));
  std::vector<Measured> measured;
  const Box<PlanFrame> first = bounds(all.bodies.front().plan);
  for (const Body& b : all.bodies)
    measured.push_back(
        {&b, bounds(b.plan), OracleArea::of(b.plan.core, {first.low.x, first.low.y})});
  for (std::size_t i = 0; i < measured.size(); ++i)
    for (std::size_t k = i + 1; k < measured.size(); ++k) {
      const Measured &a = measured[i], &b = measured[k];
      const auto& s = all.things[static_cast<std::size_t>(a.body->thing)];
      const auto& t = all.things[static_cast<std::size_t>(b.body->thing)];
      const ClearanceRule* rule = rules.between(s.part, t.part);
      if (!rule || rule->plan <= slack || !a.box.grown(rule->plan).overlaps(b.box)) continue;
      if (!comparable(s, t) || through_depth(*a.body, *b.body) > rule->depth - slack) continue;
      const double d = apart(a, b);
      if (d < rule->plan - slack && !found.count(std::minmax(a.body->thing, b.body->thing)))
        report_missed(c, all, *a.body, *b.body, d);
    }
}

}  // namespace trial
