// Every table of a project: the schedules of its deck, and the register of its panels.
#pragma once

#include <vector>

#include "commands/load.h"
#include "schedules/table.h"

namespace deckquire::commands {

/// The register of serials, with the loads of the project's truck; sheets of marks are not named yet.
Table serial_register(const Loaded& loaded);

/// The schedules, then the register of serials.
std::vector<Table> all_tables(const Loaded& loaded);

}  // namespace deckquire::commands
