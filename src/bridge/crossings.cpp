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

bool outlet_allowed(const SupportData& s, Length station, double radius) {
  return !s.top || abs(station - s.station).in_mm() >= s.top->in_mm() / 2 + radius - 1e-6;
}

bool outlet_allowed(const BridgeData& b, Length station, Length offset, double radius) {
  return std::all_of(b.crossings.begin(), b.crossings.end(),
                     [&](const auto& c) { return outlet_allowed(c, station, offset, radius); }) &&
         std::all_of(b.supports.begin(), b.supports.end(),
                     [&](const auto& s) { return outlet_allowed(s, station, radius); });
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
