// The checks of fit, one function a question. Used inside checks/ only.
#pragma once

#include <string>

#include "base/text.h"
#include "checks/bodies.h"

namespace deckquire {

struct FitCheck {
  const Project& project;
  const Bridge& bridge;
  const Deck& deck;
  Findings& findings;
  Plan plan;

  const DeckData& data() const { return project.deck; }
  std::string length(double millimetres) const {
    return print_length(mm(millimetres), project.units);
  }
  const Panel& panel(int index) const { return deck.panels[static_cast<std::size_t>(index)]; }
  /// The panel a mark is drawn from: with the names of its features.
  const Panel& first_of(const Mark& mark) const { return panel(mark.positions.front()); }
  /// Where in the file a thing comes from.
  Place place_of(const Feature& f) const;
  Place place_of(const Thing& t) const;
  /// "scupper S3", "lifting insert"; "the flange of girder G1", "joint J4".
  static std::string name_of(const Feature& f);
  std::string name_of(const Thing& t) const;
  /// " (file.xml:12)", or nothing where that is the line of the finding itself.
  static std::string also_at(const Place& other, const Place& finding);
  /// "0+012.400, 250 left".
  std::string position(BridgePoint p) const;
  std::string position(const Panel& panel, PanelPoint p) const {
    return position(panel.frame.bridge(bridge.alignment, p));
  }
};

/// ", and 3 more like it"; nothing where there are none.
std::string and_more(int more);

/// Distances between all things of the panels, and to the steel under them.
void check_clearances(const FitCheck& c);
/// The hollows over splices, against plates and bolts in all three directions.
void check_splices(const FitCheck& c);
/// The panels against what stands through and beside the deck.
void check_obstructions(const FitCheck& c);
/// What every panel bears on.
void check_bearing(const FitCheck& c);
/// What is left above recesses, edge depth, crossfall, grade.
void check_section(const FitCheck& c);
/// Post plates in their curb, bolt edge distances, thread lengths.
void check_plates(const FitCheck& c);
/// Shipping limits, lifting inserts about the centre of gravity, weight of hatch covers.
void check_handling(const FitCheck& c);

/// Outlets of scuppers against what passes below the bridge.
void check_crossings(const FitCheck& c);
/// The steel as it was measured.
void check_measured(const FitCheck& c);
/// What the placement rules could not keep: clips too far apart.
void check_placement(const FitCheck& c);

}  // namespace deckquire
