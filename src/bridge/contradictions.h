// What a bridge may say against itself. Used by build_bridge only.
#pragma once

#include "base/text.h"
#include "bridge/bridge.h"

namespace deckquire {

/// What the checks look at, and how they print it.
struct Said {
  const Project& project;
  const Bridge& bridge;
  Findings& findings;
  std::string station(Length s) const { return print_station(s, project.units); }
  std::string length(Length a) const { return print_length(a, project.units); }
  bool outside(Length s) const { return s < bridge.alignment.from() || s > bridge.alignment.to(); }
  std::string extent() const {
    return station(bridge.alignment.from()) + " to " + station(bridge.alignment.to());
  }
};

/// Curves and transitions out of order, outside the alignment, over each other, turning nowhere, or
/// so tight that an edge of the deck reaches the centre.
void check_plan(const Said& said);
/// Grade points out of order; parabolas that overlap, round nothing or reach beyond the alignment.
void check_profile(const Said& said);

/// The two above; supports out of order or outside; edges out of order, negative or inside the
/// outer flanges; obstructions outside the bridge; splices that overlap or overhang their girder.
void find_contradictions(const Project& project, const Bridge& bridge, Findings& findings);

}  // namespace deckquire
