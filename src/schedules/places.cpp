// Joints between panels, and between rows of them.
#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <optional>

#include "base/text.h"
#include "schedules/parts.h"
#include "schedules/schedules.h"

namespace deckquire {
namespace {

const Panel& panel_at(const Deck& deck, int i) {
  return deck.panels[static_cast<std::size_t>(i)];
}

/// The panels side by side in the bay of this one.
std::string positions_of_bay(const Deck& deck, int panel) {
  if (panel < 0) return "support";
  const int bay = panel_at(deck, panel).bay;
  std::vector<int> all;
  for (int i = panel; i < static_cast<int>(deck.panels.size()) && panel_at(deck, i).bay == bay; ++i)
    all.push_back(i);
  return position_ranges(deck, all);
}

std::string joint_kind(const Project& project, const Joint& j) {
  if (j.end) return "end joint, cover plate";
  return joint_name(project.deck.joints.kind);
}

}  // namespace

Length joint_length(const Bridge& bridge, const Deck& deck, const Joint& joint) {
  if (joint.skew == 0) return bridge.edges.left(joint.station) + bridge.edges.right(joint.station);
  // From corner to corner of the panels on its two sides, the mean of both where there are two.
  double sum = 0;
  int sides = 0;
  const auto add = [&](int first, bool ahead_end) {
    if (first < 0) return;
    const int bay = panel_at(deck, first).bay;
    std::size_t last = static_cast<std::size_t>(first);
    while (last + 1 < deck.panels.size() && deck.panels[last + 1].bay == bay) ++last;
    const auto& left = panel_at(deck, first).left_edge;
    const auto& right = deck.panels[last].right_edge;
    const PanelPoint a = ahead_end ? left.back() : left.front();
    const PanelPoint b = ahead_end ? right.back() : right.front();
    sum += std::hypot(a.x - b.x, a.y - b.y);
    ++sides;
  };
  add(joint.back, true);
  add(joint.ahead, false);
  return sides == 0 ? Length() : mm(sum / sides);
}

Length joint_length(const Bridge& bridge, const Deck& deck, const RowJoint& joint) {
  double sum = 0;
  std::optional<GroundPoint> before;
  for (const Joint& j : deck.joints) {
    if (j.station + j.gap < joint.from || j.station - j.gap > joint.to) continue;
    const GroundPoint p = bridge.alignment.ground(j.station.in_mm(), joint.offset.in_mm());
    if (before) sum += std::hypot(p.x - before->x, p.y - before->y);
    before = p;
  }
  return mm(sum);
}

Table joints_table(const Project& project, const Bridge& bridge, const Deck& deck) {
  Table t{"joints",
          "JOINTS",
          "Stations are those of the middle of the gap; width is that of the deck there; back and "
          "ahead are the positions of the panels on its two sides.",
          {},
          {},
          {},
          true};
  t.columns = {{"joint", "Joint", Measure::text},      {"station_m", "Station", Measure::station},
               {"gap_mm", "Gap", Measure::length},     {"kind", "Kind", Measure::text},
               {"width_mm", "Width", Measure::length}, {"level_m", "Level", Measure::level},
               {"back", "Back", Measure::text},        {"ahead", "Ahead", Measure::text}};
  const bool skewed = std::any_of(deck.joints.begin(), deck.joints.end(),
                                  [](const Joint& j) { return j.skew != 0; });
  if (skewed) {
    t.intro =
        "Stations are those of the middle of the gap on the alignment; the gap is square to the "
        "joint line, the width along it; skew is from square, positive where the left end lies "
        "ahead; back and ahead are the positions of the panels on its two sides.";
    t.columns.push_back({"skew_deg", "Skew [°]", Measure::text});
  }
  for (const Joint& j : deck.joints) {
    t.rows.push_back({j.name, j.station, j.gap, joint_kind(project, j),
                      joint_length(bridge, deck, j), bridge.alignment.level(j.station),
                      positions_of_bay(deck, j.back), positions_of_bay(deck, j.ahead)});
    if (skewed) t.rows.back().push_back(decimal(j.skew * 180 / pi, 2));
  }
  return t;
}

Table row_joints_table(const Project& project, const Bridge& bridge, const Deck& deck) {
  Table t{"row-joints",
          "ROW JOINTS",
          "Joints along the bridge between panels side by side, over a girder. The offset is that "
          "of the middle of the gap, left positive; the length is along the panels.",
          {},
          {},
          {},
          true};
  t.columns = {{"joint", "Joint", Measure::text},       {"offset_mm", "Offset", Measure::length},
               {"gap_mm", "Gap", Measure::length},      {"kind", "Kind", Measure::text},
               {"from_m", "From", Measure::station},    {"to_m", "To", Measure::station},
               {"length_mm", "Length", Measure::length}};
  for (const RowJoint& r : deck.row_joints)
    t.rows.push_back({r.name, r.offset, r.gap, std::string(joint_name(project.deck.joints.kind)),
                      r.from, r.to, joint_length(bridge, deck, r)});
  return t;
}

}  // namespace deckquire
