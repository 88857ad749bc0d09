// What every verb begins with: the stages up to the deck and its checks.
#pragma once

#include <optional>
#include <string>

#include "checks/fit.h"
#include "deck/deck.h"
#include "history/register.h"
#include "project/project.h"
#include "schedules/table.h"

namespace deckquire::commands {

struct Loaded {
  Project project;
  Bridge bridge;
  Deck deck;
  CheckScope scope;
  history::Register issued = {};  // what was issued of the project, if anything was
  std::string text = {};          // of the project file, where it was read from one
};

/// With the names that the register beside the project keeps, where there is one. Nothing when the
/// register is damaged or the deck has errors; findings of every stage that could run are in `findings`. What
/// a calculation finds wanting is an error too, but the deck is there, to be looked at.
std::optional<Loaded> load(const std::string& path, Findings& findings);

/// The same of a text that is read already, as the file of that path.
std::optional<Loaded> load_text(const std::string& text, const std::string& path,
                                Findings& findings);

/// The same of a project by itself, or of one of which `issued` was issued; `folder`: of that register,
/// for panels that stay as they were built.
std::optional<Loaded> build(Project project, Findings& findings,
                            const history::Register& issued = {}, const std::string& folder = "");

/// The schedules as a set of the project's last revision has them: of what was built they know what the
/// register had before that revision was issued, so that a set stays what was issued.
std::vector<Table> schedules_of_set(const Loaded& loaded);
/// The schedules with everything that the register has by now.
std::vector<Table> schedules_by_now(const Loaded& loaded);

/// Findings to standard error, one a line, in the order of their places.
void report(const Findings& findings);

}  // namespace deckquire::commands
