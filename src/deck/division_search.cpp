#include "deck/division_search.h"

#include <fmt/format.h>

#include <algorithm>
#include <numeric>
#include <set>

#include "base/text.h"

namespace deckquire {

using optimum::Nm;

DivisionSearch::DivisionSearch(const Project& project, const Bridge& bridge,
                               const std::vector<SpanFrame>& frames, std::vector<int> asking,
                               std::vector<std::vector<Length>> fixed)
    : project_(project),
      bridge_(bridge),
      frames_(frames),
      asking_(std::move(asking)),
      fixed_(std::move(fixed)),
      choices_(asking_.size()),
      trials_(project, bridge, frames) {
  moulds_ = std::all_of(asking_.begin(), asking_.end(), [&](int s) {
    return project.deck.spans[static_cast<std::size_t>(s)].rule->moulds;
  });
}

bool DivisionSearch::seek(Findings& findings) {
  // A limit of mass is kept by an estimate of bare panels first; what the features then weigh more
  // is taken off the limit, and all is sought again.
  Mass allowance;
  for (int round = 0; round < 3; ++round) {
    if (!find_layouts(allowance, findings)) return false;
    decide();
    Mass excess;
    for (std::size_t i = 0; i < asking_.size(); ++i) {
      const auto most = most_mass(i);
      if (!most || best_.choice.empty()) continue;
      const Tried* t = choices_[i][static_cast<std::size_t>(best_.choice[i])].tried;
      if (t && t->heaviest > *most) excess = std::max(excess, t->heaviest - *most);
    }
    if (excess <= Mass()) return true;
    allowance += excess;
  }
  return true;
}

bool DivisionSearch::find_layouts(Mass allowance, Findings& findings) {
  rules_.clear();
  wholes_.clear();
  best_ = {};
  for (auto& c : choices_) c.clear();
  for (int span : asking_)
    rules_.push_back(
        joint_rules(project_, bridge_, frames_[static_cast<std::size_t>(span)], span, allowance));
  const Sought first = deckquire::seek(project_, bridge_, rules_, {"fewest lengths"});
  if (!first.outline) {
    if (!first.refused) return false;
    const JointRules& r = rules_[first.refused->rules];
    refused_span_ = r.span;
    report_refused(project_, r, *first.refused, findings);
    return false;
  }
  at_least_ = first.outline->at_least;
  proven_ = first.outline->fewest;
  add_outline("fewest lengths", *first.outline);
  add_recipes();
  add_equal();
  return true;
}

int DivisionSearch::index_of(std::size_t asking, const std::vector<Nm>& lines) {
  auto& all = choices_[asking];
  for (std::size_t i = 0; i < all.size(); ++i)
    if (all[i].lines == lines) return static_cast<int>(i);
  SpanChoice c{lines, rules_[asking].panels(lines), 0, nullptr};
  for (Length p : c.panels) c.deviation += abs(p - rules_[asking].rule.preferred).in_nanometres();
  all.push_back(std::move(c));
  return static_cast<int>(all.size()) - 1;
}

void DivisionSearch::add_outline(const std::string& name, const Outline& o) {
  Whole w{name, {}};
  for (std::size_t i = 0; i < asking_.size(); ++i) w.choice.push_back(index_of(i, o.lines[i]));
  wholes_.push_back(w);
  // The same laid from the other end, where the rules allow it.
  Whole back{name + ", from the other end", {}};
  bool other = false;
  for (std::size_t i = 0; i < asking_.size(); ++i) {
    std::vector<Nm> lines = o.lines[i];
    for (Nm& x : lines) x = rules_[i].first + rules_[i].last - x;
    std::reverse(lines.begin(), lines.end());
    const bool may = lines != o.lines[i] && rules_[i].heeded_by(lines);
    other = other || may;
    back.choice.push_back(may ? index_of(i, lines) : w.choice[i]);
  }
  if (other) wholes_.push_back(std::move(back));
}

/// Pitches that divide the distance of features of one kind, so that what lies in one panel lies
/// alike in another: those that divide the most distances first.
std::vector<Nm> DivisionSearch::feature_pitches() const {
  std::vector<std::vector<Length>> rows;
  for (const Splice& s : bridge_.splices) {
    const auto girder = static_cast<std::size_t>(s.girder);
    if (rows.size() <= girder) rows.resize(girder + 1);
    rows[girder].push_back(s.station);
  }
  for (CurbSides side : {CurbSides::left, CurbSides::right}) {
    rows.emplace_back();
    if (project_.deck.scuppers)
      for (const ScupperData& s : project_.deck.scuppers->scuppers)
        if (s.side == side) rows.back().push_back(s.station);
  }
  std::map<Nm, int> worth;
  const Nm grain = print_unit(project_.units).in_nanometres();
  for (auto& row : rows) {
    std::sort(row.begin(), row.end());
    for (std::size_t i = 1; i < row.size(); ++i) {
      const Nm apart = (row[i] - row[i - 1]).in_nanometres();
      std::set<Nm> pitches;
      for (const JointRules& r : rules_)
        for (const JointStretch& s : r.stretches)
          for (Nm n = std::max<Nm>(1, apart / s.limits.greatest);
               s.limits.least > 0 && n <= apart / s.limits.least; ++n)
            if (apart % (n * grain) == 0 && apart / n <= s.limits.greatest)
              pitches.insert(apart / n);
      for (Nm p : pitches) ++worth[p];
    }
  }
  std::vector<Nm> out;
  for (const auto& [p, n] : worth) out.push_back(p);
  std::stable_sort(out.begin(), out.end(), [&](Nm a, Nm b) {
    return worth.at(a) != worth.at(b) ? worth.at(a) > worth.at(b) : a > b;
  });
  if (out.size() > 4) out.resize(4);
  return out;
}

std::vector<Recipe> DivisionSearch::recipes() const {
  std::vector<Recipe> out;
  Recipe plain{"whole steps only"};
  plain.divisors = false;
  out.push_back(plain);
  for (int types : {1, 2, 3}) {
    Recipe r{fmt::format("{} length{}", types, types == 1 ? "" : "s")};
    r.types = types;
    r.work = 2'000'000;
    out.push_back(r);
  }
  for (Nm p : feature_pitches()) {
    Recipe r{"pitch " + print_length(Length::from_nanometres(p), project_.units) +
             ", which divides distances of features"};
    r.stops = {p};
    r.longest = p;
    r.preferred = p;
    r.work = 2'000'000;
    out.push_back(r);
    r.name += ", 2 lengths";
    r.types = 2;
    out.push_back(r);
  }
  return out;
}

void DivisionSearch::add_recipes() {
  for (const Recipe& how : recipes())
    if (const Sought s = deckquire::seek(project_, bridge_, rules_, how); s.outline)
      add_outline(how.name, *s.outline);
  add_by_features();
  if (asking_.size() < 2) return;
  // Each span by itself.
  Outline own;
  for (std::size_t i = 0; i < rules_.size(); ++i) {
    const Sought s = deckquire::seek(project_, bridge_, {rules_[i]}, {"own"});
    if (!s.outline) return;
    own.lines.push_back(s.outline->lines[0]);
  }
  add_outline("each span by itself", own);
}

/// With the pitches of what was found so far, and those that divide distances of features, in the
/// order that lets most panels be alike with all that lies on them.
void DivisionSearch::add_by_features() {
  std::map<Nm, int> used;
  for (const auto& choices : choices_)
    for (const SpanChoice& c : choices)
      for (std::size_t i = 1; i < c.lines.size(); ++i) ++used[c.lines[i] - c.lines[i - 1]];
  std::vector<Nm> pitches;
  for (const auto& [p, n] : used) pitches.push_back(p);
  std::stable_sort(pitches.begin(), pitches.end(), [&](Nm a, Nm b) {
    return used.at(a) != used.at(b) ? used.at(a) > used.at(b) : a > b;
  });
  if (pitches.size() > 8) pitches.resize(8);
  for (Nm p : feature_pitches()) pitches.push_back(p);
  Recipe how{"by features"};
  how.features = true;
  how.stops = pitches;
  how.work = 500'000;
  if (const Sought s = deckquire::seek(project_, bridge_, rules_, how); s.outline)
    add_outline(how.name, *s.outline);
}

/// Equal panels, by the longest and one more; only where they keep the rules.
void DivisionSearch::add_equal() {
  for (int more : {0, 1}) {
    Whole w{more == 0 ? "equal, by longest" : "equal, one panel more", {}};
    for (std::size_t i = 0; i < asking_.size(); ++i) {
      const SpanData& s = project_.deck.spans[static_cast<std::size_t>(asking_[i])];
      const JointRules& r = rules_[i];
      const Nm pitch = (*r.rule.longest + r.frame.gap).in_nanometres();
      const Nm count = (r.last - r.first + pitch - 1) / pitch + more;
      const auto panels = equal_lengths(project_, r.frame, s.to - s.from, count, r.rule.longest);
      const auto lines = r.lines(panels);
      if (panels.empty() || !r.heeded_by(lines)) break;
      w.choice.push_back(index_of(i, lines));
    }
    if (w.choice.size() == asking_.size()) wholes_.push_back(std::move(w));
  }
}

void DivisionSearch::add(const std::string& name, const std::vector<std::vector<Length>>& spans,
                         bool anyway) {
  Whole w{name, {}};
  for (std::size_t i = 0; i < asking_.size(); ++i) {
    const auto& panels = spans[static_cast<std::size_t>(asking_[i])];
    const auto lines = rules_[i].lines(panels);
    if (panels.empty() || (!anyway && !rules_[i].heeded_by(lines))) return;
    w.choice.push_back(index_of(i, lines));
  }
  wholes_.push_back(std::move(w));
}

}  // namespace deckquire
