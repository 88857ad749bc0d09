// Why there is no division, and what would have to give way.
#include <algorithm>

#include "deck/optimum_search.h"

namespace deckquire::optimum {
namespace {

/// One run that has no division, and what may be tried on it.
struct Trial {
  const Task& task;
  Piece piece;
  std::vector<Nm> candidates;

  std::vector<Nm> own() const {
    Pieces p{{piece}, {0}};
    Task t = task;
    t.runs = {{piece.origin, piece.origin + piece.length, piece.limits, piece.halved}};
    std::vector<Nm> all = candidates_of(t, p);
    all.insert(all.end(), candidates.begin(), candidates.end());
    std::sort(all.begin(), all.end());
    all.erase(std::unique(all.begin(), all.end()), all.end());
    return all;
  }
  bool divides() const {
    std::int64_t steps = 0;
    Sweep sweep(task, piece, steps);
    const std::vector<Nm> pitches = own();
    return sweep.solve(pitches) || !sweep.solve_closed(pitches).empty();
  }
};

/// The least whole number of steps, up to `most`, that makes `works` true, if any does. More never
/// does less.
template <class Works>
std::optional<Nm> least_steps(Nm most, Works works) {
  if (most < 1 || !works(most)) return std::nullopt;
  Nm no = 0, yes = most;
  while (yes - no > 1) {
    const Nm middle = no + (yes - no) / 2;
    (works(middle) ? yes : no) = middle;
  }
  return yes;
}

void try_longest(const Trial& t, std::vector<Relaxation>& out) {
  const Nm step = std::max<Nm>(1, t.piece.limits.step);
  const auto with = [&](Nm n) {
    Trial more = t;
    more.piece.limits.greatest = t.piece.limits.greatest / step * step + n * step;
    if (more.piece.limits.closing)
      more.piece.limits.closing->greatest =
          std::max(more.piece.limits.closing->greatest, more.piece.limits.greatest);
    return more.divides();
  };
  const Nm most = std::min<Nm>(t.piece.limits.greatest / step + 1, 400);
  if (const auto n = least_steps(most, with))
    out.push_back({"longest",
                   t.piece.limits.greatest / step * step + *n * step - t.piece.limits.greatest, 0});
}

void try_shortest(const Trial& t, std::vector<Relaxation>& out) {
  const Nm step = std::max<Nm>(1, t.piece.limits.step);
  const Nm top = (t.piece.limits.least + step - 1) / step * step;
  const auto with = [&](Nm n) {
    Trial less = t;
    less.piece.limits.least = top - n * step;
    if (less.piece.limits.closing)
      less.piece.limits.closing->least =
          std::min(less.piece.limits.closing->least, less.piece.limits.least);
    return less.divides();
  };
  if (const auto n = least_steps(std::min<Nm>(top / step - 1, 400), with))
    out.push_back({"shortest", t.piece.limits.least - (top - *n * step), 0});
}

/// The last line that the pitches reach, zones heeded.
Nm last_reached(const Trial& t) {
  std::vector<Nm> seen{0};
  for (std::size_t i = 0; i < seen.size(); ++i)
    for (Nm p : t.candidates) {
      const Nm x = seen[i] + p;
      if (p < t.piece.limits.least || p > t.piece.limits.greatest) continue;
      if (x >= t.piece.length || forbidden(t.piece.zones, x)) continue;
      const auto at = std::lower_bound(seen.begin(), seen.end(), x);
      if (at == seen.end() || *at != x) seen.insert(at, x);
    }
  return seen.back();
}

/// How far a line lies inside a zone.
Nm intrusion(const Zone& z, Nm at) {
  return std::min(at - z.from, z.to - at);
}

/// Each zone by itself, with all that it was merged from, less by the same at both ends.
void try_zones(const Trial& t, std::vector<Relaxation>& out) {
  const Run run{t.piece.origin, t.piece.origin + t.piece.length, t.piece.limits, t.piece.halved};
  for (const Zone& zone : t.piece.zones) {
    const Nm from = run.from + zone.from, to = run.from + zone.to;
    const auto with = [&](Nm less) {
      Task task = t.task;
      for (Zone& z : task.zones)
        if (z.from < to && z.to > from) z = {z.from + less, z.to - less, z.what};
      Trial smaller = t;
      smaller.piece.zones = local_zones(task, run);
      return smaller.divides();
    };
    if (const auto less = least_steps(zone.to - zone.from, with))
      out.push_back({zone.what, *less, from});
  }
}

/// Would lengths off the lattice do? Panels of any length within the limits reach intervals.
bool divides_freely(const Piece& p) {
  std::vector<std::pair<Nm, Nm>> here{{0, 0}};
  for (Nm n = 0; n <= p.length / std::max<Nm>(1, p.limits.least) && !here.empty(); ++n) {
    std::vector<std::pair<Nm, Nm>> wide, next;
    for (const auto& [a, b] : here) {
      const Nm low = a + p.limits.least, high = std::min(b + p.limits.greatest, p.length);
      if (low > high) continue;
      if (!wide.empty() && low <= wide.back().second)
        wide.back().second = std::max(wide.back().second, high);
      else
        wide.push_back({low, high});
    }
    for (auto [a, b] : wide) {
      for (const Zone& z : p.zones) {
        if (z.to <= a || z.from >= b) {
          if (a == b && z.from < a && a < z.to) a = b + 1;
          continue;
        }
        if (z.from >= a) next.push_back({a, z.from});
        a = std::max(a, z.to);
      }
      if (a <= b) next.push_back({a, b});
    }
    here = std::move(next);
    if (!here.empty() && here.back().second == p.length) return true;
  }
  return false;
}

void try_rest(const Trial& t, std::vector<Relaxation>& out) {
  if (!t.piece.limits.closing) {
    Trial closing = t;
    closing.piece.limits.closing = Closing{t.piece.limits.least, t.piece.limits.greatest, true};
    if (closing.divides()) out.push_back({"closing", 0, 0});
  }
  if (!t.piece.halved && divides_freely(t.piece)) out.push_back({"step", 0, 0});
  if (t.piece.halved) {
    Trial free = t;
    free.piece.halved = false;
    if (free.divides()) out.push_back({"symmetrical", 0, 0});
  }
}

std::vector<Relaxation> relaxations(const Trial& t) {
  std::vector<Relaxation> lengths, rest;
  try_longest(t, lengths);
  try_shortest(t, lengths);
  if (!t.piece.halved) try_zones(t, lengths);
  std::stable_sort(lengths.begin(), lengths.end(),
                   [](const Relaxation& a, const Relaxation& b) { return a.amount < b.amount; });
  try_rest(t, rest);
  lengths.insert(lengths.end(), rest.begin(), rest.end());
  return lengths;
}

std::optional<Infeasible> line_in_zone(const Task& task) {
  for (const Run& r : task.runs)
    for (Nm at : {r.from, r.to})
      for (const Zone& z : task.zones) {
        if (at <= z.from || at >= z.to) continue;
        const Nm by = intrusion(z, at);
        return Infeasible{
            Infeasible::Code::line_in_zone, z.from, z.to, by, 0, {z.what}, {{z.what, by, at}}};
      }
  return std::nullopt;
}

/// Where the way is lost: from the last line reached as far as a panel goes from there; the whole
/// run where that is beyond its end, for then it is the lengths that do not come out.
void locate(const Trial& t, Infeasible& why) {
  const Nm last = last_reached(t), ahead = last + t.piece.limits.greatest;
  const bool whole = ahead >= t.piece.length;
  why.from = t.piece.origin + (whole ? 0 : last);
  why.to = t.piece.origin + (whole ? t.piece.length : ahead);
  why.required = why.to - why.from;
  why.available = t.piece.limits.greatest;
  for (const Zone& z : t.piece.zones)
    if (z.to + t.piece.origin > why.from && z.from + t.piece.origin < why.to)
      why.constraints.push_back(z.what);
  why.constraints.push_back("longest");
  why.constraints.push_back("shortest");
  why.constraints.push_back("step");
}

Infeasible explained(const Trial& t) {
  const Piece& p = t.piece;
  const Limits& l = p.limits;
  const Nm longest = l.closing ? std::max(l.greatest, l.closing->greatest) : l.greatest;
  const Nm shortest = l.closing ? std::min(l.least, l.closing->least) : l.least;
  Infeasible why;
  const auto long_zone = std::find_if(p.zones.begin(), p.zones.end(), [&](const Zone& z) {
    return std::min(z.to, p.length) - std::max<Nm>(0, z.from) > longest;
  });
  if (p.length < shortest) {
    why = {Infeasible::Code::run_too_short,
           p.origin,
           p.origin + p.length,
           shortest,
           p.length,
           {"shortest"},
           {}};
  } else if (long_zone != p.zones.end()) {
    const Nm from = std::max<Nm>(0, long_zone->from), to = std::min(long_zone->to, p.length);
    why = {Infeasible::Code::zone_too_long,
           p.origin + from,
           p.origin + to,
           to - from,
           longest,
           {long_zone->what, "longest"},
           {}};
  } else {
    locate(t, why);
  }
  why.relaxations = relaxations(t);
  return why;
}

}  // namespace

std::optional<Infeasible> find_infeasible(const Task& task, const Pieces& pieces,
                                          const std::vector<Nm>& candidates) {
  if (auto why = line_in_zone(task)) return why;
  for (const Piece& p : pieces.all) {
    std::int64_t steps = 0;
    Sweep sweep(task, p, steps);
    if (sweep.solve(candidates) || !sweep.solve_closed(candidates).empty()) continue;
    return explained({task, p, candidates});
  }
  return std::nullopt;
}

}  // namespace deckquire::optimum
