// Sets among their issues: what changes with an edit, and what stays to the byte.
#include <doctest/doctest.h>

#include <algorithm>
#include <set>

#include "commands/story.h"
#include "paper/layer.h"
#include "paper/sheet_difference.h"

using namespace deckquire;
using namespace deckquire::commands;

namespace {

std::set<std::string> numbers_of(const IssuedSet& set, SheetChange change) {
  std::set<std::string> out;
  for (const SheetState& s : set.states)
    if (s.change == change && s.sheet.number[0] != 'G' && s.sheet.number[0] != 'R')
      out.insert(s.sheet.number);
  return out;
}

bool same_drawing(const paper::Sheet& a, const paper::Sheet& b) {
  return paper::compared_text(paper::without_revision(a)) ==
         paper::compared_text(paper::without_revision(b));
}

const char* const scupper_2 = "<scupper name=\"S2\" at=\"0+018.778\"";

}  // namespace

TEST_CASE("issued set: the first issue is what is drawn without a register") {
  Story story("quickstart");
  const Loaded loaded = story.loaded();
  const IssuedSet set = story.drawn(loaded);
  const sheets::TrialSet trial("quickstart");
  const auto plain = sheets::draw_set(trial.input(), 1);
  REQUIRE(set.sheets.size() == plain.size());
  for (std::size_t i = 0; i < plain.size(); ++i)
    CHECK_MESSAGE((paper::dump(set.sheets[i]) == paper::dump(plain[i])), plain[i].number);
  CHECK(std::none_of(set.tables.begin(), set.tables.end(),
                     [](const Table& t) { return t.name == "transmittal"; }));
}

TEST_CASE("issued set: drawing what was issued again gives the same bytes") {
  Story story("quickstart");
  const IssuedSet issued = story.issue();
  const IssuedSet again = story.drawn();
  REQUIRE(again.sheets.size() == issued.sheets.size());
  for (std::size_t i = 0; i < issued.sheets.size(); ++i)
    CHECK_MESSAGE((paper::dump(again.sheets[i]) == paper::dump(issued.sheets[i])),
                  issued.sheets[i].number);
}

TEST_CASE("issued set: a revision without a change leaves every sheet but cover and transmittal") {
  Story story("quickstart");
  const IssuedSet a = story.issue();
  story.add_revision("B", "No change");
  const IssuedSet b = story.drawn();
  CHECK(story.findings.empty());
  for (const paper::Sheet& s : a.sheets) {
    if (s.number[0] == 'G') continue;
    CHECK(state_of(b, s.number).change == SheetChange::same);
    CHECK(sheet_of(b, s.number).revision == "A");
    // But for how many sheets there are.
    CHECK_MESSAGE(same_drawing(sheet_of(b, s.number), s), s.number);
  }
  CHECK(sheet_of(b, "G01").revision == "B");
  CHECK(sheet_of(b, "R01").revision == "B");
}

TEST_CASE("issued set: one scupper moved changes its mark's sheet, its plans and its tables") {
  Story story("quickstart");
  const IssuedSet a = story.issue();
  story.add_revision("B", "Scupper S2 moved");
  story.edit(scupper_2, "<scupper name=\"S2\" at=\"0+018.728\"");
  const IssuedSet b = story.issue();
  CHECK(story.findings.empty());
  const auto changed = numbers_of(b, SheetChange::changed);
  const auto added = numbers_of(b, SheetChange::added);
  const auto gone = numbers_of(b, SheetChange::withdrawn);
  CHECK(changed.count("E01") == 1);
  CHECK(added.size() == 1);
  CHECK(gone.size() <= 1);
  for (const std::string& number : changed) {
    CHECK_FALSE(state_of(b, number).sheet.spots.empty());
    CHECK(sheet_of(b, number).revision == "B");
    CHECK(state_of(b, number).replaces == "A");
    CHECK(state_of(b, number).sheet.revisions == std::vector<std::string>{"A", "B"});
  }
  // The number of a sheet that is gone stays void.
  story.add_revision("C", "Scupper S2 back, and a note");
  story.edit("<scupper name=\"S2\" at=\"0+018.728\"", scupper_2);
  const IssuedSet c = story.drawn();
  for (const std::string& number : gone)
    CHECK(state_of(c, number).change == SheetChange::added);  // the mark is back, and so is its sheet
  for (const std::string& number : added) {
    CHECK(state_of(c, number).change == SheetChange::withdrawn);
    CHECK(state_of(c, number).status == "void");
  }
  const auto table = std::find_if(c.tables.begin(), c.tables.end(),
                                  [](const Table& t) { return t.name == "revised-marks"; });
  REQUIRE(table != c.tables.end());
  CHECK(table->rows.size() >= 2);
}

TEST_CASE("issued set: words of details stay where they stood, as far as they can") {
  const auto edited = [](Story& s) {
    s.add_revision("B", "A thicker surface");
    s.edit("<surface class=\"light\"/>", "<surface class=\"light\" thickness=\"5\"/>");
  };
  Story story("quickstart"), anew("quickstart");
  const IssuedSet a = story.issue();
  edited(story);
  edited(anew);
  const IssuedSet b = story.drawn(), fresh = anew.drawn();
  int same_words = 0, kept = 0, by_chance = 0;
  for (const paper::Sheet& sheet : a.sheets)
    for (const auto& [words, at] : sheet.callouts) {
      const auto stands = [&](const IssuedSet& set) {
        const auto& all = sheet_of(set, sheet.number).callouts;
        const auto now = all.find(words);
        return now != all.end() && std::abs(now->second.x - at.x) < 0.05
                   ? std::abs(now->second.y - at.y) < 0.005
                   : -1;
      };
      if (stands(b) < 0) continue;
      ++same_words;
      kept += stands(b) > 0;
      by_chance += stands(fresh) > 0;
    }
  MESSAGE(same_words << " callouts in their columns, " << kept << " kept, " << by_chance << " without");
  CHECK(same_words >= 10);
  CHECK(kept > by_chance);
  CHECK(10 * kept >= 9 * same_words);
}

TEST_CASE("issued set: another style is drawn with the same letters") {
  Story story("quickstart");
  story.issue();
  story.add_revision("B", "Scupper S2 moved");
  story.edit(scupper_2, "<scupper name=\"S2\" at=\"0+018.728\"");
  story.issue();
  story.add_revision("C", "Nothing");
  const Loaded loaded = story.loaded();
  const paper::Style a3 = sheets::trial_style("a3");
  const paper::Lettering lettering(a3.fonts);
  Findings findings;
  const IssuedSet c = draw_issued_set(loaded, {a3, "a3", lettering, 1, false}, {}, findings);
  CHECK(findings.empty());
  CHECK(std::any_of(c.sheets.begin(), c.sheets.end(), [](const paper::Sheet& s) {
    return s.number[0] == 'E' && s.revision == "B";
  }));
  CHECK(sheet_of(c, "D01").revision == "A");
  CHECK(numbers_of(c, SheetChange::changed).empty());
  CHECK(numbers_of(c, SheetChange::added).empty());
}

TEST_CASE("issued set: redlines on sheets that there are not") {
  Story story("quickstart");
  story.edit("</project>",
             "<redline on=\"panel 2\" sheet=\"P77\" by=\"V. Marsh\" date=\"2026-09-20\">Why?"
             "</redline></project>");
  story.drawn();
  REQUIRE(story.findings.has_errors());
  CHECK(story.findings.sorted().front().code == "unknown-sheet");
}
