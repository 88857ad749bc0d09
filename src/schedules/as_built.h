// The panels as they were measured, and what that makes of the runs that they lie in.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "deck/deck.h"
#include "history/register.h"
#include "schedules/closure.h"
#include "schedules/table.h"

namespace deckquire {

/// One panel in its place; left and right looking ahead, so of one that lies turned the other way round
/// than its sheet and its traveller have them. Lengths from corner to corner, mm.
struct MeasuredPanel {
  int panel = 0;  // index into Deck::panels
  history::Stage stage = history::Stage::planned;
  double nominal_left = 0, nominal_right = 0;
  std::optional<double> left, right;  // as measured last, to its present mark
  double drift_left = 0, drift_right = 0;  // of its run up to and with it; what was not measured counts
                                           // as it should be, a side as the other one
  bool measured() const { return left || right; }
  double off_left() const;   // measured less nominal, 0 where not measured
  double off_right() const;
  double most_off() const;   // the greater of both, with its sign
};

/// The panels of one row of one span, set against each other.
struct MeasuredRun {
  int span = 0, row = 0;
  std::vector<MeasuredPanel> panels;  // in the order of setting
  int measured = 0;
  int next = -1;                 // index into Deck::panels of the first that is not cast yet, -1 none
  int open_joints = 0;           // joints inside the run that are not yet between two set panels
  const Joint* closing = nullptr;  // joint at which the run closes
  double closing_gap = 0;        // the run's share of it, mm
  std::optional<double> least;   // least gap of that share; none: not stated
  double length_tolerance = 0, gap_tolerance = 0;
  double drift = 0;              // of the side that is off most
  ClosurePrediction prediction;  // the panels not measured and all gaps of the run
  /// How much the closing gap can give or take, mm; none: the least gap is not stated.
  std::optional<double> can_take() const;
  /// Whether what was measured already does not close: more than can_take(), or, where that is not
  /// stated, the whole gap.
  bool too_far() const;
};

/// Runs of which at least one panel was measured; none: nothing was. Gaps count as not measured. An
/// inner end joint is shared by its two spans: each has half. Simulated with a fixed seed.
std::vector<MeasuredRun> measured_runs(const Project& project, const Deck& deck,
                                       const history::Register& issued);

/// One line a panel, and one line a run.
Table as_built_table(const Project& project, const Deck& deck, const std::vector<MeasuredRun>& runs);
Table closure_table(const Deck& deck, const std::vector<MeasuredRun>& runs);

/// Errors of runs that cannot close (`run-does-not-close`), with the ways out; warnings of runs that
/// will not if the moulds go on as they did (`run-may-not-close`) and of panels out of tolerance
/// (`panel-out-of-tolerance`).
void find_as_built(const Project& project, const Deck& deck, const std::vector<MeasuredRun>& runs,
                   Findings& findings);

}  // namespace deckquire
