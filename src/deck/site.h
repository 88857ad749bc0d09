// One panel while it is being shaped: where it lies, and what the features need to ask.
// Used inside deck/ only.
#pragma once

#include <string>

#include "deck/deck.h"

namespace deckquire {

/// A line along the panel, x not decreasing.
using Chain = std::vector<PanelPoint>;

struct PanelSite {
  const Project& project;
  const Bridge& bridge;
  const Division& division;
  int piece;
  Findings& findings;

  PanelPlacing frame;
  double length;                   // of the chord, mm
  double back_slope, ahead_slope;  // dx/dy of the end faces
  Chain left, right;               // the edges from corner to corner

  PanelSite(const Project& p, const Bridge& b, const Division& d, int n, Findings& f);

  const DeckData& deck() const { return project.deck; }
  const Division::Piece& here() const { return division.pieces[static_cast<std::size_t>(piece)]; }
  Length start() const { return here().start; }
  Length end() const { return here().end; }
  /// A point of the bridge in the panel frame.
  PanelPoint at(Length station, Length offset) const;
  PanelPoint at(BridgePoint p) const { return frame.panel(bridge.alignment, p); }
  BridgePoint on_bridge(PanelPoint p) const { return frame.bridge(bridge.alignment, p); }
  /// Station of a point of the panel.
  Length station(PanelPoint p) const;
  /// x of the end faces at y.
  double back_x(double y) const { return back_slope * y; }
  double ahead_x(double y) const { return length + ahead_slope * y; }
  /// Room of a point from the nearer end face, square to it; negative beyond it.
  double from_end(PanelPoint p) const;
  const Chain& edge(Side side) const { return side == Side::left ? left : right; }
  /// Signed y of an edge (of a row joint's face); beyond its corners it runs on straight.
  double edge(Side side, double panel_x) const;
  /// The point of an edge at a station.
  PanelPoint edge_point(Side side, Length station) const;
  /// False beside another row.
  bool deck_edge(Side side) const;
  bool has_curb(Side side) const;
  /// Signed y of the inner foot of the curb, of the edge where there is no curb.
  double inner_foot(Side side, double panel_x) const;
  /// A girder's centre line from the back to the ahead face, straight between; where it begins or
  /// ends under the panel, from or to there. Nothing: it is not under the panel.
  std::optional<std::pair<PanelPoint, PanelPoint>> girder_line(const Girder& g) const;
  /// The length in print units, for messages.
  std::string printed(Length a) const;
  std::string printed_station(Length a) const;
};

/// The shape of the panel, with every feature that falls on it.
PanelShape shape_panel(const PanelSite& site);

/// +1 for the left side, -1 for the right.
constexpr double sign(Side side) {
  return side == Side::left ? 1 : -1;
}

bool on_side(CurbSides sides, Side side);

/// y of a chain at x; beyond its ends it runs on straight.
double height_at(const Chain& chain, double x);

/// A chain cut off at, or lengthened to, the end faces shifted into the panel by `stop`.
Chain to_faces(const PanelShape& shape, const Chain& chain, double stop = 0);

/// The piece that a point of the bridge lies on, or the nearest to it (the one that reports what
/// is wrong with a thing there).
int owner(const Division& division, Length station, Length offset);

/// Fills in what lies on each piece of a division that is otherwise complete.
void list_contents(const Project& project, const Bridge& bridge, Division& division);

/// The piece of a bay that has the deck's edge on that side.
int outermost(const Division& division, int bay, Side side);

/// The joint nearest to a station.
const Joint& nearest_joint(const Division& division, Length station);

/// Nominal diameter of a thread in mm: "M16" -> 16, "5/8-11" -> 15.875, "1 1/4-7" -> 31.75; 0 if
/// it is none.
double thread_diameter(const std::string& thread);

/// How far a panel may lie off its place, mm: <tolerance of="setting">, else 5 mm or 3/16 in (common
/// practice, no source). It is added to what is asked between panel and steel.
double setting_tolerance(const Project& project);

/// Width of the widest girder flange.
Length widest_flange(const Bridge& bridge);

/// Depth of the hollow over a splice, above the soffit.
double recess_depth(const Splice& splice, const DeckData& deck);

}  // namespace deckquire
