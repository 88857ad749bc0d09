// Which marks would be one if a few fittings moved, as `why` and `divide` print it.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "commands/load.h"
#include "deck/merging.h"

namespace deckquire::commands {

/// Each tried on the whole deck with all checks. `only`: those with this mark.
std::vector<Merger> merge_hints(const Loaded& loaded, std::optional<int> only = {});

/// One a line, or that there are none; how far what was moved.
void print_merge_hints(const Loaded& loaded, const std::vector<Merger>& mergers);

/// "[...]", each on a line behind `indent`.
std::string json_merge_hints(const Loaded& loaded, const std::vector<Merger>& mergers,
                             const std::string& indent);

/// "DP04 (2 panels, positions 5, 34)"
std::string introduced(const Deck& deck, const Mark& mark);
std::vector<std::string> positions(const Deck& deck, const Mark& mark);

}  // namespace deckquire::commands
