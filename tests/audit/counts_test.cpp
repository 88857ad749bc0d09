// The counts of the bill on the sheets: panel sheets, erection sheets, table sheets, travellers.
#include <doctest/doctest.h>

#include <cmath>
#include <cstdlib>
#include <map>

#include "audit/contents/reading.h"
#include "schedules/bill.h"
#include "sheets/erection_parts.h"
#include "sheets/travellers.h"

using namespace deckquire;
using namespace deckquire::contents;
using deckquire::sheets::drawn_set;

namespace {

const char* const examples[] = {"quickstart", "saltmarsh", "orchard", "ropewalk"};

const Reading& reading(const std::string& project) {
  static std::map<std::string, Reading> read;
  return read.try_emplace(project, drawn_set(project)).first->second;
}

/// Pieces of every item that is counted, of the whole job.
std::map<std::string, double> counted(const std::vector<BillLine>& lines) {
  std::map<std::string, double> out;
  for (const BillLine& l : lines)
    if (l.ordered_by == Measure::count) out[l.item] += l.pieces;
  return out;
}

std::vector<BillLine> whole(const Reading& r) { return deck_lines(r.project(), r.bridge(), r.deck()); }

/// What panel sheets print under "All", summed over the sheets, by item; `one`: times the quantity of the
/// mark, what they print under "One".
struct Printed {
  std::map<std::string, double> all;
  int rows = 0, odd = 0;  // rows whose "all" is not a multiple of "one"
};

Printed panel_sheets_say(const Reading& r) {
  Printed out;
  for (const Cells& row : r.rows("P", "Item Unit One All")) {
    const auto unit = std::find(row.begin(), row.end(), "pcs");
    if (unit == row.end() || row.end() - unit < 3) continue;
    const std::string item = joined(Cells(row.begin(), unit));
    const double one = std::stod(*(unit + 1)), all = std::stod(*(unit + 2));
    out.all[item] += all;
    ++out.rows;
    if (std::fmod(all, one) != 0) ++out.odd;
  }
  return out;
}

/// Items that differ from the bill; those of the shop only.
std::vector<std::string> wrong_on_panel_sheets(const Reading& r) {
  std::vector<std::string> out;
  const Printed said = panel_sheets_say(r);
  std::map<std::string, double> want;
  for (const Mark& m : r.deck().marks)
    for (const BillLine& l : bill_lines(r.project(), m))
      if (l.ordered_by == Measure::count && l.supplier.empty()) want[l.item] += l.pieces * m.quantity;
  for (const auto& [item, n] : want)
    if (said.all.count(item) == 0 || said.all.at(item) != n) out.push_back(item);
  for (const auto& [item, n] : said.all)
    if (want.count(item) == 0) out.push_back(item + " on a sheet only");
  if (said.odd > 0) out.push_back("one and all");
  return out;
}

/// The number before the first word of "8 post plates", with or without its plural.
int number_before(const std::string& text, const std::string& word) {
  for (std::size_t at = text.find(word); at != std::string::npos; at = text.find(word, at + 1)) {
    if (at < 2) continue;
    std::size_t from = at - 1;
    while (from > 0 && std::isdigit(static_cast<unsigned char>(text[from - 1]))) --from;
    if (from < at - 1) return std::atoi(text.c_str() + from);
  }
  return 0;
}

/// What the panel sheets' tables of that head count of things whose words begin so, each mark as often as
/// its quantity says. A row begins with its label and its count.
double on_panel_sheets(const Reading& r, const std::string& head, const std::string& what) {
  double sum = 0;
  for (const sheets::SheetPlan& s : r.drawn.plan.sheets) {
    if (s.series != 'P') continue;
    for (const auto& page : r.pages) {
      if (page->number() != s.number) continue;
      std::size_t mark = 0;
      for (const Listing& t : page->tables) {
        if (!holds(t.head, head)) continue;
        REQUIRE(mark < s.marks.size());
        const Mark& m = r.deck().marks[static_cast<std::size_t>(s.marks[mark++])];
        for (const Cells& row : t.rows)
          if (row.size() > 2 && joined(Cells(row.begin() + 2, row.end())).starts_with(what))
            sum += std::stod(row[1]) * m.quantity;
      }
    }
  }
  return sum;
}

}  // namespace

TEST_CASE("counts: holes and features that panel sheets list are those of the bill") {
  const std::map<std::string, std::string> holes = {{"post plate, tapped", "rail post bolt"},
                                                    {"grate bolt", "grate bolt"},
                                                    {"hatch cover bolt", "cover bolt"},
                                                    {"hold-down insert", "hold-down insert"},
                                                    {"lifting insert", "lifting insert"},
                                                    {"scupper outlet", "outlet pipe"}};
  const std::map<std::string, std::string> features = {{"post plate", "post plate"},
                                                       {"scupper", "scupper body"},
                                                       {"hatch", "hatch cover"},
                                                       {"sleeve", "sleeve"},
                                                       {"hold-down", "hold-down clip"},
                                                       {"lifting insert", "insert cap"}};
  for (const char* name : examples) {
    CAPTURE(name);
    const Reading& r = reading(name);
    const auto bill = counted(whole(r));
    const auto pieces = [&](const std::string& item) { return bill.count(item) ? bill.at(item) : 0; };
    double seen = 0;
    for (const auto& [what, item] : holes) {
      CAPTURE(what);
      CHECK(on_panel_sheets(r, "Kind Qty What", what) == pieces(item));
    }
    for (const auto& [what, item] : features) {
      CAPTURE(what);
      CHECK(on_panel_sheets(r, "No. Qty What", what) == pieces(item));
      seen += pieces(item);
    }
    CHECK(seen > 10);
  }
}

TEST_CASE("counts: the bills on panel sheets sum to that of the job; one changed figure is found") {
  for (const char* name : examples) {
    CAPTURE(name);
    const Reading& r = reading(name);
    for (const std::string& item : wrong_on_panel_sheets(r)) FAIL_CHECK(item);
    CHECK(panel_sheets_say(r).rows > static_cast<int>(r.deck().marks.size()));
  }
  Reading faulty = reading("quickstart");
  for (auto& page : faulty.pages) {
    if (page->series() != 'P') continue;
    auto changed = std::make_shared<Page>(page->sheet);
    for (Listing& t : changed->tables)
      if (holds(t.head, "Item Unit One All"))
        for (Cells& row : t.rows)
          if (const auto unit = std::find(row.begin(), row.end(), "pcs"); unit != row.end())
            *(unit + 2) += "1";
    page = changed;
    break;
  }
  CHECK_FALSE(wrong_on_panel_sheets(faulty).empty());
}

TEST_CASE("counts: every row of materials and orders stands on a table sheet with its figures") {
  for (const char* name : examples) {
    CAPTURE(name);
    const Reading& r = reading(name);
    const UnitSystem units = r.project().units;
    const Table& orders = r.drawn.set.table("orders");
    const auto rows = r.rows("T", "To order");
    REQUIRE(rows.size() == orders.rows.size());
    for (std::size_t i = 0; i < rows.size(); ++i) {
      std::string want;  // unit, net, allowance, to order: the cells in the middle of the row
      for (std::size_t c = 2; c <= 5; ++c) {
        const std::string text = print_cell(orders.rows[i][c], orders.columns[c].measure, units);
        if (!text.empty()) want += " " + text;
      }
      CAPTURE(want);
      CHECK(holds(" " + joined(rows[i]) + " ", want + " "));
    }
    const Table& materials = r.drawn.set.table("materials");
    CHECK(r.rows("T", "Item Description Pieces").size() == materials.rows.size());
  }
}

TEST_CASE("counts: the hardware of the erection sheets sums to the bill") {
  for (const char* name : {"quickstart", "saltmarsh", "orchard", "ropewalk", "heron"}) {
    CAPTURE(name);
    const sheets::DrawnSet& d = drawn_set(name);
    const sheets::SetInput input = d.set.input();
    std::map<std::string, double> sum;
    int sheets_read = 0;
    for (int sheet = 0; sheet < d.plan.strip_sheets(); ++sheet, ++sheets_read)
      for (const auto& row : sheets::hardware(input, sheets::panels_on(d.plan, sheet)).rows)
        sum[row[0].substr(0, row[0].find_first_of("0123456789"))] += std::stod(row[1]);
    const auto lines = deck_lines(d.set.project, d.set.bridge, d.set.deck);
    auto bill = counted(lines);
    std::map<std::string, double> run;
    const double metre = d.set.project.units == UnitSystem::metric ? 1 : 1 / 0.3048;
    for (const BillLine& l : lines) run[l.item] += l.length * metre;
    CHECK(sum["Panels"] == static_cast<double>(d.set.deck.panels.size()));
    CHECK(sum["Hold-down clips"] == bill["hold-down clip"]);
    CHECK(sum["Hold-down bolts M"] + sum["Hold-down bolts "] == bill["hold-down bolt"]);
    CHECK(sum["Scupper grates"] == bill["scupper grate"]);
    CHECK(sum["Grate bolts M"] + sum["Grate bolts "] == bill["grate bolt"]);
    CHECK(sum["Hatch covers"] == bill["hatch cover"]);
    CHECK(sum["Cover bolts"] == bill["cover bolt"]);
    CHECK(sum["Caps of lifting inserts M"] + sum["Caps of lifting inserts "] == bill["insert cap"]);
    CHECK(sum["Cover plates "] == bill["joint cover plate"]);
    const double rounding = 0.05 * sheets_read + 1e-9;  // one decimal on each sheet
    CHECK(std::abs(sum["Backer rod "] - run["backer rod"]) <= rounding);
    CHECK(std::abs(sum["Sealant "] - run["sealant"]) <= 2 * rounding);  // two gaps at most
    // Panels of a mark may differ by the tolerance of marks; the bill is that of the drawing.
    const double play = d.set.project.deck.marks.tolerance.in_m() * metre * bill["hold-down clip"];
    CHECK(std::abs(sum["Bearing pad "] - run["bearing pad"]) <= rounding + play);
  }
}

TEST_CASE("counts: what the travellers' steps count is what the bill has") {
  const std::map<std::string, std::string> words = {{"post plate", "post plate"},
                                                    {"hold-down", "hold-down insert"},
                                                    {"lifting insert", "lifting insert"},
                                                    {"scupper", "scupper body"},
                                                    {"hatch", "hatch cover"}};
  for (const char* name : examples) {
    CAPTURE(name);
    const Reading& r = reading(name);
    const sheets::SetInput input = r.drawn.set.input();
    std::map<std::string, double> sum;
    for (const Mark& m : r.deck().marks) {
      const auto steps = sheets::inspection_steps(input, m);
      REQUIRE(steps.size() > 2);
      const std::string text = " " + steps[0].what + ", " + steps[1].what;
      for (const auto& [word, item] : words) sum[item] += number_before(text, word) * m.quantity;
    }
    const auto bill = counted(whole(r));
    for (const auto& [item, n] : sum) {
      CAPTURE(item);
      CHECK(n == (bill.count(item) ? bill.at(item) : 0));
    }
  }
}
