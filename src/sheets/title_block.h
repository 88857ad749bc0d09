// Title block, stamp space and revision block, stacked at the foot of the text column.
#pragma once

#include <string>
#include <vector>

#include "paper/board.h"
#include "sheets/plan.h"

namespace deckquire::sheets {

/// What the templates of title fields may name.
struct BlockContext {
  const SetInput& input;
  const SetPlan& plan;
  std::size_t index;
  std::string scale;
  bool measuring = false;   // room is measured with the first revision issued
};

/// A template with its names replaced; "not stated" when nothing is left. Unknown names stay as
/// written, braces and all, so that they are seen.
std::string fill_template(const BlockContext& context, const std::string& text);

/// Writes what names the revision anew, in the room that it has: to be called when it is known which
/// revisions touched the sheet (SetHistory::touched), and how many sheets the set has.
void name_revision(paper::Sheet& sheet, const SetInput& input, const SetPlan& plan,
                   std::size_t index);

/// Height of the title block: the same on every sheet of the set, and in every issue.
double title_block_height(const paper::Board& board, const BlockContext& context);

void draw_title_block(paper::Board& board, const BlockContext& context, const paper::PaperBox& box);

/// Stamp space and revision block above the title block, which ends at y; returns the y above them.
double draw_stamp_and_revisions(paper::Board& board, const BlockContext& context, double y);

}  // namespace deckquire::sheets
