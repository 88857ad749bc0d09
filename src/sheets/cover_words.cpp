// The sentences of the cover.
#include <fmt/format.h>

#include <algorithm>

#include "sheets/cover.h"

namespace deckquire::sheets {
namespace {

std::string by_others(const SetInput& input) {
  const Project& p = input.project;
  std::vector<std::string> parts;
  const auto other = [&](const std::string& what, const std::string& role) {
    parts.push_back(what + " (" + p.party(role) + ")");
  };
  other("Girders, supports and splices", "contractor");
  if (!input.deck.posts.empty()) other("rail posts and their bolts", "railing");
  if (!input.deck.scuppers.empty()) other("drain pipes below the outlets", "drainage");
  return "Not in these drawings, by others: " + join(parts, "; ") + ".";
}

std::string survey_note(const SetInput& input) {
  const auto& a = input.project.bridge.alignment;
  const auto s = input.bridge.alignment.survey(a.from, Length());
  const Cell east{s.easting}, north{s.northing};
  const UnitSystem u = input.project.units;
  return fmt::format(
      "Coordinates and levels are in the project's own system; its datum and benchmarks are the "
      "designer's to state. The alignment begins at station {}, easting {}, northing {}, level {}, "
      "and bears {} degrees from north{}.",
      print_station(a.from, u), print_cell(east, Measure::coordinate, u),
      print_cell(north, Measure::coordinate, u),
      print_level(input.bridge.alignment.level(a.from), u),
      shortest_decimal(a.bearing.in_si() * 180 / pi, 4),
      input.bridge.alignment.straight() ? "" : " there");
}

}  // namespace

// After the list in the strength reference, section 12, in words of our own.
std::vector<std::string> cautions() {
  return {
      "These drawings and the figures on them are computed from what the project file states. A "
      "licensed professional engineer responsible for the work must check and accept every input "
      "and every sheet before anything is made or lifted.",
      "The codes in force where the bridge stands, in their current edition, and the owner's rules "
      "take precedence over anything printed here.",
      "Properties of fibre-reinforced polymer depend on resin, fibre, lay-up and process: use "
      "values "
      "proved by test for this project. Creep, moisture, heat, fire, sunlight and fatigue are not "
      "covered.",
      "Rail posts keep people from falling. The strength of curb, post plate and laminate around "
      "them must be shown by calculation or test; bolts and threads that hold do not prove it.",
      "Punching and crushing under wheels, delamination, bonded joints and the girders are not "
      "checked.",
      "Lift only to a written plan by a qualified person, with mass, centre of gravity, inserts, "
      "slings and wind limits verified. Nobody stands under a load.",
      "A panel is safe against uplift only when all its hold-downs are fitted and tightened. Hold "
      "down "
      "by other means any panel that is loose or partly fixed.",
      "Joint gaps hold for the setting temperature stated. Measure the temperature of the steel "
      "when "
      "panels are set.",
      "Limits of trucks and permits differ by road and season; they and the securing of loads are "
      "the "
      "carrier's duty.",
      "Measure the erected steel and confirm all dimensions that depend on it before panels are "
      "made.",
      "Masses are computed and leave out what is not listed; moulded parts vary. Weigh a panel "
      "before "
      "the first lift."};
}

std::vector<std::string> general_notes(const SetInput& input) {
  const bool metric = input.project.units == UnitSystem::metric;
  std::vector<std::string> out = {
      metric ? "Dimensions are in millimetres; levels, stations and coordinates in metres."
             : "Dimensions are in feet, inches and sixteenths; levels and coordinates in feet.",
      "Do not scale the drawings. Written figures hold; each chain sums to its overall.",
      "Stations are horizontal distances along the alignment. Ahead is the way they rise; left and "
      "right are seen looking ahead, as sections are; offsets are positive to the left.",
      "Deck levels are those of the moulded top at the high line; the wearing surface lies above.",
      "Panel lengths are horizontal and without the joint gaps.",
      survey_note(input),
      "Every panel is drawn once on the erection plans (E), every mark once on a panel sheet of "
      "its "
      "own (P); details (D) and tables (T) hold for all.",
      "Set every panel to the stations in the tables, not face to face, so that tolerances do not "
      "add "
      "up.",
      by_others(input)};
  for (const auto& n : input.project.set.notes) out.push_back(n);
  return out;
}

std::vector<std::string> shop_notes() {
  return {
      "The shop cuts and drills only what the panel sheets show, and seals every cut edge and hole "
      "with resin.",
      "The inspector marks a panel that fails and keeps it apart until the engineer decides; "
      "limits "
      "of repair are not stated.",
      "Panels are stored and carried level, soffit down, on bearers under the girder lines, as the "
      "fabricator's written method says.",
      "Grade, finish and torque of bolts, clips and inserts, protection from sunlight, material "
      "certificates and test pieces are not stated in the project: the engineer's specification "
      "governs."};
}

std::vector<std::string> mark_notes(const SetInput& input) {
  const Deck& deck = input.deck;
  if (deck.panels.empty()) return {};
  const Panel& p = deck.panels.front();
  const Mark& m = deck.marks[static_cast<std::size_t>(p.mark)];
  const bool in_order = numbered_in_order(deck);
  return {fmt::format(
              "A mark ({}) names a type of panel: all panels of a mark are alike. {}",
              m.name,
              in_order ? "Marks count in the order of their first position."
                       : "Once issued it never means another type; new types count on."),
          fmt::format(
              "A serial ({}) names one panel. It is moulded on the panel's tag{} and is never "
              "given again.",
              p.serial, in_order ? ", counts with the position" : ""),
          "The arrow beside a mark points ahead as the panel was drawn on its panel sheet. Where "
          "it points "
          "back, the panel lies turned end for end.",
          "A mirror image is another part: it has its own mark and its own panel sheet, which "
          "names the "
          "mark it is the opposite hand of."};
}

std::vector<std::string> not_checked_lines(const SetInput& input, const SetPlan& plan) {
  const std::vector<std::string>& all = input.scope.not_checked;
  if (!plan.calculations) return all;
  const std::vector<NotChecked>& calculated = input.scope.calculations.not_checked;
  std::vector<std::string> out;
  for (int i = 0; i < topic_count; ++i) {
    const Topic topic = static_cast<Topic>(i);
    const auto n = std::count_if(calculated.begin(), calculated.end(),
                                 [&](const NotChecked& c) { return c.topic == topic; });
    if (n > 0)
      out.push_back(fmt::format("{}: {} thing{}, said with what {} on C01", topic_name(topic), n,
                                n == 1 ? "" : "s", n == 1 ? "it needs" : "they need"));
  }
  out.insert(out.end(), all.begin() + static_cast<std::ptrdiff_t>(calculated.size()), all.end());
  return out;
}

}  // namespace deckquire::sheets
