// What is said about things that are too near each other.
#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <map>
#include <tuple>

#include "checks/clash.h"
#include "checks/parts.h"

namespace deckquire {
namespace {

bool on_steel(Part p) {
  return p == Part::flange || p == Part::recess || p == Part::splice || p == Part::pad;
}

/// Of the clashes of one feature with one girder (its flange, a splice, the recess over that, the
/// pad) only the plainest is said: one move cures all.
std::vector<Clash> one_a_cause(const Bodies& all, const std::vector<Clash>& found) {
  const auto thing = [&](int n) -> const Thing& { return all.things[static_cast<std::size_t>(n)]; };
  const auto rank = [&](const Clash& c) {
    const Part p = thing(c.b).part;
    const int plain = p == Part::flange ? 0 : p == Part::recess ? 1 : p == Part::splice ? 2 : 3;
    return std::pair(!c.overlap(), plain);
  };
  std::map<std::pair<const Feature*, int>, std::size_t> said;
  std::vector<Clash> out;
  for (const Clash& c : found) {
    const Thing &a = thing(c.a), &b = thing(c.b);
    if (!a.feature || on_steel(a.part) || !on_steel(b.part) || b.girder < 0) {
      out.push_back(c);
      continue;
    }
    const auto [at, fresh] = said.try_emplace({a.feature, b.girder}, out.size());
    if (fresh)
      out.push_back(c);
    else if (rank(c) < rank(out[at->second]))
      out[at->second] = c;
  }
  return out;
}

/// How far apart two things are, in words.
std::string state(const FitCheck& c, const Clash& k, bool through) {
  const auto printed = [&](double v) { return c.length(std::round(v * 10) / 10); };
  if (k.overlap()) return fmt::format("overlap by {} in plan", printed(-k.plan));
  if (k.plan < -clash_slack) return fmt::format("are {} apart through the depth", printed(k.depth));
  if (through || k.depth <= 0) return fmt::format("are {} apart", printed(k.plan));
  return fmt::format("are {} apart in plan and {} through the depth", printed(k.plan),
                     printed(k.depth));
}

std::string asked(const FitCheck& c, const Clash& k) {
  const ClearanceRule& r = *k.rule;
  const std::string by = fmt::format(
      "{}{}", r.source, r.place.line > 0 ? fmt::format(", {}:{}", r.place.file, r.place.line) : "");
  const bool either = r.depth > 0 && k.depth > 0;
  if (r.plan == 0 && !either) return fmt::format("they must not overlap ({})", by);
  if (r.plan == 0) return fmt::format("keep {} through the depth ({})", c.length(r.depth), by);
  return fmt::format(
      "keep {} apart{} ({}): {} short", c.length(r.plan),
      either ? fmt::format(" in plan or {} through the depth", c.length(r.depth)) : "", by,
      c.length(std::round(k.shortfall() * 10) / 10));
}

std::string code_of(const Thing& b, bool opening, bool overlap) {
  if (b.part == Part::flange && opening)
    return overlap ? "opening-over-flange" : "opening-near-flange";
  if (b.part == Part::joint) return "feature-near-joint";
  if (b.part == Part::edge) return overlap ? "feature-through-edge" : "feature-near-edge";
  return overlap ? "features-overlap" : "features-too-near";
}

bool is_opening(Part p) {
  return p == Part::hatch || p == Part::sleeve || p == Part::outlet;
}

std::string where(const FitCheck& c, const Thing& a, const Thing& b) {
  if (a.panel < 0 || b.panel < 0 || a.panel == b.panel)
    return fmt::format("panel {}", c.panel(std::max(a.panel, b.panel)).position);
  return fmt::format("panels {} and {}", c.panel(a.panel).position, c.panel(b.panel).position);
}

void say(const FitCheck& c, const Bodies& all, const Clash& k, int times) {
  const Thing* a = &all.things[static_cast<std::size_t>(k.a)];
  const Thing* b = &all.things[static_cast<std::size_t>(k.b)];
  // Of two alike the one written later gives way.
  if (a->part == b->part && c.place_of(*a).line < c.place_of(*b).line) std::swap(a, b);
  const Place place = c.place_of(*a);
  const Panel& near = c.panel(a->panel >= 0 ? a->panel : b->panel);
  const std::string what =
      fmt::format("{} and {}{} {}, in {} at {}{}", c.name_of(*a), c.name_of(*b),
                  FitCheck::also_at(c.place_of(*b), place), state(c, k, b->part >= Part::flange),
                  where(c, *a, *b), c.position(c.plan.on_bridge(near, k.at)), and_more(times - 1));
  const std::string code = code_of(*b, is_opening(a->part), k.overlap());
  if (k.overlap() || k.rule->place.line > 0)
    c.findings.error(place, code, what, asked(c, k));
  else
    c.findings.warning(place, code, what, asked(c, k));
}

/// An obstruction's room that reaches an edge or a joint is cut out of it on purpose.
bool meant(const Bodies& all, const Clash& k) {
  const Thing &a = all.things[static_cast<std::size_t>(k.a)],
              &b = all.things[static_cast<std::size_t>(k.b)];
  return a.part == Part::opening && (b.part == Part::joint || b.part == Part::edge) &&
         k.plan < clash_slack;
}

}  // namespace

void check_clearances(const FitCheck& c) {
  const Clearances clearances(c.project, c.findings);
  const Bodies all = bodies_of(c.project, c.bridge, c.deck, c.plan);
  // The worst of each pair of kinds, and how many there are.
  std::map<std::pair<Part, Part>, std::pair<Clash, int>> worst;
  for (const Clash& k : one_a_cause(all, find_clashes(all, clearances))) {
    if (meant(all, k)) continue;
    auto [at, fresh] = worst.try_emplace({k.rule->a, k.rule->b}, k, 0);
    auto& [said, times] = at->second;
    ++times;
    const auto rank = [](const Clash& x) { return std::tuple(x.overlap(), x.shortfall() - 1e-6); };
    if (!fresh && rank(k) > std::tuple(said.overlap(), said.shortfall())) said = k;
  }
  for (const auto& [parts, value] : worst) say(c, all, value.first, value.second);
}

}  // namespace deckquire
