// Remarks of reviewers on the sheets: a numbered red note with a leader at what it is about, told from
// all else without colour by its pennant and the word REDLINE.
#pragma once

#include <string>
#include <vector>

#include "paper/table.h"
#include "sheets/plan.h"

namespace deckquire::sheets {

/// Whether a sheet carries the note of that redline: the one that it names, or every E and P sheet that
/// draws what it is about. Only open ones are drawn, unless the style keeps answered ones.
bool carries_redline(const SetInput& input, const SetPlan& plan, std::size_t sheet,
                     const Redline& redline);

/// Draws the notes of a finished sheet where nothing stands, in groups of kind "redline" on the layer
/// of revisions. A note that finds no room for its words has its number alone; the list of redlines
/// has the words. Returns the numbers of those that found no room even for that.
std::vector<int> draw_redlines(paper::Sheet& sheet, const SetInput& input, const SetPlan& plan,
                               std::size_t index);

/// An error for every open redline that names a sheet that the set does not have.
void check_redline_sheets(const SetInput& input, const SetPlan& plan, Findings& findings);

/// All redlines: number, on what, sheet, by whom, when, the remark, its status, answer and the
/// revision that answered it.
paper::TableData redline_rows(const SetInput& input, const SetPlan& plan);

}  // namespace deckquire::sheets
