// Runs in which every panel is of a type of its own: the fewest panels, the heaviest one as light
// as can be.
#include <algorithm>

#include "deck/optimum_search.h"

namespace deckquire::optimum {
namespace {

/// The run on its lattice: lines 0 .. n, the last one the run's end whatever the step.
class Lattice {
 public:
  explicit Lattice(const Taper& taper) : t_(taper) {
    const Run& r = t_.run;
    Task task;
    task.zones = t_.zones;
    zones_ = local_zones(task, r);
    const Nm length = r.to - r.from, step = std::max<Nm>(1, r.limits.step);
    for (Nm x = 0; x < length; x += step)
      if (!forbidden(zones_, x)) at_.push_back(x);
    at_.push_back(length);
  }

  std::int64_t load(std::size_t i, std::size_t k) const {
    return t_.load(t_.run.from + at_[i], t_.run.from + at_[k]);
  }
  /// The furthest line from i for which the panel is no heavier than `most`: it only grows with i.
  std::vector<std::size_t> furthest(std::int64_t most) const {
    std::vector<std::size_t> out(at_.size(), 0);
    std::size_t k = 0;
    for (std::size_t i = 0; i + 1 < at_.size(); ++i) {
      k = std::max(k, i);
      while (k + 1 < at_.size() && at_[k + 1] - at_[i] <= t_.run.limits.greatest &&
             load(i, k + 1) <= most)
        ++k;
      out[i] = k;
    }
    return out;
  }
  /// Least panels from each line to the end, -1 where there is no way.
  std::vector<int> panels(const std::vector<std::size_t>& furthest) const;
  std::vector<Nm> nearest_preferred(const std::vector<std::size_t>& furthest,
                                    const std::vector<int>& panels) const;
  std::vector<Nm> longest(const std::vector<std::size_t>& furthest,
                          const std::vector<int>& panels) const;
  std::int64_t heaviest(const std::vector<Nm>& lines) const {
    std::int64_t most = 0;
    for (std::size_t i = 1; i < lines.size(); ++i)
      most = std::max(most, t_.load(lines[i - 1], lines[i]));
    return most;
  }

 private:
  bool long_enough(std::size_t i, std::size_t k) const {
    return at_[k] - at_[i] >= t_.run.limits.least;
  }
  std::vector<Nm> absolute(const std::vector<std::size_t>& indices) const {
    std::vector<Nm> out;
    for (std::size_t i : indices) out.push_back(t_.run.from + at_[i]);
    return out;
  }
  const Taper& t_;
  std::vector<Zone> zones_;
  std::vector<Nm> at_;
};

std::vector<int> Lattice::panels(const std::vector<std::size_t>& furthest) const {
  std::vector<int> out(at_.size(), -1);
  out.back() = 0;
  for (std::size_t i = at_.size() - 1; i-- > 0;)
    for (std::size_t k = furthest[i]; k > i && long_enough(i, k); --k)
      if (out[k] >= 0 && (out[i] < 0 || out[k] + 1 < out[i])) out[i] = out[k] + 1;
  return out;
}

std::vector<Nm> Lattice::longest(const std::vector<std::size_t>& furthest,
                                 const std::vector<int>& panels) const {
  std::vector<std::size_t> out{0};
  while (out.back() + 1 < at_.size())
    for (std::size_t i = out.back(), k = furthest[i]; k > i; --k)
      if (long_enough(i, k) && panels[k] == panels[i] - 1) {
        out.push_back(k);
        break;
      }
  return absolute(out);
}

// With the fewest panels in all, every way on has the fewest too: no count need be carried along.
std::vector<Nm> Lattice::nearest_preferred(const std::vector<std::size_t>& furthest,
                                           const std::vector<int>& panels) const {
  std::vector<Cost> cost(at_.size());
  std::vector<std::size_t> next(at_.size(), 0);
  for (std::size_t i = at_.size() - 1; i-- > 0;)
    for (std::size_t k = furthest[i]; k > i && long_enough(i, k); --k) {
      if (panels[k] < 0 || panels[k] + 1 != panels[i]) continue;
      const Cost way = cost_of(at_[k] - at_[i], t_.run.limits) + cost[k];
      if (next[i] != 0 && cost[i] < way) continue;  // of equal ones the nearer line
      cost[i] = way;
      next[i] = k;
    }
  std::vector<std::size_t> out{0};
  while (out.back() + 1 < at_.size()) out.push_back(next[out.back()]);
  return absolute(out);
}

}  // namespace

std::optional<TaperLayout> longest_first(const Taper& taper) {
  const Lattice lattice(taper);
  const auto furthest = lattice.furthest(taper.most);
  const auto panels = lattice.panels(furthest);
  if (panels[0] < 0) return std::nullopt;
  TaperLayout out;
  out.lines = lattice.longest(furthest, panels);
  out.heaviest = lattice.heaviest(out.lines);
  return out;
}

std::optional<TaperLayout> spread(const Taper& taper) {
  auto out = longest_first(taper);
  if (!out) return std::nullopt;
  const Lattice lattice(taper);
  const int fewest = static_cast<int>(out->lines.size()) - 1;
  // The least limit that the fewest panels still keep.
  std::int64_t no = -1, yes = out->heaviest;
  while (yes - no > 1) {
    const std::int64_t middle = no + (yes - no) / 2;
    const auto panels = lattice.panels(lattice.furthest(middle));
    (panels[0] == fewest ? yes : no) = middle;
  }
  const auto furthest = lattice.furthest(yes);
  out->lines = lattice.nearest_preferred(furthest, lattice.panels(furthest));
  out->heaviest = lattice.heaviest(out->lines);
  return out;
}

}  // namespace deckquire::optimum
