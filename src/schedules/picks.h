// Every panel on the hook: slings, pull at its inserts, and a crane that takes it where it goes.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "deck/deck.h"
#include "schedules/table.h"

namespace deckquire {

/// A panel at one crane.
struct CraneReach {
  int crane = -1;     // index into ErectionData::cranes
  double radius = 0;  // mm, in plan from its slewing axis to the panel's centre of gravity in place
  double lifted = 0;  // kg, panel and tackle
  std::optional<Mass> takes;  // its chart at the next larger radius that is stated; none: beyond it
  bool holds() const { return takes && lifted <= takes->in_si() * (1 + 1e-9); }
};

struct Pick {
  int panel = 0, step = 0;  // index in the deck; from 1
  PanelPoint centre;        // of gravity, from the datum corner as the panel's sheet draws it
  int inserts = 0;
  double leg = 0, hook = 0;     // mm: longest leg; hook above the inserts when the panel lies in place
  std::optional<double> force;  // N, in the insert that governs, with the project's handling factor
  std::string unchecked;        // why there is no force
  /// The nearest crane that holds it; where none does, the one that comes nearest to it; none where the
  /// project states no crane with a chart.
  std::optional<CraneReach> crane;
};

/// Slewing axis of a crane on the ground; beyond the ends of the alignment the line goes straight on.
GroundPoint crane_axis(const Bridge& bridge, const CraneData& crane);
/// Centre of gravity of a panel in its place, in its own frame.
PanelPoint centre_in_place(const Deck& deck, const Panel& panel);
/// A panel at every crane of the project that has a chart, the nearest first.
std::vector<CraneReach> crane_reaches(const Project& project, const Bridge& bridge, const Deck& deck, int panel);

/// In the order of setting. Slings and pulls are those of the workings `sling` and `pick-points`: legs
/// from one hook over the centre of gravity, the flattest at the project's angle.
std::vector<Pick> picks_of(const Project& project, const Bridge& bridge, const Deck& deck,
                           const std::vector<int>& order);

Table picks_table(const Project& project, const Bridge& bridge, const Deck& deck);

}  // namespace deckquire
