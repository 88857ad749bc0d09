// What lies on which piece of a division, found once for all of them: the work grows with the
// pieces and the things on them, not with their product.
#include <algorithm>

#include "base/neighbours.h"
#include "deck/site.h"

namespace deckquire {
namespace {

using GroundBox = Box<PlanFrame>;

GroundBox box_around(const Ring<GroundFrame>& points, double more) {
  const Box<GroundFrame> b = bounds(points);
  return GroundBox{{b.low.x, b.low.y}, {b.high.x, b.high.y}}.grown(more);
}

/// Every obstruction that may reach a piece: boxes on the ground that are too large rather than too
/// small. Which of them do is found when the piece is shaped.
void list_obstructions(const Bridge& bridge, Division& d) {
  if (bridge.obstructions.empty()) return;
  const DeckEdges& edges = bridge.edges;
  const double wide = std::max(edges.most_left(), edges.most_right()).in_mm();
  constexpr double skew = 4;  // tangent of a skew beyond all that are built
  std::vector<GroundBox> boxes;
  for (const Division::Piece& p : d.pieces) {
    const double from = p.start.in_mm(), to = p.end.in_mm();
    Ring<GroundFrame> line;
    for (double s : {from, (from + to) / 2, to}) line.push_back(bridge.alignment.ground(s, 0));
    const bool square = d.joints[static_cast<std::size_t>(p.joint_back)].skew == 0 &&
                        d.joints[static_cast<std::size_t>(p.joint_ahead)].skew == 0;
    boxes.push_back(box_around(line, wide * (square ? 1 : skew) + (to - from)));
  }
  for (const Obstruction& o : bridge.obstructions)
    boxes.push_back(box_around(kept_free_ring(bridge, o), 0));
  const int pieces = static_cast<int>(d.pieces.size());
  for (const auto& [i, j] : touching(boxes))
    if (i < pieces && j >= pieces)
      d.pieces[static_cast<std::size_t>(i)].obstructions.push_back(j - pieces);
}

}  // namespace

void list_contents(const Project& project, const Bridge& bridge, Division& d) {
  const auto piece_at = [&](Length station, Length offset) -> Division::Piece& {
    return d.pieces[static_cast<std::size_t>(owner(d, station, offset))];
  };
  const auto& hatches = project.deck.hatches;
  for (std::size_t i = 0; i < hatches.size(); ++i)
    piece_at(hatches[i].station, hatches[i].offset).hatches.push_back(static_cast<int>(i));
  const auto& sleeves = project.deck.sleeves;
  for (std::size_t i = 0; i < sleeves.size(); ++i)
    piece_at(sleeves[i].station, sleeves[i].offset).sleeves.push_back(static_cast<int>(i));
  list_obstructions(bridge, d);
}

}  // namespace deckquire
