// Least distances between features in plan.
#pragma once

#include "deck/deck.h"

namespace deckquire {

struct ClearanceRule {
  FeatureKind a, b;
  double least;  // mm, between outlines in plan; exactly that much is enough
  const char* source;
};

/// The rule for two kinds in either order, or none.
const ClearanceRule* clearance_rule(FeatureKind a, FeatureKind b);

/// Least distance of a kind from the panel's end face; 0: none.
double least_from_end(FeatureKind kind);

}  // namespace deckquire
