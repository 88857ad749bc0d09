// The index of a set: every sheet that is drawn, and every number that is void.
#pragma once

#include <string>
#include <vector>

#include "sheets/plan.h"

namespace deckquire::sheets {

struct IndexLine {
  std::string number, title;
  std::string revision;    // the sheet's own; of a void one that which withdrew it
  bool withdrawn = false;  // was issued, is no longer drawn; its number is never given again
};

/// In the order of the set; void numbers at their places in their series. Numbers of R sheets belong
/// to their revision, and are not void without them.
std::vector<IndexLine> index_lines(const SetInput& input, const SetPlan& plan);

/// "P03-2" after "P03" and before "P10".
bool sheet_before(const std::string& a, const std::string& b);

}  // namespace deckquire::sheets
