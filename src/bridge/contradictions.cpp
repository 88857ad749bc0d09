#include "bridge/contradictions.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

namespace deckquire {
namespace {

void check_alignment(const Said& said) {
  const AlignmentData& a = said.project.bridge.alignment;
  if (a.to <= a.from)
    said.findings.error(a.place, "bridge-has-no-length", "the alignment ends where it begins",
                        "give `to` a station ahead of `from`");
}

void check_supports(const Said& said) {
  const auto& supports = said.project.bridge.supports;
  for (std::size_t i = 0; i < supports.size(); ++i) {
    const SupportData& s = supports[i];
    if (said.outside(s.station))
      said.findings.error(
          s.place, "support-outside-bridge",
          fmt::format("support {} at {} is outside the bridge", s.name, said.station(s.station)),
          "the bridge runs from " + said.extent());
    if (i > 0 && s.station <= supports[i - 1].station)
      said.findings.error(s.place, "supports-out-of-order",
                          fmt::format("support {} at {} is not ahead of support {}", s.name,
                                      said.station(s.station), supports[i - 1].name),
                          "list the supports in the order of their stations");
  }
}

void check_splices(const Said& said) {
  for (std::size_t i = 0; i < said.bridge.splices.size(); ++i) {
    const Splice& s = said.bridge.splices[i];
    const Girder& g = said.bridge.girders[static_cast<std::size_t>(s.girder)];
    if (s.station - s.length / 2 < g.from || s.station + s.length / 2 > g.to)
      said.findings.error(
          s.place, "splice-outside-girder",
          fmt::format("splice {} at {} reaches beyond girder {}", s.name, said.station(s.station),
                      g.name),
          fmt::format("the girder runs from {} to {}", said.station(g.from), said.station(g.to)));
    if (s.width > g.flange)
      said.findings.warning(s.place, "splice-wider-than-flange",
                            fmt::format("the plate of splice {} is {} wide, the flange {}", s.name,
                                        said.length(s.width), said.length(g.flange)),
                            "check the splice plate's width");
    if (i == 0 || said.bridge.splices[i - 1].girder != s.girder) continue;
    const Splice& before = said.bridge.splices[i - 1];
    if (before.station + before.length / 2 > s.station - s.length / 2)
      said.findings.error(s.place, "splices-overlap",
                          fmt::format("splices {} and {} overlap", before.name, s.name),
                          "move one of them along the girder");
  }
}

void check_obstructions(const Said& said) {
  for (const Obstruction& o : said.bridge.obstructions)
    if (said.outside(o.station))
      said.findings.error(
          o.place, "obstruction-outside-bridge",
          fmt::format("{} {} at {} is outside the bridge", o.kind, o.name, said.station(o.station)),
          "the bridge runs from " + said.extent());
}

bool check_edge_order(const Said& said) {
  const auto& edges = said.project.deck.edges;
  bool good = true;
  for (std::size_t i = 1; i < edges.size(); ++i) {
    const bool back = edges[i].station < edges[i - 1].station;
    const bool third = i > 1 && edges[i].station == edges[i - 2].station;
    if (!back && !third) continue;
    good = false;
    said.findings.error(
        edges[i].place, "edges-out-of-order",
        fmt::format("the edge at {} {}", said.station(edges[i].station),
                    back ? "lies before the one above it" : "is the third at this station"),
        "list the edges in the order of their stations, at most two at one station (a step)");
  }
  return good;
}

/// The outermost flange face over a station on one side, as a distance from the alignment.
std::optional<Length> outer_face(const Bridge& bridge, Length station, bool left) {
  std::optional<Length> outer;
  for (const Girder& g : bridge.girders) {
    if (station < g.from || station > g.to) continue;
    const double at = station.in_mm(), offset = girder_offset(bridge, g, at);
    // On a curve the flange of a straight girder crosses the station aslant.
    const double half = g.flange.in_mm() / 2 /
                        std::cos(girder_heading(bridge, g, at) - bridge.alignment.heading(at));
    const Length face = mm((left ? offset : -offset) + half);
    if (!outer || face > *outer) outer = face;
  }
  return outer;
}

/// Points of the edge between those written: beside a curve a straight girder comes and goes.
std::vector<EdgeData> edges_between(const Said& said) {
  const auto& girders = said.bridge.girders;
  const auto& written = said.bridge.edges.data();
  const bool parallel =
      std::none_of(girders.begin(), girders.end(), [](const Girder& g) { return g.straight; });
  if (said.bridge.alignment.straight() || parallel || written.empty()) return {};
  std::vector<EdgeData> all;
  const Alignment& line = said.bridge.alignment;
  for (double s : stations_along(line, line.from(), line.to(), {0, 0.5})) {
    const Length at = mm(s);
    const auto next = std::partition_point(written.begin(), written.end(),
                                           [&](const EdgeData& e) { return e.station <= at; });
    const Place& place = (next == written.begin() ? *next : *(next - 1)).place;
    all.push_back({at, said.bridge.edges.left(at), said.bridge.edges.right(at), place});
  }
  return all;
}

/// By how much the outer flange reaches beyond the edge; 0: it does not.
Length uncovered(const Said& said, const EdgeData& e, bool left) {
  const auto face = outer_face(said.bridge, e.station, left);
  return face ? std::max(Length(), *face - (left ? e.left : e.right)) : Length();
}

/// One finding a side, at the first edge, with how many more there are: they have one cause. Where
/// the edges as written are good, at the worst point between them.
void check_edge_over_flange(const Said& said, bool left) {
  const EdgeData* first = nullptr;
  int more = -1;
  for (const EdgeData& e : said.project.deck.edges) {
    if (uncovered(said, e, left) == Length()) continue;
    if (!first) first = &e;
    ++more;
  }
  const auto between = first ? std::vector<EdgeData>() : edges_between(said);
  Length worst;
  for (const EdgeData& e : between)
    if (uncovered(said, e, left) > worst) {
      first = &e;
      more = 0;
      worst = uncovered(said, e, left);
    }
  if (!first) return;
  const std::string face = said.length(*outer_face(said.bridge, first->station, left));
  said.findings.error(
      first->place, "edge-inside-flange",
      fmt::format("the {} edge at {} is {} from the alignment, the outer girder flange {}{}",
                  left ? "left" : "right", said.station(first->station),
                  said.length(left ? first->left : first->right), face,
                  more > 0 ? fmt::format(", and {} more like it", more) : ""),
      fmt::format("the panel must cover the flange: make it at least {}, or move the girder in",
                  face));
}

}  // namespace

void find_contradictions(const Project& project, const Bridge& bridge, Findings& findings) {
  const Said said{project, bridge, findings};
  check_alignment(said);
  check_plan(said);
  check_profile(said);
  check_supports(said);
  check_splices(said);
  check_obstructions(said);
  if (!check_edge_order(said)) return;
  for (bool left : {true, false}) check_edge_over_flange(said, left);
}

}  // namespace deckquire
