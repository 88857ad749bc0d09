// Everything computed -> a set of sheets.
#pragma once

#include <map>
#include <string>
#include <vector>

#include "checks/fit.h"
#include "deck/deck.h"
#include "history/register.h"
#include "paper/lettering.h"
#include "paper/sheet.h"
#include "paper/style.h"
#include "schedules/table.h"

namespace deckquire::sheets {

struct SetPlan;

/// What a set knows of the issues before it.
struct SetHistory {
  const history::Register& issued;  // all before this revision; at least one issue
  /// Choices of layout to keep: those of the last issue, in the style that is drawn.
  const history::LayoutHints& layout;
  /// What a revision touched of a sheet: its letter, and how many spots carry a delta.
  struct Touch {
    std::string revision;
    int deltas = 0;
  };
  /// By sheet number, oldest first, this revision last if it touched the sheet. Sheets that are not
  /// here are new, and print this revision.
  std::map<std::string, std::vector<Touch>> touched = {};
};

/// What sheets are drawn from. All of it outlives the drawing; nothing is changed.
struct SetInput {
  const Project& project;
  const Bridge& bridge;
  const Deck& deck;
  const std::vector<Table>& tables;
  const CheckScope& scope;
  const std::vector<Finding>& findings;  // warnings and notes, printed on the cover
  const paper::Style& style;
  const paper::Lettering& lettering;
  const SetHistory* history = nullptr;  // none: nothing was issued yet
};

/// All sheets in the order of the index. `jobs` threads draw them; the result does not depend on
/// it.
std::vector<paper::Sheet> draw_set(const SetInput& input, int jobs);
/// The same of a plan that is made already, by plan_set() of that input.
std::vector<paper::Sheet> draw_set(const SetInput& input, const SetPlan& plan, int jobs);

// ---- the two halves of draw_set(), for what is to be done between them

/// All but the general sheets, which stay blank at their places.
std::vector<paper::Sheet> draw_sheets(const SetInput& input, const SetPlan& plan, int jobs);
/// The general sheets, which explain what the others show.
void draw_covers(std::vector<paper::Sheet>& sheets, const SetInput& input, const SetPlan& plan,
                 int jobs);

}  // namespace deckquire::sheets
