#include "paper/leaders.h"

#include <algorithm>
#include <limits>
#include <numeric>

namespace deckquire::paper {

namespace {

double sum(const std::vector<double>& v) {
  return std::accumulate(v.begin(), v.end(), 0.0);
}

/// Indices in rising order of the values, equal ones in their own order.
std::vector<std::size_t> order_of(const std::vector<double>& values) {
  std::vector<std::size_t> order(values.size());
  std::iota(order.begin(), order.end(), std::size_t{0});
  std::stable_sort(order.begin(), order.end(),
                   [&](std::size_t a, std::size_t b) { return values[a] < values[b]; });
  return order;
}

double turn(PaperPoint a, PaperPoint b, PaperPoint c) {
  return (b.x - a.x) * (c.y - a.y) - (b.y - a.y) * (c.x - a.x);
}

/// Pools neighbours of a sequence that fall into their common mean: the nearest rising sequence.
std::vector<double> rising(const std::vector<double>& values) {
  struct Pool {
    double total;
    std::size_t count;
    double mean() const { return total / static_cast<double>(count); }
  };
  std::vector<Pool> pools;
  for (double v : values) {
    pools.push_back({v, 1});
    while (pools.size() > 1 && pools[pools.size() - 2].mean() > pools.back().mean()) {
      const Pool last = pools.back();
      pools.pop_back();
      pools.back().total += last.total;
      pools.back().count += last.count;
    }
  }
  std::vector<double> out;
  for (const Pool& p : pools) out.insert(out.end(), p.count, p.mean());
  return out;
}

/// Labels in the given order of sites, spread along the column; result by site.
std::vector<double> spread_in(const std::vector<std::size_t>& order,
                              const std::vector<double>& sorted_ideals,
                              const std::vector<double>& sizes, const LabelColumn& column) {
  std::vector<double> in_order, out(order.size());
  for (std::size_t i : order) in_order.push_back(sizes[i]);
  const std::vector<double> places = spread(sorted_ideals, in_order, column.low, column.high);
  for (std::size_t k = 0; k < order.size(); ++k) out[order[k]] = places[k];
  return out;
}

/// Exchanges the places in `order` of the first pair whose leaders cross. False: none does.
bool uncross(std::vector<std::size_t>& order, const std::vector<PaperPoint>& sites,
             const std::vector<double>& places, double x) {
  for (std::size_t i = 0; i < order.size(); ++i) {
    for (std::size_t j = i + 1; j < order.size(); ++j) {
      const std::size_t a = order[i], b = order[j];
      if (!segments_cross(sites[a], {x, places[a]}, sites[b], {x, places[b]})) continue;
      std::swap(order[i], order[j]);
      return true;
    }
  }
  return false;
}

/// Sum of squared moves of the labels of one side.
double side_cost(std::vector<double> ideals, std::vector<double> sizes, double low, double high) {
  const std::vector<std::size_t> order = order_of(ideals);
  std::vector<double> y, h;
  for (std::size_t i : order) {
    y.push_back(ideals[i]);
    h.push_back(sizes[i]);
  }
  const std::vector<double> places = spread(y, h, low, high);
  double cost = 0;
  for (std::size_t i = 0; i < y.size(); ++i) cost += (places[i] - y[i]) * (places[i] - y[i]);
  return cost;
}

}  // namespace

bool segments_cross(PaperPoint a, PaperPoint b, PaperPoint c, PaperPoint d) {
  const double eps = 1e-9;
  const double p = turn(a, b, c), q = turn(a, b, d), r = turn(c, d, a), s = turn(c, d, b);
  return ((p > eps && q < -eps) || (p < -eps && q > eps)) &&
         ((r > eps && s < -eps) || (r < -eps && s > eps));
}

std::vector<double> spread(const std::vector<double>& ideals, const std::vector<double>& sizes,
                           double low, double high) {
  // Taking off what is stacked below leaves "not falling" as the only condition.
  std::vector<double> offsets, free;
  double stacked = 0;
  for (std::size_t i = 0; i < ideals.size(); ++i) {
    offsets.push_back(stacked + sizes[i] / 2);
    free.push_back(ideals[i] - offsets.back());
    stacked += sizes[i];
  }
  std::vector<double> out = rising(free);
  const double last = std::max(low, high - stacked);
  for (std::size_t i = 0; i < out.size(); ++i) out[i] = std::clamp(out[i], low, last) + offsets[i];
  return out;
}

std::vector<double> place_along(const std::vector<PaperPoint>& sites,
                                const std::vector<double>& sizes, const LabelColumn& column) {
  std::vector<double> ideals;
  for (PaperPoint p : sites) ideals.push_back(p.y);
  const std::vector<std::size_t> by_height = order_of(ideals);
  std::sort(ideals.begin(), ideals.end());
  // Unequal labels move when they exchange places, so that only equal ones surely come to an end.
  std::vector<double> used = sizes;
  for (int attempt = 0;; ++attempt) {
    std::vector<std::size_t> order = by_height;
    std::vector<double> places = spread_in(order, ideals, used, column);
    int left = attempt == 0 ? static_cast<int>(20 * sites.size()) : 100000;
    while (left-- > 0) {
      if (!uncross(order, sites, places, column.x)) return places;
      places = spread_in(order, ideals, used, column);
    }
    if (attempt == 1) return places;
    used.assign(sizes.size(), *std::max_element(sizes.begin(), sizes.end()));
  }
}

SideSplit split_sides(const std::vector<double>& ideals, const std::vector<double>& sizes,
                      double low, double high) {
  const double room = high - low + 1e-9;
  SideSplit best{0, std::numeric_limits<double>::infinity()};
  double least_excess = std::numeric_limits<double>::infinity();
  for (std::size_t k = 0; k <= ideals.size(); ++k) {
    const auto part = [k](const std::vector<double>& v, bool first) {
      const auto cut = v.begin() + static_cast<std::ptrdiff_t>(k);
      return first ? std::vector<double>(v.begin(), cut) : std::vector<double>(cut, v.end());
    };
    const double excess = std::max(0.0, sum(part(sizes, true)) - room) +
                          std::max(0.0, sum(part(sizes, false)) - room);
    const double cost = side_cost(part(ideals, true), part(sizes, true), low, high) +
                        side_cost(part(ideals, false), part(sizes, false), low, high);
    if (excess > least_excess || (excess == least_excess && cost >= best.cost)) continue;
    least_excess = excess;
    best = {k, cost};
  }
  return best;
}

}  // namespace deckquire::paper
