// From a change of the project file to panels and sheets: by asking what that change alone would
// do.
#pragma once

#include <map>
#include <string>
#include <vector>

#include "commands/issued_set.h"
#include "history/impact.h"
#include "history/single_change.h"
#include "sheets/revision_sheet.h"

namespace deckquire::commands {

/// The issue that something is compared with.
struct Former {
  const history::Register& issued;  // up to it; layouts of the style that is drawn
  std::string folder;               // of the register
  std::string text;                 // of its project file
  const Loaded& loaded;
  const std::vector<paper::Sheet>& sheets;  // G sheets may be blank
};

/// Changed sheets by number, with where; without a place those that only one of the two has.
/// General sheets and those of revisions are not compared.
using ChangedSheets = std::map<std::string, std::vector<paper::PaperBox>>;
ChangedSheets sheets_between(const std::vector<paper::Sheet>& before,
                             const std::vector<paper::Sheet>& now);

/// What two decks differ in, both named by their registers.
history::Impact impact_between(const Loaded& before, const Loaded& now,
                               const history::Register& issued);

/// What one group of changes does: found by building the former project with these changes and no
/// others, naming its deck by the same register, and drawing it. What shows only together with
/// other changes is not found that way, and what two changes undo in each other is found for both.
struct Trace {
  history::ChangeGroup group;
  bool alone = false;  // false: it does not build by itself, or there were too many to ask
  history::Impact impact;
  std::map<std::string, std::vector<paper::PaperBox>>
      sheets;  // changed ones; no boxes: come or gone
};

/// No more groups than this are asked: each costs a drawn set.
constexpr std::size_t most_traced = 40;

std::vector<Trace> trace(const Former& former, const std::string& now_text,
                         const std::vector<history::Change>& changes, const Drawing& how);

/// Without revisions, which are no change of what is built: their list is on every sheet.
std::vector<history::Change> changes_between(const std::string& before,
                                             const std::string& before_file, const std::string& now,
                                             const std::string& now_file);

/// Effects in words, for tables: "2, 5 to 8 (geometry); 9 (placement)", "DP02 goes; DP17 comes, 1".
std::string panel_words(const history::Impact& impact);
std::string mark_words(const history::Impact& impact);

/// R sheets of what changed from the former issue to `loaded`, whose sheets are drawn: `spots` by
/// sheet are those that carry clouds.
sheets::RevisionReport revision_report(
    const Former& former, const Loaded& loaded, const std::vector<paper::Sheet>& sheets,
    const std::map<std::string, std::vector<history::Spot>>& spots, const Drawing& how);

}  // namespace deckquire::commands
