#include "checks/topics.h"

namespace deckquire {

void calculate_drainage(const CalculationJob& job) {
  job.not_checked(Topic::drainage, "drainage of the deck",
                  "rain with its intensity, the gutter's roughness and an allowable spread");
}

}  // namespace deckquire
