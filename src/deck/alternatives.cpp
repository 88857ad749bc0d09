#include "deck/alternatives.h"

#include <algorithm>
#include <memory>

#include "deck/division_search.h"

namespace deckquire {
namespace {

constexpr const char* as_it_stands_name = "as it stands";

/// The panels of a span as the project has them, without a question of types.
std::vector<Length> as_it_stands(const Project& project, const SpanFrame& f, const SpanData& s) {
  std::vector<Length> out;
  if (!s.rule) {
    for (const PanelRun& r : s.runs)
      out.insert(out.end(), static_cast<std::size_t>(r.times), r.length);
    return out;
  }
  const Length clear = s.to - s.from - f.end_gap_back - f.end_gap_ahead;
  std::int64_t count = s.rule->count.value_or(0);
  if (s.rule->longest) {
    const std::int64_t pitch = (*s.rule->longest + f.gap).in_nanometres();
    if (pitch > 0) count = ((clear + f.gap).in_nanometres() + pitch - 1) / pitch;
  }
  return equal_lengths(project, f, s.to - s.from, count, s.rule->longest);
}

bool asks(const SpanData& s) {
  return s.rule && s.rule->fewest_types && s.rule->longest;
}

/// Every span with a rule that asks: its own, or the defaults with its own longest panel.
Project all_asking(const Project& project, const std::vector<std::vector<Length>>& stands) {
  Project p = project;
  for (std::size_t i = 0; i < p.deck.spans.size(); ++i) {
    SpanData& s = p.deck.spans[i];
    if (asks(s)) continue;
    PanelsRule rule = s.usual;
    if (!rule.longest && !stands[i].empty())
      rule.longest = *std::max_element(stands[i].begin(), stands[i].end());
    if (!rule.longest) rule.longest = s.to - s.from;
    if (rule.shortest == Length()) rule.shortest = *rule.longest / 2;
    if (rule.preferred == Length()) rule.preferred = *rule.longest;
    if (rule.step <= Length()) rule.step = print_unit(p.units);
    rule.count.reset();
    rule.fewest_types = true;
    rule.place = s.rule ? s.rule->place : s.place;
    s.rule = rule;
    s.runs.clear();
  }
  return p;
}

}  // namespace

Project with_division(const Project& project, const std::vector<std::vector<Length>>& spans) {
  Project p = project;
  for (std::size_t i = 0; i < spans.size(); ++i) {
    if (spans[i].empty()) continue;
    SpanData& s = p.deck.spans[i];
    s.rule.reset();
    s.runs.clear();
    for (Length l : spans[i]) s.runs.push_back({l, 1, s.place});
  }
  return p;
}

std::vector<std::vector<Length>> choose_panels(const Project& project, const Bridge& bridge,
                                               const std::vector<SpanFrame>& frames,
                                               Findings& findings, const DeckChecks& checks) {
  const auto& spans = project.deck.spans;
  std::vector<std::vector<Length>> out(spans.size()), fixed(spans.size());
  std::vector<int> asking;
  for (std::size_t i = 0; i < spans.size(); ++i)
    if (asks(spans[i]))
      asking.push_back(static_cast<int>(i));
    else
      fixed[i] = as_it_stands(project, frames[i], spans[i]);
  if (asking.empty()) return out;
  DivisionSearch choice(project, bridge, frames, asking, std::move(fixed));
  if (!choice.seek(findings) || choice.too_heavy(findings)) return out;
  choice.settle(checks, findings);
  const auto all = choice.panels(choice.best());
  for (int i : asking) out[static_cast<std::size_t>(i)] = all[static_cast<std::size_t>(i)];
  return out;
}

namespace {

/// Division of the spans `asking`; those of them that have none are taken out, with the reason.
std::unique_ptr<DivisionSearch> sought(const Project& project, const Bridge& bridge,
                                       const std::vector<SpanFrame>& frames,
                                       std::vector<int>& asking,
                                       const std::vector<std::vector<Length>>& stands,
                                       Findings& reasons) {
  while (!asking.empty()) {
    std::vector<std::vector<Length>> fixed = stands;
    for (int i : asking) fixed[static_cast<std::size_t>(i)].clear();
    auto choice =
        std::make_unique<DivisionSearch>(project, bridge, frames, asking, std::move(fixed));
    if (choice->seek(reasons)) return choice;
    std::erase(asking, choice->refused_span());
  }
  return nullptr;
}

void list(DivisionSearch& search, Alternatives& out) {
  const Whole& best = search.best();
  // What else came to the same joints is not listed twice, but it gives the best its name.
  std::vector<std::vector<int>> seen{best.choice};
  Alternative first = search.described(best);
  first.name = "chosen: the best of each span";
  for (const Whole& w : search.wholes())
    if (w.choice == best.choice) {
      first.name = "chosen: " + w.name;
      break;
    }
  if (search.settled()) first.name += " (others have errors)";
  out.all.push_back(std::move(first));
  for (const Whole& w : search.wholes()) {
    const bool again = std::find(seen.begin(), seen.end(), w.choice) != seen.end();
    seen.push_back(w.choice);
    if ((!again || w.name == as_it_stands_name) && search.buildable(w))
      out.all.push_back(search.described(w));
  }
  out.at_least = search.at_least();
  out.proven = search.proven();
  out.bound = search.bound();
}

}  // namespace

Alternatives compare_divisions(const Project& project, const Bridge& bridge, Findings& findings,
                               const DeckChecks& checks) {
  Alternatives out;
  const auto frames = span_frames(project, findings);
  const auto& spans = project.deck.spans;
  if (frames.empty()) return out;
  std::vector<std::vector<Length>> stands(spans.size());
  std::vector<int> asking, all;
  for (std::size_t i = 0; i < spans.size(); ++i) {
    all.push_back(static_cast<int>(i));
    if (asks(spans[i]))
      asking.push_back(static_cast<int>(i));
    else
      stands[i] = as_it_stands(project, frames[i], spans[i]);
  }
  if (!asking.empty()) {
    DivisionSearch choice(project, bridge, frames, asking, stands);
    if (!choice.seek(findings) || choice.too_heavy(findings)) return out;
    choice.settle(checks, findings);
    list(choice, out);
    return out;
  }
  const Project by_default = all_asking(project, stands);
  Findings reasons;
  auto choice = sought(by_default, bridge, frames, all, stands, reasons);
  for (const Finding& f : reasons.sorted()) out.left_alone.push_back(f.what);
  if (!choice) return out;
  choice->add(as_it_stands_name, stands, true);
  choice->decide();
  choice->settle(checks, findings);
  list(*choice, out);
  return out;
}

}  // namespace deckquire
