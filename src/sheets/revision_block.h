// The revision block of a sheet: which revisions touched it, and in how many spots.
#pragma once

#include <string>

#include "paper/board.h"
#include "sheets/plan.h"

namespace deckquire::sheets {

/// The revision that a sheet carries: the last that touched it, or the project's last. nullptr when
/// the project has none.
const Revision* own_revision(const SetInput& input, const std::string& sheet);

/// The revision that the room of all later ones is measured with, so that nothing on a sheet moves
/// with what they say: the first that was issued, or the project's last. nullptr as above.
const Revision* first_issued(const SetInput& input);

/// True when that revision's row fits in a box.
bool first_revision_fits(const paper::Board& board, const SetInput& input,
                         const paper::PaperBox& box);

/// The last revisions that fit between top and bottom; the cover has all.
void draw_revisions(paper::Board& board, const SetInput& input, const std::string& sheet,
                    const paper::PaperBox& box);

}  // namespace deckquire::sheets
