// What every verb begins with: the stages up to the deck and its checks.
#pragma once

#include <optional>
#include <string>

#include "checks/fit.h"
#include "deck/deck.h"
#include "project/project.h"

namespace deckquire::commands {

struct Loaded {
  Project project;
  Bridge bridge;
  Deck deck;
  CheckScope scope;
};

/// Nothing when the deck has errors; findings of every stage that could run are in `findings`. What
/// a calculation finds wanting is an error too, but the deck is there, to be looked at.
std::optional<Loaded> load(const std::string& path, Findings& findings);

/// The same of a project that is read already.
std::optional<Loaded> build(Project project, Findings& findings);

/// Findings to standard error, one a line, in the order of their places.
void report(const Findings& findings);

}  // namespace deckquire::commands
