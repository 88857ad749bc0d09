// What other trades set out by: posts, scuppers, joints.
#include <fmt/format.h>

#include "schedules/parts.h"

namespace deckquire {
namespace {

const Panel& panel_at(const Deck& deck, int i) {
  return deck.panels[static_cast<std::size_t>(i)];
}

std::string position_of(const Deck& deck, int panel, const char* otherwise) {
  return panel < 0 ? otherwise : std::to_string(panel_at(deck, panel).position);
}

std::string joint_kind(const Project& project, const Joint& j) {
  if (j.end) return "end joint, cover plate";
  return joint_name(project.deck.joints.kind);
}

}  // namespace

Table posts_table(const Project& project, const Deck& deck) {
  Table t{
      "posts",
      "RAIL POSTS, FOR THE RAILING SUPPLIER",
      "Points are the middles of the post plates; levels are those of the curb top, the underside "
      "of the post's base plate. Posts and their bolts are by the railing supplier.",
      {},
      {},
      {},
      true};
  t.columns = {{"post", "Post", Measure::text},
               {"side", "Side", Measure::text},
               {"station_m", "Station", Measure::station},
               {"offset_mm", "Offset", Measure::length},
               {"level_m", "Level", Measure::level},
               {"easting_m", "Easting", Measure::coordinate},
               {"northing_m", "Northing", Measure::coordinate},
               {"plate", "Plate", Measure::text},
               {"thread", "Thread", Measure::text},
               {"serial", "Panel", Measure::text}};
  if (!project.deck.posts) return t;
  const auto& plate = project.deck.posts->plate;
  const auto size = [&](Length a) { return print_length(a, project.units); };
  const std::string plan =
      fmt::format("{} × {} × {}", size(plate.length), size(plate.width), size(plate.thickness));
  const std::string thread = fmt::format("{} × {}", plate.along * plate.across, plate.thread);
  for (const Post& p : deck.posts)
    t.rows.push_back({p.name, std::string(side_name(p.side)), p.station, p.offset, p.level,
                      p.survey.easting, p.survey.northing, plan, thread,
                      panel_at(deck, p.panel).serial});
  return t;
}

Table scuppers_table(const Project& project, const Deck& deck) {
  Table t{"scuppers",
          "SCUPPER OUTLETS, FOR THE DRAIN PIPE TRADE",
          "The outlet level is that of the lower end of the outlet pipe. Pipes from there on, and "
          "their hangers, are by the drain pipe trade.",
          {},
          {},
          {},
          true};
  t.columns = {{"scupper", "Scupper", Measure::text},
               {"side", "Side", Measure::text},
               {"station_m", "Station", Measure::station},
               {"offset_mm", "Offset", Measure::length},
               {"grate_level_m", "Grate level", Measure::level},
               {"outlet_level_m", "Outlet level", Measure::level},
               {"pipe_diameter_mm", "Pipe diameter", Measure::length},
               {"grade", "Grade", Measure::percent},
               {"crossfall", "Crossfall", Measure::percent},
               {"easting_m", "Easting", Measure::coordinate},
               {"northing_m", "Northing", Measure::coordinate},
               {"serial", "Panel", Measure::text}};
  if (!project.deck.scuppers) return t;
  for (const ScupperPlace& s : deck.scuppers)
    t.rows.push_back({s.name, std::string(side_name(s.side)), s.station, s.offset, s.grate_level,
                      s.outlet_level, project.deck.scuppers->outlet, s.grade, s.crossfall,
                      s.survey.easting, s.survey.northing, panel_at(deck, s.panel).serial});
  return t;
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
  for (const Joint& j : deck.joints)
    t.rows.push_back({j.name, j.station, j.gap, joint_kind(project, j),
                      bridge.edges.left(j.station) + bridge.edges.right(j.station),
                      bridge.alignment.level(j.station), position_of(deck, j.back, "support"),
                      position_of(deck, j.ahead, "support")});
  return t;
}

}  // namespace deckquire
