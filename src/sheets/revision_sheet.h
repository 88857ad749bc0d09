// R sheets: what a revision changed, where and why; redlines and their answers; changed views, old
// and new laid over one another.
#pragma once

#include <string>
#include <vector>

#include "sheets/plan.h"
#include "sheets/view_changes.h"

namespace deckquire::sheets {

/// One row of the table of changes, in words. Empty cells print as a dash.
struct ChangeLine {
  std::string what, before, now;
  std::string lines;  // of the project files: "82, 83"
  std::string panels, marks, sheets;
};

/// What R sheets are made of.
struct RevisionReport {
  std::string before, now;  // "revision A", "revision B"; names of files
  std::vector<ChangeLine> changes;
  std::vector<paper::TableData> tables;  // after the changes, each with its title
  std::vector<ViewChange> views;
  std::vector<std::string> remarks;  // what could not be found out
};

/// Room that one changed view may take on an R sheet, paper mm.
paper::PaperPoint room_for_view(const paper::Style& style);

/// Adds the R sheets to a plan that has all others, numbered on from `first`. They are then drawn
/// as all sheets are.
void plan_revision_sheets(SetPlan& plan, const SetInput& input, RevisionReport report,
                          int first = 1);

/// True for those sheets, of all in series R.
bool is_revision_sheet(const SetPlan& plan, std::size_t index);
paper::Sheet draw_revision(const SetInput& input, const SetPlan& plan, std::size_t index);

}  // namespace deckquire::sheets
