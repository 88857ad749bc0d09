#include "deck/rail_line.h"

#include <algorithm>
#include <cmath>

namespace deckquire {
namespace {

/// Corners of the width law, ends of curves, and on them a station every half metre.
std::vector<Length> knot_stations(const Bridge& bridge, Length from, Length to) {
  std::vector<Length> at{from};
  for (Length s : bridge.edges.breaks())
    if (s > from && s < to) at.push_back(s);
  if (!bridge.alignment.straight())
    for (const PlanElement& e : bridge.alignment.elements())
      if (mm(e.from) > from && mm(e.from) < to) at.push_back(mm(e.from));
  at.push_back(std::max(to, from + mm(1)));
  std::sort(at.begin(), at.end());
  const Length step = mm(500);
  std::vector<Length> out;
  for (std::size_t i = 0; i + 1 < at.size(); ++i) {
    if (at[i + 1] <= at[i]) continue;
    out.push_back(at[i]);
    if (bridge.alignment.straight(at[i], at[i + 1])) continue;
    for (Length s = at[i] + step; s < at[i + 1]; s += step) out.push_back(s);
  }
  out.push_back(at.back());
  return out;
}

double rate_of(const Bridge& bridge, Side side, Length a, Length b, double inset) {
  const double inwards = side == Side::left ? -inset : inset, length = (b - a).in_mm();
  const double back = edge_offset(bridge, side, a).in_mm() + inwards;
  double ahead = edge_offset(bridge, side, b, false).in_mm() + inwards;
  constexpr double steepest = 1;  // more across than along is a step, not a rail's way
  if (std::abs(ahead - back) > steepest * length) ahead = back;
  if (bridge.alignment.straight(a, b)) return std::hypot(1, (ahead - back) / length);
  // Straight from knot to knot, whatever the curvature does between them.
  const GroundPoint d =
      bridge.alignment.ground(b.in_mm(), ahead) - bridge.alignment.ground(a.in_mm(), back);
  return std::hypot(d.x, d.y) / length;
}

}  // namespace

Length edge_offset(const Bridge& bridge, Side side, Length station, bool ahead) {
  const DeckEdges& e = bridge.edges;
  return side == Side::left ? e.left(station, ahead) : -e.right(station, ahead);
}

double post_inset(const CurbData& curb) {
  return (curb.width - curb.batter).in_mm() / 2;
}

RailLine::RailLine(const Bridge& bridge, const std::vector<Side>& sides, Length from, Length to,
                   double inset) {
  const std::vector<Length> at = knot_stations(bridge, from, to);
  double sum = 0;
  for (std::size_t i = 0; i + 1 < at.size(); ++i) {
    double rate = 0;
    for (Side side : sides) rate = std::max(rate, rate_of(bridge, side, at[i], at[i + 1], inset));
    knots_.push_back({at[i], sum, rate});
    sum += rate * (at[i + 1] - at[i]).in_mm();
  }
  knots_.push_back({at.back(), sum, knots_.back().rate});
}

std::size_t RailLine::segment(Length station) const {
  const auto above = std::upper_bound(knots_.begin(), knots_.end(), station,
                                      [](Length s, const Knot& k) { return s < k.station; });
  return above == knots_.begin() ? 0 : static_cast<std::size_t>(above - knots_.begin()) - 1;
}

double RailLine::distance(Length station) const {
  const Knot& k = knots_[segment(station)];
  return k.distance + k.rate * (station - k.station).in_mm();
}

Length RailLine::station(double distance) const {
  const auto above = std::upper_bound(knots_.begin(), knots_.end(), distance,
                                      [](double d, const Knot& k) { return d < k.distance; });
  const Knot& k = above == knots_.begin() ? knots_.front() : *(above - 1);
  return k.station + mm((distance - k.distance) / k.rate);
}

double RailLine::stretch(Length a, Length b) const {
  double most = 0;
  for (std::size_t i = segment(a); i < knots_.size(); ++i) {
    if (most > 0 && knots_[i].station >= b) break;
    most = std::max(most, knots_[i].rate);
  }
  return most;
}

}  // namespace deckquire
