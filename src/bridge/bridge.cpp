#include "bridge/bridge.h"

#include <fmt/format.h>

#include <algorithm>

#include "base/text.h"
#include "bridge/contradictions.h"

namespace deckquire {
namespace {

Girder girder_of(const GirderData& d, const AlignmentData& a) {
  const bool whole = d.from == d.to;  // nothing written: as long as the bridge
  return {d.name, d.offset, d.flange, whole ? a.from : d.from, whole ? a.to : d.to};
}

Splice splice_of(const SpliceData& d, int girder, const Girder& g) {
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
  s.plan.low = {(d.station - d.length / 2).in_mm(), (g.offset - d.width / 2).in_mm()};
  s.plan.high = {(d.station + d.length / 2).in_mm(), (g.offset + d.width / 2).in_mm()};
  return s;
}

/// Splices of one girder by station; those without a name are numbered along it.
std::vector<Splice> splices_of(const Project& project, const Bridge& bridge, int girder) {
  const Girder& g = bridge.girders[static_cast<std::size_t>(girder)];
  std::vector<Splice> found;
  for (const SpliceData& d : project.bridge.splices) {
    const bool all = d.girder == "all";
    if (!all && d.girder != g.name) continue;
    if (all && (d.station < g.from || d.station > g.to)) continue;
    found.push_back(splice_of(d, girder, g));
    if (all && !d.name.empty()) found.back().name = g.name + "-" + d.name;
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

Obstruction obstruction_of(const ObstructionData& d) {
  Obstruction o;
  o.name = d.name;
  o.kind = d.kind;
  o.station = d.station;
  o.offset = d.offset;
  o.place = d.place;
  const BridgePoint c{d.station.in_mm(), d.offset.in_mm()};
  const double grow = d.clearance.in_mm();
  if (d.diameter) {
    o.outline = circle_ring(c, d.diameter->in_mm());
    o.kept_free = circle_ring(c, d.diameter->in_mm() + 2 * grow);
    return o;
  }
  const double l = d.length.value_or(Length()).in_mm() / 2;
  const double w = d.width.value_or(Length()).in_mm() / 2;
  const Box<BridgeFrame> box{{c.x - l, c.y - w}, {c.x + l, c.y + w}};
  o.outline = box_ring(box);
  o.kept_free = box_ring(box.grown(grow));
  return o;
}

}  // namespace

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
  for (const ObstructionData& o : data.obstructions)
    bridge.obstructions.push_back(obstruction_of(o));
  report_lost_splices(project, bridge, findings);
  find_contradictions(project, bridge, findings);
  return bridge;
}

}  // namespace deckquire
