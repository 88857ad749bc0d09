// What is measured on the steel before panels are cast, and how far it may be off.
#pragma once

#include <string>
#include <vector>

#include "deck/deck.h"
#include "schedules/table.h"

namespace deckquire {

/// One kind of thing: what a surveyor measures of each, and the line of the project file that takes the
/// answer. Columns `allows...` are words: "-7 +12", "not computed"; each follows the nominal value that
/// it is of, and a column that is called `measured...` and is empty follows it: the answer, or what was
/// measured last where the project has it already.
struct FieldTable {
  Table table;
  std::string line;  // <measured of="splice" name="..." ...>
};

/// Of supports, girders at the joints, splices and obstructions; only kinds that the bridge has. What is
/// allowed comes from deck/steel_room.h; where the deck has no answer it says so.
std::vector<FieldTable> field_tables(const Project& project, const Bridge& bridge, const Deck& deck);

}  // namespace deckquire
