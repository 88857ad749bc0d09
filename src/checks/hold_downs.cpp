#include "checks/topics.h"

namespace deckquire {

void calculate_hold_down(const CalculationJob& job) {
  job.not_checked(Topic::hold_down, "uplift and hold-downs",
                  "wind pressures and the clips' resistance");
}

}  // namespace deckquire
