// The groups of workings, each in files of its own; registry.cpp joins them in the order in which
// they are listed. A new group: a function here, and its line there.
#pragma once

#include <vector>

#include "workings/reckoner.h"

namespace deckquire::workings {

std::vector<WorkingKind> drainage_workings();
std::vector<WorkingKind> load_workings();
std::vector<WorkingKind> strength_workings();
std::vector<WorkingKind> fastener_workings();
std::vector<WorkingKind> movement_workings();
std::vector<WorkingKind> lifting_workings();
std::vector<WorkingKind> transport_workings();

}  // namespace deckquire::workings
