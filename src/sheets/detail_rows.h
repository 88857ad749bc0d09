// Details in rows on D sheets. Only detail_rows.cpp and details.cpp include it.
#pragma once

#include <vector>

#include "sheets/detail_views.h"

namespace deckquire::sheets {

constexpr double title_room = 17;  // mm under a detail

/// A detail with the room it takes, its title counted.
struct Sized {
  Detail detail;
  Piece piece;
  double width, height;
};

using Row = std::vector<Sized>;
using Rows = std::vector<Row>;  // of one sheet, from the top

/// Where details may stand on a D sheet.
paper::PaperBox room_of(const SetInput& input);

double row_height(const Row& row);

/// The details of the project on as few sheets as some order of them takes, drawn as large as that
/// number of sheets allows. Rows keep the order of the list where that costs no sheet.
std::vector<Rows> packed(const SetInput& input);

}  // namespace deckquire::sheets
