// Draws one view before and now. Only revision_sheet.cpp includes it.
#pragma once

#include "paper/board.h"
#include "sheets/view_changes.h"

namespace deckquire::sheets {

/// Paper mm under the picture for its title.
double overlay_title_room(const paper::Style& style);

/// The lower left corner of the picture at `at`, framed; its title under it. What is the same is
/// thin and grey; what went is dashed, its letters struck through and beside their place where
/// others stand there now; what came is heavy. `old_pens`: of the sheet before.
void draw_overlay(paper::Board& board, const ViewChange& view, paper::PaperPoint at);

/// A sample of each of the three, with words; returns the y below.
double overlay_legend(paper::Board& board, const paper::PaperBox& space, double top);

}  // namespace deckquire::sheets
