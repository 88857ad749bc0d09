#include "checks/topics.h"

namespace deckquire {

void calculate_lifting(const CalculationJob& job) {
  job.not_checked(Topic::lifting, "lifting strength",
                  "insert capacity, sling angle and a handling factor");
}

}  // namespace deckquire
