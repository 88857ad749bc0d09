// Small marks that share a sheet: every one is found, and nothing on it can be taken for another's.
#include <doctest/doctest.h>

#include <algorithm>
#include <map>
#include <regex>
#include <set>

#include "audit/audit.h"
#include "example.h"

using namespace deckquire;
using namespace deckquire::sheets;

namespace {

const char* const fillers = "../tests/sheets/fillers.xml";

std::vector<std::string> words_on(const paper::Sheet& sheet) {
  std::vector<std::string> out;
  for (const auto& item : sheet.items)
    if (const auto* t = std::get_if<paper::Text>(&item)) out.push_back(t->text);
  return out;
}

std::size_t shared_sheets(const Example& e) {
  const auto list = e.panel_sheets();
  return static_cast<std::size_t>(std::count_if(
      list.begin(), list.end(), [&](std::size_t i) { return e.plan.sheets[i].marks.size() > 1; }));
}

}  // namespace

TEST_CASE("shared sheets: every mark is on one sheet, numbers run on, titles name the marks") {
  for (const char* style : {"a1", "a3", "arch-d"}) {
    const Example e(fillers, style);
    CHECK((shared_sheets(e) > 0) == !second_panel_sheet(e.style));
    std::set<int> seen;
    int number = 0;
    for (std::size_t i : e.panel_sheets()) {
      const SheetPlan& s = e.plan.sheets[i];
      CHECK(s.number == "P" + padded(++number, 2));
      CHECK(s.subject == s.marks.front());
      for (int m : s.marks) {
        CHECK(seen.insert(m).second);
        CHECK(s.title.find(e.deck.marks[static_cast<std::size_t>(m)].name) != std::string::npos);
        CHECK(e.plan.panel_sheet(m) == s.number);
      }
    }
    CHECK(seen.size() == e.deck.marks.size());
  }
}

TEST_CASE(
    "shared sheets: the tables of marks and of positions name the sheet that shows the mark") {
  const Example e(fillers, "arch-d");
  std::size_t looked_at = 0;
  for (const Table& t : with_panel_sheets(e.tables, e.input, e.plan)) {
    if (t.name != "marks" && t.name != "panels") continue;
    std::size_t mark = 0, sheet = 0;
    for (std::size_t c = 0; c < t.columns.size(); ++c) {
      if (t.columns[c].name == "mark") mark = c;
      if (t.columns[c].name == "sheet") sheet = c;
    }
    for (const auto& row : t.rows) {
      const std::string name = std::get<std::string>(row[mark]);
      const auto at = std::find_if(e.deck.marks.begin(), e.deck.marks.end(),
                                   [&](const Mark& m) { return m.name == name; });
      REQUIRE(at != e.deck.marks.end());
      CHECK(std::get<std::string>(row[sheet]) ==
            e.plan.panel_sheet(static_cast<int>(at - e.deck.marks.begin())));
      ++looked_at;
    }
  }
  CHECK(looked_at == e.deck.marks.size() + e.deck.panels.size());
}

TEST_CASE("shared sheets: each mark has its title, plans and tables, and letters of its own") {
  const Example e(fillers, "arch-d");
  static const std::regex view(R"((SECTION|DETAIL) ([A-Z]{1,2})(-[A-Z]{1,2})?, .*)");
  std::size_t looked_at = 0;
  for (std::size_t i : e.panel_sheets()) {
    const SheetPlan& own = e.plan.sheets[i];
    if (own.marks.size() < 2) continue;
    ++looked_at;
    const auto words = words_on(draw_panel(e.input, e.plan, i));
    const auto times = [&](const std::string& w) {
      return static_cast<std::size_t>(std::count(words.begin(), words.end(), w));
    };
    for (const char* each : {"PLAN FROM ABOVE", "SOFFIT, SEEN THROUGH FROM ABOVE", "0,0",
                             "FEATURES, FROM DATUM CORNER 0,0", "HOLES, FROM DATUM CORNER 0,0",
                             "WHERE USED: POSITION, SERIAL, HOW IT LIES"})
      CHECK(times(each) >= own.marks.size());
    for (int m : own.marks) {
      const Mark& mark = e.deck.marks[static_cast<std::size_t>(m)];
      CHECK(times("PANEL " + mark.name + ", " + std::to_string(mark.quantity) + " REQUIRED") == 1);
    }
    std::string letters;
    for (const std::string& w : words) {
      std::smatch found;
      if (std::regex_match(w, found, view)) letters += found[2];
    }
    std::sort(letters.begin(), letters.end());
    CHECK(letters == std::string("ABCDEFGH").substr(0, letters.size()));
    CHECK(letters.size() >= 2 * own.marks.size());
  }
  CHECK(looked_at >= 2);
}

TEST_CASE("shared sheets: scales stay legible, and no view is lost for company") {
  const Example e(fillers, "a1");
  for (std::size_t i : e.panel_sheets()) {
    const SheetPlan& own = e.plan.sheets[i];
    if (own.marks.size() < 2) continue;
    paper::Sheet sheet = blank_sheet(e.input, own);
    paper::Board board(sheet, e.style, e.lettering);
    const Spaces spaces = furnish(board, e.input, e.plan, i, "as shown");
    const std::vector<PanelJob> jobs = panel_jobs(e.input, e.plan, own);
    const SharedSheet shared = arrange_shared_sheet(board, jobs, spaces);
    CHECK(shared.fits);
    for (std::size_t k = 0; k < jobs.size(); ++k) {
      const PanelLayout& layout = shared.parts[k].layout;
      CHECK(layout[PanelView::top].ratio <= 12);
      PanelJob alone = jobs[k];
      const PanelText text = arrange_panel_text(board, alone, spaces);
      const PanelLayout own_sheet = lay_out_panel(board, alone, spaces.drawing, text.corner);
      for (int v = 0; v < panel_view_count; ++v)
        if (own_sheet.views[v].drawn) CHECK(layout.views[v].drawn);
    }
  }
}

TEST_CASE("shared sheets: marks of common size have sheets of their own") {
  for (const std::string& name : examples)
    for (const char* style : {"a1", "arch-d"}) CHECK(shared_sheets(Example(name, style)) == 0);
}

TEST_CASE("shared sheets: nothing to send back, but a mark without its title is found") {
  for (const std::string& style : trial_styles) {
    const Example e(fillers, style);
    std::vector<paper::Sheet> sheets = draw_set(e.input, 1);
    for (const audit::Flaw& f : audit::audit_set(e.input, e.plan, sheets).flaws)
      if (f.sheet.front() != 'E')
        FAIL_CHECK(style << " " << f.sheet << " [" << f.code << "]: " << f.what);
  }
  const Example e(fillers, "a1");
  std::vector<paper::Sheet> sheets = draw_set(e.input, 1);
  for (paper::Sheet& sheet : sheets)
    for (auto& item : sheet.items)
      if (auto* t = std::get_if<paper::Text>(&item))
        if (t->text == "PANEL DP03, 1 REQUIRED") t->text = "PANEL DP03, 2 REQUIRED";
  std::set<std::string> codes;
  for (const audit::Flaw& f : audit::audit_set(e.input, e.plan, sheets).flaws)
    if (f.sheet.front() != 'E') codes.insert(f.code);
  CHECK(codes == std::set<std::string>{"mark-sheet"});
}
