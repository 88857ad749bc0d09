// Where girders, their splices and obstructions lie on the ground.
#include <algorithm>
#include <cmath>

#include "bridge/bridge.h"

namespace deckquire {
namespace {

/// Stations where a girder may bend, its ends included.
std::vector<Length> nodes(const Bridge& bridge, const Girder& g) {
  std::vector<Length> out{g.from};
  for (const Support& s : bridge.supports)
    if (s.station > out.back() && s.station < g.to) out.push_back(s.station);
  out.push_back(g.to);
  return out;
}

struct Chord {
  GroundPoint back, ahead;
};

/// The straight piece over a station; nothing where the girder has the offset of its file.
std::optional<Chord> chord_at(const Bridge& bridge, const Girder& g, double station) {
  if (!g.straight || bridge.alignment.straight()) return std::nullopt;
  const auto first = std::partition_point(bridge.supports.begin(), bridge.supports.end(),
                                          [&](const Support& s) { return s.station <= g.from; });
  const auto end = std::partition_point(first, bridge.supports.end(),
                                        [&](const Support& s) { return s.station < g.to; });
  const auto next = std::partition_point(
      first, end, [&](const Support& s) { return s.station.in_mm() <= station; });
  const Length back = next == first ? g.from : (next - 1)->station;
  const Length ahead = next == end ? g.to : next->station;
  if (bridge.alignment.straight(back, ahead)) return std::nullopt;
  const double offset = g.offset.in_mm();
  return Chord{bridge.alignment.ground(back.in_mm(), offset),
               bridge.alignment.ground(ahead.in_mm(), offset)};
}

/// A ring given about its own middle, put down with its x along `heading`.
Ring<GroundFrame> laid(const Ring<BridgeFrame>& ring, GroundPoint middle, double heading) {
  const double c = std::cos(heading), s = std::sin(heading);
  Ring<GroundFrame> out;
  out.reserve(ring.size());
  for (const BridgePoint& p : ring)
    out.push_back({middle.x + p.x * c - p.y * s, middle.y + p.x * s + p.y * c});
  return out;
}

Ring<BridgeFrame> box_about(double length, double width) {
  return box_ring(Box<BridgeFrame>{{-length / 2, -width / 2}, {length / 2, width / 2}});
}

/// `grow`: by how much the thing is larger on every side.
Ring<GroundFrame> obstruction_grown(const Bridge& bridge, const Obstruction& o, double grow) {
  const double station = o.station.in_mm();
  const GroundPoint middle = bridge.alignment.ground(station, o.offset.in_mm());
  const auto ring = o.diameter ? circle_ring(BridgePoint{}, o.diameter->in_mm() + 2 * grow)
                               : box_about(o.length.in_mm() + 2 * grow, o.width.in_mm() + 2 * grow);
  return laid(ring, middle, bridge.alignment.heading(station));
}

}  // namespace

double girder_offset(const Bridge& bridge, const Girder& girder, double station) {
  const auto chord = chord_at(bridge, girder, station);
  if (!chord) return girder.offset.in_mm();
  const double h = bridge.alignment.heading(station);
  const GroundPoint left{-std::sin(h), std::cos(h)};
  const GroundPoint along = chord->ahead - chord->back;
  const GroundPoint to_back = chord->back - bridge.alignment.ground(station, 0);
  const auto cross = [](GroundPoint a, GroundPoint b) { return a.x * b.y - a.y * b.x; };
  const double meet = cross(left, along);  // 0: the chord runs square to the alignment
  return meet == 0 ? girder.offset.in_mm() : cross(to_back, along) / meet;
}

double girder_heading(const Bridge& bridge, const Girder& girder, double station) {
  const auto chord = chord_at(bridge, girder, station);
  if (!chord) return bridge.alignment.heading(station);
  const GroundPoint along = chord->ahead - chord->back;
  return std::atan2(along.y, along.x);
}

std::vector<GroundPoint> girder_line(const Bridge& bridge, const Girder& girder) {
  const double offset = girder.offset.in_mm();
  std::vector<GroundPoint> out;
  if (girder.straight)
    for (Length s : nodes(bridge, girder))
      out.push_back(bridge.alignment.ground(s.in_mm(), offset));
  else
    for (double s : stations_along(bridge.alignment, girder.from, girder.to, {offset, 0.5}))
      out.push_back(bridge.alignment.ground(s, offset));
  return out;
}

Ring<GroundFrame> splice_ring(const Bridge& bridge, const Splice& splice) {
  const Girder& g = bridge.girders[static_cast<std::size_t>(splice.girder)];
  const double station = splice.station.in_mm();
  const GroundPoint middle = bridge.alignment.ground(station, girder_offset(bridge, g, station));
  return laid(box_about(splice.length.in_mm(), splice.width.in_mm()), middle,
              girder_heading(bridge, g, station));
}

Ring<GroundFrame> obstruction_ring(const Bridge& bridge, const Obstruction& obstruction) {
  return obstruction_grown(bridge, obstruction, 0);
}

Ring<GroundFrame> kept_free_ring(const Bridge& bridge, const Obstruction& obstruction) {
  return obstruction_grown(bridge, obstruction, obstruction.clearance.in_mm());
}

}  // namespace deckquire
