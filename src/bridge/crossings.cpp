#include "bridge/crossings.h"

#include <algorithm>
#include <cmath>

namespace deckquire {

double distance_to(const CrossingData& c, Length station, Length offset) {
  const double along = std::max({(c.from - station).in_mm(), (station - c.to).in_mm(), 0.0});
  const double left = c.left ? (offset - *c.left).in_mm() : 0;
  const double right = c.right ? (*c.right - offset).in_mm() : 0;
  return std::hypot(along, std::max({left, right, 0.0}));
}

bool outlet_allowed(const CrossingData& c, Length station, Length offset, double radius) {
  return c.outlets_allowed || distance_to(c, station, offset) >= radius + c.clear.in_mm() - 1e-6;
}

const char* crossing_word(CrossingKind kind) {
  switch (kind) {
    case CrossingKind::road:
      return "road";
    case CrossingKind::railway:
      return "railway";
    case CrossingKind::path:
      return "path";
    case CrossingKind::water:
      return "water";
  }
  return "";
}

}  // namespace deckquire
