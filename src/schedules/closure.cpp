#include "schedules/closure.h"

#include <cmath>
#include <numeric>
#include <random>

namespace deckquire {
namespace {

/// In [0, 1): the 53 high bits, as distributions of the library differ between libraries.
double unit(std::mt19937_64& engine) {
  return static_cast<double>(engine() >> 11) * 0x1p-53;
}

double within_normal(double drift, double can_take, double sigma) {
  if (sigma <= 0) return std::abs(drift) <= can_take ? 1 : 0;
  const auto below = [&](double x) { return 0.5 * std::erfc(-(x - drift) / (sigma * std::sqrt(2.0))); };
  return below(can_take) - below(-can_take);
}

}  // namespace

ClosurePrediction predict_closure(const RemainingRun& run, double drift, double can_take, int trials,
                                  std::uint64_t seed) {
  ClosurePrediction p;
  p.drift = drift + run.panels * run.mean_error;
  p.worst = run.panels * run.panel_tolerance + run.gaps * run.gap_tolerance;
  p.root_sum_square = std::sqrt(run.panels * run.panel_tolerance * run.panel_tolerance +
                                run.gaps * run.gap_tolerance * run.gap_tolerance);
  p.within_normal = within_normal(p.drift, can_take, p.root_sum_square / 3);
  p.trials = trials, p.seed = seed;
  std::mt19937_64 engine(seed);
  int within = 0;
  for (int t = 0; t < trials; ++t) {
    double e = p.drift;
    for (int i = 0; i < run.panels; ++i) e += run.panel_tolerance * (2 * unit(engine) - 1);
    for (int i = 0; i < run.gaps; ++i) e += run.gap_tolerance * (2 * unit(engine) - 1);
    within += std::abs(e) <= can_take ? 1 : 0;
  }
  if (trials > 0) {
    p.within_simulated = static_cast<double>(within) / trials;
    p.standard_error = std::sqrt(p.within_simulated * (1 - p.within_simulated) / trials);
  }
  return p;
}

std::vector<double> drift_along(const std::vector<double>& errors) {
  std::vector<double> out(errors.size());
  std::partial_sum(errors.begin(), errors.end(), out.begin());
  return out;
}

}  // namespace deckquire
