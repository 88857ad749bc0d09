// One panel put together: plan, features, surface, ends.
#include <fmt/format.h>

#include <algorithm>
#include <tuple>

#include "deck/features.h"
#include "deck/outline.h"
#include "deck/posts.h"

namespace deckquire {
namespace {

/// Where the top's height is measured from: a crown's offset; of a one-way fall the highest edge of
/// the whole deck, so that the top runs through over all panels.
double high_offset(const PanelSite& site) {
  const SectionData& s = site.deck().section;
  if (s.fall == Fall::crown || s.fall == Fall::none) return s.high_line.in_mm();
  const DeckEdges& edges = site.bridge.edges;
  return s.fall == Fall::left ? -edges.most_right().in_mm() : edges.most_left().in_mm();
}

/// The high line in the panel frame: straight from end to end, its points there on the bridge's.
double high_line(const PanelSite& site) {
  const double offset = high_offset(site);
  return site.frame.straight ? offset : site.at(site.start(), mm(offset)).y;
}

EdgeEnd end_kind(const PanelSite& site, int joint, bool back) {
  if (site.division.joints[static_cast<std::size_t>(joint)].end) return EdgeEnd::end_joint;
  if (site.deck().joints.kind != JointKind::lapped) return EdgeEnd::joint;
  return back ? EdgeEnd::groove : EdgeEnd::tongue;
}

/// The first zone of the same surface: another zone of it is no other part.
int surface_kind(const std::vector<SurfaceData>& zones, int zone) {
  const auto what = [&](int i) {
    const SurfaceData& z = zones[static_cast<std::size_t>(i)];
    return std::tie(z.trade_class, z.thickness, z.mass, z.colour, z.friction, z.standard, z.stop);
  };
  int first = 0;
  while (first < zone && what(first) != what(zone)) ++first;
  return zone < 0 ? zone : first;
}

/// The surface of the panel: of several zones that cover it, the one written last.
int surface_of(const PanelSite& site) {
  const auto& zones = site.deck().surfaces;
  const Length middle = site.start() + (site.end() - site.start()) / 2;
  int found = -1;
  for (std::size_t i = 0; i < zones.size(); ++i) {
    const SurfaceData& z = zones[i];
    for (Length border : {z.from, z.to}) {
      if (border <= site.start() || border >= site.end()) continue;
      const Joint& joint = nearest_joint(site.division, border);
      site.findings.error(z.place, "surface-border-inside-panel",
                          fmt::format("the {} surface changes at {}, inside panel {}",
                                      z.trade_class, site.printed_station(border), site.piece + 1),
                          fmt::format("change it on a joint; the nearest is {} at {}", joint.name,
                                      site.printed_station(joint.station)));
    }
    if (z.from <= middle && middle <= z.to) found = static_cast<int>(i);
  }
  return surface_kind(zones, found);
}

}  // namespace

PanelShape shape_panel(const Project& project, const Bridge& bridge, const Division& division,
                       int piece, Findings& findings) {
  return shape_panel(PanelSite(project, bridge, division, piece, findings));
}

PanelShape shape_panel(const PanelSite& site) {
  const SectionData& section = site.deck().section;
  PanelShape shape;
  shape.length = site.length;
  shape.back_slope = site.back_slope;
  shape.ahead_slope = site.ahead_slope;
  shape.left_joint = !site.deck_edge(Side::left);
  shape.right_joint = !site.deck_edge(Side::right);
  shape.high_line = high_line(site);
  shape.fall = section.fall;
  shape.slope = section.slope;
  shape.depth = section.depth.in_mm();
  shape.surface = surface_of(site);
  shape.back = end_kind(site, site.here().joint_back, true);
  shape.ahead = end_kind(site, site.here().joint_ahead, false);
  shape_plan(site, shape);
  add_recesses(site, shape);
  add_scuppers(site, shape);
  add_hatches(site, shape);
  add_sleeves(site, shape);
  add_pads(site, shape);
  add_post_plates(site, shape);
  add_hold_downs(site, shape);
  place_tag(site, shape, false);
  add_lifting_inserts(site, shape);
  sort_features(shape);
  return shape;
}

}  // namespace deckquire
