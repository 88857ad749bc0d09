// What other trades work by: rail posts, outlets, recesses over splices.
#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <map>

#include "bridge/crossings.h"
#include "deck/steel_room.h"
#include "schedules/hole_patterns.h"
#include "schedules/parts.h"

namespace deckquire {
namespace {

const Panel& panel_of(const Deck& deck, int i) {
  return deck.panels[static_cast<std::size_t>(i)];
}

/// Names of the patterns of post plates by mark: on the templates they are the same.
std::map<int, std::string> plate_marks(const Project& project, const Deck& deck) {
  std::map<int, std::string> out;
  for (const HolePattern& p : hole_patterns(project, deck)) {
    if (p.what != feature_name(FeatureKind::post_plate)) continue;
    for (int m : p.marks) out[m] += (out[m].empty() ? "" : ", ") + p.name;
  }
  return out;
}

/// By post the one that follows on its side, -1 after the last.
std::vector<int> next_posts(const Deck& deck) {
  std::vector<int> next(deck.posts.size(), -1);
  for (Side side : {Side::left, Side::right}) {
    std::vector<int> order;
    for (std::size_t i = 0; i < deck.posts.size(); ++i)
      if (deck.posts[i].side == side) order.push_back(static_cast<int>(i));
    std::stable_sort(order.begin(), order.end(), [&](int a, int b) {
      return deck.posts[static_cast<std::size_t>(a)].station <
             deck.posts[static_cast<std::size_t>(b)].station;
    });
    for (std::size_t i = 0; i + 1 < order.size(); ++i)
      next[static_cast<std::size_t>(order[i])] = order[i + 1];
  }
  return next;
}

/// Straight from plate to plate, up and down with the curb.
Length between(const Post& a, const Post& b) {
  const double e = b.survey.easting - a.survey.easting, n = b.survey.northing - a.survey.northing;
  return metres(std::sqrt(e * e + n * n + std::pow((b.level - a.level).in_m(), 2)));
}

/// Of the panel as it lies: straight from its back face to its ahead face.
double slope_along(const Bridge& bridge, const Panel& p) {
  const Alignment& line = bridge.alignment;
  return (line.level(p.end) - line.level(p.start)).in_mm() / p.shape.length;
}

/// What lies below an outlet.
struct Below {
  std::string what = "-";
  Cell clearance;
};

Below below(const Project& project, const ScupperPlace& s) {
  const auto& all = project.bridge.crossings;
  if (all.empty()) return {"not stated", std::string("not stated")};
  const double radius = project.deck.scuppers->outlet.in_mm() / 2;
  Below found;
  std::optional<Length> least;
  bool unknown = false;
  for (const CrossingData& c : all) {
    if (distance_to(c, s.station, s.offset) >= radius) continue;
    const std::string name = fmt::format("{} {}", crossing_word(c.kind), c.name);
    found.what = found.what == "-" ? name : found.what + ", " + name;
    if (!c.level) unknown = true;
    else if (!least || s.outlet_level - *c.level < *least) least = s.outlet_level - *c.level;
  }
  if (found.what == "-") return found;
  if (least && !unknown) found.clearance = *least;
  else found.clearance = std::string("not stated");
  return found;
}

}  // namespace

Table posts_table(const Project& project, const Bridge& bridge, const Deck& deck) {
  Table t{"posts", "RAIL POSTS, FOR THE RAILING SUPPLIER", "", {}, {}, {}, true};
  t.columns = {{"post", "Post", Measure::text},
               {"side", "Side", Measure::text},
               {"station_m", "Station", Measure::station},
               {"offset_mm", "Offset", Measure::length},
               {"level_m", "Level", Measure::level},
               {"slope", "Slope ahead", Measure::percent},
               {"next_mm", "To next post", Measure::length},
               {"plate", "Plate", Measure::text},
               {"thread", "Thread", Measure::text},
               {"easting_m", "Easting", Measure::coordinate},
               {"northing_m", "Northing", Measure::coordinate},
               {"serial", "Panel", Measure::text}};
  if (!project.deck.posts) return t;
  const auto& plate = project.deck.posts->plate;
  const auto size = [&](Length a) { return print_length(a, project.units); };
  t.intro = fmt::format(
      "Points are the middles of the post plates, {} × {} × {}, drilled as the template of that name; "
      "levels are those of the curb top, the underside of the post's base plate, {} above the plate. "
      "The slope is that of the curb along, up ahead positive; the next post is that on the same side, "
      "straight and sloped. Posts and their bolts are by the railing supplier.",
      size(plate.length), size(plate.width), size(plate.thickness), size(plate.cover));
  const std::string thread = fmt::format("{} {}, {} deep", plate.along * plate.across, plate.thread,
                                         size(plate.tap_depth));
  const auto marks = plate_marks(project, deck);
  const std::vector<int> next = next_posts(deck);
  for (std::size_t i = 0; i < deck.posts.size(); ++i) {
    const Post& p = deck.posts[i];
    const Panel& panel = panel_of(deck, p.panel);
    const auto mark = marks.find(panel.mark);
    t.rows.push_back({p.name, std::string(side_name(p.side)), p.station, p.offset, p.level,
                      slope_along(bridge, panel),
                      next[i] < 0 ? Cell() : between(p, deck.posts[static_cast<std::size_t>(next[i])]),
                      mark == marks.end() ? std::string() : mark->second, thread,
                      p.survey.easting, p.survey.northing, panel.serial});
  }
  return t;
}

Table scuppers_table(const Project& project, const Deck& deck) {
  Table t{"scuppers",
          "SCUPPER OUTLETS, FOR THE DRAIN PIPE TRADE",
          "The outlet level is that of the lower end of the outlet pipe, the clearance from there to the "
          "highest level of what passes below; - where the project names nothing there. Pipes from there on, and their hangers, are by the drain "
          "pipe trade.",
          {},
          {},
          {},
          true};
  t.columns = {{"scupper", "Scupper", Measure::text},
               {"side", "Side", Measure::text},
               {"station_m", "Station", Measure::station},
               {"offset_mm", "Offset", Measure::length},
               {"outlet_level_m", "Outlet level", Measure::level},
               {"pipe_diameter_mm", "Pipe diameter", Measure::length},
               {"below", "Below", Measure::text},
               {"clearance_mm", "Clear below", Measure::length},
               {"easting_m", "Easting", Measure::coordinate},
               {"northing_m", "Northing", Measure::coordinate},
               {"grate_level_m", "Grate level", Measure::level},
               {"grade", "Grade", Measure::percent},
               {"crossfall", "Crossfall", Measure::percent},
               {"serial", "Panel", Measure::text}};
  if (!project.deck.scuppers) return t;
  for (const ScupperPlace& s : deck.scuppers) {
    const Below b = below(project, s);
    t.rows.push_back({s.name, std::string(side_name(s.side)), s.station, s.offset, s.outlet_level,
                      project.deck.scuppers->outlet, b.what, b.clearance, s.survey.easting,
                      s.survey.northing, s.grate_level, s.grade, s.crossfall,
                      panel_of(deck, s.panel).serial});
  }
  return t;
}

Table recesses_table(const Project& project, const Bridge& bridge, const Deck& deck) {
  const SectionData& section = project.deck.section;
  Table t{"recesses", "RECESSES", "", {}, {}, {}, true};
  t.intro = fmt::format(
      "For the steel erector: hollows over the splices, moulded to the designed ones, {} all round the plate "
      "and its bolt heads, {} "
      "above the highest bolt end. Before the panels are cast, measure of each splice: station of its "
      "middle, length and width of the plate, highest bolt end above the flange. At a joint a hollow is "
      "open.",
      print_length(section.recess_around, project.units), print_length(section.recess_over, project.units));
  t.columns = {{"splice", "Splice", Measure::text},
               {"girder", "Girder", Measure::text},
               {"station_m", "Station", Measure::station},
               {"offset_mm", "Offset", Measure::length},
               {"plate_length_mm", "Plate length", Measure::length},
               {"plate_width_mm", "Plate width", Measure::length},
               {"plate_mm", "Plate", Measure::length},
               {"bolts_mm", "Bolts above flange", Measure::length},
               {"recess_length_mm", "Recess length", Measure::length},
               {"recess_width_mm", "Recess width", Measure::length},
               {"recess_depth_mm", "Recess depth", Measure::length},
               {"around_asked_mm", "Around asked", Measure::length},
               {"around_mm", "Around there", Measure::length},
               {"above_asked_mm", "Above asked", Measure::length},
               {"above_mm", "Above there", Measure::length},
               {"position", "Position", Measure::count},
               {"serial", "Panel", Measure::text}};
  for (const Splice& s : bridge.splices)
    for (const RecessRoom& r : recess_rooms(project, bridge, deck, s)) {
      const Girder& g = bridge.girders[static_cast<std::size_t>(s.girder)];
      const auto around = r.around();
      t.rows.push_back({s.name, g.name, s.station, mm(girder_offset(bridge, g, s.station.in_mm())),
                        s.length, s.width, s.plate, s.plate + s.projection, mm(r.recess->length),
                        mm(r.recess->width), mm(r.recess->depth), section.recess_around,
                        around ? Cell(mm(*around)) : Cell(), section.recess_over, mm(r.above),
                        std::int64_t{r.panel->position}, r.panel->serial});
    }
  return t;
}

}  // namespace deckquire
