#include "checks/topics.h"

namespace deckquire {

void calculate_strength(const CalculationJob& job) {
  job.not_checked(Topic::strength, "strength and deflection of the panels",
                  "loads by the governing code and laminate properties proved by test");
}

}  // namespace deckquire
