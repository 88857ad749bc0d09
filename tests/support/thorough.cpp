// Compiled once for each of the two test programs, the only file that knows which it is in.
#include "support/thorough.h"

namespace deckquire {
#if defined(__SANITIZE_ADDRESS__)
const bool thorough = false;
#else
const bool thorough = true;
#endif
}  // namespace deckquire
