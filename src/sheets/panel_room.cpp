// Finding free places on paper for numbers and words.
#include <algorithm>
#include <cmath>

#include "sheets/panel_parts.h"

namespace deckquire::sheets {

using paper::PaperBox;
using paper::PaperPoint;

void Room::take_line(PaperPoint a, PaperPoint b, double half_width) {
  const double length = std::hypot(b.x - a.x, b.y - a.y);
  const bool slanted = std::abs(b.x - a.x) > 0.01 && std::abs(b.y - a.y) > 0.01;
  const int pieces = slanted ? std::max(1, static_cast<int>(length / 2)) : 1;
  for (int i = 0; i < pieces; ++i) {
    const PaperPoint p = a + (b - a) * (double(i) / pieces);
    const PaperPoint q = a + (b - a) * (double(i + 1) / pieces);
    take(
        PaperBox{{std::min(p.x, q.x), std::min(p.y, q.y)}, {std::max(p.x, q.x), std::max(p.y, q.y)}}
            .grown(half_width));
  }
}

bool Room::free(const PaperBox& box) const {
  return std::none_of(taken_.begin(), taken_.end(),
                      [&](const PaperBox& t) { return t.overlaps(box); });
}

std::optional<PaperPoint> Room::place(PaperPoint size, PaperPoint ideal, const PaperBox& within,
                                      double reach,
                                      const std::function<bool(PaperPoint)>& suits) const {
  const double step = 1;
  const auto fits = [&](PaperPoint c) {
    const PaperBox b{{c.x - size.x / 2, c.y - size.y / 2}, {c.x + size.x / 2, c.y + size.y / 2}};
    return within.contains(b.low) && within.contains(b.high) && free(b);
  };
  for (double r = 0; r <= reach; r += step) {
    // Rings of places, those above and to the right first.
    const int n = std::max(1, static_cast<int>(2 * pi * r / step));
    for (int i = 0; i < n; ++i) {
      const double turn = pi / 3 + 2 * pi * i / n;
      const PaperPoint c{ideal.x + r * std::cos(turn), ideal.y + r * std::sin(turn)};
      if (fits(c) && (!suits || suits(c))) return c;
    }
  }
  return std::nullopt;
}

}  // namespace deckquire::sheets
