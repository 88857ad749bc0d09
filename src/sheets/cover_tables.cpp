// The tables of the cover.
#include <fmt/format.h>

#include <algorithm>

#include "deck/site.h"
#include "sheets/cover.h"
#include "sheets/furniture.h"
#include "sheets/sheet_index.h"

namespace deckquire::sheets {
namespace {

using paper::Align;
using paper::TableData;

std::string stated(const std::string& s) {
  return s.empty() ? "not stated" : s;
}

std::string degrees_of(const std::optional<Temperature>& t, UnitSystem u) {
  return t ? print_temperature(*t, u) : "not stated";
}

std::string density(Density d, UnitSystem u) {
  return u == UnitSystem::metric ? decimal(d.in_si(), 0)
                                 : decimal(d.in_si() * 0.028316846592 / 0.45359237, 1);
}

std::string fall_name(const SectionData& s) {
  const std::string slope = shortest_decimal(100 * s.slope, 3) + " %";
  switch (s.fall) {
    case Fall::crown:
      return slope + " both ways from the crown";
    case Fall::left:
      return slope + " to the left";
    case Fall::right:
      return slope + " to the right";
    case Fall::none:
      break;
  }
  return "none";
}

void section_rows(TableData& t, const Project& p) {
  const auto size = [&](Length a) { return print_length(a, p.units); };
  const SectionData& s = p.deck.section;
  t.rows.push_back({"Panel depth at the high line", size(s.depth), "project"});
  t.rows.push_back({"Crossfall", fall_name(s), "project"});
  if (s.curb.sides != CurbSides::none)
    t.rows.push_back(
        {"Curb, height × width", size(s.curb.height) + " × " + size(s.curb.width), "project"});
  t.rows.push_back({"Joint gap; end gap",
                    size(p.deck.joints.gap) + "; " + size(p.deck.joints.end_gap), "project"});
}

/// Of the loads that a deck is made for, those that the project does not name.
std::string loads_not_stated(const Project& p) {
  std::vector<std::string> out;
  for (const char* load : {"pedestrian", "vehicle", "wind", "lifting"}) {
    const auto names = [&](const LoadData& l) { return l.name.find(load) != std::string::npos; };
    const auto& loads = p.conditions.loads;
    const std::string word = load;
    if ((word == "pedestrian" && p.conditions.pedestrian) ||
        (word == "vehicle" && p.conditions.vehicle) || (word == "wind" && p.conditions.wind) ||
        (word == "lifting" && p.deck.lifting.handling))
      continue;
    if (std::none_of(loads.begin(), loads.end(), names)) out.push_back(load);
  }
  return join(out, ", ");
}

void shipping_rows(TableData& t, const Project& p) {
  const Conditions& c = p.conditions;
  if (c.ship_length && c.ship_width)
    t.rows.push_back(
        {"Shipping limit, length × width",
         print_length(*c.ship_length, p.units) + " × " + print_length(*c.ship_width, p.units),
         "project"});
  if (c.ship_mass)
    t.rows.push_back({"Shipping limit, mass",
                      print_mass(*c.ship_mass, p.units) + " " + column_unit(Measure::mass, p.units),
                      "project"});
}

}  // namespace

TableData index_table(const SetInput& input, const SetPlan& plan) {
  TableData t{
      "INDEX OF SHEETS",
      {{"Sheet", "", Align::left, 0}, {"Title", "", Align::left, 0}, {"Rev", "", Align::left, 0}},
      {},
      {},
      {}};
  for (const IndexLine& line : index_lines(input, plan)) {
    t.rows.push_back({line.number, line.withdrawn ? "VOID: " + line.title : line.title,
                      line.revision});
    t.targets.push_back(line.withdrawn ? "" : line.number);
  }
  return t;
}

TableData party_table(const Project& project) {
  TableData t{
      "PARTIES",
      {{"Role", "", Align::left, 0}, {"Name", "", Align::left, 0}, {"Contact", "", Align::left, 0}},
      {},
      {},
      {}};
  for (const Party& p : project.parties) t.rows.push_back({p.role, p.name, stated(p.contact)});
  return t;
}

TableData design_table(const Project& p) {
  TableData t{
      "DESIGN DATA, AS STATED",
      {{"What", "", Align::left, 0}, {"Value", "", Align::left, 0}, {"Source", "", Align::left, 0}},
      {},
      {},
      {}};
  for (const LoadData& l : p.conditions.loads)
    t.rows.push_back({"Load: " + l.name, stated(l.value), stated(l.code)});
  if (const std::string other = loads_not_stated(p); !other.empty())
    t.rows.push_back({"Loads: " + other, "not stated", ""});
  for (std::vector<std::string>& row : load_rows(p)) t.rows.push_back(std::move(row));
  const Conditions& c = p.conditions;
  t.rows.push_back({"Setting temperature", degrees_of(c.temperature.setting, p.units),
                    c.temperature.setting ? "project" : ""});
  const bool range = c.temperature.least && c.temperature.greatest;
  t.rows.push_back({"Temperatures, least to greatest",
                    range ? degrees_of(c.temperature.least, p.units) + " to " +
                                degrees_of(c.temperature.greatest, p.units)
                          : "not stated",
                    range ? "project" : ""});
  section_rows(t, p);
  shipping_rows(t, p);
  const LiftingData& l = p.deck.lifting;
  t.rows.push_back(
      {"Lifting insert " + l.thread,
       l.capacity_kn > 0 ? shortest_decimal(l.capacity_kn, 2) + " kN each" : "capacity not stated",
       stated(l.source)});
  return t;
}

TableData material_table(const Project& p) {
  const std::string unit = p.units == UnitSystem::metric ? "kg/m³" : "lb/cu ft";
  TableData t{"MATERIALS",
              {{"Part", "", Align::left, 0},
               {"Material", "", Align::left, 0},
               {"Density", unit, Align::right, 0},
               {"Source", "", Align::left, 0}},
              {},
              {},
              {}};
  for (const MaterialData& m : p.deck.materials)
    t.rows.push_back({m.part, m.name, density(m.density, p.units), stated(m.source)});
  return t;
}

TableData surface_table(const Project& p) {
  const bool metric = p.units == UnitSystem::metric;
  TableData t{"WEARING SURFACE",
              {{"Class", "", Align::left, 0},
               {"From, to", "", Align::left, 0},
               {"Thick", column_unit(Measure::length, p.units), Align::right, 0},
               {"Mass", metric ? "kg/m²" : "lb/sq ft", Align::right, 0},
               {"Colour; friction; standard", "", Align::left, 0}},
              {},
              {},
              {}};
  for (const SurfaceData& s : p.deck.surfaces) {
    const double mass = s.mass.in_si() * (metric ? 1 : 0.09290304 / 0.45359237);
    t.rows.push_back({s.trade_class,
                      print_station(s.from, p.units) + " to " + print_station(s.to, p.units),
                      print_length(s.thickness, p.units), shortest_decimal(mass, 2),
                      stated(s.colour) + "; " + stated(s.friction) + "; " + stated(s.standard)});
  }
  return t;
}

TableData tolerance_table(const Project& p) {
  TableData t{"TOLERANCES",
              {{"Of", "", Align::left, 0},
               {"Plus or minus", column_unit(Measure::length, p.units), Align::right, 0}},
              {},
              {},
              {}};
  for (const ToleranceData& x : p.conditions.tolerances)
    t.rows.push_back({x.of, print_length(x.value, p.units)});
  const auto states = [&](const std::string& of) {
    return std::any_of(t.rows.begin(), t.rows.end(), [&](const auto& r) { return r[0] == of; });
  };
  if (!states("setting"))  // what the checks take
    t.rows.push_back({"setting", print_length(mm(setting_tolerance(p)), p.units)});
  if (!states("straightness")) t.rows.push_back({"straightness, camber", "not stated"});
  return t;
}

TableData totals_table(const SetInput& input) {
  const Deck& d = input.deck;
  const UnitSystem u = input.project.units;
  TableData t{
      "TOTALS",
      {{"What", "", Align::left, 0}, {"Number", "", Align::right, 0}, {"Unit", "", Align::left, 0}},
      {},
      {},
      {}};
  const auto count = [&](const char* what, std::size_t n) {
    if (n > 0) t.rows.push_back({what, std::to_string(n), "pcs"});
  };
  t.rows.push_back({"Length of the deck",
                    print_length(input.bridge.alignment.to() - input.bridge.alignment.from(), u),
                    column_unit(Measure::length, u)});
  count("Panels", d.panels.size());
  count("Marks", d.marks.size());
  t.rows.push_back(
      {"Plan area of all panels", print_area(d.area, u), column_unit(Measure::area, u)});
  t.rows.push_back({"Mass of all panels", print_mass(d.mass, u), column_unit(Measure::mass, u)});
  count("Joints", d.joints.size());
  count("Rail posts", d.posts.size());
  count("Scuppers", d.scuppers.size());
  count("Hatches", input.project.deck.hatches.size());
  count("Sleeves", input.project.deck.sleeves.size());
  return t;
}

TableData revision_history(const Project& p) {
  TableData t{"REVISIONS",
              {{"Rev", "", Align::left, 0},
               {"Date", "", Align::left, 0},
               {"Status", "", Align::left, 0},
               {"Change", "", Align::left, 0}},
              {},
              {},
              {}};
  for (const Revision& r : p.revisions) t.rows.push_back({r.id, r.date, r.status, r.text});
  return t;
}

TableData abbreviation_table(const SetInput& input, const SetPlan& plan, const SetUse& use) {
  TableData t{
      "ABBREVIATIONS", {{"Short", "", Align::left, 0}, {"Means", "", Align::left, 0}}, {}, {}, {}};
  const auto add = [&](const std::string& word, const std::string& means) {
    if (use.says(word)) t.rows.push_back({word, means});
  };
  const auto first = [&](const auto& list, const std::string& means) {
    if (!list.empty()) add(list.front().name, means);
  };
  const Bridge& bridge = input.bridge;
  const DeckData& deck = input.project.deck;
  if (use.says("J1") && use.says("J2")) t.rows.push_back({"J1, J2", "joints, numbered ahead"});
  first(bridge.supports, "a support");
  first(bridge.girders, "a girder");
  first(bridge.splices, "a girder splice");
  first(bridge.obstructions, "an obstruction");
  first(input.deck.posts, "a rail post, L left, R right");
  first(input.deck.scuppers, "a scupper");
  first(deck.hatches, "a hatch");
  first(deck.sleeves, "a sleeve");
  if (use.has("reference") && !plan.details.empty()) {
    const DetailRef& ref = plan.details.front();
    t.rows.push_back({fmt::format("{}/{}", ref.letter, ref.sheet),
                      fmt::format("view {} on sheet {}", ref.letter, ref.sheet)});
  }
  if (use.says(deck.lifting.thread))
    t.rows.push_back({deck.lifting.thread, "a thread, by diameter"});
  add("FRP", "fibre-reinforced polymer");
  add("EPDM", "ethylene propylene diene rubber");
  add("CG", "centre of gravity");
  if (use.has("north")) t.rows.push_back({"N", "north"});
  add("dia", "diameter");
  add("Ø", "diameter");
  add("pcs", "pieces");
  add("Qty", "quantity");
  add("Rev", "revision");
  return t;
}

}  // namespace deckquire::sheets
