// The checks of fit, one function a question. Used inside checks/ only.
#pragma once

#include <string>

#include "base/text.h"
#include "deck/deck.h"

namespace deckquire {

struct FitCheck {
  const Project& project;
  const Bridge& bridge;
  const Deck& deck;
  Findings& findings;

  const DeckData& data() const { return project.deck; }
  std::string length(double millimetres) const {
    return print_length(mm(millimetres), project.units);
  }
  /// The panel a mark is drawn from: with the names of its features.
  const Panel& first_of(const Mark& mark) const {
    return deck.panels[static_cast<std::size_t>(mark.positions.front())];
  }
  /// Where in the file a feature comes from.
  Place place_of(const Feature& f) const;
  /// "scupper S3", "lifting insert".
  static std::string name_of(const Feature& f);
};

/// Plan distances between features, within a panel and over a joint; to the panel's ends.
void check_clearances(const FitCheck& c);
/// Openings over girder flanges.
void check_flanges(const FitCheck& c);
/// What is left above recesses, edge depth, crossfall, grade.
void check_section(const FitCheck& c);
/// Post plates in their curb, bolt edge distances, thread lengths.
void check_plates(const FitCheck& c);
/// Shipping limits, lifting inserts about the centre of gravity, weight of hatch covers.
void check_handling(const FitCheck& c);

}  // namespace deckquire
