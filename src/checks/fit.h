// Deck -> Findings: does every part fit its neighbours? Strength, drainage and movement are in
// calculations.h.
#pragma once

#include "checks/calculations.h"
#include "deck/deck.h"

namespace deckquire {

/// What was checked, for the cover's list; and what was not, with what it needs.
struct CheckScope {
  /// In `not_checked` first what the calculations lacked, in their order.
  std::vector<std::string> checked, not_checked;
  Calculations calculations;
};

/// Features against joints, girders, splices, edges and one another; openings over flanges; recess
/// cover; edge depth; shipping limits; lifting insert places; slope excess at the joints.
void check_fit(const Project& project, const Bridge& bridge, const Deck& deck, Findings& findings);

/// Calculates everything (calculations.h) and says what was checked. Findings of the calculations
/// are errors that a deck may have and still be drawn.
CheckScope check_scope(const Project& project, const Bridge& bridge, const Deck& deck,
                       Findings& findings);

}  // namespace deckquire
