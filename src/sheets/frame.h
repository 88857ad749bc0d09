// The frame of a sheet: border, zones, centring and trimming marks (figures from ISO 5457:1999).
#pragma once

#include <vector>

#include "paper/board.h"

namespace deckquire::sheets {

/// Lengths of the reference fields from the middle of a side to one end of the frame: full fields
/// of `zone`, the remainder as a field of its own when it is at least half of one, else added to
/// the last.
std::vector<double> half_fields(double half, double zone);

/// "A", "B" ... without I and O; after Z "AA".
std::string zone_letter(int index);

void draw_frame(paper::Board& board);

}  // namespace deckquire::sheets
