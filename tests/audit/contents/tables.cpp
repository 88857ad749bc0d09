// Items of the tables: marks, and setting out.
#include <algorithm>
#include <map>

#include "audit/contents/reading.h"
#include "base/text.h"
#include "schedules/parts.h"

namespace deckquire::contents {

namespace {

/// The table of marks, a row a mark.
std::vector<Cells> mark_rows(const Reading& r) {
  std::vector<Cells> out;
  for (const Page* p : r.of("T"))
    for (const Listing& t : p->tables)
      if (holds(t.head, "Mark") && holds(t.head, "Positions"))
        out.insert(out.end(), t.rows.begin(), t.rows.end());
  return out;
}

std::vector<Cells> point_rows(const Reading& r) {
  std::vector<Cells> out;
  for (const Page* p : r.of("T"))
    for (const Listing& t : p->tables)
      if (holds(t.head, "Point") && holds(t.head, "Easting") && holds(t.head, "Panel"))
        out.insert(out.end(), t.rows.begin(), t.rows.end());
  return out;
}

void a_row_a_mark(const Reading& r, Outcome& o) {
  const auto rows = mark_rows(r);
  o.expect(rows.size() == r.deck().marks.size(), std::to_string(rows.size()) + " rows of marks");
  for (std::size_t i = 0; i < std::min(rows.size(), r.deck().marks.size()); ++i)
    o.expect(rows[i].front() == r.deck().marks[i].name, joined(rows[i]));
}

/// In every row of a mark, words that a function of the mark gives.
Relation row_holds(const std::function<Cells(const Reading&, std::size_t)>& wanted) {
  return [wanted](const Reading& r, Outcome& o) {
    const auto rows = mark_rows(r);
    for (std::size_t i = 0; i < r.deck().marks.size(); ++i) {
      if (i >= rows.size()) return o.expect(false, "no row of " + r.deck().marks[i].name);
      const std::string row = " " + joined(rows[i]) + " ";
      for (const std::string& w : wanted(r, i)) o.expect(holds(row, " " + w + " "), row + ": " + w);
    }
  };
}

const Mark& mark(const Reading& r, std::size_t i) { return r.deck().marks[i]; }

/// Positions by the table, runs opened: as many as the quantity says.
void quantities(const Reading& r, Outcome& o) {
  const auto rows = mark_rows(r);
  for (std::size_t i = 0; i < std::min(rows.size(), r.deck().marks.size()); ++i) {
    const std::string row = joined(rows[i]);
    const std::string runs = position_ranges(r.deck(), mark(r, i).positions);
    o.expect(holds(row, runs), row);
    std::size_t count = 0;
    int from = -1;
    std::string number;
    for (char c : runs + ",") {
      if (c >= '0' && c <= '9') {
        number += c;
      } else if (c == '-') {
        from = std::stoi(number);
        number.clear();
      } else if (c == ',') {
        const int to = std::stoi(number);
        count += static_cast<std::size_t>(from < 0 ? 1 : to - from + 1);
        from = -1;
        number.clear();
      }
    }
    o.expect(rows[i].size() > 1 && rows[i][1] == std::to_string(count), row);
  }
}

void sheets_found(const Reading& r, Outcome& o) {
  const auto rows = mark_rows(r);
  for (std::size_t i = 0; i < std::min(rows.size(), r.deck().marks.size()); ++i) {
    std::string sheet;
    for (const std::string& cell : rows[i])
      if (cell.size() > 2 && cell[0] == 'P' && cell.find_first_not_of("0123456789", 1) == std::string::npos)
        sheet = cell;
    const auto at = std::find_if(r.pages.begin(), r.pages.end(),
                                 [&](const auto& p) { return p->number() == sheet; });
    o.expect(at != r.pages.end() && holds((*at)->words, mark(r, i).name),
             mark(r, i).name + ": its sheet " + sheet);
  }
}

void mark_totals(const Reading& r, Outcome& o) {
  std::string foot;
  for (const Page* p : r.of("T"))
    for (const Listing& t : p->tables)
      if (holds(t.head, "Mark") && holds(t.head, "Positions")) foot += joined(t.foot);
  Mass mass;
  Area area;
  int quantity = 0;
  for (const Mark& m : r.deck().marks) {
    mass += m.masses.total * m.quantity;
    area += m.masses.top_area * m.quantity;
    quantity += m.quantity;
  }
  const UnitSystem u = r.project().units;
  o.expect(foot == "Total " + std::to_string(quantity) + " " + print_area(area, u) + " " +
                       print_mass(mass, u),
           foot);
}

void positions(const Reading& r, Outcome& o) {
  std::map<std::string, std::string> rows;
  for (const Page* p : r.of("T"))
    for (const Listing& t : p->tables)
      if (holds(t.head, "Position") && holds(t.head, "Serial") && !holds(t.head, "Step"))
        for (const Cells& row : t.rows) rows[row.front()] = joined(row);
  for (const Panel& p : r.deck().panels) {
    const std::string row = rows[std::to_string(p.position)];
    o.expect(holds(row, p.serial + " " + r.deck().marks[static_cast<std::size_t>(p.mark)].name),
             "position " + std::to_string(p.position));
  }
}

void points(const Reading& r, Outcome& o) {
  const auto rows = point_rows(r);
  const Table& table = r.drawn.set.table("setting-out");
  o.expect(rows.size() == table.rows.size(), std::to_string(rows.size()) + " points");
  std::set<std::string> names;
  for (const Cells& row : rows) {
    o.expect(names.insert(row.front()).second, row.front() + " twice");
    o.expect(row.size() == 7, joined(row) + ": a coordinate is missing");
  }
}

/// A point's name begins with a position that the plans show.
void point_names(const Reading& r, Outcome& o) {
  std::set<std::string> on_plans;
  for (const Page* p : r.of("E"))
    for (const audit::Letters& l : p->scan.texts) on_plans.insert(l.text->text);
  for (const Cells& row : point_rows(r)) {
    const std::size_t letters = row.front().find_first_not_of("0123456789");
    o.expect(on_plans.count(row.front().substr(0, letters)) > 0, row.front());
  }
}

void diagonals(const Reading& r, Outcome& o) {
  std::map<std::string, int> spans;
  for (const Page* p : r.of("T"))
    for (const Listing& t : p->tables)
      if (holds(t.head, "Along the slope"))
        for (const Cells& row : t.rows) ++spans[row.front()];
  for (const SpanRun& s : r.deck().spans)
    o.expect(spans[s.name] == 6, "span " + s.name + ": " + std::to_string(spans[s.name]));
}

void girder_levels(const Reading& r, Outcome& o) {
  for (int i = 0; i < r.drawn.plan.strip_sheets(); ++i)
    o.expect(says(r.of("E")[static_cast<std::size_t>(i)]->words, "Deck top, *Girder top, "),
             "no levels");
}

}  // namespace

Items table_sheets() {
  return {
      {"M1", "A row a mark, in order", {}, a_row_a_mark, rename("T", "DP03", "DP02")},
      {"M2", "Quantities are those of the positions", {}, quantities, rename("T", "5", "6"),
       {"mark-count"}},
      {"M3", "The shop sheet of each mark", {}, sheets_found, rename("T", "P02", "P09"),
       {"mark-sheet"}},
      {"M4", "Size, area and mass of each mark",
       {{"T", "depth at the high*line*is", false}},
       row_holds([](const Reading& r, std::size_t i) {
         const UnitSystem u = r.project().units;
         const Masses& m = mark(r, i).masses;
         return Cells{print_area(m.top_area, u), print_mass(m.total, u)};
       }),
       rename("T", "363", "336")},
      {"M5", "Hand, and the mark it is the opposite of", {},
       row_holds([](const Reading& r, std::size_t i) {
         const int of = mark(r, i).opposite_of;
         return of < 0 ? Cells{} : Cells{mark(r, static_cast<std::size_t>(of)).name};
       }),
       reword("T", "DP05", "DP04"), {}, "", "saltmarsh"},
      {"M6", "Position, span and serial of every panel", {}, positions,
       rename("T", "0301-004", "0301-005"), {"serial-count"}},
      {"M7", "Serials of the marks", {{"T", "Serials run by position, from", false,
                                      [](const Reading& r) { return r.of("R").empty(); }}}},
      {"M8", "Totals of number, area and mass", {}, mark_totals, rename("T", "Total", "Sum")},
      {"M9", "What is special about a mark", {},
       row_holds([](const Reading& r, std::size_t i) {
         return Cells{mark(r, i).remark.empty() ? "plain" : mark(r, i).remark};
       }),
       reword("T", "1 hatch", "hatch"), {}, "", "saltmarsh"},
      {"M10", "Deleted marks stay, struck through", {}, {}, {}, {}, "marks that were given up"},
      {"T1", "System, datum, unit, benchmark of the points",
       {{"T", "in*the project's*own system", false},
        {"G", "datum and benchmarks*designer's to state", false}}},
      {"T2", "Each point: name, station, offset, coordinates, level",
       {{"T", "Offsets are positive to the left"}}, points, rename("T", "3AC", "3AL")},
      {"T3", "Points found on the plan by their names",
       {{"T", "7BL is*position 7, back end, left edge", false}}, point_names,
       rename("T", "3AC", "33AC"), {}, "point names on the plans"},
      {"T4", "Diagonals and sides of every span", {}, diagonals, rename("T", "Along the slope", "Distance")},
      {"T5", "Levels of girders and deck at the supports", {}, girder_levels,
       reword("E", "Girder top", "Girder"), {}, "heights of haunches and shims"},
      {"T6", "Figures as fine as the tolerance asks", {{"T", "SI units, in full"}}, {}, {}, {},
       "coordinates finer than a millimetre"},
      {"T7", "Direction of stations, left and right",
       {{"T", "Left and right, back and ahead are seen looking ahead"}}}};
}

}  // namespace deckquire::contents
