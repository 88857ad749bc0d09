#include "commands/all_tables.h"

#include "schedules/schedules.h"
#include "schedules/serial_register.h"

namespace deckquire::commands {

Table serial_register(const Loaded& loaded) {
  Findings said_elsewhere;  // where trucks and the order of setting are planned
  return serial_register_table(loaded.deck, loaded.issued,
                               plan_deliveries(loaded.project, loaded.deck, said_elsewhere));
}

std::vector<Table> all_tables(const Loaded& loaded) {
  std::vector<Table> tables = make_schedules(loaded.project, loaded.bridge, loaded.deck);
  tables.push_back(serial_register(loaded));
  return tables;
}

}  // namespace deckquire::commands
