#include "checks/clash.h"

#include <algorithm>
#include <tuple>

#include "base/neighbours.h"

namespace deckquire {
namespace {

/// What belongs to one panel and means nothing to the next.
bool local(Part p) {
  return p == Part::joint || p == Part::edge || p == Part::drip || p == Part::flange;
}

/// A joint or another row parts one hollow over a splice, or the room for one mast, in several.
bool one_origin(const Thing& a, const Thing& b) {
  if (a.part != b.part || (a.part != Part::recess && a.part != Part::opening)) return false;
  return a.feature->source == b.feature->source;
}

bool worse(const Clash& a, const Clash& b) {
  if (a.overlap() != b.overlap()) return a.overlap();
  return a.shortfall() > b.shortfall() + 1e-6;
}

}  // namespace

bool comparable(const Thing& a, const Thing& b) {
  if (&a == &b || (a.feature && a.feature == b.feature)) return false;
  if ((local(a.part) || local(b.part)) && a.panel != b.panel) return false;
  return !one_origin(a, b);
}

std::optional<Clash> clash_of(const Body& a, const Body& b, const ClearanceRule& rule) {
  const double depth = std::max(a.low - b.high, b.low - a.high);
  if (depth + clash_slack >= rule.depth && depth + clash_slack >= 0) return std::nullopt;
  const Separation<PlanFrame> s = separation(a.plan, b.plan);
  if (s.distance + clash_slack >= rule.plan) return std::nullopt;
  return Clash{a.thing, b.thing, &rule, s.distance, depth, s.at};
}

std::vector<Clash> find_clashes(const Bodies& all, const Clearances& clearances) {
  std::vector<Box<PlanFrame>> boxes;
  boxes.reserve(all.bodies.size());
  const auto thing = [&](const Body& b) -> const Thing& {
    return all.things[static_cast<std::size_t>(b.thing)];
  };
  for (const Body& b : all.bodies)
    boxes.push_back(bounds(b.plan).grown(clearances.reach(thing(b).part) / 2));
  std::vector<Clash> found;
  for (const auto& [i, j] : touching(boxes)) {
    const Body *a = &all.bodies[static_cast<std::size_t>(i)],
               *b = &all.bodies[static_cast<std::size_t>(j)];
    if (thing(*b).part < thing(*a).part) std::swap(a, b);
    const ClearanceRule* rule = clearances.between(thing(*a).part, thing(*b).part);
    if (!rule || !comparable(thing(*a), thing(*b))) continue;
    if (const auto clash = clash_of(*a, *b, *rule)) found.push_back(*clash);
  }
  const auto pair = [](const Clash& c) { return std::tuple(c.a, c.b); };
  std::stable_sort(found.begin(), found.end(),
                   [&](const Clash& p, const Clash& q) { return pair(p) < pair(q); });
  std::vector<Clash> out;
  for (const Clash& c : found) {
    if (out.empty() || pair(out.back()) != pair(c))
      out.push_back(c);
    else if (worse(c, out.back()))
      out.back() = c;
  }
  return out;
}

}  // namespace deckquire
