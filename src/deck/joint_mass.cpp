// What a panel weighs before it is known where it lies: two lengths and two widths weighed by the
// program's own integration, and the straight line between them.
#include <algorithm>
#include <cmath>

#include "deck/joint_rules.h"

namespace deckquire {
namespace {

/// The project with nothing on the panel but what every panel has.
Project bared(const Project& p) {
  Project out;
  out.units = p.units;
  out.deck = p.deck;
  out.deck.posts.reset();
  out.deck.scuppers.reset();
  out.deck.hatches.clear();
  out.deck.sleeves.clear();
  return out;
}

Bridge bared(const Bridge& b, Length left, Length right) {
  Bridge out = b;
  out.splices.clear();
  out.obstructions.clear();
  out.edges = DeckEdges({{b.alignment.from(), left, right, {}}});
  return out;
}

/// One bay from `from`, of that length.
Division one_bay(const Project& project, Length from, Length length) {
  Division d;
  Joint j;
  j.station = from;
  j.back = -1;
  j.ahead = 0;
  j.skew = project.deck.joints.skew.in_si();
  d.joints = {j, j};
  d.joints[1].station = from + length;
  d.bays = {0};
  Division::Piece piece;
  piece.start = from;
  piece.end = from + length;
  piece.joint_ahead = 1;
  for (const RowJointData& r : project.deck.row_joints) {
    if (from < r.from || from + length > r.to) continue;
    piece.right_limit = r.offset + r.gap / 2;
    d.pieces.push_back(piece);
    ++piece.row;
    piece.left_limit = r.offset - r.gap / 2;
  }
  piece.right_limit.reset();
  d.pieces.push_back(piece);
  return d;
}

double heaviest(const Project& project, const Bridge& bridge, Length from, Length length) {
  const Division d = one_bay(project, from, length);
  double most = 0;
  for (std::size_t i = 0; i < d.pieces.size(); ++i) {
    Findings none;  // a trial panel
    const PanelShape s = shape_panel(project, bridge, d, static_cast<int>(i), none);
    most = std::max(most, weigh(s, project.deck).total.in_si());
  }
  return most;
}

}  // namespace

BareMass bare_mass(const Project& project, const Bridge& bridge, Length from, Length to) {
  const Project bare = bared(project);
  const Length l = bridge.edges.left(from), r = bridge.edges.right(from);
  const Length l2 = bridge.edges.left(to, false), r2 = bridge.edges.right(to, false);
  // Two lengths that panels have, where this stretch is.
  const Length one = std::min((to - from) / 2, metres(1)), two = one * 2;
  const double width = (l + r).in_mm();
  const Bridge narrow = bared(bridge, l, r);
  const double a = heaviest(bare, narrow, from, one), b = heaviest(bare, narrow, from, two);
  const double slope = (b - a) / one.in_mm();  // kg/mm at that width
  BareMass m;
  m.each = std::max(0.0, a - slope * one.in_mm());
  m.per_mm = slope;
  const Length wider = std::max(l2 + r2 - l - r, Length());
  const Length more = wider == Length() ? mm(100) : wider;
  const Bridge wide = bared(bridge, l + more / 2, r + more / 2);
  const double c = heaviest(bare, wide, from, two);
  m.per_mm2 = std::max(0.0, (c - b) / (more.in_mm() * two.in_mm()));
  m.per_mm = std::max(0.0, slope - m.per_mm2 * width);
  return m;
}

}  // namespace deckquire
