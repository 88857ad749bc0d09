#include "checks/fit.h"

namespace deckquire {

void check_fit(const Project&, const Bridge&, const Deck&, Findings&) {}

CheckScope check_scope(const Project&) {
  return {};
}

}  // namespace deckquire
