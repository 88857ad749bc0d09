// One run divided with a given set of pitches. Used by the files of optimum only.
#pragma once

#include <numeric>

#include "deck/optimum.h"

namespace deckquire::optimum {

/// A distinct run: equal ones are solved once. Places count from its beginning.
struct Piece {
  Nm origin = 0, length = 0;
  std::vector<Zone> zones;  // within the run, merged, ordered
  Limits limits;
  bool halved = false;  // symmetrical: the second half mirrors the first
  int times = 1;        // runs like it
};

/// The distinct runs of a task; piece_of[i] is that of run i. Symmetrical runs get mirrored zones.
struct Pieces {
  std::vector<Piece> all;
  std::vector<std::size_t> piece_of;
};
Pieces pieces_of(const Task& task);

/// Zones of a run in its own frame, merged where a line between them is forbidden by both or
/// impossible, ordered.
std::vector<Zone> local_zones(const Task& task, const Run& run);

Cost cost_of(Nm pitch, const Limits& limits);

/// The lines that the pitches reach from a beginning, and what the cheapest way on from each costs.
class Sweep {
 public:
  /// `steps` counts the work done.
  Sweep(const Task& task, const Piece& piece, std::int64_t& steps)
      : task_(task), piece_(piece), steps_(steps) {}

  /// The cheapest layout from line to line, first the nearer line where two cost the same.
  std::optional<Cost> solve(const std::vector<Nm>& pitches);
  /// Lines of the layout that `solve` found.
  std::vector<Nm> lines() const;

  /// The cheapest layouts with one closing panel, one for each of its lengths, by length.
  struct Closed {
    Nm pitch = 0;
    Cost cost;
    Nm from = 0, to = 0;  // of the closing panel
  };
  std::vector<Closed> solve_closed(const std::vector<Nm>& pitches);
  std::vector<Nm> lines(const std::vector<Nm>& pitches, const Closed& closed) const;

 private:
  struct Reach {
    std::vector<Nm> at;
    std::vector<Cost> cost;  // from the beginning
    std::vector<int> next;   // index of the line one pitch further, by pitch; -1
  };
  Reach reach(const std::vector<Nm>& pitches, Nm length, bool mirrored) const;
  std::optional<Cost> cheapest(Nm length, bool halved);
  std::vector<Nm> allowed(const std::vector<Nm>& pitches) const;
  std::vector<Closed> closed_halved(const std::vector<Nm>& pitches);
  /// `beside`: the other panels of the run.
  bool closing_may_stand(Nm from, Nm to, std::int64_t beside) const;

  const Task& task_;
  const Piece& piece_;
  std::int64_t& steps_;
  std::vector<Nm> pitches_;
  Reach reach_;
  std::vector<Cost> on_;     // from each line to the end
  std::vector<int> choice_;  // pitch taken; -1: none; beyond pitches_: the middle is here
  Nm length_ = 0;
};

}  // namespace deckquire::optimum
