#include <algorithm>

#include "deck/deck.h"
#include "deck/site.h"

namespace deckquire {
namespace {

/// The inner limit of one side: the curb's foot where there is one, else the edge. x rising.
std::vector<PanelPoint> inner_line(const PanelShape& s, Side side) {
  std::vector<PanelPoint> line;
  for (const CurbRun& c : s.curbs) {
    if (c.side != side) continue;
    const auto half = static_cast<std::ptrdiff_t>(c.plan.size() / 2);
    std::vector<PanelPoint> foot = side == Side::left
                                       ? std::vector(c.plan.begin(), c.plan.begin() + half)
                                       : std::vector(c.plan.begin() + half, c.plan.end());
    line.insert(line.end(), foot.begin(), foot.end());
  }
  std::stable_sort(line.begin(), line.end(), [](auto a, auto b) { return a.x < b.x; });
  if (line.empty())
    line = side == Side::left
               ? std::vector<PanelPoint>{{0, s.left_back}, {s.length, s.left_ahead}}
               : std::vector<PanelPoint>{{0, s.right_back}, {s.length, s.right_ahead}};
  return line;
}

double at(const std::vector<PanelPoint>& line, double x) {
  for (std::size_t i = 1; i < line.size(); ++i) {
    const PanelPoint a = line[i - 1], b = line[i];
    if (x <= b.x && b.x > a.x) return a.y + (b.y - a.y) * (x - a.x) / (b.x - a.x);
  }
  return line.back().y;
}

std::vector<PanelPoint> between(const std::vector<PanelPoint>& line, double from, double to,
                                double shift) {
  std::vector<PanelPoint> out{{from, at(line, from) + shift}};
  for (const PanelPoint& p : line)
    if (p.x > from && p.x < to) out.push_back({p.x, p.y + shift});
  out.push_back({to, at(line, to) + shift});
  return out;
}

}  // namespace

Ring<PanelFrame> surface_ring(const PanelShape& shape, const DeckData& deck) {
  if (shape.surface < 0) return {};
  const double stop = deck.surfaces[static_cast<std::size_t>(shape.surface)].stop.in_mm();
  const double from = stop, to = shape.length - stop;
  if (to <= from) return {};
  Ring<PanelFrame> ring = between(inner_line(shape, Side::right), from, to, stop);
  const auto left = between(inner_line(shape, Side::left), from, to, -stop);
  ring.insert(ring.end(), left.rbegin(), left.rend());
  return area(ring) > 0 ? ring : Ring<PanelFrame>{};
}

}  // namespace deckquire
