// What each kind of sheet must tell its reader: a contents checklist of drawing practice, item by
// item (agency manuals for shop drawings as the sources of most, common practice of the rest). What
// is not there yet is listed in README.md.
#include <doctest/doctest.h>

#include <algorithm>
#include <map>
#include <regex>

#include "sheets/trial_set.h"

using namespace deckquire;
using namespace deckquire::sheets;

namespace {

/// One item: its sheets, and patterns that each of them (or `once`: one of them) has among its
/// words.
struct Item {
  const char* item;
  const char* series;
  std::vector<std::string> patterns;
  bool once = false;
};

const std::vector<Item> items{
    // every sheet
    {"project, structure and place",
     "GEPDT",
     {"Saltmarsh Walk Bridge", "SW-7", "Wendmere, path 12"}},
    {"fabricator with contact", "GEPDT", {"Made by", "Tarn Composites, Mill Lane 8"}},
    {"sheet number and count", "GEPDT", {"[0-9]+ / [0-9]+"}},
    {"drawn, checked, date", "GEPDT", {"Drawn", "I. Vane", "Checked", "R. Ostler", "2026-10-02"}},
    {"revision, its row in the table", "GEPDT", {"Rev", "First issue for approval"}},
    {"status of the issue", "GEPDT", {"Status", "for approval"}},
    {"stamp space", "GEPDT", {"Reviewer's stamp"}},
    {"units", "GEPDT", {"mm, levels in m"}},
    {"scale or none", "GEPDT", {"Scale"}},
    {"key plan", "ET", {"KEY PLAN"}},
    // cover
    {"index", "G", {"INDEX OF SHEETS"}, true},
    {"parties",
     "G",
     {"owner", "designer", "contractor", "fabricator", "railing", "drainage"},
     true},
    {"design data with source", "G", {"Load: pedestrian", "5.0 kN/m2", "EN 1991-2:2003"}, true},
    {"materials", "G", {"MATERIALS", "E-glass / vinyl ester", "structural foam"}, true},
    {"wearing surface", "G", {"WEARING SURFACE", "EN 13036-4"}, true},
    {"tolerances", "G", {"TOLERANCES", "hole position", "squareness", "flatness"}, true},
    {"cautions on lifting", "G", {"Lift only to a written plan by a qualified person"}, true},
    {"joints and temperature", "G", {"Setting temperature", "15 °C"}, true},
    {"legend of lines, faces, symbols", "G", {"LINES", "CUT FACES", "SYMBOLS"}, true},
    {"abbreviations", "G", {"ABBREVIATIONS"}, true},
    {"key plan with spans, supports, stations",
     "G",
     {"KEY PLAN, SHEETS AND STATIONS", "span 1", "abutment A1", "pier P1", "0\\+095.092"},
     true},
    {"marks and serials explained", "G", {"MARKS AND SERIALS", "never given again"}, true},
    {"totals", "G", {"TOTALS", "Mass of all panels", "Plan area of all panels"}, true},
    {"survey data",
     "G",
     {"easting 4120.500", "northing 8856.250", "62.5 degrees from north"},
     true},
    {"supplied by others, named",
     "G",
     {"by others", "Ironbark Railings", "Fenwater Pipework"},
     true},
    {"checked and not checked", "G", {"CHECKED BY THE PROGRAM", "NOT CHECKED"}, true},
    // erection plans
    {"direction of stations", "E", {"ahead, stations increase"}},
    {"girder names", "E", {"G1", "G2"}},
    {"set from the work point", "E", {"Work point: the line of A1", "set 32 from A1"}, true},
    {"lengths of panels, gaps, strip", "E", {"Panels", "2488", "Strip"}},
    {"widths and falls", "E", {"Deck width", "Left edge", "Right edge", "1.5 %"}},
    {"levels of deck and girders", "E", {"Deck top, m", "Girder top, m"}},
    {"details named with their sheets",
     "E",
     {"curb [A-Z] on D0", "joint [A-Z] on D0", "scupper [A-Z] on D0"}},
    {"posts, scuppers, hatch, mast", "E", {"1L", "S1", "H1", "mast M1"}, true},
    {"order and first panel", "E", {"ORDER", "position [0-9]+ \\(serial 0417-[0-9]+\\) first"}},
    {"match lines both ways", "E", {"MATCH LINE J[0-9]+ .*SEE"}},
    {"heaviest pick and inserts", "E", {"Heaviest pick here", "inserts"}},
    {"field work and shop work", "E", {"Site work:", "Nobody drills or cuts a panel on site"}},
    {"hardware", "E", {"HARDWARE ON THIS SHEET", "Hold-down clips", "Sealant"}},
    {"tolerance of gaps, temperature", "E", {"Gaps of 12 hold at 15 °C within 3"}},
    {"count of panels", "E", {"last: [0-9]+ panels"}},
    {"until fixed",
     "E",
     {"Nobody walks on a panel before all its hold-downs are tight",
      "Edges and open ends are guarded"}},
    {"typical section", "E", {"TYPICAL SECTION LOOKING AHEAD"}, true},
    // panel sheets
    {"number required, turned", "P", {"Number required", "as drawn", "turned end for end"}},
    {"opposite hand says what of", "P", {"[Oo]pposite hand of"}, true},
    {"top face and soffit", "P", {"TOP FACE", "SOFFIT"}},
    {"two views and a section",
     "P",
     {"PLAN FROM ABOVE", "ELEVATION FROM THE RIGHT|FROM THE RIGHT", "BACK END", "SECTION A-A"}},
    {"size, diagonals", "P", {"length 2[0-9.]+, width", "Diagonals"}},
    {"datum corner", "P", {"0,0"}},
    {"holes by table and kind",
     "P",
     {"HOLES, FROM DATUM CORNER 0,0", "KINDS OF HOLES", "holes and inserts in all"}},
    {"lay-up said to be elsewhere",
     "P",
     {"Laminate lay-up and direction of fibres are not stated"}},
    {"sealing of cut edges", "P", {"seals every cut edge and hole"}},
    {"wearing surface and where it stops", "P", {"Wearing surface", "set back from ends"}},
    {"lifting points, caution", "P", {"CAUTION, LIFTING"}},
    {"mass and centre of gravity", "P", {"Mass of one", "Centre of gravity"}},
    {"materials for one and all", "P", {"MATERIALS FOR ONE AND FOR ALL"}},
    {"falls", "P", {"1.5 %"}},
    {"tolerances", "P", {"Tolerances: length"}},
    {"direction mark", "P", {"AHEAD", "paints AHEAD with its arrow"}},
    {"place of the tag", "P", {"fixes the tag"}},
    {"what is inspected", "P", {"The inspector records"}},
    {"end names", "P", {"BACK", "LEFT", "RIGHT"}},
    {"where used", "P", {"WHERE USED"}},
    {"field trimming", "P", {"no edge is for field trimming"}},
    // details
    {"called from", "D", {"Called from E01"}},
    {"parts named with materials", "D", {"laminate: E-glass", "steel: S355"}},
    {"fasteners, torque by the engineer", "D", {"Grade and torque of bolts are the engineer's"}},
    {"by others marked", "D", {"by others"}},
    {"joint gap and temperature", "D", {"gap 12 at the setting temperature, 15 °C"}, true},
    {"pads", "D", {"bearing pad 10 thick, 120 wide, EPDM"}, true},
    {"metals apart", "D", {"unlike metals are isolated"}},
    // tables
    {"a row a mark, sorted, with shop sheet",
     "T",
     {"PANEL MARKS", "DP01 5 .*P01", "Positions"},
     true},
    {"serial range of the marks", "T", {"Serials run by position, from 0417-001"}, true},
    {"totals of the marks", "T", {"Total 38 296.14 18311"}, true},
    {"setting out: points, signs, system",
     "T",
     {"SETTING OUT", "Offsets are positive to the left", "Easting", "Northing", "Level"},
     true},
    {"left and right, back and ahead",
     "T",
     {"Left and right, back and ahead are seen looking ahead"}}};

}  // namespace

TEST_CASE("contents: every item of the checklist is on the sheets it belongs on") {
  const TrialSet set("saltmarsh");
  const auto sheets = draw_set(set.input(), 1);
  std::map<std::string, std::string> words;
  for (const paper::Sheet& s : sheets)
    for (const paper::Item& i : s.items)
      if (const auto* t = std::get_if<paper::Text>(&i)) words[s.number] += t->text + " ";
  for (const Item& item : items)
    for (const std::string& pattern : item.patterns) {
      const std::regex sought(pattern);
      std::size_t on = 0, of = 0;
      std::string missing;
      for (const auto& [number, text] : words) {
        if (std::string(item.series).find(number.front()) == std::string::npos) continue;
        ++of;
        if (std::regex_search(text, sought))
          ++on;
        else
          missing += " " + number;
      }
      CHECK(of > 0);
      CHECK_MESSAGE((item.once ? on > 0 : on == of),
                    item.item << ": '" << pattern << "' is missing on" << missing);
    }
}
