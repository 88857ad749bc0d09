#include <cmath>

#include "bridge/bridge.h"

namespace deckquire {
namespace {

/// The two grade points whose line holds at `station`; fewer than two points: none.
std::size_t grade_line(const std::vector<GradePointData>& g, Length station) {
  std::size_t i = 0;
  while (i + 2 < g.size() && g[i + 1].station <= station) ++i;
  return i;
}

}  // namespace

Length Alignment::level(Length station) const {
  const auto& g = data_.grades;
  if (g.empty()) return Length();
  if (g.size() == 1 || g[0].station == g[1].station) return g[0].level;
  const std::size_t i = grade_line(g, station);
  const Length run = g[i + 1].station - g[i].station;
  return g[i].level + (g[i + 1].level - g[i].level) * ((station - g[i].station) / run);
}

double Alignment::grade(Length station) const {
  const auto& g = data_.grades;
  if (g.size() < 2 || g[0].station == g[1].station) return 0;
  const std::size_t i = grade_line(g, station);
  return (g[i + 1].level - g[i].level) / (g[i + 1].station - g[i].station);
}

SurveyPoint Alignment::survey(Length station, Length offset) const {
  const double s = std::sin(data_.bearing.in_si()), c = std::cos(data_.bearing.in_si());
  const double along = (station - data_.from).in_m(), left = offset.in_m();
  return {data_.easting.in_m() + along * s - left * c, data_.northing.in_m() + along * c + left * s,
          level(station).in_m()};
}

GroundPoint Alignment::ground(double station, double offset) const {
  const double s = std::sin(data_.bearing.in_si()), c = std::cos(data_.bearing.in_si());
  const double along = station - data_.from.in_mm();
  return {along * s - offset * c, along * c + offset * s};
}
double Alignment::heading(double) const {
  return pi / 2 - data_.bearing.in_si();
}
std::optional<BridgePoint> Alignment::locate(GroundPoint, double) const {
  return std::nullopt;
}
double girder_offset(const Bridge&, const Girder& g, double) {
  return g.offset.in_mm();
}
Ring<GroundFrame> splice_ring(const Bridge&, const Splice&) {
  return {};
}

}  // namespace deckquire
