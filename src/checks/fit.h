// Deck -> Findings: does every part fit its neighbours? Strength, drainage and movement are not
// checked here (and say so on the cover).
#pragma once

#include "deck/deck.h"

namespace deckquire {

/// What was checked, for the cover's list; and what was not, with what it needs.
struct CheckScope {
  std::vector<std::string> checked, not_checked;
};

/// Features against joints, girders, splices, edges and one another; openings over flanges; recess
/// cover; edge depth; shipping limits; lifting insert places; slope excess at the joints.
void check_fit(const Project& project, const Bridge& bridge, const Deck& deck, Findings& findings);

CheckScope check_scope(const Project& project);

}  // namespace deckquire
