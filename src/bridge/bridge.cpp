#include "bridge/bridge.h"

#include <fmt/format.h>

#include <algorithm>

#include "base/text.h"
#include "bridge/contradictions.h"
#include "bridge/measured.h"

namespace deckquire {
namespace {

Girder girder_of(const GirderData& d, const AlignmentData& a) {
  const bool whole = d.from == d.to;  // nothing written: as long as the bridge
  return {d.name, d.offset, d.flange, whole ? a.from : d.from, whole ? a.to : d.to, d.straight};
}

/// Stations and offsets that a ring on the ground reaches: its corners and the middles of its
/// sides. `otherwise` where the alignment has no station for one of them.
Box<BridgeFrame> reach(const Alignment& line, const Ring<GroundFrame>& ring, double near,
                       const Box<BridgeFrame>& otherwise) {
  Ring<BridgeFrame> found;
  for (std::size_t i = 0; i < ring.size(); ++i)
    for (GroundPoint p : {ring[i], (ring[i] + ring[(i + 1) % ring.size()]) * 0.5}) {
      const auto at = line.locate(p, near);
      if (!at) return otherwise;
      found.push_back(*at);
    }
  return bounds(found);
}

Splice splice_of(const SpliceData& d, int girder, const Bridge& bridge) {
  Splice s;
  s.name = d.name;
  s.girder = girder;
  s.station = d.station;
  s.length = d.length;
  s.width = d.width;
  s.plate = d.plate;
  s.projection = d.projection;
  s.bolt = d.bolt;
  s.rows = d.rows;
  s.lines = d.lines;
  s.place = d.place;
  s.plan = splice_reach(bridge, s);
  return s;
}

/// One name on several girders: each then has its girder's before it.
bool on_several(const Project& project, const SpliceData& d) {
  const auto same = [&](const SpliceData& o) { return o.name == d.name; };
  const auto& all = project.bridge.splices;
  return d.girder == "all" || std::count_if(all.begin(), all.end(), same) > 1;
}

/// Splices of one girder by station; those without a name are numbered along it.
std::vector<Splice> splices_of(const Project& project, const Bridge& bridge, int girder) {
  const Girder& g = bridge.girders[static_cast<std::size_t>(girder)];
  std::vector<Splice> found;
  for (const SpliceData& d : project.bridge.splices) {
    const bool all = d.girder == "all";
    if (!all && d.girder != g.name) continue;
    if (all && (d.station < g.from || d.station > g.to)) continue;
    found.push_back(splice_of(d, girder, bridge));
    if (!d.name.empty() && on_several(project, d)) found.back().name = g.name + "-" + d.name;
  }
  std::stable_sort(found.begin(), found.end(),
                   [](const Splice& a, const Splice& b) { return a.station < b.station; });
  for (std::size_t i = 0; i < found.size(); ++i)
    if (found[i].name.empty()) found[i].name = fmt::format("{}-S{}", g.name, i + 1);
  return found;
}

/// Splices that are on no girder at all.
void report_lost_splices(const Project& project, const Bridge& bridge, Findings& findings) {
  std::vector<std::string> names;
  for (const Girder& g : bridge.girders) names.push_back(g.name);
  for (const SpliceData& d : project.bridge.splices) {
    if (d.girder == "all") {
      const bool on_one = std::any_of(bridge.girders.begin(), bridge.girders.end(), [&](auto& g) {
        return d.station >= g.from && d.station <= g.to;
      });
      if (!on_one)
        findings.error(d.place, "splice-outside-girder",
                       fmt::format("the splice at {} is on no girder",
                                   print_station(d.station, project.units)),
                       "move it along the bridge, or give its girder");
    } else if (std::find(names.begin(), names.end(), d.girder) == names.end()) {
      const std::string near = nearest_word(d.girder, names);
      findings.error(d.place, "unknown-girder", fmt::format("there is no girder \"{}\"", d.girder),
                     near.empty() ? "the girders are " + join(names, ", ")
                                  : fmt::format("did you mean \"{}\"?", near));
    }
  }
}

/// Each corner of a ring on the ground, as station and offset; `otherwise` as for reach().
Ring<BridgeFrame> located(const Alignment& line, const Ring<GroundFrame>& ring, double near,
                          Ring<BridgeFrame> otherwise) {
  Ring<BridgeFrame> found;
  for (const GroundPoint& p : ring) {
    const auto at = line.locate(p, near);
    if (!at) return otherwise;
    found.push_back(*at);
  }
  return found;
}

Obstruction obstruction_of(const ObstructionData& d) {
  Obstruction o;
  o.name = d.name;
  o.kind = d.kind;
  o.station = d.station;
  o.offset = d.offset;
  o.place = d.place;
  o.diameter = d.diameter;
  o.length = d.length.value_or(Length());
  o.width = d.width.value_or(Length());
  o.clearance = d.clearance;
  const BridgePoint c{d.station.in_mm(), d.offset.in_mm()};
  const double grow = d.clearance.in_mm();
  if (d.diameter) {
    o.outline = circle_ring(c, d.diameter->in_mm());
    o.kept_free = circle_ring(c, d.diameter->in_mm() + 2 * grow);
    return o;
  }
  const double l = o.length.in_mm() / 2;
  const double w = o.width.in_mm() / 2;
  const Box<BridgeFrame> box{{c.x - l, c.y - w}, {c.x + l, c.y + w}};
  o.outline = box_ring(box);
  o.kept_free = box_ring(box.grown(grow));
  return o;
}

/// On a curve the rings are true to size on the ground, so not in stations.
void bend(const Bridge& bridge, Obstruction& o) {
  const double near = o.station.in_mm();
  o.outline = located(bridge.alignment, obstruction_ring(bridge, o), near, o.outline);
  o.kept_free = located(bridge.alignment, kept_free_ring(bridge, o), near, o.kept_free);
}

}  // namespace

Box<BridgeFrame> splice_reach(const Bridge& bridge, const Splice& s) {
  const Girder& g = bridge.girders[static_cast<std::size_t>(s.girder)];
  const Box<BridgeFrame> plain{{(s.station - s.length / 2).in_mm(), (g.offset - s.width / 2).in_mm()},
                               {(s.station + s.length / 2).in_mm(), (g.offset + s.width / 2).in_mm()}};
  if (bridge.alignment.straight()) return plain;
  return reach(bridge.alignment, splice_ring(bridge, s), s.station.in_mm(), plain);
}

Obstruction lay_obstruction(const Bridge& bridge, const ObstructionData& data) {
  Obstruction o = obstruction_of(data);
  if (!bridge.alignment.straight()) bend(bridge, o);
  return o;
}

std::vector<int> splices_between(const Bridge& bridge, Length from, Length to) {
  std::vector<int> found;
  const auto& all = bridge.splices;
  for (int g = 0; g < static_cast<int>(bridge.girders.size()); ++g) {
    auto s = std::partition_point(all.begin(), all.end(), [&](const Splice& a) {
      return a.girder < g || (a.girder == g && a.station < from);
    });
    for (; s != all.end() && s->girder == g && s->station <= to; ++s)
      found.push_back(static_cast<int>(s - all.begin()));
  }
  return found;
}

Bridge build_bridge(const Project& project, Findings& findings) {
  Bridge bridge;
  const BridgeData& data = project.bridge;
  bridge.alignment = Alignment(data.alignment);
  bridge.edges = DeckEdges(project.deck.edges);
  for (const SupportData& s : data.supports)
    bridge.supports.push_back({s.name, s.kind == "abutment", s.station});
  for (const GirderData& g : data.girders) bridge.girders.push_back(girder_of(g, data.alignment));
  for (int g = 0; g < static_cast<int>(bridge.girders.size()); ++g)
    for (Splice& s : splices_of(project, bridge, g)) bridge.splices.push_back(std::move(s));
  for (const ObstructionData& d : data.obstructions)
    bridge.obstructions.push_back(lay_obstruction(bridge, d));
  report_lost_splices(project, bridge, findings);
  measured_steel(project, bridge, findings);
  find_contradictions(project, bridge, findings);
  return bridge;
}

}  // namespace deckquire
