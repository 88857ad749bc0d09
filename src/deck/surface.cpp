#include <algorithm>

#include "deck/deck.h"
#include "deck/site.h"

namespace deckquire {
namespace {

/// The inner limit of one side: the curb's foot where there is one, else the edge. x rising.
Chain inner_line(const PanelShape& s, Side side) {
  Chain line;
  for (const CurbRun& c : s.curbs) {
    if (c.side != side) continue;
    const auto half = static_cast<std::ptrdiff_t>(c.plan.size() / 2);
    const Chain foot = side == Side::left ? Chain(c.plan.begin(), c.plan.begin() + half)
                                          : Chain(c.plan.begin() + half, c.plan.end());
    line.insert(line.end(), foot.begin(), foot.end());
  }
  std::stable_sort(line.begin(), line.end(), [](auto a, auto b) { return a.x < b.x; });
  if (line.empty())
    line = side == Side::left ? Chain{{s.back_x(s.left_back), s.left_back},
                                      {s.ahead_x(s.left_ahead), s.left_ahead}}
                              : Chain{{s.back_x(s.right_back), s.right_back},
                                      {s.ahead_x(s.right_ahead), s.right_ahead}};
  return line;
}

Chain shifted(Chain line, double by) {
  for (PanelPoint& p : line) p.y += by;
  return line;
}

}  // namespace

Ring<PanelFrame> surface_ring(const PanelShape& shape, const DeckData& deck) {
  if (shape.surface < 0) return {};
  const double stop = deck.surfaces[static_cast<std::size_t>(shape.surface)].stop.in_mm();
  if (shape.length <= 2 * stop) return {};
  Ring<PanelFrame> ring = to_faces(shape, shifted(inner_line(shape, Side::right), stop), stop);
  const Chain left = to_faces(shape, shifted(inner_line(shape, Side::left), -stop), stop);
  ring.insert(ring.end(), left.rbegin(), left.rend());
  return area(ring) > 0 ? ring : Ring<PanelFrame>{};
}

}  // namespace deckquire
