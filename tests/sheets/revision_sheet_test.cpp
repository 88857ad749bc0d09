// R sheets: old and new laid over one another, and the table of changes.
#include "sheets/revision_sheet.h"

#include <doctest/doctest.h>

#include "audit/audit.h"
#include "paper/sheet_difference.h"
#include "sheets/drawn_set.h"

using namespace deckquire;
using namespace deckquire::sheets;
using paper::PaperBox;

namespace {

/// That set with one text of its project replaced.
struct Edited : TrialSet {
  Edited(const std::string& name, const std::string& style_name, const std::string& from,
         const std::string& to)
      : TrialSet(name, style_name) {
    std::string text = read_file(DECKQUIRE_SOURCE "/projects/" + name + ".xml");
    const std::size_t at = text.find(from);
    REQUIRE(at != std::string::npos);
    findings = {};
    project = *read_project(text.replace(at, from.size(), to), name + ".xml", findings);
    bridge = build_bridge(project, findings);
    deck = build_deck(project, bridge, findings);
    check_fit(project, bridge, deck, findings);
    scope = check_scope(project, bridge, deck, findings);
    tables = make_schedules(project, bridge, deck);
    sorted = findings.sorted();
  }
};

/// Letters in groups of a kind.
std::vector<std::string> letters_in(const paper::Sheet& sheet, const std::string& kind) {
  std::vector<std::string> out;
  std::vector<bool> open;
  for (const paper::Item& item : sheet.items) {
    if (const auto* g = std::get_if<paper::GroupStart>(&item))
      open.push_back(g->kind == kind || (!open.empty() && open.back()));
    if (std::holds_alternative<paper::GroupEnd>(item)) open.pop_back();
    if (const auto* t = std::get_if<paper::Text>(&item); t && !open.empty() && open.back())
      out.push_back(t->text);
  }
  return out;
}

std::vector<ViewChange> views_between(const std::vector<paper::Sheet>& before,
                                      const std::vector<paper::Sheet>& now,
                                      const paper::Style& style) {
  std::vector<ViewChange> out;
  for (const paper::Sheet& s : now)
    for (const paper::Sheet& o : before)
      if (o.number == s.number)
        for (ViewChange& v : changed_views(o, s, style, room_for_view(style)))
          out.push_back(std::move(v));
  return out;
}

}  // namespace

TEST_CASE("changed views: a set and itself have none; one hatch moved is in its views only") {
  const DrawnSet& old = drawn_set("saltmarsh");
  CHECK(views_between(old.sheets, old.sheets, old.set.style).empty());
  const Edited now("saltmarsh", "a1", R"(name="H1" at="0+003.776")", R"(name="H1" at="0+003.836")");
  const auto sheets = draw_set(now.input(), 1);
  const auto views = views_between(old.sheets, sheets, now.style);
  REQUIRE_FALSE(views.empty());
  bool plan = false;
  for (const ViewChange& v : views) {
    CHECK((v.sheet[0] == 'E' || v.sheet[0] == 'P'));
    CHECK_FALSE(v.scale.empty());
    CHECK_FALSE((v.come.empty() && v.gone.empty()));
    for (const auto* list : {&v.same, &v.gone, &v.come})
      for (const paper::Item& item : *list) {
        const PaperBox b = paper::box_of(item), room = v.box.grown(0.02);
        CHECK(room.contains(b.low));
        CHECK(room.contains(b.high));
      }
    plan = plan || (v.title == "Plan from above" && v.scale == "1:20");
  }
  CHECK(plan);
}

TEST_CASE("R sheets: sound and audited on every paper, old letters struck through beside the new") {
  for (const std::string& style : trial_styles) {
    const DrawnSet& old = drawn_set("saltmarsh", style);
    const Edited now("saltmarsh", style, R"(name="H1" at="0+003.776")",
                     R"(name="H1" at="0+003.836")");
    SetPlan plan = plan_set(now.input());
    RevisionReport report;
    report.before = "revision A", report.now = "revision B";
    report.changes.push_back(
        {"hatch H1 at", "0+003.776", "0+003.836", "82, 82", "2", "DP02 goes, DP17 comes", "P02"});
    report.views = views_between(old.sheets, draw_set(now.input(), plan, 1), now.style);
    plan_revision_sheets(plan, now.input(), report);
    const auto sheets = draw_set(now.input(), plan, 1);
    REQUIRE(sheets.back().number.starts_with("R"));
    std::vector<std::string> struck;
    std::size_t pictures = 0;
    for (std::size_t i = 0; i < sheets.size(); ++i) {
      CHECK(is_revision_sheet(plan, i) == (sheets[i].number[0] == 'R'));
      if (sheets[i].number[0] != 'R') continue;
      const auto wrong = paper::faults(sheets[i], now.style.least_height, now.style.frame());
      CHECK_MESSAGE(wrong.empty(), (wrong.empty() ? "" : wrong.front()));
      const auto words = letters_in(sheets[i], "struck");
      struck.insert(struck.end(), words.begin(), words.end());
      for (const paper::Item& item : sheets[i].items)
        if (const auto* g = std::get_if<paper::GroupStart>(&item)) pictures += g->kind == "overlay";
    }
    CHECK(pictures == report.views.size());
    CHECK(std::find(struck.begin(), struck.end(), "1244") != struck.end());  // x of the hatch
    for (const audit::Flaw& f : audit::audit_set(now.input(), plan, sheets).flaws)
      CHECK_MESSAGE(f.sheet[0] != 'R', f.sheet << " " << f.code << " " << f.what);
  }
}

TEST_CASE("R sheets: a long table of changes goes on, its head repeated") {
  const DrawnSet& set = drawn_set("quickstart", "a3");
  SetPlan plan = set.plan;
  RevisionReport report;
  for (int i = 0; i < 80; ++i)
    report.changes.push_back({"hatch H" + std::to_string(i), "1", "2", "", "", "", ""});
  plan_revision_sheets(plan, set.set.input(), report, 3);
  REQUIRE(plan.sheets.size() > set.plan.sheets.size() + 1);
  CHECK(plan.sheets[set.plan.sheets.size()].number == "R03");
  std::size_t rows = 0;
  for (std::size_t i = set.plan.sheets.size(); i < plan.sheets.size(); ++i)
    for (const std::string& word : letters_in(draw_revision(set.set.input(), plan, i), "table"))
      rows += word.starts_with("hatch H") ? 1 : 0;
  CHECK(rows == 80);
}
