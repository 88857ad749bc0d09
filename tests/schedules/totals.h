// One job counted on every road: what the tables say of each other and of the deck.
#pragma once

#include <string>
#include <vector>

#include "bridge/bridge.h"
#include "deck/deck.h"
#include "schedules/table.h"

namespace deckquire {

/// Everything that is counted; a test may alter any of it.
struct CountedJob {
  Project project;
  Bridge bridge;
  Deck deck;
  std::vector<Table> tables;  // the schedules and the register of serials

  explicit CountedJob(const std::string& path);
  Table& table(const std::string& name);
  const Table* find(const std::string& name) const;
};

/// Where two counts of the same things differ (pieces exactly, all else by 1e-9), or a sum is not that of
/// its parts; empty: all agree. `looked_at`: how many pairs were compared.
std::vector<std::string> disagreements(const CountedJob& job, int* looked_at = nullptr);

}  // namespace deckquire
