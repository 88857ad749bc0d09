#include "deck/layouts.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <map>
#include <set>

#include "deck/panel_kinds.h"

namespace deckquire {
namespace {

using optimum::Nm;

struct Which {
  std::size_t rules, stretch;
};

/// All stretches of all spans, each handed to the part of the optimum that it is for.
class Seeker {
 public:
  Seeker(const Project& p, const Bridge& b, const std::vector<JointRules>& rules, const Recipe& how)
      : project_(p), bridge_(b), rules_(rules), how_(how) {
    for (const JointRules& r : rules_) lines_.emplace_back(r.stretches.size());
  }
  Sought seek();

 private:
  enum class Part { whole, half, mirrored };
  Part part_of(Which w) const;
  const JointStretch& the(Which w) const { return rules_[w.rules].stretches[w.stretch]; }
  const JointStretch& twin(Which w) const;
  optimum::Run run_of(Which w) const;
  bool by_beam(Which w) const;
  bool divide_constant(const std::vector<Which>& group);
  bool divide_bent(const std::vector<Which>& group);
  bool divide_taper(Which w);
  bool divide_by_features();
  bool take(const optimum::Task& task, const std::vector<Which>& group);
  bool copied_taper(Which w);
  void count_taper(Which w);
  void refuse(const std::vector<Which>& group, const optimum::Infeasible& why);
  void mirror_rest();
  int bent_kind(Nm from, Nm to);
  std::vector<optimum::Zone> zones(const std::vector<Which>& group) const;

  const Project& project_;
  const Bridge& bridge_;
  const std::vector<JointRules>& rules_;
  const Recipe& how_;
  std::vector<std::vector<std::vector<Nm>>> lines_;          // by rules, by stretch
  std::vector<Which> tapers_;                                // divided so far
  std::map<std::pair<long long, long long>, int> widening_;  // most panels of tapers alike
  std::map<std::array<Nm, 4>, int> kinds_;
  Outline found_;
  std::optional<Refused> refused_;
};

/// Of a symmetrical span the middle stretch is halved, those beyond it mirror those before.
Seeker::Part Seeker::part_of(Which w) const {
  const std::size_t n = rules_[w.rules].stretches.size();
  if (!rules_[w.rules].rule.symmetrical) return Part::whole;
  if (2 * w.stretch + 1 == n) return Part::half;
  return 2 * w.stretch + 1 > n ? Part::mirrored : Part::whole;
}

const JointStretch& Seeker::twin(Which w) const {
  const auto& all = rules_[w.rules].stretches;
  return rules_[w.rules].rule.symmetrical ? all[all.size() - 1 - w.stretch] : all[w.stretch];
}

optimum::Run Seeker::run_of(Which w) const {
  const JointStretch &s = the(w), &t = twin(w);
  optimum::Run run{s.from, s.to, s.limits, part_of(w) == Part::half, &s == &t ? 1 : 2};
  run.limits.greatest = std::min(s.limits.greatest, t.limits.greatest);
  run.limits.divisors = how_.divisors;
  run.limits.stops = how_.stops;
  if (how_.longest) run.limits.greatest = std::min(run.limits.greatest, *how_.longest);
  if (how_.preferred) run.limits.preferred = *how_.preferred;
  run.limits.preferred = std::min(run.limits.preferred, run.limits.greatest);
  return run;
}

bool Seeker::by_beam(Which w) const {
  const JointStretch::Width width = the(w).width;
  return width == JointStretch::Width::bent ||
         (width == JointStretch::Width::taper && part_of(w) == Part::half);
}

std::vector<optimum::Zone> Seeker::zones(const std::vector<Which>& group) const {
  std::vector<optimum::Zone> out;
  std::set<std::size_t> spans;
  for (Which w : group)
    if (spans.insert(w.rules).second)
      out.insert(out.end(), rules_[w.rules].zones.begin(), rules_[w.rules].zones.end());
  return out;
}

void Seeker::refuse(const std::vector<Which>& group, const optimum::Infeasible& why) {
  for (Which w : group)
    if (why.from < the(w).to && why.to > the(w).from) {
      refused_ = Refused{w.rules, w.stretch, why};
      return;
    }
  refused_ = Refused{group.front().rules, group.front().stretch, why};
}

bool Seeker::take(const optimum::Task& task, const std::vector<Which>& group) {
  std::optional<optimum::Layout> layout;
  if (how_.types > 0 && !task.kind) {
    layout = optimum::best_with(task, how_.types);
    if (!layout) return false;
  } else {
    optimum::Answer a = optimum::fewest_types(task);
    if (a.infeasible) refuse(group, *a.infeasible);
    if (!a.layout) return false;
    layout = std::move(a.layout);
  }
  for (std::size_t i = 0; i < group.size(); ++i)
    lines_[group[i].rules][group[i].stretch] = layout->lines[i];
  found_.at_least += layout->proof.at_least;
  found_.fewest = found_.fewest && layout->proof.fewest;
  found_.compared = found_.compared && layout->proof.compared;
  return true;
}

bool Seeker::divide_constant(const std::vector<Which>& group) {
  optimum::Task task;
  task.zones = zones(group);
  task.work = how_.work;
  for (Which w : group) task.runs.push_back(run_of(w));
  return take(task, group);
}

/// A number for the outline between two lines where the edges bend.
int Seeker::bent_kind(Nm from, Nm to) {
  const Length a = Length::from_nanometres(from), b = Length::from_nanometres(to);
  std::array<Nm, 4> key{
      bridge_.edges.left(a).in_nanometres(), bridge_.edges.right(a).in_nanometres(),
      bridge_.edges.left(b, false).in_nanometres(), bridge_.edges.right(b, false).in_nanometres()};
  for (Length s : bridge_.edges.breaks())
    if (s > a && s < b) key = {from, to, -1, -1};
  return kinds_.try_emplace(key, static_cast<int>(kinds_.size())).first->second;
}

bool Seeker::divide_bent(const std::vector<Which>& group) {
  optimum::Task task;
  task.zones = zones(group);
  task.work = how_.work / 4;
  for (Which w : group) task.runs.push_back(run_of(w));
  std::map<std::pair<Nm, Nm>, int> known;
  task.kind = [&](Nm from, Nm to) {
    const auto [at, fresh] = known.try_emplace({from, to}, 0);
    if (fresh) at->second = bent_kind(from, to);
    return at->second;
  };
  return take(task, group);
}

/// The joints of a taper like this one, turned about where this one runs the other way.
bool Seeker::copied_taper(Which w) {
  const JointStretch& s = the(w);
  for (Which o : tapers_) {
    const JointStretch& t = the(o);
    if (t.to - t.from != s.to - s.from) continue;
    const auto pair = [](Length a, Length b) { return std::minmax(a, b); };
    const bool back = pair(s.left_from, s.right_from) == pair(t.left_to, t.right_to) &&
                      pair(s.left_to, s.right_to) == pair(t.left_from, t.right_from);
    const bool same = pair(s.left_from, s.right_from) == pair(t.left_from, t.right_from) &&
                      pair(s.left_to, s.right_to) == pair(t.left_to, t.right_to);
    if (!back && !same) continue;
    std::vector<Nm> lines = lines_[o.rules][o.stretch];
    for (Nm& x : lines) x = same ? x - t.from + s.from : s.to - (x - t.from);
    std::sort(lines.begin(), lines.end());
    const auto& z = rules_[w.rules].zones;
    if (std::any_of(lines.begin() + 1, lines.end() - 1,
                    [&](Nm x) { return optimum::forbidden(z, x); }))
      continue;
    lines_[w.rules][w.stretch] = std::move(lines);
    return true;
  }
  return false;
}

/// Panels of one taper all differ; those of two may be alike only where both widen alike, as they
/// lie or turned end for end (or mirrored, where moulds are counted).
void Seeker::count_taper(Which w) {
  const JointStretch& s = the(w);
  const auto rate = [&](Length a, Length b) {
    return std::llround((b - a) / Length::from_nanometres(s.to - s.from) * 1e6);
  };
  using Rates = std::pair<long long, long long>;
  const Rates here{rate(s.left_from, s.left_to), rate(s.right_from, s.right_to)};
  const auto turned = [](Rates r) { return Rates{-r.second, -r.first}; };
  const auto mirrored = [](Rates r) { return Rates{r.second, r.first}; };
  Rates key = std::min(here, turned(here));
  if (rules_[w.rules].rule.moulds) key = std::min({key, mirrored(here), mirrored(turned(here))});
  int& most = widening_[key];
  const int panels = static_cast<int>(lines_[w.rules][w.stretch].size()) - 1;
  found_.at_least += std::max(0, panels - most);
  most = std::max(most, panels);
}

bool Seeker::divide_taper(Which w) {
  if (copied_taper(w)) {
    count_taper(w);
    return true;
  }
  const JointStretch& s = the(w);
  const BareMass mass =
      bare_mass(project_, bridge_, Length::from_nanometres(s.from), Length::from_nanometres(s.to));
  optimum::Taper taper;
  taper.run = run_of(w);
  taper.zones = rules_[w.rules].zones;
  taper.load = [&](Nm from, Nm to) {
    const Length a = Length::from_nanometres(from), b = Length::from_nanometres(to);
    return std::llround(mass.of((b - a).in_mm(), deck_area(bridge_, a, b)).in_si() * 1000);
  };
  if (s.most) taper.most = std::llround(s.most->in_si() * 1000);
  const auto layout = optimum::spread(taper);
  if (!layout) {
    // Without the mass the optimum says what is wrong; with it only, the mass is.
    optimum::Task task;
    task.zones = taper.zones;
    task.runs = {taper.run};
    optimum::Answer a = optimum::fewest_types(task);
    optimum::Infeasible why{
        optimum::Infeasible::Code::no_lines, s.from, s.to, s.to - s.from, s.limits.greatest,
        {s.most ? s.most_by : "step"},       {}};
    refuse({w}, a.infeasible ? *a.infeasible : why);
    return false;
  }
  lines_[w.rules][w.stretch] = layout->lines;
  tapers_.push_back(w);
  count_taper(w);
  return true;
}

/// All stretches as one row of runs, panels told apart by what lies on them.
bool Seeker::divide_by_features() {
  PanelKinds kinds(
      project_, bridge_, rules_,
      std::all_of(rules_.begin(), rules_.end(), [](const JointRules& r) { return r.rule.moulds; }));
  optimum::Task task;
  task.kind = [&](Nm from, Nm to) { return kinds.of(from, to); };
  task.work = how_.work;
  std::vector<Which> group;
  Nm length = 0;
  for (std::size_t r = 0; r < rules_.size(); ++r) {
    if (rules_[r].rule.symmetrical && rules_[r].stretches.size() > 1) return false;
    for (std::size_t i = 0; i < rules_[r].stretches.size(); ++i) {
      group.push_back({r, i});
      task.runs.push_back(run_of({r, i}));
      task.runs.back().limits.step = 0;
      length += task.runs.back().to - task.runs.back().from;
    }
  }
  // The work of the beam is as the deck's length times the labels kept.
  const Nm labels = metres(6000).in_nanometres() / std::max<Nm>(1, length);
  task.labels = static_cast<std::size_t>(std::clamp<Nm>(labels, 4, 60));
  task.zones = zones(group);
  return take(task, group);
}

void Seeker::mirror_rest() {
  for (std::size_t r = 0; r < rules_.size(); ++r)
    for (std::size_t i = 0; i < lines_[r].size(); ++i) {
      if (part_of({r, i}) != Part::mirrored) continue;
      std::vector<Nm> lines = lines_[r][lines_[r].size() - 1 - i];
      for (Nm& x : lines) x = rules_[r].first + rules_[r].last - x;
      std::sort(lines.begin(), lines.end());
      lines_[r][i] = std::move(lines);
    }
}

Sought Seeker::seek() {
  // Panels of equal pitch and width differ with the wearing surface; a half-turn swaps the sides.
  std::map<std::tuple<Length, Length, int>, std::vector<Which>> constant;
  std::vector<Which> tapers, bent;
  for (std::size_t r = 0; r < rules_.size(); ++r)
    for (std::size_t i = 0; i < rules_[r].stretches.size(); ++i) {
      const Which w{r, i};
      const JointStretch& s = the(w);
      if (part_of(w) == Part::mirrored) continue;
      if (by_beam(w))
        bent.push_back(w);
      else if (s.width == JointStretch::Width::taper)
        tapers.push_back(w);
      else
        constant[{std::min(s.left_from, s.right_from), std::max(s.left_from, s.right_from),
                  s.surface}]
            .push_back(w);
    }
  bool good = true;
  if (how_.features) {
    good = divide_by_features();
    constant.clear();
    tapers.clear();
    bent.clear();
  }
  for (const auto& [width, group] : constant) good = good && divide_constant(group);
  for (Which w : tapers) good = good && divide_taper(w);
  if (good && !bent.empty()) good = divide_bent(bent);
  if (!good) return {std::nullopt, refused_};
  mirror_rest();
  for (const auto& span : lines_) {
    found_.lines.emplace_back();
    for (const auto& stretch : span)
      found_.lines.back().insert(found_.lines.back().end(), stretch.begin(), stretch.end());
    auto& all = found_.lines.back();
    all.erase(std::unique(all.begin(), all.end()), all.end());
  }
  return {std::move(found_), std::nullopt};
}

/// Edges at both ends, length, what bends between and the surface: canonical under a half-turn.
using Key = std::vector<Nm>;

Key mirrored(const Key& k) {  // length, surface, then (x, left, right) from back to ahead
  Key out = k;
  for (std::size_t i = 2; i < out.size(); i += 3) std::swap(out[i + 1], out[i + 2]);
  return out;
}

Key turned(const Key& k) {
  Key out{k[0], k[1]};
  for (std::size_t i = k.size(); i > 2; i -= 3) {
    out.push_back(k[0] - k[i - 3]);
    out.push_back(k[i - 1]);
    out.push_back(k[i - 2]);
  }
  return out;
}

Key key_of(const Bridge& bridge, Nm from, Nm to, int surface) {
  const Length a = Length::from_nanometres(from), b = Length::from_nanometres(to);
  Key k{to - from, surface};
  const auto add = [&](Length s, bool ahead) {
    k.push_back(s.in_nanometres() - from);
    k.push_back(bridge.edges.left(s, ahead).in_nanometres());
    k.push_back(bridge.edges.right(s, ahead).in_nanometres());
  };
  add(a, true);
  for (Length s : bridge.edges.breaks())
    if (s > a && s < b) add(s, true);
  add(b, false);
  return k;
}

}  // namespace

Sought seek(const Project& project, const Bridge& bridge, const std::vector<JointRules>& rules,
            const Recipe& recipe) {
  return Seeker(project, bridge, rules, recipe).seek();
}

int outlines(const Bridge& bridge, const std::vector<JointRules>& rules,
             const std::vector<std::vector<Nm>>& lines, bool moulds) {
  std::set<Key> keys;
  for (std::size_t r = 0; r < rules.size(); ++r)
    for (std::size_t i = 1; i < lines[r].size(); ++i) {
      const Nm from = lines[r][i - 1], to = lines[r][i];
      int surface = -1;
      for (const JointStretch& s : rules[r].stretches)
        if (s.from <= from && to <= s.to) surface = s.surface;
      const Key k = key_of(bridge, from, to, surface);
      Key least = std::min(k, turned(k));
      if (moulds) least = std::min({least, mirrored(k), mirrored(turned(k))});
      keys.insert(std::move(least));
    }
  return static_cast<int>(keys.size());
}

}  // namespace deckquire
