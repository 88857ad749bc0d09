#include "workings/groups.h"

namespace deckquire::workings {

std::vector<WorkingKind> drainage_workings() {
  return {};
}

}  // namespace deckquire::workings
