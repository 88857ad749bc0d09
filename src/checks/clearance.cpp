#include "checks/clearance.h"

#include <fmt/format.h>

#include <algorithm>

#include "deck/site.h"

namespace deckquire {
namespace {

using P = Part;
constexpr const char* practice = "common practice, no source";

// Depths that a project decides.
constexpr double recess_cover = -1;  // <recess cover>
constexpr double post_clear = -2;    // <posts clear>

struct Row {
  P a, b;
  double plan, depth;    // mm
  bool setting = false;  // between a panel and the steel: the setting tolerance comes on top
};

// All are common practice without a source, but for those that a project value decides. A depth of
// 0 beside a thing that goes through the panel never helps.
constexpr Row table[] = {
    {P::hatch, P::hatch, 150, 25},
    {P::hatch, P::sleeve, 50, 25},
    {P::hatch, P::scupper, 100, 25},
    {P::hatch, P::post_plate, 50, 25},
    {P::hatch, P::hold_down, 50, 25},
    {P::hatch, P::lifting_insert, 75, 25},
    {P::hatch, P::tag, 10, 0},
    {P::hatch, P::pad, 0, 0},
    {P::hatch, P::drip, 25, 25},
    {P::hatch, P::opening, 150, 25},
    {P::hatch, P::recess, 50, recess_cover},
    {P::hatch, P::splice, 25, 0, true},
    {P::hatch, P::flange, 0, 0, true},
    {P::hatch, P::joint, 50, 0},
    {P::hatch, P::edge, 50, 0},

    {P::sleeve, P::sleeve, 50, 25},
    {P::sleeve, P::scupper, 50, 25},
    {P::sleeve, P::post_plate, 50, 25},
    {P::sleeve, P::hold_down, 50, 25},
    {P::sleeve, P::lifting_insert, 75, 25},
    {P::sleeve, P::tag, 10, 0},
    {P::sleeve, P::pad, 0, 0},
    {P::sleeve, P::drip, 25, 25},
    {P::sleeve, P::opening, 75, 25},
    {P::sleeve, P::recess, 50, recess_cover},
    {P::sleeve, P::splice, 25, 0, true},
    {P::sleeve, P::flange, 0, 0, true},
    {P::sleeve, P::joint, 50, 0},
    {P::sleeve, P::edge, 50, 0},

    {P::scupper, P::scupper, 100, 25},
    {P::scupper, P::post_plate, 50, 25},
    {P::scupper, P::hold_down, 50, 25},
    {P::scupper, P::lifting_insert, 75, 25},
    {P::scupper, P::opening, 75, 25},
    {P::scupper, P::recess, 25, recess_cover},
    {P::scupper, P::drip, 10, 10},
    {P::scupper, P::joint, 50, 0},

    {P::outlet, P::hold_down, 40, 0},
    {P::outlet, P::tag, 10, 0},
    {P::outlet, P::pad, 0, 0},
    {P::outlet, P::drip, 10, 0},
    {P::outlet, P::recess, 25, 0},
    {P::outlet, P::splice, 25, 0, true},
    {P::outlet, P::flange, 0, 0, true},
    {P::outlet, P::opening, 50, 0},

    {P::post_plate, P::post_plate, 50, 25},
    {P::post_plate, P::lifting_insert, 40, 25},
    {P::post_plate, P::opening, 75, 0},
    {P::post_plate, P::recess, 0, recess_cover},
    {P::post_plate, P::joint, post_clear, 0},

    {P::hold_down, P::hold_down, 40, 25},
    {P::hold_down, P::lifting_insert, 40, 15},
    {P::hold_down, P::tag, 10, 0},
    {P::hold_down, P::pad, 0, 0},
    {P::hold_down, P::drip, 25, 25},
    {P::hold_down, P::opening, 50, 0},
    {P::hold_down, P::recess, 50, 25},
    {P::hold_down, P::joint, 50, 0},
    {P::hold_down, P::edge, 50, 0},

    {P::lifting_insert, P::lifting_insert, 100, 25},
    {P::lifting_insert, P::drip, 25, 15},
    {P::lifting_insert, P::opening, 75, 0},
    {P::lifting_insert, P::recess, 75, recess_cover},
    {P::lifting_insert, P::joint, 100, 0},
    {P::lifting_insert, P::edge, 100, 0},

    {P::tag, P::pad, 0, 0},
    {P::tag, P::drip, 0, 5},
    {P::tag, P::opening, 0, 0},
    {P::tag, P::recess, 0, 5},
    {P::tag, P::flange, 0, 25},
    {P::tag, P::joint, 0, 0},
    {P::tag, P::edge, 0, 0},

    {P::pad, P::opening, 0, 0},
    {P::pad, P::drip, 0, 5},
    {P::drip, P::recess, 0, 0},
    {P::opening, P::opening, 100, 0},
    {P::opening, P::recess, 75, 0},
    {P::opening, P::joint, 75, 0},
    {P::opening, P::edge, 75, 0},
    {P::recess, P::edge, 0, 0},
};

/// Pairs that touch as they are made, whatever is written about them.
constexpr std::pair<P, P> joined[] = {
    {P::scupper, P::outlet},  {P::scupper, P::edge},     {P::outlet, P::edge},
    {P::post_plate, P::edge}, {P::hold_down, P::flange}, {P::hold_down, P::splice},
    {P::pad, P::pad},         {P::pad, P::recess},       {P::pad, P::splice},
    {P::pad, P::flange},      {P::pad, P::joint},        {P::pad, P::edge},
    {P::drip, P::drip},       {P::drip, P::joint},       {P::drip, P::edge},
    {P::drip, P::flange},     {P::drip, P::splice},      {P::drip, P::opening},
    {P::opening, P::splice},  {P::opening, P::flange},   {P::recess, P::recess},
    {P::recess, P::splice},   {P::recess, P::flange},    {P::recess, P::joint},
    {P::post_plate, P::drip},
};

bool are_joined(P a, P b) {
  if (a >= P::splice && b >= P::splice) return true;  // no part of a panel
  return std::any_of(std::begin(joined), std::end(joined), [&](const auto& j) {
    return (j.first == a && j.second == b) || (j.first == b && j.second == a);
  });
}

/// The length that stands for a row's number.
double value_of(double v, const DeckData& deck) {
  if (v == recess_cover) return deck.section.recess_cover.in_mm();
  if (v == post_clear) return deck.posts ? deck.posts->clear.in_mm() : 0;
  return v;
}

ClearanceRule rule_of(const Row& row, const Project& project) {
  ClearanceRule r{
      row.a,    row.b, value_of(row.plan, project.deck), value_of(row.depth, project.deck),
      practice, {}};
  if (row.plan == post_clear) r.source = "clear of <posts>";
  if (row.depth == recess_cover) r.source += ", cover of <recess>";
  if (row.setting) {
    r.plan += setting_tolerance(project);
    r.source += ", setting tolerance";
  }
  return r;
}

}  // namespace

const char* part_name(Part p) {
  constexpr const char* names[part_count] = {
      "hatch", "sleeve", "scupper", "outlet", "post plate", "hold-down", "lifting insert", "tag",
      "pad",   "drip",   "opening", "recess", "splice",     "flange",    "joint",          "edge"};
  return names[static_cast<int>(p)];
}

std::optional<Part> part_named(const std::string& name) {
  for (int i = 0; i < part_count; ++i)
    if (name == part_name(static_cast<Part>(i))) return static_cast<Part>(i);
  return std::nullopt;
}

Clearances::Clearances(const Project& project, Findings& findings) {
  for (const Row& row : table) set(rule_of(row, project));
  // Those of one thing with everything first, then those of pairs, so that a pair has the last
  // word.
  for (const bool pairs : {false, true})
    for (const ClearanceData& d : project.deck.clearances) {
      if (d.with.empty() == pairs) continue;
      const Part a = *part_named(d.between);
      const auto b = part_named(d.with);
      if (b && are_joined(a, *b)) {
        findings.error(d.place, "clearance-of-joined",
                       fmt::format("{} and {} touch as they are made", d.between, d.with),
                       "take this clearance out");
        continue;
      }
      for (int i = 0; i < part_count; ++i) {
        const Part other = static_cast<Part>(i);
        if ((b && *b != other) || are_joined(a, other)) continue;
        ClearanceRule r{a, other, d.least.in_mm(), 0, "as the project asks", d.place};
        if (const ClearanceRule* old = between(a, other)) {
          r.depth = old->depth;
          // Two that speak of one thing each: the greater.
          if (!b && old->place.line > 0) r.plan = std::max(r.plan, old->plan);
        }
        if (d.depth) r.depth = d.depth->in_mm();
        set(r);
      }
    }
}

void Clearances::set(const ClearanceRule& rule) {
  for (const auto& [a, b] : {std::pair(rule.a, rule.b), std::pair(rule.b, rule.a)})
    rules_[static_cast<int>(a)][static_cast<int>(b)] = rule;
}

const ClearanceRule* Clearances::between(Part a, Part b) const {
  const auto& r = rules_[static_cast<int>(a)][static_cast<int>(b)];
  return r ? &*r : nullptr;
}

double Clearances::reach(Part p) const {
  double most = 0;
  for (const auto& r : rules_[static_cast<int>(p)])
    if (r) most = std::max(most, r->plan);
  return most;
}

}  // namespace deckquire
