// The best division as a whole deck: what shows only there, and what to take instead.
#include <fmt/format.h>

#include <algorithm>
#include <set>
#include <tuple>

#include "deck/division_search.h"

namespace deckquire {

DivisionSearch::Verdict DivisionSearch::verdict(const Whole& w, const DeckChecks& checks) const {
  const Project p = with_division(project_, panels(w));
  Findings said;
  const Deck deck = build_deck(p, bridge_, said);
  Verdict v;
  v.refused = said.has_errors();
  if (!v.refused && checks) checks(p, bridge_, deck, said);
  for (const Finding& f : said.sorted()) {
    if (f.severity != Severity::error) continue;
    if (v.errors++ == 0) v.first = f.what;
  }
  return v;
}

/// What was sought, and the best one with another choice for one span: by score.
std::vector<Whole> DivisionSearch::next_best() const {
  std::vector<std::pair<Score, Whole>> all;
  const auto offer = [&](const Whole& w) {
    for (std::size_t i = 0; i < w.choice.size(); ++i)
      if (!usable(i, w.choice[i])) return;
    all.push_back({score(w.choice), w});
  };
  for (const Whole& w : wholes_) offer(w);
  for (std::size_t i = 0; i < best_.choice.size(); ++i)
    for (int k = 0; k < static_cast<int>(choices_[i].size()); ++k) {
      Whole w = best_;
      w.choice[i] = k;
      offer(w);
    }
  std::stable_sort(all.begin(), all.end(),
                   [](const auto& a, const auto& b) { return a.first < b.first; });
  std::vector<Whole> out;
  for (auto& [s, w] : all) out.push_back(std::move(w));
  return out;
}

void DivisionSearch::settle(const DeckChecks& checks, Findings& findings) {
  for (std::size_t i = 0; i < best_.choice.size(); ++i)
    if (!usable(i, best_.choice[i])) return;  // its own errors are said when it is built
  constexpr int most_built = 24;
  const Whole sought = best_;
  const Verdict first = verdict(sought, checks);
  Verdict least = first;
  std::set<std::vector<int>> built{sought.choice};
  std::int64_t panels_built = score(sought.choice).panels;
  const auto room = [&] {
    return static_cast<int>(built.size()) < most_built && panels_built <= most_shaped;
  };
  for (bool better = true; better && least.errors > 0;) {
    better = false;
    for (const Whole& w : next_best()) {
      if (least.errors == 0 || !room()) break;
      if (!built.insert(w.choice).second) continue;
      panels_built += score(w.choice).panels;
      const Verdict v = verdict(w, checks);
      if (!(std::tie(v.refused, v.errors) < std::tie(least.refused, least.errors))) continue;
      least = v;
      best_ = w;
      better = true;
    }
  }
  settled_ = best_.choice != sought.choice;
  if (first.errors == 0) return;
  const Place place = rules_.front().rule.place;
  if (least.errors > 0)
    findings.warning(place, "division-not-clean",
                     fmt::format("none of the {} divisions built and checked as whole decks is "
                                 "without errors; one with the fewest, {}, is taken",
                                 built.size(), least.errors),
                     "the errors say what is in the way: move it, or change the rules of <panels>");
  else
    findings.note(place, "division-next-best",
                  fmt::format("the best division has {} error{} as a whole deck (the first: {}); "
                              "the next best without any is taken, with {} marks instead of {}",
                              first.errors, first.errors == 1 ? "" : "s", first.first,
                              setups(best_.choice), setups(sought.choice)),
                  "where fewer marks are worth more, move what is in the way");
}

}  // namespace deckquire
