#include "deck/optimum_sweep.h"

#include <algorithm>

namespace deckquire::optimum {

Cost& Cost::operator+=(const Cost& b) {
  panels += b.panels;
  deviation += b.deviation;
  squares += b.squares;
  closing += b.closing;
  return *this;
}

Cost Cost::times(std::int64_t n) const {
  return {panels * n, deviation * n, squares * n, closing * n};
}

Cost cost_of(Nm pitch, const Limits& limits) {
  const Nm off = pitch < limits.preferred ? limits.preferred - pitch : pitch - limits.preferred;
  return {1, off, static_cast<Wide>(off) * off, 0};
}

bool forbidden(const std::vector<Zone>& zones, Nm at) {
  return std::any_of(zones.begin(), zones.end(),
                     [&](const Zone& z) { return z.from < at && at < z.to; });
}

namespace {

void merge(std::vector<Zone>& zones) {
  std::stable_sort(zones.begin(), zones.end(), [](const Zone& a, const Zone& b) {
    return a.from != b.from ? a.from < b.from : a.to < b.to;
  });
  std::vector<Zone> out;
  for (Zone& z : zones) {
    // Two that only touch leave the line between them.
    if (out.empty() || z.from >= out.back().to) {
      out.push_back(std::move(z));
      continue;
    }
    out.back().to = std::max(out.back().to, z.to);
    if (out.back().what.find(z.what) == std::string::npos) out.back().what += " + " + z.what;
  }
  zones = std::move(out);
}

bool same_zones(const std::vector<Zone>& a, const std::vector<Zone>& b) {
  return std::equal(a.begin(), a.end(), b.begin(), b.end(),
                    [](const Zone& x, const Zone& y) { return x.from == y.from && x.to == y.to; });
}

bool same_limits(const Limits& a, const Limits& b) {
  const bool closing = a.closing.has_value() == b.closing.has_value() &&
                       (!a.closing || (a.closing->least == b.closing->least &&
                                       a.closing->greatest == b.closing->greatest &&
                                       a.closing->inside == b.closing->inside));
  return closing && a.least == b.least && a.greatest == b.greatest && a.step == b.step &&
         a.stops == b.stops && a.divisors == b.divisors && a.grain == b.grain &&
         a.preferred == b.preferred;
}

}  // namespace

std::vector<Zone> local_zones(const Task& task, const Run& run) {
  const Nm length = run.to - run.from;
  std::vector<Zone> zones;
  for (const Zone& z : task.zones) {
    if (z.to <= run.from || z.from >= run.to || z.to <= z.from) continue;
    zones.push_back({z.from - run.from, z.to - run.from, z.what});
    if (run.symmetrical) zones.push_back({run.to - z.to, run.to - z.from, z.what});
  }
  merge(zones);
  for (Zone& z : zones) z = {std::max<Nm>(z.from, -1), std::min(z.to, length + 1), z.what};
  return zones;
}

Pieces pieces_of(const Task& task) {
  Pieces p;
  for (const Run& r : task.runs) {
    Piece here{r.from, r.to - r.from, local_zones(task, r), r.limits, r.symmetrical, r.times};
    const auto twin = std::find_if(p.all.begin(), p.all.end(), [&](const Piece& q) {
      return !task.admissible && !task.kind && q.length == here.length && q.halved == here.halved &&
             same_limits(q.limits, here.limits) && same_zones(q.zones, here.zones);
    });
    p.piece_of.push_back(static_cast<std::size_t>(twin - p.all.begin()));
    if (twin == p.all.end())
      p.all.push_back(std::move(here));
    else
      twin->times += r.times;
  }
  return p;
}

std::vector<Nm> Sweep::allowed(const std::vector<Nm>& pitches) const {
  std::vector<Nm> out;
  for (Nm p : pitches)
    if (p >= piece_.limits.least && p <= piece_.limits.greatest) out.push_back(p);
  return out;
}

// Lines come in order: each pitch has a pointer to the line it goes on from next, and the nearest
// of the lines so reached is the next one. No lattice is needed, and none is visited in vain.
Sweep::Reach Sweep::reach(const std::vector<Nm>& pitches, Nm length, bool mirrored) const {
  const std::size_t t = pitches.size();
  Reach r{{0}, {Cost{}}, std::vector<int>(t, -1)};
  std::vector<std::size_t> from(t, 0);
  std::vector<Cost> each;
  for (Nm p : pitches) each.push_back(cost_of(p, piece_.limits));
  const auto& zones = piece_.zones;
  const std::size_t n = zones.size();
  std::size_t z = 0;
  const auto blocked = [&](Nm at) {
    const auto low = [&](std::size_t i) {
      return mirrored ? piece_.length - zones[n - 1 - i].to : zones[i].from;
    };
    const auto high = [&](std::size_t i) {
      return mirrored ? piece_.length - zones[n - 1 - i].from : zones[i].to;
    };
    while (z < n && high(z) <= at) ++z;
    return z < n && low(z) < at;
  };
  const auto may_stand = [&](std::size_t i, Nm to) {
    if (!task_.admissible) return true;
    return mirrored ? task_.admissible(piece_.origin + piece_.length - to,
                                       piece_.origin + piece_.length - r.at[i])
                    : task_.admissible(piece_.origin + r.at[i], piece_.origin + to);
  };
  std::vector<std::size_t> before;
  while (true) {
    Nm nearest = length + 1;
    for (std::size_t k = 0; k < t; ++k)
      if (from[k] < r.at.size()) nearest = std::min(nearest, r.at[from[k]] + pitches[k]);
    if (nearest > length) break;
    const bool out = blocked(nearest);
    std::optional<Cost> cost;
    for (std::size_t k = 0; k < t; ++k) {
      const std::size_t i = from[k];
      if (i >= r.at.size() || r.at[i] + pitches[k] != nearest) continue;
      ++from[k];
      if (out || !may_stand(i, nearest)) continue;
      r.next[i * t + k] = static_cast<int>(r.at.size());
      const Cost way = r.cost[i] + each[k];
      if (!cost || way < *cost) cost = way;
    }
    if (!cost) continue;
    r.at.push_back(nearest);
    r.cost.push_back(*cost);
    r.next.insert(r.next.end(), t, -1);
  }
  steps_ += static_cast<std::int64_t>(r.at.size() * t);
  return r;
}

std::optional<Cost> Sweep::solve(const std::vector<Nm>& pitches) {
  pitches_ = allowed(pitches);
  length_ = piece_.length;
  if (pitches_.empty()) return std::nullopt;
  reach_ = reach(pitches_, piece_.halved ? length_ / 2 : length_, false);
  return cheapest(length_, piece_.halved);
}

std::optional<Cost> Sweep::cheapest(Nm length, bool halved) {
  const std::size_t t = pitches_.size(), n = reach_.at.size();
  if (!halved && reach_.at.back() != length) return std::nullopt;
  std::vector<Cost> each;
  for (Nm p : pitches_) each.push_back(cost_of(p, piece_.limits));
  const std::int64_t sides = halved ? 2 : 1;
  std::vector<bool> ends(n, false);
  on_.assign(n, {});
  choice_.assign(n, -1);
  for (std::size_t i = n; i-- > 0;) {
    const Nm left = length - sides * reach_.at[i];
    const auto offer = [&](const Cost& cost, std::size_t how) {
      if (ends[i] && cost >= on_[i]) return;
      ends[i] = true;
      on_[i] = cost;
      choice_[i] = static_cast<int>(how);
    };
    if (left == 0) ends[i] = true;
    for (std::size_t k = 0; k < t && left > 0; ++k) {
      const int next = reach_.next[i * t + k];
      if (next >= 0 && ends[static_cast<std::size_t>(next)])
        offer(each[k].times(sides) + on_[static_cast<std::size_t>(next)], k);
      const Nm here = reach_.at[i];
      if (halved && left == pitches_[k] &&
          (!task_.admissible ||
           task_.admissible(piece_.origin + here, piece_.origin + here + left)))
        offer(each[k], t);
    }
  }
  if (!ends[0]) return std::nullopt;
  return on_[0];
}

std::vector<Nm> Sweep::lines() const {
  const std::size_t t = pitches_.size();
  std::vector<Nm> out;
  std::size_t i = 0;
  while (true) {
    out.push_back(reach_.at[i]);
    if (choice_[i] < 0 || choice_[i] == static_cast<int>(t)) break;
    i = static_cast<std::size_t>(reach_.next[i * t + static_cast<std::size_t>(choice_[i])]);
  }
  if (!piece_.halved) return out;
  const bool centred = choice_[i] >= 0;  // a panel over the middle, else a line there
  for (std::size_t k = out.size() - (centred ? 0 : 1); k-- > 0;) out.push_back(length_ - out[k]);
  return out;
}

bool Sweep::closing_may_stand(Nm from, Nm to, std::int64_t beside) const {
  const Closing& c = *piece_.limits.closing;
  if (to - from < c.least || to - from > c.greatest) return false;
  const bool at_end = from == 0 || to == piece_.length;
  if (c.inside && at_end && beside >= 2) return false;
  return !task_.admissible || task_.admissible(piece_.origin + from, piece_.origin + to);
}

std::vector<Sweep::Closed> Sweep::closed_halved(const std::vector<Nm>& pitches) {
  std::vector<Closed> out;
  const Reach r = reach(pitches, piece_.length / 2, false);
  for (std::size_t i = 0; i < r.at.size(); ++i) {
    const Nm from = r.at[i], to = piece_.length - from;
    if (to <= from || !closing_may_stand(from, to, 2 * r.cost[i].panels)) continue;
    Cost own = cost_of(to - from, piece_.limits);
    own.closing = 1;
    out.push_back({to - from, r.cost[i].times(2) + own, from, to});
  }
  return out;
}

std::vector<Sweep::Closed> Sweep::solve_closed(const std::vector<Nm>& pitches) {
  std::vector<Closed> out;
  const std::vector<Nm> own_pitches = allowed(pitches);
  if (!piece_.limits.closing || own_pitches.empty()) return out;
  if (piece_.halved) {
    out = closed_halved(own_pitches);
  } else {
    const Nm least = piece_.limits.closing->least, greatest = piece_.limits.closing->greatest;
    const Reach back = reach(own_pitches, piece_.length, false);
    const Reach ahead = reach(own_pitches, piece_.length, true);
    std::size_t first = ahead.at.size();
    for (std::size_t i = 0; i < back.at.size(); ++i) {
      const Nm from = back.at[i];
      while (first > 0 && piece_.length - ahead.at[first - 1] < from + least) --first;
      for (std::size_t k = first; k-- > 0;) {
        const Nm to = piece_.length - ahead.at[k];
        ++steps_;
        if (to - from > greatest) break;
        if (!closing_may_stand(from, to, back.cost[i].panels + ahead.cost[k].panels)) continue;
        Cost own = cost_of(to - from, piece_.limits);
        own.closing = 1;
        out.push_back({to - from, back.cost[i] + own + ahead.cost[k], from, to});
      }
    }
  }
  // One for each length: the cheapest, of equal ones that which stands last.
  std::sort(out.begin(), out.end(), [](const Closed& a, const Closed& b) {
    if (a.pitch != b.pitch) return a.pitch < b.pitch;
    return a.cost != b.cost ? a.cost < b.cost : a.from > b.from;
  });
  out.erase(std::unique(out.begin(), out.end(),
                        [](const Closed& a, const Closed& b) { return a.pitch == b.pitch; }),
            out.end());
  return out;
}

std::vector<Nm> Sweep::lines(const std::vector<Nm>& pitches, const Closed& closed) const {
  // Each side of the closing panel is a run of its own.
  std::vector<Nm> out;
  const auto side = [&](Nm from, Nm to) {
    Piece part = piece_;
    part.origin += from;
    part.length = to - from;
    part.halved = false;
    part.limits.closing.reset();
    for (Zone& z : part.zones) z = {z.from - from, z.to - from, z.what};
    std::int64_t steps = 0;
    Sweep s(task_, part, steps);
    if (to == from || !s.solve(pitches)) return std::vector<Nm>{from};
    std::vector<Nm> lines = s.lines();
    for (Nm& x : lines) x += from;
    return lines;
  };
  out = side(0, closed.from);
  std::vector<Nm> rest;
  if (piece_.halved)
    for (std::size_t i = out.size(); i-- > 0;) rest.push_back(piece_.length - out[i]);
  else
    rest = side(closed.to, piece_.length);
  out.insert(out.end(), rest.begin(), rest.end());
  return out;
}

}  // namespace deckquire::optimum
