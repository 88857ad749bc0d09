// A set among its issues: the one issued last, drawn again from the copy of its project, and the new
// one; what changed between them sheet by sheet, with letters, clouds and deltas.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "commands/load.h"
#include "history/register.h"
#include "paper/lettering.h"
#include "paper/style.h"
#include "sheets/plan.h"

namespace deckquire::commands {

enum class SheetChange { same, changed, added, withdrawn };

/// One sheet number of the set, drawn now or void.
struct SheetState {
  history::IssuedSheet sheet;  // as an issue of this set records it
  SheetChange change = SheetChange::added;
  std::string replaces;  // revision of the sheet that this one takes the place of; empty: none
  std::string status;    // of the set; "void" of a withdrawn sheet
};

/// What is drawn of one project, and what an issue of it records.
struct IssuedSet {
  sheets::SetPlan plan;
  std::vector<paper::Sheet> sheets;  // finished, in the order of the index; R sheets last
  std::vector<Table> tables;         // schedules with the sheets of their marks, and the transmittal
  std::vector<SheetState> states;    // in the order of the index, void ones at their places
  history::LayoutHints layout;       // where an issue is to be recorded
};

/// The issues of a project: everything that a set must know of them.
struct PastIssues {
  const history::Register& issued;  // before the revision that is drawn
  std::string folder;               // of the register, with the copies of the projects
};

/// How a set is drawn.
struct Drawing {
  const paper::Style& style;
  std::string style_name;  // as history::Issue::style has it
  const paper::Lettering& lettering;
  int jobs = 1;
  bool record = false;  // for an issue: fingerprints and layout are wanted
};

/// Draws the set. Without an issue in `past` (nullptr, or none in the register) it is what
/// sheets::draw_set() draws, byte for byte, and as fast: all sheets are added. With one, sheets of
/// which nothing changed but what names the revision keep letter, date and names of their own last
/// revision. Issues in another style are laid out anew in this one, from the first on. Findings:
/// notes where the sheets issued last do not come out as they were (another version of the
/// program), errors of redlines on sheets that there are not. FileError when a copy of a project
/// cannot be read. R sheets say what changed where the text of the project is known. `remarks`: what was found before, as the cover prints it.
IssuedSet draw_issued_set(const Loaded& loaded, const PastIssues* past, const Drawing& how,
                          const Findings& remarks, Findings& findings);

/// The same of a project with its register beside it: past is what was issued before its last
/// revision.
IssuedSet draw_issued_set(const Loaded& loaded, const Drawing& how, const Findings& remarks,
                          Findings& findings);

/// A set that was issued, drawn again from the copy of its project.
struct RedrawnIssue {
  Loaded loaded;
  sheets::SetPlan plan;
  std::vector<paper::Sheet> sheets;  // G sheets are left blank: they always go on
};
/// The one issued last. Nothing where there is none, or, with an error, where its project cannot be
/// built any more.
std::optional<RedrawnIssue> redraw_last_issue(const PastIssues& past, const Drawing& how,
                                              Findings& findings);

/// What a sheet's fingerprint is taken of: all but what names the revision and what lies on the layer
/// of revisions.
std::string fingerprint(const paper::Sheet& sheet);

}  // namespace deckquire::commands
