// In which order the panels of a deck are set, and why one stands where it does in it.
#pragma once

#include <string>
#include <vector>

#include "deck/deck.h"
#include "schedules/table.h"

namespace deckquire {

/// Indices of panels in the order of setting: the project's way, rows of a bay from the left, what is
/// blocked last, and what waits after what it waits for. Of what cannot be followed one error a cause goes
/// to `findings`, and the rest of the order is kept: positions and spans that there are not
/// (`no-such-position`, `no-such-span`), what comes twice (`set-twice`), a panel that another waits for
/// although it is blocked (`blocked-but-needed`), waits in a circle (`waits-in-a-circle`), `next` where
/// the order is not given (`next-not-read`).
std::vector<int> setting_order(const Project& project, const Deck& deck, Findings& findings);

/// By index of panel: "waits for 10", "blocked: mast not yet up"; empty where only the way decides.
std::vector<std::string> setting_reasons(const Project& project, const Deck& deck);

/// The way in words: "from both ends, A1 and A2, to the closing panel".
std::string setting_way(const Project& project, const Bridge& bridge);

/// True where panels are set as they stand, from the first to the last.
bool sets_as_they_stand(const std::vector<int>& order);

/// One line a panel in the order of setting; on a sheet only where it is not that of the panels.
Table sequence_table(const Project& project, const Deck& deck);

}  // namespace deckquire
