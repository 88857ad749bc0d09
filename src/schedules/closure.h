// Panels laid face to face: where a run has got to, and what gap will be left for its last panel.
#pragma once

#include <cstdint>
#include <vector>

namespace deckquire {

/// What is still to be set: so many panels and gaps, each within its tolerance, plus or minus, mm.
struct RemainingRun {
  int panels = 0, gaps = 0;
  double panel_tolerance = 0, gap_tolerance = 0;
  double mean_error = 0;  // of a panel, from those measured: a biased mould adds up, and no square root
                          // makes it less
};

struct ClosurePrediction {
  double drift = 0;         // expected: of what is set, and the bias of what is not, mm
  double worst = 0;         // about that: all tolerances one way
  double root_sum_square = 0;
  double within_normal = 0;     // chance that the closure stays within what it can take; tolerances as
                                // three standard deviations
  double within_simulated = 0;  // the same where every value within its tolerance is as likely
  double standard_error = 0;    // of the simulated one
  int trials = 0;
  std::uint64_t seed = 0;
};

/// The closing gap's error with `drift` so far, against what the closing panel or gap can take, plus or
/// minus. The simulation takes its numbers from std::mt19937_64, whose output is fixed by the standard,
/// as (x >> 11) 2^-53, panels first, then gaps, one trial after the other: the same on every machine.
ClosurePrediction predict_closure(const RemainingRun& run, double drift, double can_take, int trials,
                                  std::uint64_t seed);

/// Errors along a run: after each panel, how far its ahead face is from where it should be. `errors`:
/// measured less nominal length of each panel and the gap behind it.
std::vector<double> drift_along(const std::vector<double>& errors);

}  // namespace deckquire
