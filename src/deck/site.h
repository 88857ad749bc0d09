// One panel while it is being shaped: where it lies, and what the features need to ask.
// Used inside deck/ only.
#pragma once

#include <string>

#include "deck/deck.h"

namespace deckquire {

struct PanelSite {
  const Project& project;
  const Bridge& bridge;
  const Division& division;
  int piece;
  Findings& findings;

  const DeckData& deck() const { return project.deck; }
  const Division::Piece& here() const { return division.pieces[static_cast<std::size_t>(piece)]; }
  Length start() const { return here().start; }
  Length end() const { return here().end; }
  double length() const { return (end() - start()).in_mm(); }
  /// Panel x of a station.
  double x(Length station) const { return (station - start()).in_mm(); }
  Length station(double panel_x) const { return start() + mm(panel_x); }
  /// Signed y of an edge; at the panel's ends the value on the panel's own side of a step.
  double edge(Side side, Length station) const;
  double edge(Side side, double panel_x) const { return edge(side, station(panel_x)); }
  bool has_curb(Side side) const;
  /// Signed y of the inner foot of the curb, of the edge where there is no curb.
  double inner_foot(Side side, double panel_x) const;
  /// The length in print units, for messages.
  std::string printed(Length a) const;
  std::string printed_station(Length a) const;
};

/// +1 for the left side, -1 for the right.
constexpr double sign(Side side) {
  return side == Side::left ? 1 : -1;
}

bool on_side(CurbSides sides, Side side);

/// The piece nearest to a station (the one that reports what is wrong with a thing there).
int owner(const Division& division, Length station);

/// The joint nearest to a station.
const Joint& nearest_joint(const Division& division, Length station);

/// Nominal diameter of a thread in mm: "M16" -> 16, "5/8-11" -> 15.875, "1 1/4-7" -> 31.75; 0 if
/// it is none.
double thread_diameter(const std::string& thread);

/// Splices' hollows: depth above the soffit, and plan with the clearance around.
double recess_depth(const Splice& splice, const DeckData& deck);
Box<BridgeFrame> recess_plan(const Splice& splice, const DeckData& deck);

}  // namespace deckquire
