#include "sheets/deck_lines.h"

#include <algorithm>
#include <cmath>

namespace deckquire::sheets {
namespace {

constexpr double bend_step = 400;  // mm between the points of a bent line

double edge_at(const Bridge& bridge, Side side, double station) {
  const Length at = mm(station);
  return side == Side::left ? bridge.edges.left(at).in_mm() : -bridge.edges.right(at).in_mm();
}

/// Stations from end to end, close enough together where the alignment bends.
std::vector<double> steps(const Alignment& alignment, double from, double to) {
  std::vector<double> out{from};
  if (!alignment.straight(mm(from), mm(to))) {
    const int n = std::max(1, static_cast<int>((to - from) / bend_step));
    for (int i = 1; i < n; ++i) out.push_back(from + (to - from) * i / n);
  }
  out.push_back(to);
  return out;
}

void add(BridgeLine& line, BridgePoint p) {
  if (line.empty() || !(line.back() == p)) line.push_back(p);
}

}  // namespace

std::vector<Bay> bays_of(const Deck& deck, int first, int count) {
  std::vector<Bay> out;
  for (int i = first; i < first + count; ++i) {
    const auto at = static_cast<std::size_t>(i);
    const bool next = i == first || deck.panels[at].bay != deck.panels[at - 1].bay;
    if (next) out.push_back({i, 0});
    out.back().count += 1;
  }
  return out;
}

BridgePoint on_joint(const Bridge& bridge, const Joint& joint, double offset) {
  const Alignment& a = bridge.alignment;
  const double station = joint.station.in_mm();
  if (joint.skew == 0) return {station, offset};
  const double slope = std::tan(joint.skew);
  BridgePoint p{station + offset * slope, offset};
  if (a.straight()) return p;
  const GroundPoint origin = a.ground(station, 0);
  const double heading = a.heading(station), c = std::cos(heading), s = std::sin(heading);
  double y = offset;  // square to the alignment at the joint's station
  for (int i = 0; i < 4; ++i) {
    const GroundPoint q{origin.x + y * (slope * c - s), origin.y + y * (slope * s + c)};
    const auto found = a.locate(q, p.x);
    if (!found) break;
    p = *found;
    y += offset - p.y;
  }
  return p;
}

BridgePoint joint_end(const Bridge& bridge, const Joint& joint, Side side) {
  BridgePoint p = on_joint(bridge, joint, edge_at(bridge, side, joint.station.in_mm()));
  if (joint.skew == 0) return p;
  for (int i = 0; i < 3; ++i) p = on_joint(bridge, joint, edge_at(bridge, side, p.x));
  return p;
}

BridgeLine joint_line(const Bridge& bridge, const Joint& joint, double from, double to) {
  const bool bent = joint.skew != 0 && !bridge.alignment.straight();
  const int n = bent ? 6 : 1;
  BridgeLine out;
  for (int i = 0; i <= n; ++i)
    out.push_back(on_joint(bridge, joint, i == n ? to : from + (to - from) * i / n));
  return out;
}

BridgeLine edge_line(const Bridge& bridge, Side side, Length from, Length to) {
  std::vector<Length> corners{from};
  for (Length b : bridge.edges.breaks())
    if (from < b && b < to && b != corners.back()) corners.push_back(b);
  corners.push_back(to);
  const double sign = side == Side::left ? 1 : -1;
  const auto offset = [&](Length at, bool ahead) {
    return sign * (side == Side::left ? bridge.edges.left(at, ahead)
                                      : bridge.edges.right(at, ahead)).in_mm();
  };
  BridgeLine out;
  for (std::size_t i = 0; i + 1 < corners.size(); ++i) {
    const Length a = corners[i], b = corners[i + 1];
    const double at_a = offset(a, true), at_b = offset(b, false);
    for (double x : steps(bridge.alignment, a.in_mm(), b.in_mm()))
      add(out, {x, at_a + (at_b - at_a) * (x - a.in_mm()) / (b - a).in_mm()});
  }
  return out;
}

Ring<BridgeFrame> deck_between(const SetInput& input, const Joint& back, const Joint& ahead) {
  const Bridge& bridge = input.bridge;
  const auto edge = [&](Side side) {
    const BridgePoint a = joint_end(bridge, back, side), b = joint_end(bridge, ahead, side);
    return edge_line(bridge, side, mm(a.x), mm(b.x));
  };
  Ring<BridgeFrame> out = edge(Side::right);
  const BridgeLine left = edge(Side::left);
  out.insert(out.end(), left.rbegin(), left.rend());
  return out;
}

double skew_reach(const SetInput& input) {
  double slope = 0;
  for (const Joint& j : input.deck.joints) slope = std::max(slope, std::abs(std::tan(j.skew)));
  if (slope == 0) return 0;
  Length widest;
  for (const EdgeData& e : input.bridge.edges.data()) widest = std::max({widest, e.left, e.right});
  return slope * widest.in_mm();
}

BridgeLine girder_course(const Bridge& bridge, const Girder& girder, double from, double to,
                         double aside) {
  std::vector<double> at = steps(bridge.alignment, from, to);
  if (at.size() > 2)  // a chord's kinks
    for (const Support& s : bridge.supports)
      if (s.station.in_mm() > from && s.station.in_mm() < to) at.push_back(s.station.in_mm());
  std::sort(at.begin(), at.end());
  BridgeLine out;
  for (double x : at) out.push_back({x, girder_offset(bridge, girder, x) + aside});
  return out;
}

Ring<BridgeFrame> splice_plan(const Bridge& bridge, const Splice& splice) {
  const double near = splice.station.in_mm();
  if (bridge.alignment.straight(splice.station - metres(2), splice.station + metres(2)))
    return box_ring(splice.plan);
  Ring<BridgeFrame> out;
  for (GroundPoint p : splice_ring(bridge, splice))
    if (const auto at = bridge.alignment.locate(p, near)) out.push_back(*at);
  return out;
}

}  // namespace deckquire::sheets
