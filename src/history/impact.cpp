#include "history/impact.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <map>

namespace deckquire::history {
namespace {

constexpr double hair = 0.01;  // mm, the sum of roundings; a survey prints no finer

/// Where a panel lies: stations, corner points on the ground and the levels of its ends.
std::array<double, 13> place_of(const NamedDeck& d, const Panel& p) {
  const PanelShape& s = p.shape;
  const PanelPoint corners[] = {{s.back_x(s.left_back), s.left_back},
                                {s.back_x(s.right_back), s.right_back},
                                {s.ahead_x(s.left_ahead), s.left_ahead},
                                {s.ahead_x(s.right_ahead), s.right_ahead}};
  std::array<double, 13> out{p.turned ? 1.0 : 0.0, p.start.in_mm(), p.end.in_mm(),
                             d.bridge.alignment.level(p.start).in_mm(),
                             d.bridge.alignment.level(p.end).in_mm()};
  for (std::size_t i = 0; i < 4; ++i) {
    const BridgePoint b = p.frame.bridge(d.bridge.alignment, corners[i]);
    const SurveyPoint at = d.bridge.alignment.survey(mm(b.x), mm(b.y));
    out[5 + 2 * i] = at.easting * 1000;
    out[6 + 2 * i] = at.northing * 1000;
  }
  return out;
}

bool is_in_place(const NamedDeck& before, const Panel& old, const NamedDeck& now,
                 const Panel& fresh) {
  const auto a = place_of(before, old), b = place_of(now, fresh);
  for (std::size_t i = 0; i < a.size(); ++i)
    if (std::abs(a[i] - b[i]) > hair) return false;
  return old.row == fresh.row;
}

bool is_named_alike(const Panel& a, const Panel& b) {
  std::multimap<std::string, int> names;  // features have an order of their own
  for (const Feature& f : a.shape.features) names.insert({f.source, static_cast<int>(f.kind)});
  for (const Feature& f : b.shape.features) {
    const auto [first, last] = names.equal_range(f.source);
    auto at = first;
    while (at != last && at->second != static_cast<int>(f.kind)) ++at;
    if (at == last) return false;
    names.erase(at);
  }
  return names.empty();
}

std::map<int, const Panel*> by_position(const Deck& deck) {
  std::map<int, const Panel*> out;
  for (const Panel& p : deck.panels) out[p.position] = &p;
  return out;
}

const std::string& mark_of(const NamedDeck& d, const Panel& p) {
  return d.deck.marks[static_cast<std::size_t>(p.mark)].name;
}

std::vector<PanelChange> panel_changes(const NamedDeck& before, const NamedDeck& now) {
  const auto old = by_position(before.deck), fresh = by_position(now.deck);
  std::vector<PanelChange> out;
  for (const auto& [position, p] : fresh) {
    const auto found = old.find(position);
    if (found == old.end()) {
      out.push_back({position, PanelEffect::added, "", p->serial, "", mark_of(now, *p)});
      continue;
    }
    const Panel& was = *found->second;
    PanelChange c{position,  PanelEffect::geometry, was.serial,
                  p->serial, mark_of(before, was),  mark_of(now, *p)};
    if (c.mark == c.mark_before) {
      if (!is_in_place(before, was, now, *p))
        c.effect = PanelEffect::placement;
      else if (!is_named_alike(was, *p))
        c.effect = PanelEffect::text;
      else
        continue;
    }
    out.push_back(c);
  }
  for (const auto& [position, p] : old)
    if (!fresh.count(position))
      out.push_back({position, PanelEffect::removed, p->serial, "", mark_of(before, *p), ""});
  std::sort(out.begin(), out.end(),
            [](const PanelChange& a, const PanelChange& b) { return a.position < b.position; });
  return out;
}

bool was_issued(const Register& issued, const std::string& mark) {
  for (const Entry& e : issued.entries)
    if (e.issue)
      for (const IssuedMark& m : e.issue->marks)
        if (m.name == mark) return true;
  return false;
}

std::vector<MarkChange> mark_changes(const Issue& before, const Issue& now,
                                     const Register& issued) {
  std::map<std::string, std::pair<int, int>> quantities;
  for (const IssuedMark& m : before.marks) quantities[m.name].first = m.quantity;
  for (const IssuedMark& m : now.marks) quantities[m.name].second = m.quantity;
  std::vector<MarkChange> out;
  for (const auto& [name, q] : quantities) {
    const auto [old, fresh] = q;
    if (old == fresh) continue;
    const MarkEffect effect = fresh == 0                 ? MarkEffect::goes
                              : old > 0                  ? MarkEffect::quantity
                              : was_issued(issued, name) ? MarkEffect::comes_back
                                                         : MarkEffect::comes;
    out.push_back({name, effect, old, fresh});
  }
  return out;
}

}  // namespace

const char* name_of(PanelEffect effect) {
  switch (effect) {
    case PanelEffect::added:
      return "added";
    case PanelEffect::removed:
      return "removed";
    case PanelEffect::geometry:
      return "geometry";
    case PanelEffect::placement:
      return "placement";
    default:
      return "text";
  }
}

const char* name_of(MarkEffect effect) {
  switch (effect) {
    case MarkEffect::comes:
      return "comes";
    case MarkEffect::comes_back:
      return "comes back";
    case MarkEffect::goes:
      return "goes";
    default:
      return "quantity";
  }
}

Impact impact_of(const NamedDeck& before, const NamedDeck& now, const Register& issued) {
  return {panel_changes(before, now), mark_changes(before.issue, now.issue, issued)};
}

}  // namespace deckquire::history
