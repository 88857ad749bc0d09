#include "checks/topics.h"

namespace deckquire {

void calculate_movement(const CalculationJob& job) {
  job.not_checked(Topic::movement, "movement of the joints",
                  "temperatures, expansion of steel and panels");
}

}  // namespace deckquire
