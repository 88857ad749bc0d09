// Which of many boxes touch: a grid, so that the time grows with the boxes and the answers.
#pragma once

#include <utility>

#include "base/geometry.h"

namespace deckquire {

/// Every pair of boxes that share at least a point, the lower index first, in order. Boxes are
/// finite.
template <class Frame>
std::vector<std::pair<int, int>> touching(const std::vector<Box<Frame>>& boxes);

}  // namespace deckquire
