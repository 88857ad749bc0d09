// Which combination of the spans' choices is the best.
#include <fmt/format.h>

#include <algorithm>
#include <set>

#include "base/text.h"
#include "deck/division_search.h"

namespace deckquire {

using optimum::Nm;

std::optional<Mass> DivisionSearch::most_mass(std::size_t asking) const {
  std::optional<Mass> most = rules_[asking].rule.heaviest;
  const auto& shipped = project_.conditions.ship_mass;
  if (shipped && (!most || *shipped < *most)) most = shipped;
  return most;
}

bool DivisionSearch::within_mass(std::size_t asking, const Tried& t) const {
  const auto most = most_mass(asking);
  return !most || t.heaviest <= *most;
}

bool DivisionSearch::usable(std::size_t asking, int choice) const {
  const Tried* t = choices_[asking][static_cast<std::size_t>(choice)].tried;
  return t && t->good && within_mass(asking, *t);
}

bool DivisionSearch::buildable(const Whole& w) const {
  for (std::size_t i = 0; i < w.choice.size(); ++i) {
    const Tried* t = choices_[i][static_cast<std::size_t>(w.choice[i])].tried;
    if (!t || !t->good) return false;
  }
  return true;
}

/// The first choice of every span, then the second ...: so the bound falls on all alike.
void DivisionSearch::shape_all() {
  std::set<int> fixed;
  for (std::size_t s = 0; s < fixed_.size(); ++s)
    if (!fixed_[s].empty()) {
      const Tried& t = trials_.of(static_cast<int>(s), fixed_[s]);
      fixed.insert(t.types.begin(), t.types.end());
    }
  fixed_types_.assign(fixed.begin(), fixed.end());
  bounded_ = false;
  for (std::size_t k = 0, left = 1; left > 0; ++k) {
    left = 0;
    for (std::size_t i = 0; i < choices_.size(); ++i) {
      if (k >= choices_[i].size()) continue;
      ++left;
      SpanChoice& c = choices_[i][k];
      const auto more = static_cast<std::int64_t>(c.panels.size());
      if (k > 0 && trials_.shaped() + more > most_shaped) {
        bounded_ = true;
        continue;
      }
      c.tried = &trials_.of(asking_[i], c.panels);
    }
  }
}

int DivisionSearch::setups(const std::vector<int>& choice) const {
  std::set<int> all;
  const auto add = [&](const std::vector<int>& types) {
    for (int t : types) all.insert(moulds_ ? trials_.mould_of(t) : t);
  };
  add(fixed_types_);
  for (std::size_t i = 0; i < choice.size(); ++i)
    if (const Tried* t = choices_[i][static_cast<std::size_t>(choice[i])].tried) add(t->types);
  return static_cast<int>(all.size());
}

Score DivisionSearch::score(const std::vector<int>& choice) const {
  Score s;
  s.setups = setups(choice);
  s.choice = choice;
  for (std::size_t i = 0; i < choice.size(); ++i) {
    const SpanChoice& c = choices_[i][static_cast<std::size_t>(choice[i])];
    s.panels += static_cast<int>(c.panels.size());
    s.deviation += c.deviation;
  }
  return s;
}

/// From one division of the whole deck, one span after the other to its best choice, until no
/// change of a single span helps.
void DivisionSearch::improve(Whole w) {
  for (std::size_t i = 0; i < w.choice.size(); ++i)
    for (int k = 0; !usable(i, w.choice[i]); ++k) {
      if (k == static_cast<int>(choices_[i].size())) return;
      if (usable(i, k)) w.choice[i] = k;
    }
  Score now = score(w.choice);
  constexpr int most_passes = 3;
  for (int pass = 0, changed = 1; pass < most_passes && changed > 0; ++pass) {
    changed = 0;
    for (std::size_t i = 0; i < w.choice.size(); ++i)
      for (int k = 0; k < static_cast<int>(choices_[i].size()); ++k) {
        std::vector<int> other = now.choice;
        other[i] = k;
        if (k == now.choice[i] || !usable(i, k)) continue;
        Score s = score(other);
        if (!(s < now)) continue;
        now = std::move(s);
        ++changed;
      }
  }
  if (!best_.choice.empty() && !(now < best_score_)) return;
  best_score_ = now;
  best_ = {w.name, now.choice};
}

void DivisionSearch::decide() {
  shape_all();
  best_ = {};
  const std::vector<Whole> all = wholes_;
  for (const Whole& w : all) improve(w);
  // Nothing without an error: the build of the first says which.
  if (best_.choice.empty()) best_ = wholes_.front();
}

bool DivisionSearch::too_heavy(Findings& findings) const {
  for (std::size_t i = 0; i < asking_.size(); ++i) {
    const Tried* t = choices_[i][static_cast<std::size_t>(best_.choice[i])].tried;
    if (!t || !t->good || within_mass(i, *t)) continue;
    const auto mass = [&](Mass m) {
      return print_mass(m, project_.units) + (project_.units == UnitSystem::metric ? " kg" : " lb");
    };
    findings.error(
        rules_[i].rule.place, "division-too-heavy",
        fmt::format("span {}: every division found has a panel above {}; the best has one of {}",
                    project_.deck.spans[static_cast<std::size_t>(asking_[i])].name,
                    mass(*most_mass(i)), mass(t->heaviest)),
        "allow shorter panels (shortest), a greater mass (heaviest), or lighten the panels");
    return true;
  }
  return false;
}

std::vector<std::vector<Length>> DivisionSearch::panels(const Whole& w) const {
  std::vector<std::vector<Length>> out = fixed_;
  for (std::size_t i = 0; i < asking_.size(); ++i)
    out[static_cast<std::size_t>(asking_[i])] =
        choices_[i][static_cast<std::size_t>(w.choice[i])].panels;
  return out;
}

std::string DivisionSearch::bound() const {
  std::size_t n = 0;
  for (const auto& c : choices_) n += c.size();
  return fmt::format(
      "{} divisions of {} spans compared as real panels{}", n, choices_.size(),
      bounded_ ? fmt::format(", no more than {} panels of them shaped", most_shaped) : "");
}

Alternative DivisionSearch::described(const Whole& w) {
  Alternative a;
  a.name = w.name;
  a.spans = panels(w);
  a.setups = setups(w.choice);
  std::vector<std::vector<Nm>> lines;
  for (std::size_t i = 0; i < w.choice.size(); ++i)
    lines.push_back(choices_[i][static_cast<std::size_t>(w.choice[i])].lines);
  a.outlines = outlines(bridge_, rules_, lines, moulds_);
  std::set<Length> lengths;
  Mass total;
  int pieces = 0;
  for (std::size_t s = 0; s < a.spans.size(); ++s) {
    if (a.spans[s].empty()) continue;
    lengths.insert(a.spans[s].begin(), a.spans[s].end());
    const Tried& t = trials_.of(static_cast<int>(s), a.spans[s]);
    total += t.total;
    pieces += t.panels;
    a.heaviest = std::max(a.heaviest, t.heaviest);
  }
  a.panels = pieces;
  if (pieces > 0) a.mean = total / pieces;
  a.lengths = static_cast<int>(lengths.size());
  if (!lengths.empty()) a.shortest = *lengths.begin(), a.longest = *lengths.rbegin();
  return a;
}

}  // namespace deckquire
