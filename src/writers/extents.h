// Where the ink of items and groups lies: link areas, link destinations, masks under text.
#pragma once

#include <array>
#include <string>
#include <vector>

#include "paper/sheet.h"

namespace deckquire::writers {

/// Corners of the white box under a masked text, turned with it: a fifth of the height larger than
/// the capitals all round, so that tails and commas stand free too.
std::array<paper::PaperPoint, 4> mask_corners(const paper::Text& text);

/// A group and the box around all that is drawn inside it, groups within included.
struct GroupBox {
  std::string id;      // may be empty
  std::string target;  // may be empty
  paper::PaperBox box;
  bool drawn = false;  // something lies inside
};

/// Every group in the order of opening. The sheet's groups close.
std::vector<GroupBox> group_boxes(const paper::Sheet& sheet);

}  // namespace deckquire::writers
