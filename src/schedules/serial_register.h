// Every physical panel by its serial, with all that is known of its life.
#pragma once

#include "deck/deck.h"
#include "history/register.h"
#include "schedules/deliveries.h"
#include "schedules/table.h"

namespace deckquire {

/// One line a serial in the order in which they were given, void ones too: place, revision it was made
/// to, status (planned, cast, shipped, set, void), dates, sizes as measured, load where the project
/// states a truck, what it replaces or is replaced by and why. From the register where there is one; panels
/// that were not issued yet are planned. The column `sheet` is empty: see sheets::with_panel_sheets.
Table serial_register_table(const Deck& deck, const history::Register& issued,
                            const std::optional<Deliveries>& deliveries);

}  // namespace deckquire
