#include "deck/spread.h"

#include <algorithm>
#include <cmath>
#include <deque>
#include <limits>

namespace deckquire {
namespace {

using Places = std::vector<std::int64_t>;

std::int64_t modulo(std::int64_t a, std::int64_t b) {
  return (a % b + b) % b;
}

/// Squares first, then distance from the middle.
struct Cost {
  std::int64_t squares = 0, off_middle = 0;
  auto operator<=>(const Cost&) const = default;
};

/// Where one thing may stand at all: within reach, and near enough to what stands already.
Stretch window_of(const Spreading& t, std::size_t thing) {
  Stretch w{t.ideals[thing] - t.reach, t.ideals[thing] + t.reach};
  if (thing == 0 && t.before) {
    w.from = std::max(w.from, *t.before + t.least);
    w.to = std::min(w.to, *t.before + t.greatest);
  }
  if (thing + 1 == t.ideals.size() && t.after) {
    w.from = std::max(w.from, *t.after - t.greatest);
    w.to = std::min(w.to, *t.after - t.least);
  }
  return w;
}

/// Places that one thing may try, ascending.
Places candidates(const Spreading& t, std::size_t thing) {
  Places out;
  const std::int64_t ideal = t.ideals[thing];
  const Stretch window = window_of(t, thing);
  const std::vector<Stretch>& allowed = t.own.empty() ? t.allowed : t.own[thing];
  auto a = std::partition_point(allowed.begin(), allowed.end(),
                                [&](const Stretch& s) { return s.to < window.from; });
  for (; a != allowed.end() && a->from <= window.to; ++a) {
    const std::int64_t from = std::max(a->from, window.from), to = std::min(a->to, window.to);
    if (from > to) continue;
    if (!t.whole_steps) out.push_back(from);
    std::int64_t first = from + modulo(ideal - from, t.step);
    if (!t.whole_steps && first == from) first += t.step;
    for (std::int64_t at = first; at < to; at += t.step) out.push_back(at);
    const bool last = modulo(to - ideal, t.step) == 0;
    if (t.whole_steps ? last : to > from) out.push_back(to);
  }
  return out;
}

/// One thing's candidates, and for each the least cost of all things from this one to the last.
struct Stage {
  Places at;
  std::vector<Cost> cost;
  std::vector<int> next;  // index in the next stage, -1: none keeps the rules
};

Cost own_cost(const Spreading& t, std::size_t thing, std::int64_t at) {
  const std::int64_t off = at - t.ideals[thing];
  return {off * off, std::abs(at - t.middle)};
}

/// Costs of a stage from those of the one ahead of it: a sliding minimum over [at + least, at +
/// greatest], of equal ones the lower place.
void link(const Spreading& t, Stage& stage, const Stage& ahead) {
  std::deque<int> window;
  std::size_t entered = 0;
  for (std::size_t i = 0; i < stage.at.size(); ++i) {
    const std::int64_t low = stage.at[i] + t.least, high = stage.at[i] + t.greatest;
    for (; entered < ahead.at.size() && ahead.at[entered] <= high; ++entered) {
      if (!ahead.next.empty() && ahead.next[entered] < 0) continue;
      while (!window.empty() &&
             ahead.cost[static_cast<std::size_t>(window.back())] > ahead.cost[entered])
        window.pop_back();
      window.push_back(static_cast<int>(entered));
    }
    while (!window.empty() && ahead.at[static_cast<std::size_t>(window.front())] < low)
      window.pop_front();
    stage.next[i] = window.empty() ? -1 : window.front();
    if (window.empty()) continue;
    const Cost& rest = ahead.cost[static_cast<std::size_t>(window.front())];
    stage.cost[i].squares += rest.squares;
    stage.cost[i].off_middle += rest.off_middle;
  }
}

/// Index of the cheapest candidate that keeps the rules, -1 none.
int cheapest(const Stage& stage) {
  int best = -1;
  for (std::size_t i = 0; i < stage.at.size(); ++i) {
    if (!stage.next.empty() && stage.next[i] < 0) continue;
    if (best < 0 || stage.cost[i] < stage.cost[static_cast<std::size_t>(best)])
      best = static_cast<int>(i);
  }
  return best;
}

Stage stage_of(const Spreading& t, std::size_t thing) {
  Stage s;
  s.at = candidates(t, thing);
  for (std::int64_t at : s.at) s.cost.push_back(own_cost(t, thing, at));
  return s;
}

/// Every ideal place is allowed, and they keep the rules: nothing costs less.
bool ideals_do(const Spreading& t) {
  for (std::size_t i = 0; i < t.ideals.size(); ++i) {
    const std::int64_t at = t.ideals[i];
    const Stretch window = window_of(t, i);
    if (at < window.from || at > window.to) return false;
    const std::vector<Stretch>& allowed = t.own.empty() ? t.allowed : t.own[i];
    const auto a = std::partition_point(allowed.begin(), allowed.end(),
                                        [&](const Stretch& s) { return s.to < at; });
    if (a == allowed.end() || a->from > at) return false;
    if (i == 0) continue;
    const std::int64_t apart = at - t.ideals[i - 1];
    if (apart < t.least || apart > t.greatest) return false;
  }
  return true;
}

}  // namespace

std::vector<Stretch> allowed_between(Stretch whole, std::vector<Stretch> forbidden) {
  std::sort(forbidden.begin(), forbidden.end(), [](const Stretch& a, const Stretch& b) {
    return a.from != b.from ? a.from < b.from : a.to < b.to;
  });
  std::vector<Stretch> out;
  std::int64_t at = whole.from;
  for (const Stretch& f : forbidden) {
    if (f.to <= f.from || f.to <= at) continue;
    if (f.from > whole.to) break;
    if (f.from >= at) out.push_back({at, f.from});
    at = f.to;
  }
  if (at <= whole.to) out.push_back({at, whole.to});
  return out;
}

std::optional<std::int64_t> nearest_allowed(const std::vector<Stretch>& allowed, std::int64_t at) {
  std::optional<std::int64_t> best;
  for (const Stretch& a : allowed) {
    const std::int64_t place = std::clamp(at, a.from, a.to);
    if (!best || std::abs(place - at) < std::abs(*best - at)) best = place;
  }
  return best;
}

std::optional<std::vector<std::int64_t>> spread_evenly(const Spreading& task) {
  if (ideals_do(task)) return task.ideals;
  const std::size_t k = task.ideals.size();
  std::vector<Stage> stages(k);
  for (std::size_t i = k; i-- > 0;) {
    stages[i] = stage_of(task, i);
    if (i + 1 == k) continue;
    stages[i].next.assign(stages[i].at.size(), -1);
    link(task, stages[i], stages[i + 1]);
  }
  Places out;
  if (k == 0) return out;
  int at = cheapest(stages[0]);
  for (std::size_t i = 0; i < k; ++i) {
    if (at < 0) return std::nullopt;
    const auto index = static_cast<std::size_t>(at);
    out.push_back(stages[i].at[index]);
    at = stages[i].next.empty() ? 0 : stages[i].next[index];
  }
  return out;
}

std::vector<std::int64_t> even_places(Stretch between, int count) {
  const std::int64_t span = between.to - between.from;
  if (count == 1) return {between.from + span / 2};
  Places out;
  const std::int64_t bays = count - 1;
  for (std::int64_t i = 0; i < count; ++i) {
    const bool mirrored = 2 * i > bays;
    const std::int64_t n = mirrored ? bays - i : i;
    const std::int64_t off = (2 * span * n + bays) / (2 * bays);
    out.push_back(mirrored ? between.to - off : between.from + off);
  }
  return out;
}

int count_for(Stretch between, std::int64_t greatest) {
  const std::int64_t span = between.to - between.from;
  if (span <= 0) return 1;
  return static_cast<int>((span + greatest - 1) / greatest) + 1;
}

std::vector<std::int64_t> half_bays(const std::vector<std::int64_t>& joint_lines,
                                    std::int64_t greatest) {
  Places out;
  for (std::size_t i = 1; i < joint_lines.size(); ++i) {
    const std::int64_t pitch = joint_lines[i] - joint_lines[i - 1];
    const std::int64_t k = (pitch + greatest - 1) / greatest;
    for (std::int64_t j = 0; j < k; ++j)
      out.push_back(joint_lines[i - 1] + (2 * pitch * (2 * j + 1) + 2 * k) / (4 * k));
  }
  return out;
}

std::vector<Stretch> free_phases(const std::vector<Stretch>& forbidden, std::int64_t spacing) {
  std::vector<Stretch> arcs;
  for (const Stretch& f : forbidden) {
    const std::int64_t from = modulo(f.from, spacing), length = f.to - f.from;
    // The open arc, and the part of it that comes round again at the circle's beginning.
    arcs.push_back({from, from + length});
    arcs.push_back({from - spacing, from - spacing + length});
  }
  return allowed_between({0, spacing - 1}, arcs);
}

std::optional<std::int64_t> nearest_phase(const std::vector<Stretch>& free, std::int64_t wish,
                                          std::int64_t spacing) {
  std::optional<std::int64_t> best;
  std::int64_t least = 0;
  const std::int64_t at = modulo(wish, spacing);
  for (const Stretch& f : free)
    for (std::int64_t round : {std::int64_t{0}, -spacing, spacing}) {
      const std::int64_t phase = std::clamp(at + round, f.from, f.to);
      const std::int64_t off = std::abs(phase - at - round);
      if (best && off >= least) continue;
      best = phase;
      least = off;
    }
  return best;
}

GutterPlaces furthest_places(const Gutter& gutter) {
  GutterPlaces out;
  std::int64_t last = gutter.run.from;
  double& carried = out.carried = gutter.carried;
  while (true) {
    const std::int64_t furthest = gutter.furthest(last, carried);
    if (furthest >= gutter.run.to) return out;
    const auto place = gutter.stand(last, furthest);
    if (!place || *place <= last) {
      out.dry_of_places = Stretch{last, furthest};
      return out;
    }
    const double arriving = carried + gutter.flow(last, *place);
    carried = gutter.passes ? gutter.passes(*place, arriving) : arriving * (1 - gutter.caught);
    out.places.push_back(*place);
    last = *place;
  }
}

double best_overhang(int lines) {
  if (lines <= 2) return (std::sqrt(2.0) - 1) / 2;
  // Supports at equal spans l with overhangs a: equal moments ask l = a sqrt 6 (three moments).
  return 1 / (2 + (lines - 1) * std::sqrt(6.0));
}

}  // namespace deckquire
