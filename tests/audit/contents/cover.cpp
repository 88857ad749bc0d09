// Items of the cover: index, parties, data, notes, key plan, totals.
#include <algorithm>

#include "audit/contents/reading.h"
#include "base/text.h"

namespace deckquire::contents {

namespace {

using sheets::SheetPlan;

void index(const Reading& r, Outcome& o) {
  std::vector<Cells> rows = r.rows("G", "INDEX OF SHEETS");
  // Void numbers have their places there too.
  std::erase_if(rows, [](const Cells& row) { return holds(joined(row), "VOID: "); });
  const auto& plan = r.drawn.plan.sheets;
  o.expect(rows.size() == plan.size(), "the index has " + std::to_string(rows.size()) + " rows");
  for (std::size_t i = 0; i < std::min(rows.size(), plan.size()); ++i) {
    const std::string& own = r.pages[i]->sheet.revision;
    o.expect(joined(rows[i]) ==
                 plan[i].number + " " + plan[i].title + (own.empty() ? "" : " " + own),
             joined(rows[i]));
  }
}

void on_cover(const Reading& r, Outcome& o, const std::string& text) {
  if (!text.empty()) o.expect(holds(r.words("G"), text), text + " is not on the cover");
}

void parties(const Reading& r, Outcome& o) {
  const auto rows = r.rows("G", "PARTIES");
  o.expect(rows.size() == r.project().parties.size(), "parties are missing");
  for (std::size_t i = 0; i < std::min(rows.size(), r.project().parties.size()); ++i) {
    const Party& p = r.project().parties[i];
    o.expect(joined(rows[i]) ==
                 p.role + " " + p.name + " " + (p.contact.empty() ? "not stated" : p.contact),
             joined(rows[i]));
  }
  on_cover(r, o, "job " + r.project().number);
}

void codes(const Reading& r, Outcome& o) {
  std::string said;  // a cell is broken into lines
  for (const char* head : {"DESIGN DATA", "WEARING SURFACE", "MATERIALS"})
    for (const Cells& row : r.rows("G", head)) said += joined(row) + " ";
  const auto expect = [&](const std::string& code) {
    o.expect(holds(said, code.empty() ? "not stated" : code), code + " is not on the cover");
  };
  for (const LoadData& l : r.project().conditions.loads) expect(l.code);
  for (const SurfaceData& s : r.project().deck.surfaces) expect(s.standard);
  for (const MaterialData& m : r.project().deck.materials) expect(m.source);
}

/// Every load that the project has, and of the four that a deck is made for those that it has not.
void loads(const Reading& r, Outcome& o) {
  std::string rows, named;
  for (const Cells& row : r.rows("G", "DESIGN DATA"))
    if (holds(row.front(), "Load")) rows += joined(row) + " ";
  for (const LoadData& l : r.project().conditions.loads) {
    named += l.name + " ";
    o.expect(holds(rows, "Load: " + l.name) && holds(rows, l.value.empty() ? "not stated" : l.value),
             l.name);
  }
  const Conditions& c = r.project().conditions;
  const auto typed = [&](bool there, const char* load, const char* row) {
    if (!there) return;
    named += std::string(load) + " ";
    bool found = false;
    for (const Cells& cells : r.rows("G", "DESIGN DATA")) found = found || holds(cells.front(), row);
    o.expect(found, row);
  };
  typed(c.pedestrian.has_value(), "pedestrian", "Pedestrian load");
  typed(c.vehicle.has_value(), "vehicle", "Vehicle");
  typed(c.wind.has_value(), "wind", "Wind, uplift");
  typed(r.project().deck.lifting.handling.has_value(), "lifting", "Lifting insert");
  const std::size_t at = rows.find("Loads: ");
  const std::string rest = at == std::string::npos ? "" : rows.substr(at);
  for (const char* load : {"pedestrian", "vehicle", "wind", "lifting"})
    o.expect(holds(named, load) != holds(rest, load), std::string(load) + " is not in " + rows);
}

void materials(const Reading& r, Outcome& o) {
  std::string said;
  for (const Cells& row : r.rows("G", "MATERIALS")) said += joined(row) + " ";
  for (const MaterialData& m : r.project().deck.materials)
    o.expect(holds(said, m.name), m.name + " is not on the cover");
}

void tolerances(const Reading& r, Outcome& o) {
  std::string said = " ";
  for (const Cells& row : r.rows("G", "TOLERANCES")) said += joined(row) + " ";
  for (const ToleranceData& t : r.project().conditions.tolerances)
    o.expect(holds(said, t.of + " " + print_length(t.value, r.project().units)), t.of);
  for (const char* of : {"length", "width", "squareness", "flatness", "hole position", "thickness",
                         "straightness", "camber", "setting", "gap"})
    o.expect(holds(said, of), std::string(of) + " is not among the tolerances");
}

void key_plan(const Reading& r, Outcome& o) {
  const Page* first = r.of("G").front();
  std::string said;
  for (int g : first->groups("view")) said += joined(first->words_of(g)) + " ";
  const UnitSystem u = r.project().units;
  for (const SupportData& s : r.project().bridge.supports) {
    o.expect(holds(said, s.kind + " " + s.name), s.name + " is not on the key plan");
    o.expect(holds(said, print_station(s.station, u)), s.name + ": its station is not there");
  }
  for (const SpanRun& s : r.deck().spans)
    o.expect(holds(said, "span " + s.name + ", " + std::to_string(s.count) + " panels"), s.name);
  for (const sheets::Strip& s : r.drawn.plan.strips)
    o.expect(holds(said, "sheet " + r.drawn.plan.erection_sheet(s.first)), "a sheet's limits");
  o.expect(!first->groups("north").empty(), "no north on the key plan");
}

void totals(const Reading& r, Outcome& o) {
  std::string said;
  for (const Cells& row : r.rows("G", "TOTALS")) said += joined(row) + " ";
  const UnitSystem u = r.project().units;
  const auto expect = [&](const std::string& what) { o.expect(holds(said, what), what); };
  expect("Panels " + std::to_string(r.deck().panels.size()));
  expect("Plan area of all panels " + print_area(r.deck().area, u));
  expect("Mass of all panels " + print_mass(r.deck().mass, u));
  // The schedule of marks ends with the same figures.
  std::string foot;
  for (const Page* p : r.of("T"))
    for (const Listing& t : p->tables)
      if (holds(t.head, "Mark") && holds(t.head, "Positions")) foot += joined(t.foot);
  o.expect(holds(foot, print_area(r.deck().area, u)), "area of the schedule: " + foot);
  o.expect(holds(foot, print_mass(r.deck().mass, u)), "mass of the schedule: " + foot);
}

void survey(const Reading& r, Outcome& o) {
  const auto& a = r.project().bridge.alignment;
  const auto s = r.bridge().alignment.survey(a.from, Length());
  const UnitSystem u = r.project().units;
  on_cover(r, o, print_cell(Cell{s.easting}, Measure::coordinate, u));
  on_cover(r, o, print_cell(Cell{s.northing}, Measure::coordinate, u));
}

void others(const Reading& r, Outcome& o) {
  std::string said = r.words("G");
  const std::size_t at = said.find("Not in these drawings, by others");
  o.expect(at != std::string::npos, "what others supply is not listed");
  if (at == std::string::npos) return;
  said = said.substr(at, 300);
  const auto named = [&](const char* role) {
    o.expect(holds(said, r.project().party(role)), std::string(role) + " is not named");
  };
  named("contractor");
  if (!r.deck().posts.empty()) named("railing");
  if (!r.deck().scuppers.empty()) named("drainage");
}

void revision_texts(const Reading& r, Outcome& o) {
  std::string said;
  for (const Cells& row : r.rows("G", "Change")) said += joined(row) + " ";
  for (const Revision& v : r.project().revisions) o.expect(holds(said, v.text), v.text);
}

}  // namespace

Items cover() {
  return {
      {"C1", "Index: every sheet with title and revision, nothing else", {}, index,
       rename("G", "PANEL DP03", "PANEL DP02"), {"index"}},
      {"C2", "Parties and job", {}, parties, rename("G", "Tarn Composites", "Another shop", "row")},
      {"C3", "Codes as stated, with edition", {}, codes,
       reword("G", "EN 1991-2:2003", "EN 1991-2"), {}, "codes in force as a list", "saltmarsh"},
      {"C4", "Loads that the panels are made for, or not stated", {}, loads,
       reword("G", "pedestrian, ", "")},
      {"C5", "Materials with source, surface, sunlight, certificates",
       {{"G", "MATERIALS", false},
        {"G", "WEARING SURFACE", false},
        {"G", "protection from sunlight, material*certificates", false}},
       materials, reword("G", "structural foam", "foam")},
      {"C6", "Hardware: grade and finish", {{"G", "Grade, finish and torque of bolts", false}}},
      {"C7", "Shop work: cutting, drilling, sealing, repair",
       {{"G", "cuts and drills only what*seals every*edge", false},
        {"G", "limits*of repair are not stated", false}}},
      {"C8", "Tolerances of panels and of setting", {}, tolerances,
       rename("G", "flatness", "flat")},
      {"C9", "Handling, storage, lifting",
       {{"G", "stored and carried level", false},
        {"G", "Lift only to a written plan by a qualified person", false}}},
      {"C10", "Erection: order, holding, gaps and temperature, sealing",
       {{"E", "ORDER", false},
        {"E", "Nobody walks on a panel before all its hold-downs are tight", false},
        {"E", "Gaps of * hold at", false},
        {"E", "GAPS TO SET, BY TEMPERATURE*Steel and panels at|NOT CHECKED by temperature", false},
        {"E", "TIGHTENING, TO THE ENGINEER'S VALUE", false},
        {"E", "set free from the hook only when*tied down against wind", false},
        {"E", "joints*are*sealed after*that", false,
         [](const Reading& r) { return r.project().deck.joints.kind == JointKind::sealed; }}}},
      {"C11", "Legend of lines, faces, symbols, abbreviations",
       {{"G", "LINES", false},
        {"G", "CUT FACES", false},
        {"G", "SYMBOLS", false},
        {"G", "ABBREVIATIONS", false}}},
      {"C12", "Key plan: spans, supports, stations, north, limits of sheets", {}, key_plan,
       reword("G", "abutment A1", "abutment")},
      {"C13", "Marks, hands, direction and serials explained",
       {{"G", "MARKS AND SERIALS*names a type of panel", false},
        {"G", "names one panel*never given again", false},
        {"G", "points ahead as the panel was drawn", false},
        {"G", "A mirror image is another part", false}}},
      {"C14", "What each revision changed",
       {{"R", "SHEETS SENT*What changed", false,
         [](const Reading& r) { return !r.of("R").empty(); }}},
       revision_texts,
       reword("G", "issue", "sheet")},
      {"C15", "Totals that agree with the schedules", {}, totals,
       reword("G", "Panels", "Boards", "row")},
      {"C16", "Survey: system, datum, benchmarks",
       {{"G", "own system*datum and benchmarks*designer's to state", false},
        {"G", "bears * degrees from*north", false}},
       survey, reword("G", "4120.500", "4120"), {}, {}, "saltmarsh"},
      {"C17", "What others supply, by whom", {}, others, reword("G", "by others:", "elsewhere:")}};
}

}  // namespace deckquire::contents
