// Single edits of a small project: each changes just the panels, marks and sheets that it must, and
// every other sheet stays to the byte. What is expected was reasoned from the project, edit by
// edit; the reason stands beside it.
#include <doctest/doctest.h>

#include <regex>

#include "commands/story.h"
#include "commands/tracing.h"
#include "paper/layer.h"
#include "support/thorough.h"
#include "writers/writers.h"

using namespace deckquire;
using namespace deckquire::commands;

namespace {

struct Edit {
  const char* name;
  std::vector<std::pair<std::string, std::string>> places;  // from, to
  std::string panels, marks, sheets;                        // as compare prints them
};

// Positions 1 to 4 lie in span 1, 5 to 8 in span 2. DP01: 1, 4 turned, 5; DP02: 2, with the hatch;
// DP03: 3, with recesses; DP04: 6, with the sleeve; DP05: 7, plain; DP06: 8, with the scupper.
std::vector<Edit> edits() {
  return {
      // Printed where the panel is seen.
      {"rename a hatch",
       {{R"(<hatch name="H1")", R"(<hatch name="H7")"}},
       "2 (text)",
       "",
       "E01, P02"},
      // Another part; all tables of marks and positions.
      {"move a hatch",
       {{R"(at="0+003.760")", R"(at="0+003.800")"}},
       "2 (geometry)",
       "DP02 goes; DP07 comes: 1",
       "E01, E02, P02 void, P07 new, T01, T02"},
      // As before, and the detail of the hatch.
      {"enlarge a hatch",
       {{R"(length="600" width="600")", R"(length="650" width="600")"}},
       "2 (geometry)",
       "DP02 goes; DP07 comes: 1",
       "D02, E01, E02, P02 void, P07 new, T01, T02"},
      // Only its detail says so.
      {"say what a hatch is for", {{R"(use="valve")", R"(use="water valve")"}}, "", "", "D02"},
      // What is left is a plain panel, DP05; the detail of the sleeve, called from P04, has the
      // letter
      // that the hatch's had.
      {"remove a hatch",
       {{R"(<hatch name="H1" at="0+003.760" length="600" width="600" use="valve"/>)", ""}},
       "2 (geometry)",
       "DP02 goes; DP05: 2, was 1",
       "D02, E01, E02, P02 void, P04, P05, T01, T02"},
      // At the far end: a taper from end to end, so every panel is another.
      {"widen an edge",
       {{R"(<edge at="0+020.040" left="1200")", R"(<edge at="0+020.040" left="1250")"}},
       "1 to 8 (geometry)",
       "DP01 goes; DP02 goes; DP03 goes; DP04 goes; DP05 goes; DP06 goes; DP07 comes: 1; DP08 "
       "comes: 1; DP09 comes: 1; DP10 comes: 1; DP11 comes: 1; DP12 comes: 1; DP13 comes: 1; DP14 "
       "comes: 1",
       "D01, D02, E01, E02, P01 void, P02 void, P03 void, P04 void, P05 void, P06 void, P07 new, P08 "
       "new, P09 new, P10 new, P11 new, P12 new, P13 new, P14 new, T01, T02"},
      // The recess lies in panel 3.
      {"shift a splice",
       {{R"(at="0+006.300")", R"(at="0+006.350")"}},
       "3 (geometry)",
       "DP03 goes; DP07 comes: 1",
       "E01, E02, P03 void, P07 new, T01, T02"},
      // It stands on panel 4, one of three of DP01, whose sheet says how many.
      {"add a post",
       {{R"(<posts greatest="1300"/>)",
         R"(<posts greatest="1300"><post at="0+009.000" side="left"/></posts>)"}},
       "4 (geometry)",
       "DP01: 2, was 3; DP07 comes: 1",
       "E01, E02, P01, P07 new, T01, T02"},
      {"move a scupper",
       {{R"(at="0+018.778")", R"(at="0+018.700")"}},
       "8 (geometry)",
       "DP06 goes; DP07 comes: 1",
       "E01, E02, P06 void, P07 new, T01, T02"},
      // In panel 7, the plain one that P06 was described against.
      {"add a sleeve",
       {{R"(<hold-downs)",
         R"(<sleeve name="C2" at="0+016.270" offset="-300" diameter="80"/><hold-downs)"}},
       "7 (geometry)",
       "DP05 goes; DP07 comes: 1",
       "E01, E02, P05 void, P06, P07 new, T01, T02"},
      {"reorder elements",
       {{R"(<hold-downs each="2" from-joint="400"/>)", ""},
        {R"(<joints gap="12" end-gap="40"/>)",
         R"(<hold-downs from-joint="400" each="2"/><joints end-gap="40" gap="12"/>)"}},
       "",
       "",
       ""},
      {"change units",
       {{R"(offset="740")", R"(offset="0.74 m")"}, {R"(gap="12")", R"(gap="0.012 m")"}},
       "",
       "",
       ""},
      {"write a default out",
       {{R"(<hold-downs)", R"(<pads width="120" thickness="10"/><hold-downs)"}},
       "",
       "",
       ""},
      // On the cover, which always goes on.
      {"edit a note", {{"before panels leave", "before the panels leave"}}, "", "", ""},
      // On the cover too.
      {"edit the source of a material", {{"shop test sheet 7", "shop test sheet 8"}}, "", "", ""},
      // The same parts on another slope.
      {"raise the far end",
       {{R"(level="48.401 m")", R"(level="48.411 m")"}},
       "1 to 8 (placement)",
       "",
       "E01, T01, T02"},
      // The shop lays it, so the parts are others.
      {"another colour of the surface",
       {{"slate grey", "graphite"}},
       "1 to 8 (geometry)",
       "DP01 goes; DP02 goes; DP03 goes; DP04 goes; DP05 goes; DP06 goes; DP07 comes: 3; DP08 "
       "comes: 1; DP09 comes: 1; DP10 comes: 1; DP11 comes: 1; DP12 comes: 1",
       "E01, E02, P01 void, P02 void, P03 void, P04 void, P05 void, P06 void, P07 new, P08 new, P09 "
       "new, P10 new, P11 new, P12 new, T01, T02"},
      // The details show it as well.
      {"a thicker surface",
       {{R"(class="light")", R"(class="light" thickness="5")"}},
       "1 to 8 (geometry)",
       "DP01 goes; DP02 goes; DP03 goes; DP04 goes; DP05 goes; DP06 goes; DP07 comes: 3; DP08 "
       "comes: 1; DP09 comes: 1; DP10 comes: 1; DP11 comes: 1; DP12 comes: 1",
       "D01, D02, E01, E02, P01 void, P02 void, P03 void, P04 void, P05 void, P06 void, P07 new, P08 "
       "new, P09 new, P10 new, P11 new, P12 new, T01, T02"},
      // All panels get shorter; the detail of the joint.
      {"a wider joint in one step",
       {{R"(gap="12")", R"(gap="14")"},
        {R"(length="2481" times="4")", R"(length="2479.5" times="4")"}},
       "1 to 8 (geometry)",
       "DP01 goes; DP02 goes; DP03 goes; DP04 goes; DP05 goes; DP06 goes; DP07 comes: 3; DP08 "
       "comes: 1; DP09 comes: 1; DP10 comes: 1; DP11 comes: 1; DP12 comes: 1",
       "D01, E01, E02, P01 void, P02 void, P03 void, P04 void, P05 void, P06 void, P07 new, P08 new, "
       "P09 new, P10 new, P11 new, P12 new, T01, T02"},
      // Span 1 stays.
      {"five panels in a span",
       {{R"(count="4")", R"(count="5")"}},
       "9 (added); 5 to 8 (geometry)",
       "DP01: 2, was 3; DP04 goes; DP05 goes; DP06 goes; DP07 comes: 1; DP08 comes: 1; DP09 comes: "
       "2; DP10 comes: 1",
       "E01, E02, P01, P04 void, P05 void, P06 void, P07 new, P08 new, P09 new, P10 new, T01, T02, T03 new"},
      // On every shop sheet and on the details.
      {"a tolerance",
       {{R"(of="length" value="3")", R"(of="length" value="2")"}},
       "",
       "",
       "D01, D02, P01, P02, P03, P04, P05, P06"},
      // In every title block.
      {"the owner's name",
       {{"Parish of Sedgeholm", "Parish of Reedham"}},
       "",
       "",
       "D01, D02, E01, E02, P01, P02, P03, P04, P05, P06, T01, T02"},
      // Drawn on the layer of revisions: it changes nothing that is built.
      {"a remark of a reviewer",
       {{"</project>",
         R"(<redline on="hatch H1" by="V. Marsh" date="2026-09-20">Confirm.</redline></project>)"}},
       "",
       "",
       ""},
  };
}

std::string listed(const ChangedSheets& sheets, const std::vector<paper::Sheet>& before,
                   const std::vector<paper::Sheet>& now) {
  const auto has = [](const std::vector<paper::Sheet>& list, const std::string& number) {
    return std::any_of(list.begin(), list.end(), [&](const auto& s) { return s.number == number; });
  };
  std::vector<std::string> out;
  for (const auto& [number, boxes] : sheets)
    out.push_back(number + (!has(before, number) ? " new" : !has(now, number) ? " void" : ""));
  return join(out, ", ");
}

/// The file as it is written, less which of how many sheets it is.
std::string svg(const paper::Sheet& sheet, const IssuedSet& set, const Project& project) {
  static const paper::Style style = sheets::trial_style("a1");
  static const paper::Lettering lettering(style.fonts);
  writers::DocumentInfo info;
  info.title = project.title, info.job = project.number;
  info.date = project.revisions.back().date;
  info.inks.assign(style.inks.begin(), style.inks.end());
  info.hidden = style.hidden;
  for (const paper::Sheet& s : set.sheets) info.sheets.push_back(s.number);
  static const std::regex count(">[0-9]+ / [0-9]+<");
  return std::regex_replace(writers::write_svg(sheet, info, lettering), count, "><");
}

}  // namespace

TEST_CASE("twenty edits: each changes what it must, all else stays to the byte") {
  Story story("../tests/commands/edits");
  story.issue();
  story.add_revision("B", "No change");  // from now on there is a transmittal, so sheets keep "3 of 12"
  story.issue();
  Loaded before = story.loaded();
  before.text.clear();  // as below
  const IssuedSet a = story.drawn(before);
  const std::vector<Edit> list = edits();
  CHECK(list.size() >= 20);
  story.add_revision("C", "One edit");
  std::map<std::string, std::string> issued;  // files of the issue, by number
  for (const paper::Sheet& s : a.sheets) issued[s.number] = svg(s, a, before.project);
  std::size_t files = 0, turn = 0;
  const std::string next = story.text;
  for (const Edit& e : list) {
    if (!thorough && ++turn % 5 != 1) continue;
    const std::string edit = e.name;
    CAPTURE(edit);
    story.text = next;
    for (const auto& [from, to] : e.places) story.edit(from, to);
    Loaded now = story.loaded();
    const history::Impact impact = impact_between(before, now, before.issued);
    now.text.clear();  // without R sheets of changes, which other tests look at
    const IssuedSet b = story.drawn(now);
    const ChangedSheets changed = sheets_between(a.sheets, b.sheets);
    CHECK(panel_words(impact) == e.panels);
    CHECK(mark_words(impact) == e.marks);
    CHECK(listed(changed, a.sheets, b.sheets) == e.sheets);
    for (const paper::Sheet& s : b.sheets) {
      if (s.number[0] == 'G' || s.number[0] == 'R') continue;
      CHECK_MESSAGE(s.revision == (changed.count(s.number) ? "C" : "A"), s.number);
      if (changed.count(s.number)) continue;
      // The file to the byte, but for "3 of 12", which the index requires, and remarks of reviewers.
      if (now.project.redlines.size() == before.project.redlines.size()) {
        CHECK_MESSAGE((svg(s, b, now.project) == issued[s.number]), s.number);
        ++files;
      }
      paper::Sheet x = paper::without_revision(s),
                   y = paper::without_revision(sheet_of(a, s.number));
      CHECK_MESSAGE((paper::dump(x) == paper::dump(y)), s.number);
    }
  }
  CHECK(files >= (thorough ? 60U : 10U));
}
