// Full-size templates of hole patterns: printed at 1:1, laid on the work, centres punched through.
#pragma once

#include <vector>

#include "schedules/hole_patterns.h"
#include "sheets/set.h"
#include "sheets/shop_paper.h"

namespace deckquire::sheets {

/// Side of the square that proves a print's scale, mm, and how far it may be off.
constexpr double check_square = 50, check_within = 0.25;

/// Every pattern at full size on as few pages as it needs, upright or lying, whichever takes fewer.
/// Larger ones in tiles that overlap; the same register crosses, numbered, stand on both tiles of a
/// seam. Each page has a square to measure, names what it is of, how often and on which marks, and
/// which way is ahead. Bare tiles are left out. Page numbers: HP1, or HP1-1, HP1-2 ... by rows from the upper left.
std::vector<paper::Sheet> template_sheets(const SetInput& input, const std::vector<HolePattern>& patterns,
                                          const ShopPage& page);

/// One page a pattern, as large as the pattern, with nothing but lines to cut: outline, openings, holes
/// at their nominal size. For a cutter, as SVG in mm.
std::vector<paper::Sheet> cutter_outlines(const SetInput& input, const std::vector<HolePattern>& patterns);

}  // namespace deckquire::sheets
