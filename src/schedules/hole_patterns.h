// The patterns of holes that a shop marks out again and again: one template each, for all of its places.
#pragma once

#include <string>
#include <vector>

#include "deck/deck.h"

namespace deckquire {

using PatternFrame = PanelFrame;  // mm from the middle of the pattern, x along the fitting, y to its left

/// One pattern and everything that has it.
struct HolePattern {
  std::string name;        // HP1, HP2 ...: by kind, then in the order of the marks
  std::string what;        // "post plate", "scupper with grate", "hatch H2"
  std::vector<Hole> holes; // as the hole table has them, about the middle; labels 1, 2 ... by x, then y
  Ring<PatternFrame> outline;                // what it lies on: plate, body, frame rebate
  std::vector<Ring<PatternFrame>> openings;  // clear opening of a hatch, grate seat of a scupper
  std::vector<int> marks;  // that have it, rising
  int quantity = 0;        // in the whole job
};

/// Of post plates, scuppers and hatches. Two fittings share a pattern where every hole agrees within
/// 0.01 mm in place, size, thread and depth, and so does what they lie on.
std::vector<HolePattern> hole_patterns(const Project& project, const Deck& deck);

}  // namespace deckquire
