// Sets that come after an issue: what they keep of it, and what names the revision.
#include <doctest/doctest.h>

#include <algorithm>

#include "paper/layer.h"
#include "sheets/layout_hints.h"
#include "sheets/sheet_index.h"
#include "sheets/title_block.h"
#include "sheets/trial_set.h"

using namespace deckquire;
using namespace deckquire::sheets;

namespace {

/// A register that holds one issue of a set, as far as sheets ask.
history::Register issued_as(const TrialSet& set, const SetPlan& plan) {
  history::Issue issue;
  issue.revision = set.project.revisions.back().id;
  issue.layout = hints_of(plan, set.input(), {});
  for (const SheetPlan& s : plan.sheets)
    issue.sheets.push_back({s.number, s.title, "", {issue.revision}, {}, false});
  for (const Panel& p : set.deck.panels) {
    history::IssuedPosition at;
    at.position = p.position;
    at.mark = set.deck.marks[static_cast<std::size_t>(p.mark)].name;
    at.serial = p.serial;
    issue.positions.push_back(at);
  }
  history::Register out;
  out.entries.push_back({});
  out.entries.back().number = 1;
  out.entries.back().issue = issue;
  return out;
}

void add_revision(Project& project, const std::string& id, const std::string& text) {
  Revision r = project.revisions.back();
  r.id = id;
  r.text = text;
  r.date = "2027-01-08";
  r.by = "Ottilie Featherstonehaugh-Pemberton";
  project.revisions.push_back(r);
}

std::string drawn(const paper::Sheet& sheet) {
  return paper::dump(paper::without_revision(sheet));
}

}  // namespace

TEST_CASE("history: naming the revision again changes nothing") {
  for (const char* style : {"a1", "a3", "arch-d"}) {
    const TrialSet set("quickstart", style);
    const SetPlan plan = plan_set(set.input());
    std::vector<paper::Sheet> sheets = draw_sheets(set.input(), plan, 1);
    for (std::size_t i = 0; i < sheets.size(); ++i) {
      if (plan.sheets[i].series == 'G') continue;
      CHECK(sheets[i].revision_items.size() == 7);  // six fields of the title block, and the block
      const std::string before = paper::dump(sheets[i]);
      name_revision(sheets[i], set.input(), plan, i);
      CHECK_MESSAGE((paper::dump(sheets[i]) == before), style << " " << plan.sheets[i].number);
    }
  }
}

TEST_CASE("history: a revision that changes nothing draws the same sheets, however long its words") {
  for (const char* style : {"a1", "a3", "arch-d"}) {
    TrialSet set("quickstart", style);
    const SetPlan first = plan_set(set.input());
    const std::vector<paper::Sheet> before = draw_sheets(set.input(), first, 1);
    const history::Register issued = issued_as(set, first);
    add_revision(set.project, "B",
                 "Nothing is changed, but it takes a good many words to say so; and then some more "
                 "words, so that the room in the block of revisions of any sheet must be too low");
    SetHistory history{issued, issued.entries.back().issue->layout};
    SetInput input = set.input();
    input.history = &history;
    const SetPlan second = plan_set(input);
    REQUIRE(second.sheets.size() == first.sheets.size());
    std::vector<paper::Sheet> now = draw_sheets(input, second, 1);
    for (std::size_t i = 0; i < now.size(); ++i) {
      if (second.sheets[i].series == 'G') continue;
      CHECK_MESSAGE((drawn(now[i]) == drawn(before[i])), style << " " << now[i].number);
      // Untouched: letter, date and names of its own revision, to the byte.
      history.touched[now[i].number] = {{"A", 0}};
      name_revision(now[i], input, second, i);
      CHECK_MESSAGE((paper::dump(now[i]) == paper::dump(before[i])), style << " " << now[i].number);
      // Touched: the new one, in the room of the first.
      history.touched[now[i].number] = {{"A", 0}, {"B", 3}};
      name_revision(now[i], input, second, i);
      CHECK(now[i].revision == "B");
      CHECK((paper::dump(now[i]) != paper::dump(before[i])));
      CHECK((drawn(now[i]) == drawn(before[i])));
      const auto faults = paper::faults(now[i], set.style.least_height, set.style.frame());
      CHECK_MESSAGE(faults.empty(), style << " " << join(faults, "; "));
    }
  }
}

TEST_CASE("history: every status fits where the first one stood") {
  for (const char* style : {"a1", "a3", "arch-d"}) {
    TrialSet set("quickstart", style);
    const SetPlan plan = plan_set(set.input());
    const history::Register issued = issued_as(set, plan);
    add_revision(set.project, "B", "Status");
    SetHistory history{issued, issued.entries.back().issue->layout};
    SetInput input = set.input();
    input.history = &history;
    for (const char* status : {"preliminary", "for approval", "approved as noted",
                               "revise and resubmit", "for fabrication", "as built"}) {
      set.project.revisions.back().status = status;
      paper::Sheet sheet = draw_panel(input, plan, [&] {
        std::size_t i = 0;
        while (plan.sheets[i].series != 'P') ++i;
        return i;
      }());
      std::string words;
      for (const paper::RevisionItems& r : sheet.revision_items)
        for (std::size_t i = r.first; i < r.first + r.count; ++i)
          if (const auto* t = std::get_if<paper::Text>(&sheet.items[i])) words += " " + t->text;
      CHECK_MESSAGE(words.find(status) != std::string::npos, style << ": " << words);
      CHECK(paper::faults(sheet, set.style.least_height, set.style.frame()).empty());
    }
  }
}

TEST_CASE("history: marks keep their sheets, new ones go behind, void numbers stand in the index") {
  TrialSet set("saltmarsh", "a1");
  const SetPlan first = plan_set(set.input());
  const history::Register issued = issued_as(set, first);
  const std::size_t marks = set.deck.marks.size();
  REQUIRE(marks >= 3);
  const std::string gone = set.deck.marks[1].name, old_sheet = first.panel_sheet(1);
  const int on_it = static_cast<int>(std::count_if(
      set.deck.marks.begin(), set.deck.marks.end(), [&](const Mark& m) {
        return first.panel_sheet(static_cast<int>(&m - set.deck.marks.data())) == old_sheet;
      }));
  set.deck.marks[1].name = "DP99";  // a mark that nothing was issued of
  add_revision(set.project, "B", "One mark is another");
  SetHistory history{issued, issued.entries.back().issue->layout};
  SetInput input = set.input();
  input.history = &history;
  const SetPlan second = plan_set(input);
  int highest = 0;
  for (const SheetPlan& s : first.sheets)
    if (s.series == 'P') highest = std::max(highest, std::stoi(s.number.substr(1)));
  for (std::size_t m = 0; m < marks; ++m)
    if (m != 1) CHECK(second.panel_sheet(static_cast<int>(m)) == first.panel_sheet(static_cast<int>(m)));
  CHECK(second.panel_sheet(1) == "P" + padded(highest + 1, 2));
  const auto lines = index_lines(input, second);
  const auto line = std::find_if(lines.begin(), lines.end(),
                                 [&](const IndexLine& l) { return l.number == old_sheet; });
  REQUIRE(line != lines.end());
  CHECK(line->withdrawn == (on_it == 1));
  // The number stays with the mark that had it, and with no other.
  const history::LayoutHints hints = hints_of(second, input, {});
  const auto kept = std::find_if(hints.panels.begin(), hints.panels.end(), [&](const auto& p) {
    return std::find(p.marks.begin(), p.marks.end(), gone) != p.marks.end();
  });
  REQUIRE(kept != hints.panels.end());
  CHECK(kept->number == old_sheet);
}

TEST_CASE("history: strips are cut where they were, and a deck that grows gets a strip more") {
  TrialSet set("saltmarsh", "a3");
  const SetPlan first = plan_set(set.input());
  REQUIRE(first.strips.size() > 1);
  history::Register issued = issued_as(set, first);
  history::LayoutHints& layout = issued.entries.back().issue->layout;
  // As if the first strip had ended one bay earlier.
  const int cut = first.strips[1].first;
  int before = cut - 1;
  while (before > 0 && set.deck.panels[static_cast<std::size_t>(before)].bay ==
                           set.deck.panels[static_cast<std::size_t>(before - 1)].bay)
    --before;
  layout.strips[1].first_position = set.deck.panels[static_cast<std::size_t>(before)].position;
  SetHistory history{issued, layout};
  SetInput input = set.input();
  input.history = &history;
  const SetPlan second = plan_set(input);
  CHECK(second.erection_ratio == first.erection_ratio);
  CHECK(second.strips[1].first == before);
  // A cut that is no longer a joint between bays is no cut: free choice, as without a history.
  layout.strips[1].first_position = 4711;
  layout.strips[0].last_position = 4711;
  const SetPlan third = plan_set(input);
  REQUIRE(third.strips.size() == first.strips.size());
  for (std::size_t i = 0; i < third.strips.size(); ++i)
    CHECK(third.strips[i].first == first.strips[i].first);
}
