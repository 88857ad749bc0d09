// The groups of workings, each in files of its own; registry.cpp joins them in the order in which
// they are listed. A new group: a function here, and its line there.
#pragma once

#include <vector>

#include "workings/reckoner.h"

namespace deckquire::workings {

std::vector<WorkingKind> drainage_workings();

}  // namespace deckquire::workings
