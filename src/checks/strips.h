// Strips of the panels across the bridge: where they lie on the girders, and what they weigh. Used
// inside checks/ only.
#pragma once

#include <string>
#include <vector>

#include "checks/topics.h"

namespace deckquire {

/// A strip from a panel's left edge to its right one, parallel to its end faces, measured along
/// itself; mm. Strips of several panels that are alike are one.
struct PanelStrip {
  double length = 0;
  std::vector<double> supports;  // girders under it, from its left end
  double depth = 0;              // where the panel is thinnest along it
  double from_clear = 0, to_clear = 0;  // between the feet of the curbs
  bool left_joint = false, right_joint = false;  // a row joint there: the deck goes on
  double centre = 0;  // of the panel's gravity, from its left end
  double along = 0;  // length of the panel along the bridge, the shortest
  // Own weight: spread, N/m2 (greatest and least of the marks), and curbs, N/m along the panel,
  // `curb_at` from its edge.
  double most = 0, least = 0, left_curb = 0, right_curb = 0, curb_at = 0;
  std::string place;             // "back end of panel 3": the first
  int panel = 0;
  std::vector<int> marks;
  std::vector<std::vector<int>> clips;  // of each support: a count for every panel seen, ascending
};

/// Of every panel the strips at its ends and in its middle. Strips that differ by less than a tenth
/// of a millimetre are one, however long the panel is along the bridge.
std::vector<PanelStrip> strips_of(const CalculationJob& job);
/// The strip through one panel: `share` of the way from its back face to its ahead face.
PanelStrip strip_through(const CalculationJob& job, const Panel& panel, double share);
/// Of every panel the strip in its middle; panels of different lengths or marks stay apart.
std::vector<PanelStrip> middles_of(const CalculationJob& job);

/// Clips of a panel on the girder of that name.
int clips_on(const PanelShape& shape, const std::string& girder);

}  // namespace deckquire
