// Where equal things go along a line: pure arithmetic in whole units, which the caller chooses (the
// print unit for things inside a panel, nanometres for whole bridges). Positions of
// `spread_evenly` must lie within 2^26 units of each other: its sums of squares are exact.
//
// Forbidden stretches are open: a thing exactly at its required distance is allowed.
#pragma once

#include <cstdint>
#include <functional>
#include <optional>
#include <vector>

namespace deckquire {

struct Stretch {
  std::int64_t from = 0, to = 0;
  bool operator==(const Stretch&) const = default;
};

/// What is left of `whole` outside the open forbidden stretches, in order. A place between two that
/// touch is left as a stretch of no length. Empty where nothing is left or `whole` is reversed.
std::vector<Stretch> allowed_between(Stretch whole, std::vector<Stretch> forbidden);

/// The allowed place nearest to `at`, of two the lower; none where nothing is allowed.
std::optional<std::int64_t> nearest_allowed(const std::vector<Stretch>& allowed, std::int64_t at);

/// k things in order, one for each ideal place.
struct Spreading {
  std::vector<std::int64_t> ideals;               // not decreasing
  std::vector<Stretch> allowed;                   // in order, apart
  std::int64_t least = 0;                         // between neighbours
  std::int64_t greatest = std::int64_t{1} << 40;  // between neighbours
  std::int64_t step = 1;  // places tried: ideals, ends of allowed stretches, and ideals + n * step
  std::vector<std::vector<Stretch>> own;  // of each thing, where they are not the same for all
  bool whole_steps = false;               // ends of allowed stretches are not tried
  // Things that stand already, next to the first and the last.
  std::optional<std::int64_t> before, after;
  std::int64_t reach = std::int64_t{1} << 26;  // furthest that a thing may leave its ideal
  std::int64_t middle = 0;  // of equal sums of squares, the places nearer to this one
};

/// The places of least sum of squared distances from the ideals; of those the least sum of
/// distances from `middle`, of those the lowest, first thing first. None: no places keep all the
/// rules. O(k * m), m the places tried for one thing.
std::optional<std::vector<std::int64_t>> spread_evenly(const Spreading& task);

/// `count` ideals from `first` to `last`, cumulative distances rounded to whole units (so that no
/// error adds up); one: in the middle. The second half mirrors the first.
std::vector<std::int64_t> even_places(Stretch between, int count);

/// Places wanted between the first and the last so that no bay is longer than `greatest`:
/// algorithms.md F7. At least 2 where first and last differ.
int count_for(Stretch between, std::int64_t greatest);

/// Half-bay rule between joint lines: a pitch p has the fewest bays not longer than `greatest`, the
/// first thing half a bay from the joint line; so no bay over a joint is longer either.
std::vector<std::int64_t> half_bays(const std::vector<std::int64_t>& joint_lines,
                                    std::int64_t greatest);

/// Imposed spacing: the phases from 0 to spacing - 1 (station of the first thing) that keep every
/// thing out of the open forbidden stretches, in order; a free stretch that goes over `spacing` is
/// cut there. Empty: there is none. O(n log n).
std::vector<Stretch> free_phases(const std::vector<Stretch>& forbidden, std::int64_t spacing);

/// The free phase nearest to `wish`, round the circle; none where there is none.
std::optional<std::int64_t> nearest_phase(const std::vector<Stretch>& free, std::int64_t wish,
                                          std::int64_t spacing);

/// One gutter, its places counted downhill from where the water begins.
struct Gutter {
  Stretch run;  // from the crest to where the water leaves by itself or ends
  /// The furthest place not beyond `limit` and ahead of `last` where a scupper may stand.
  std::function<std::optional<std::int64_t>(std::int64_t last, std::int64_t limit)> stand;
  double caught = 1;  // the part of the arriving water that a scupper takes; the rest goes on
  /// Or what goes past one at a place, of what arrives there.
  std::function<double(std::int64_t at, double arriving)> passes = {};
  double carried = 0;  // arrives where the run begins
  /// The furthest place that the water arriving at `from` (carried, same unit as `flow`) may reach
  /// before a scupper must take it.
  std::function<std::int64_t(std::int64_t from, double carried)> furthest;
  /// Water that falls between two places.
  std::function<double(std::int64_t from, std::int64_t to)> flow;
};

struct GutterPlaces {
  std::vector<std::int64_t> places;
  double carried = 0;                    // goes past the last of them, or arrives with the run
  std::optional<Stretch> dry_of_places;  // set: no place between these, the rest is not drained
};

/// Fewest scuppers: each as far down as the water allows, moved upstream to the nearest allowed
/// place. Ends when the water reaches the end of the run within its limit.
GutterPlaces furthest_places(const Gutter& gutter);

/// Overhang of a uniform bar of length 1 beyond its outer of `lines` equally spaced supports that
/// makes the greatest bending least: 2: (sqrt 2 - 1) / 2; 3 and more: equal moments at all supports
/// (algorithms.md F6).
double best_overhang(int lines);

}  // namespace deckquire
