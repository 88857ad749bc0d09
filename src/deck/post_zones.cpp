#include "deck/post_zones.h"

#include <algorithm>
#include <cmath>

#include "deck/rail_line.h"
#include "deck/site.h"

namespace deckquire {
namespace {

/// Signed offset of the posts of a side.
Length rail_offset(const Project& project, const Bridge& bridge, Side side, Length station) {
  return edge_offset(bridge, side, station) -
         mm(sign(side) * post_inset(project.deck.section.curb));
}

/// How long the rail is to a length of the alignment, where it is shortest near a station: less
/// than 1 on the inside of a curve.
double shortest_rate(const Bridge& bridge, Length station, Length offset) {
  double rate = 1;
  for (double beside : {-200.0, 0.0, 200.0})
    rate =
        std::min(rate, 1 - bridge.alignment.curvature(station.in_mm() + beside) * offset.in_mm());
  return rate;
}

/// Half of the stretch along the alignment that a joint keeps free of posts' middles.
Length joint_reach(const Project& project, const Bridge& bridge, const Division& division,
                   Side side, const Joint& joint) {
  const PostsData& posts = *project.deck.posts;
  const Length beside = mm(300), here = edge_offset(bridge, side, joint.station);
  const double slope =
      std::max(abs(edge_offset(bridge, side, joint.station + beside) - here) / beside,
               abs(here - edge_offset(bridge, side, joint.station - beside)) / beside);
  // On a curve a plate lies along its panel's chord, not square to the joint.
  double turn = 0;
  for (int n : {joint.back, joint.ahead}) {
    if (n < 0 || bridge.alignment.straight()) continue;
    const auto& p = division.pieces[static_cast<std::size_t>(n)];
    turn = std::max(turn, std::abs(bridge.alignment.heading(p.end.in_mm()) -
                                   bridge.alignment.heading(p.start.in_mm())));
  }
  const double aslant = std::abs(std::tan(joint.skew)) + std::min(slope, 1.0) + turn;
  const Length square = joint.gap / 2 + posts.clear;
  const Length reach =
      square / std::cos(joint.skew) + (posts.plate.length + posts.plate.width * aslant) / 2;
  return reach / shortest_rate(bridge, joint.station, here);
}

}  // namespace

Length skew_shift(const Project& project, const Bridge& bridge, Side side, const Joint& joint) {
  if (joint.skew == 0) return Length();
  const Alignment& line = bridge.alignment;
  const double at = joint.station.in_mm(), across = line.heading(at) + pi / 2 - joint.skew;
  Length shift;
  for (int i = 0; i < 4; ++i) {
    const Length offset = rail_offset(project, bridge, side, joint.station + shift);
    shift = offset * std::tan(joint.skew);
    if (line.straight()) continue;
    // On a curve the straight joint line is followed to the rail.
    const double reach = offset.in_mm() / std::cos(joint.skew);
    const GroundPoint end =
        line.ground(at, 0) + GroundPoint{std::cos(across), std::sin(across)} * reach;
    if (const auto found = line.locate(end, at)) shift = mm(found->x - at);
  }
  return shift;
}

std::vector<Zone> joint_zones(const Project& project, const Bridge& bridge,
                              const Division& division, const std::vector<Side>& sides) {
  std::vector<Zone> out;
  for (std::size_t i = 0; i < division.joints.size(); ++i)
    for (Side side : sides) {
      const Joint& j = division.joints[i];
      const Length at = j.station + skew_shift(project, bridge, side, j);
      const Length reach = joint_reach(project, bridge, division, side, j);
      Zone z{at - reach, at + reach};
      if (i == 0) z.from -= metres(1000);  // nothing stands before or beyond the deck
      if (i + 1 == division.joints.size()) z.to += metres(1000);
      out.push_back(z);
    }
  std::sort(out.begin(), out.end(), [](const Zone& a, const Zone& b) {
    return a.from != b.from ? a.from < b.from : a.to < b.to;
  });
  return out;
}

}  // namespace deckquire
