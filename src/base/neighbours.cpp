#include "base/neighbours.h"

#include <algorithm>
#include <cmath>
#include <cstdint>
#include <limits>

namespace deckquire {
namespace {

template <class Frame>
bool touch(const Box<Frame>& a, const Box<Frame>& b) {
  return a.low.x <= b.high.x && b.low.x <= a.high.x && a.low.y <= b.high.y && b.low.y <= a.high.y;
}

/// Square cells over all boxes. Cells that hold nothing cost nothing.
template <class Frame>
struct Grid {
  Point<Frame> origin;
  double cell = 1;

  std::int64_t column(double x) const { return static_cast<std::int64_t>((x - origin.x) / cell); }
  std::int64_t row(double y) const { return static_cast<std::int64_t>((y - origin.y) / cell); }
  double cells_of(const Box<Frame>& b) const {
    return (b.width() / cell + 1) * (b.height() / cell + 1);
  }
};

/// Cells about as large as the boxes; larger where a few large boxes would take too many.
template <class Frame>
Grid<Frame> grid_over(const std::vector<Box<Frame>>& boxes) {
  constexpr double infinity = std::numeric_limits<double>::infinity();
  Box<Frame> all{{infinity, infinity}, {-infinity, -infinity}};
  double sum = 0;
  for (const Box<Frame>& b : boxes) {
    all.low = {std::min(all.low.x, b.low.x), std::min(all.low.y, b.low.y)};
    all.high = {std::max(all.high.x, b.high.x), std::max(all.high.y, b.high.y)};
    sum += std::max(b.width(), b.height());
  }
  const double n = static_cast<double>(boxes.size());
  // A side has at most 2^30 cells: their numbers stay exact.
  const double least = std::max(all.width(), all.height()) / 1e9;
  Grid<Frame> grid{all.low, std::max({sum / n, least, 1e-9})};
  const auto cells = [&] {
    double total = 0;
    for (const Box<Frame>& b : boxes) total += grid.cells_of(b);
    return total;
  };
  while (cells() > 8 * n) grid.cell *= 2;
  return grid;
}

struct Entry {
  std::int64_t column, row;
  int box;
  friend auto operator<=>(const Entry&, const Entry&) = default;
};

template <class Frame>
std::vector<Entry> entries_of(const std::vector<Box<Frame>>& boxes, const Grid<Frame>& grid) {
  std::vector<Entry> all;
  for (std::size_t i = 0; i < boxes.size(); ++i) {
    const Box<Frame>& b = boxes[i];
    for (std::int64_t c = grid.column(b.low.x); c <= grid.column(b.high.x); ++c)
      for (std::int64_t r = grid.row(b.low.y); r <= grid.row(b.high.y); ++r)
        all.push_back({c, r, static_cast<int>(i)});
  }
  std::sort(all.begin(), all.end());
  return all;
}

}  // namespace

template <class Frame>
std::vector<std::pair<int, int>> touching(const std::vector<Box<Frame>>& boxes) {
  std::vector<std::pair<int, int>> pairs;
  if (boxes.size() < 2) return pairs;
  const Grid<Frame> grid = grid_over(boxes);
  const std::vector<Entry> entries = entries_of(boxes, grid);
  const auto box = [&](const Entry& e) -> const Box<Frame>& {
    return boxes[static_cast<std::size_t>(e.box)];
  };
  for (std::size_t from = 0, to = 0; from < entries.size(); from = to) {
    const Entry& cell = entries[from];
    while (to < entries.size() && entries[to].column == cell.column && entries[to].row == cell.row)
      ++to;
    for (std::size_t i = from; i < to; ++i)
      for (std::size_t j = i + 1; j < to; ++j) {
        const Box<Frame>&a = box(entries[i]), &b = box(entries[j]);
        if (!touch(a, b)) continue;
        // Two boxes may share many cells: the one with the low corner of what they share counts.
        if (grid.column(std::max(a.low.x, b.low.x)) != cell.column) continue;
        if (grid.row(std::max(a.low.y, b.low.y)) != cell.row) continue;
        pairs.push_back({entries[i].box, entries[j].box});
      }
  }
  std::sort(pairs.begin(), pairs.end());
  return pairs;
}

#define DECKQUIRE_FRAME(F) \
  template std::vector<std::pair<int, int>> touching(const std::vector<Box<F>>&);
DECKQUIRE_FRAME(BridgeFrame)
DECKQUIRE_FRAME(PanelFrame)
DECKQUIRE_FRAME(PlanFrame)
#undef DECKQUIRE_FRAME

}  // namespace deckquire
