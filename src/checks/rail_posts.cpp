#include "checks/topics.h"

namespace deckquire {

void calculate_posts(const CalculationJob& job) {
  job.not_checked(Topic::posts, "rail posts and their anchorage",
                  "rail loads by the governing code, bolt and plate strengths");
}

}  // namespace deckquire
