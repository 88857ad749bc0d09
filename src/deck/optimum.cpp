#include "deck/optimum.h"

#include <algorithm>
#include <set>

#include "deck/optimum_search.h"

namespace deckquire::optimum {

std::vector<Nm> candidates_of(const Task& task, const Pieces& pieces) {
  std::vector<Nm> out;
  const auto add = [&](Nm p, const Limits& l) {
    if (p >= l.least && p <= l.greatest) out.push_back(p);
  };
  for (const Run& r : task.runs) {
    const Limits& l = r.limits;
    if (l.step > 0)
      for (Nm p = (l.least + l.step - 1) / l.step * l.step; p <= l.greatest; p += l.step) add(p, l);
    for (Nm p : l.stops) add(p, l);
    std::sort(out.begin(), out.end());
    out.erase(std::unique(out.begin(), out.end()), out.end());
  }
  for (const Piece& p : pieces.all) {
    if (!p.limits.divisors || p.limits.least <= 0) continue;
    for (Nm n = std::max<Nm>(1, p.length / p.limits.greatest); n <= p.length / p.limits.least; ++n)
      if (p.length % n == 0 && p.length / n % p.limits.grain == 0) add(p.length / n, p.limits);
  }
  std::sort(out.begin(), out.end());
  out.erase(std::unique(out.begin(), out.end()), out.end());
  return out;
}

Layout counted(const Task& task, std::vector<std::vector<Nm>> lines) {
  Layout l;
  std::set<std::pair<Nm, int>> types;
  for (std::size_t r = 0; r < lines.size(); ++r)
    for (std::size_t i = 1; i < lines[r].size(); ++i) {
      const Nm from = lines[r][i - 1], to = lines[r][i];
      types.insert({to - from, task.kind ? task.kind(from, to) : 0});
      l.cost += cost_of(to - from, task.runs[r].limits).times(task.runs[r].times);
    }
  l.types = static_cast<int>(types.size());
  l.lines = std::move(lines);
  return l;
}

namespace {

using Closed = Sweep::Closed;

/// A set of pitches, with the closing panels, that divides every run.
struct Found {
  Cost cost;
  std::vector<Nm> pitches;
  std::vector<std::optional<Closed>> closed;  // by piece
};

class Search {
 public:
  explicit Search(const Task& task)
      : task_(task), pieces_(pieces_of(task)), candidates_(candidates_of(task, pieces_)) {}

  const Pieces& pieces() const { return pieces_; }
  const std::vector<Nm>& candidates() const { return candidates_; }
  const std::optional<Found>& best() const { return best_; }

  /// Every layout of so many lengths. False when the work allowed has run out on the way.
  bool all_of(int types);
  Layout layout(const Found& f) const;

 private:
  bool sets(std::size_t size, std::size_t below, int closings);
  void try_set(int closings);
  void try_plain(const std::vector<Nm>& pitches);
  void try_closed(const std::vector<Nm>& pitches, int closings);
  bool may_divide(const std::vector<Nm>& pitches) const;
  bool too_many(Nm longest) const;
  void keep(Found f);
  std::vector<std::vector<Nm>> lines_of(const Found& f) const;

  /// What each piece can do with one set: without a closing panel, and with each length of one.
  struct Ways {
    std::vector<std::optional<Cost>> plain;
    std::vector<std::vector<Closed>> closed;
    const Closed* with(std::size_t piece, Nm c) const;
  };
  void close(const Ways& ways, std::vector<Nm>& chosen, int closings, Found& f);
  std::optional<Found> priced(const Ways& ways, const std::vector<Nm>& chosen) const;

  const Task& task_;
  Pieces pieces_;
  std::vector<Nm> candidates_;
  std::vector<Nm> set_;  // descending, while sets are formed
  std::optional<Found> best_;
  std::int64_t steps_ = 0;
};

bool Search::all_of(int types) {
  bool closing = false;
  for (const Piece& p : pieces_.all) closing = closing || p.limits.closing;
  for (int closings = 0; closings < types && (closings == 0 || closing); ++closings)
    if (!sets(static_cast<std::size_t>(types - closings), candidates_.size(), closings))
      return false;
  return true;
}

// Sets with the longest pitches come first: they need the fewest panels, and what needs more than
// the best found so far is not looked at.
bool Search::sets(std::size_t size, std::size_t below, int closings) {
  if (set_.size() == size) {
    try_set(closings);
    ++steps_;
    return steps_ <= task_.work;
  }
  for (std::size_t i = below; i-- > size - set_.size() - 1;) {
    if (set_.empty() && too_many(candidates_[i])) break;
    set_.push_back(candidates_[i]);
    const bool goes_on = sets(size, i, closings);
    set_.pop_back();
    if (!goes_on) return false;
  }
  return true;
}

bool Search::too_many(Nm longest) const {
  if (!best_) return false;
  std::int64_t panels = 0;
  for (const Piece& p : pieces_.all) {
    const Nm most = std::max<Nm>(1, std::min(longest, p.limits.greatest));
    std::int64_t least = (p.length + most - 1) / most;
    if (p.limits.closing) {
      const Nm rest = std::max<Nm>(0, p.length - p.limits.closing->greatest);
      least = std::min(least, (rest + most - 1) / most + 1);
    }
    panels += p.times * least;
  }
  return panels > best_->cost.panels;
}

void Search::try_set(int closings) {
  const std::vector<Nm> pitches(set_.rbegin(), set_.rend());
  if (closings == 0)
    try_plain(pitches);
  else
    try_closed(pitches, closings);
}

/// A run is a sum of pitches, so their greatest common divisor divides it.
bool Search::may_divide(const std::vector<Nm>& pitches) const {
  Nm common = 0;
  for (Nm p : pitches) common = std::gcd(common, p);
  return std::all_of(pieces_.all.begin(), pieces_.all.end(), [&](const Piece& p) {
    if (p.length % common != 0) return false;
    const Nm n = (p.length + pitches.back() - 1) / pitches.back();
    return n * pitches.front() <= p.length;
  });
}

void Search::try_plain(const std::vector<Nm>& pitches) {
  if (!may_divide(pitches)) return;
  Found f{{}, pitches, std::vector<std::optional<Closed>>(pieces_.all.size())};
  for (const Piece& p : pieces_.all) {
    Sweep sweep(task_, p, steps_);
    const auto cost = sweep.solve(pitches);
    if (!cost) return;
    f.cost += cost->times(p.times);
    if (best_ && f.cost.panels > best_->cost.panels) return;
  }
  keep(std::move(f));
}

const Closed* Search::Ways::with(std::size_t piece, Nm c) const {
  const auto& all = closed[piece];
  const auto found = std::lower_bound(all.begin(), all.end(), c,
                                      [](const Closed& a, Nm b) { return a.pitch < b; });
  return found != all.end() && found->pitch == c ? &*found : nullptr;
}

void Search::try_closed(const std::vector<Nm>& pitches, int closings) {
  Ways ways;
  bool needed = false;
  for (const Piece& p : pieces_.all) {
    Sweep sweep(task_, p, steps_);
    ways.plain.push_back(sweep.solve(pitches));
    ways.closed.push_back(sweep.solve_closed(pitches));
    if (!ways.plain.back() && ways.closed.back().empty()) return;
    needed = needed || !ways.plain.back();
  }
  if (!needed) return;  // fewer types do it
  std::vector<Nm> chosen;
  Found f{{}, pitches, {}};
  close(ways, chosen, closings, f);
}

/// The lengths of closing panels: each run that does not go without one chooses in turn.
void Search::close(const Ways& ways, std::vector<Nm>& chosen, int closings, Found& f) {
  if (steps_ > task_.work) return;
  for (std::size_t i = 0; i < pieces_.all.size(); ++i) {
    const bool done = ways.plain[i] || std::any_of(chosen.begin(), chosen.end(), [&](Nm c) {
                        return ways.with(i, c) != nullptr;
                      });
    if (done) continue;
    if (static_cast<int>(chosen.size()) == closings) return;
    for (const Closed& c : ways.closed[i]) {
      ++steps_;
      chosen.push_back(c.pitch);
      close(ways, chosen, closings, f);
      chosen.pop_back();
    }
    return;
  }
  if (auto found = priced(ways, chosen)) {
    found->pitches = f.pitches;
    keep(std::move(*found));
  }
}

std::optional<Found> Search::priced(const Ways& ways, const std::vector<Nm>& chosen) const {
  Found f;
  for (std::size_t i = 0; i < pieces_.all.size(); ++i) {
    std::optional<Cost> cost = ways.plain[i];
    std::optional<Closed> with;
    for (Nm c : chosen) {
      const Closed* closed = ways.with(i, c);
      if (!closed || (cost && *cost <= closed->cost)) continue;
      cost = closed->cost;
      with = *closed;
    }
    if (!cost) return std::nullopt;
    f.cost += cost->times(pieces_.all[i].times);
    f.closed.push_back(with);
  }
  return f;
}

void Search::keep(Found f) {
  if (best_ && best_->cost < f.cost) return;
  if (best_ && best_->cost == f.cost && lines_of(*best_) <= lines_of(f)) return;
  best_ = std::move(f);
}

std::vector<std::vector<Nm>> Search::lines_of(const Found& f) const {
  std::vector<std::vector<Nm>> of_piece;
  for (std::size_t i = 0; i < pieces_.all.size(); ++i) {
    std::int64_t steps = 0;
    Sweep sweep(task_, pieces_.all[i], steps);
    if (f.closed[i]) {
      of_piece.push_back(sweep.lines(f.pitches, *f.closed[i]));
    } else {
      sweep.solve(f.pitches);
      of_piece.push_back(sweep.lines());
    }
  }
  std::vector<std::vector<Nm>> out;
  for (std::size_t r = 0; r < task_.runs.size(); ++r) {
    out.push_back(of_piece[pieces_.piece_of[r]]);
    for (Nm& x : out.back()) x += task_.runs[r].from;
  }
  return out;
}

Layout Search::layout(const Found& f) const {
  Layout l = counted(task_, lines_of(f));
  l.cost = f.cost;
  return l;
}

/// Any division at all: every pitch may be used, in every run by itself.
Layout any_layout(const Task& task, const Pieces& pieces, const std::vector<Nm>& candidates) {
  std::vector<std::vector<Nm>> lines;
  for (std::size_t r = 0; r < task.runs.size(); ++r) {
    std::int64_t steps = 0;
    Sweep sweep(task, pieces.all[pieces.piece_of[r]], steps);
    if (sweep.solve(candidates)) {
      lines.push_back(sweep.lines());
    } else {
      const auto closed = sweep.solve_closed(candidates);
      const auto best =
          std::min_element(closed.begin(), closed.end(),
                           [](const auto& a, const auto& b) { return a.cost < b.cost; });
      lines.push_back(sweep.lines(candidates, *best));
    }
    for (Nm& x : lines.back()) x += task.runs[r].from;
  }
  return counted(task, std::move(lines));
}

constexpr int most_exact = 4;

}  // namespace

Answer fewest_types(const Task& task) {
  Search search(task);
  if (auto why = find_infeasible(task, search.pieces(), search.candidates()))
    return {std::nullopt, std::move(why)};
  int at_least = 1;
  for (bool goes_on = true; goes_on && at_least <= most_exact;) {
    goes_on = search.all_of(at_least);
    if (search.best() && !task.kind) {
      Layout l = search.layout(*search.best());
      l.proof = {at_least, true, goes_on};
      return {std::move(l), std::nullopt};
    }
    if (search.best()) break;
    if (goes_on) ++at_least;
  }
  auto found = beam_search(task, search.pieces(), search.candidates());
  Layout l = found ? std::move(*found) : any_layout(task, search.pieces(), search.candidates());
  l.proof = {at_least, l.types == at_least, false};
  return {std::move(l), std::nullopt};
}

std::optional<Layout> best_with(const Task& task, int types) {
  Search search(task);
  if (find_infeasible(task, search.pieces(), search.candidates())) return std::nullopt;
  search.all_of(types);
  if (!search.best()) return std::nullopt;
  return search.layout(*search.best());
}

std::string words(const Proof& proof, int types) {
  const std::string n = std::to_string(proof.at_least);
  if (!proof.fewest)
    return "best found with " + std::to_string(types) + " types; at least " + n + " are needed";
  const std::string none = proof.at_least == 1
                               ? "one type is the least there can be"
                               : "no layout with fewer than " + n + " types exists on this lattice";
  return proof.compared ? none : none + "; of those with " + n + " not all were compared";
}

}  // namespace deckquire::optimum
