// What a change of the project does to panels and marks: found by building both decks and comparing
// what comes out, never by rules about what hangs on what.
#pragma once

#include <string>
#include <vector>

#include "deck/deck.h"
#include "history/register.h"

namespace deckquire::history {

/// A deck that has its names (keep_identities), with what an issue of it would record.
struct NamedDeck {
  const Bridge& bridge;
  const Deck& deck;
  const Issue& issue;
};

enum class PanelEffect {
  added,      // a position that was not there
  removed,    // one that is not there any more
  geometry,   // another mark, so another part is to be made
  placement,  // the same part, but it lies elsewhere, higher, or the other way round
  text        // the same part in the same place; names of what it carries differ
};
const char* name_of(PanelEffect effect);

struct PanelChange {
  int position = 0;
  PanelEffect effect{};
  std::string serial_before, serial, mark_before, mark;  // empty where there is none
  friend bool operator==(const PanelChange&, const PanelChange&) = default;
};

enum class MarkEffect { comes, comes_back, goes, quantity };
const char* name_of(MarkEffect effect);

struct MarkChange {
  std::string mark;
  MarkEffect effect{};
  int before = 0, now = 0;  // how many
  friend bool operator==(const MarkChange&, const MarkChange&) = default;
};

struct Impact {
  std::vector<PanelChange> panels;  // by position
  std::vector<MarkChange> marks;    // by name
  bool empty() const { return panels.empty() && marks.empty(); }
};

/// `issued`: all issues before the new one; a mark of them that was withdrawn comes back.
Impact impact_of(const NamedDeck& before, const NamedDeck& now, const Register& issued);

}  // namespace deckquire::history
