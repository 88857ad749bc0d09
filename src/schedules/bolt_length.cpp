#include "schedules/bolt_length.h"

#include <vector>

namespace deckquire {
namespace {

std::vector<Length> standard_bolts(bool inch) {
  std::vector<Length> out;
  if (inch) {
    for (int quarters = 2; quarters <= 40; ++quarters) out.push_back(inches(quarters / 4.0));
    return out;
  }
  for (int v : {10, 12, 16}) out.push_back(mm(v));
  for (int v = 20; v <= 70; v += 5) out.push_back(mm(v));
  for (int v = 80; v <= 200; v += 10) out.push_back(mm(v));
  return out;
}

Length away(Length a) { return a < Length() ? Length() - a : a; }

}  // namespace

std::optional<Length> bolt_length(Length grip, Length diameter, Length insert_depth, bool inch) {
  const Length wish = grip + mm(1.5 * diameter.in_mm());
  std::optional<Length> best;
  for (Length l : standard_bolts(inch)) {
    if (l < grip + diameter || l > grip + insert_depth) continue;
    if (!best || away(l - wish) < away(*best - wish)) best = l;
  }
  return best;
}

}  // namespace deckquire
