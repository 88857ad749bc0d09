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
  const history::Register& issued;  // all before this revision
  /// Revisions that touched a sheet, this one last if it does; by sheet number. Sheets that are not
  /// here print all revisions of the project.
  std::map<std::string, std::vector<std::string>> revisions;
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

}  // namespace deckquire::sheets
