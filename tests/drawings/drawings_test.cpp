// Small drawings, one behaviour each, as they were approved. What is right about each is the
// sentence at the head of its file; the rules behind are those of ISO 129-1 (chains, running
// dimensions), ISO 128-3 (cutting planes, breaks), ISO 7200 (title blocks), from memory; the rest
// is common practice, no source.
#include <doctest/doctest.h>

#include <filesystem>
#include <functional>
#include <set>

#include "drawings/approval.h"
#include "paper/callout.h"
#include "paper/dimension.h"
#include "paper/table.h"
#include "project/support.h"
#include "sheets/clouds.h"
#include "sheets/panel_drawing.h"
#include "sheets/trial_set.h"

using namespace deckquire;
using namespace deckquire::paper;
using sheets::TrialSet;

namespace {

using Draw = std::function<void(Board&)>;

Sheet drawn(const Draw& draw, double width = 200, double height = 100) {
  const Style style = default_style();
  const Lettering lettering(style.fonts);
  Sheet sheet{.number = "P01",
              .title = "Trial",
              .revision = "A",
              .width = width,
              .height = height,
              .pens = {},
              .items = {}};
  Board board(sheet, style, lettering);
  draw(board);
  return sheet;
}

/// Points at these distances along a line that starts at x = 20, at 1:`ratio`, over an edge at y
/// = 20.
std::vector<ChainPoint> points(const std::vector<double>& mm_at, double ratio) {
  std::vector<ChainPoint> out;
  for (double at : mm_at) out.push_back({20 + at / ratio, mm(at), 20});
  return out;
}

void chain_of_equal_runs(Board& b) {
  b.line(PenUse::outline, {20, 20}, {185, 20});
  ChainLine line;
  line.across = 32;
  chain(b, line, points({0, 300, 1800, 3300, 4800, 6300, 6600}, 40));
}

void narrow_chain(Board& b) {
  b.line(PenUse::outline, {20, 20}, {120, 20});
  ChainLine line;
  line.across = 32;
  chain(b, line, points({0, 12, 500, 516, 531, 1000}, 10));
}

void running_dimensions(Board& b) {
  b.line(PenUse::outline, {20, 20}, {170, 20});
  ChainLine line;
  line.across = 30;
  running(b, line, points({0, 619, 1869, 2488, 3000}, 20));
}

void leader_field(Board& b) {
  b.box(PenUse::outline, {{60, 20}, {140, 80}});
  CalloutColumns columns{45, 155, 15, 85};
  callouts(b, columns,
           {{{70, 30}, "1", ""},
            {{72, 34}, "2", ""},
            {{74, 38}, "3", ""},
            {{130, 60}, "4", ""},
            {{128, 64}, "5", ""},
            {{100, 50}, "6", ""}});
}

void hatches(Board& b) {
  double x = 10;
  for (const Hatch& h : b.style().hatches) {
    const PaperBox box{{x, 30}, {x + 16, 60}};
    hatch(b, {box_ring(box)}, h.material);
    b.box(PenUse::cut, box);
    x += 20;
  }
}

void broken_off(Board& b) {
  b.line(PenUse::outline, {20, 30}, {120, 30});
  b.line(PenUse::outline, {20, 60}, {120, 60});
  break_line(b, {120, 25}, {120, 65});
}

void cutting_plane(Board& b) {
  b.box(PenUse::outline, {{60, 30}, {140, 70}});
  section_mark(b, {100, 25}, {100, 75}, {1, 0}, "A", "P01");
}

void detail_reference(Board& b) {
  b.box(PenUse::outline, {{60, 30}, {140, 70}});
  detail_mark(b, {{130, 60}, {145, 75}}, {165, 85}, "B", "D02");
}

void north(Board& b) {
  north_arrow(b, {60, 50}, 8, pi / 3);
}

void scale_bars(Board& b) {
  scale_bar(b, {20, 70}, 50, 100, UnitSystem::metric, "Check the bar before use.");
  scale_bar(b, {20, 40}, 48, 100, UnitSystem::imperial);
}

void split_table(Board& b) {
  TableData t{"PANELS",
              {{"Mark", "", Align::left, 0},
               {"Length", "mm", Align::right, 0},
               {"Mass", "kg", Align::right, 0}},
              {{"DP01", "2488", "453.0"},
               {"DP02", "2488", "464.5"},
               {"DP03", "1244", "232.25"},
               {"DP04", "2488", "454.0"}},
              {"All", "", "1603.75"},
              {}};
  draw_table(b, t, {20, 95}, 0, 6, LetterUse::table, 0, 2);
  draw_table(b, t, {110, 95}, 0, 6, LetterUse::table, 2, 2);
}

/// A table and a panel with dimensions, clouds round one row and round a corner of the panel.
Sheet clouded() {
  Sheet sheet = drawn([](Board& b) {
    split_table(b);
    b.box(PenUse::outline, {{30, 15}, {110, 45}});
    ChainLine line;
    line.across = 8;
    chain(b, line, {{30, mm(0), 15}, {70, mm(400), 15}, {110, mm(800), 15}});
  });
  const Style style = default_style();
  const std::vector<history::Spot> spots{{21, 77.5, 45, 80}, {100, 30, 110, 45}, {35, 5, 50, 15}};
  const int homeless = sheets::draw_clouds(sheet, "B", spots, style, Lettering(style.fonts));
  CHECK(homeless == 0);
  return sheet;
}

/// The first panel of a set with this about its shape, as the erection plans draw it.
Sheet panel_of(const TrialSet& set, const std::function<bool(const PanelShape&)>& wanted) {
  for (const Mark& mark : set.deck.marks) {
    if (!wanted(mark.shape)) continue;
    return drawn(
        [&](Board& b) {
          const View<PanelFrame> view{{40, 110}, {0, 0}, 25};
          sheets::draw_outline(b, view, mark.shape, true);
          for (const Feature& f : mark.shape.features)
            sheets::draw_feature(b, view, f, set.project.deck, true, sheets::Detailing::symbol, "");
        },
        200, 220);
  }
  FAIL("no such panel");
  return {};
}

struct Case {
  const char* name;
  const char* sentence;
  Sheet sheet;
};

std::vector<Case> alone() {
  return {
      {"chain-equal-runs",
       "Four equal bays are one figure, \"4 @ 1500 = 6000\"; first and last bay have their own.",
       drawn(chain_of_equal_runs)},
      {"chain-narrow",
       "Figures too wide for their spaces stand outside the line, and none lies on another.",
       drawn(narrow_chain)},
      {"running-dimensions",
       "Every figure counts from the first point, which says 0; each stands at its own line.",
       drawn(running_dimensions)},
      {"leader-field", "Pills stand in columns beside the panel and no two leaders cross.",
       drawn(leader_field)},
      {"hatches", "Each material of a cut face has a hatch that differs from the others.",
       drawn(hatches, 200, 80)},
      {"break-line", "A break line runs past both edges and has one zigzag in its middle.",
       drawn(broken_off)},
      {"cutting-plane",
       "A cutting plane shows at its two ends only, its arrows point in the direction of sight, "
       "and "
       "each end has the letter over the sheet.",
       drawn(cutting_plane)},
      {"detail-mark", "A ring round the spot, and a bar with the letter over the sheet beside it.",
       drawn(detail_reference)},
      {"north-arrow", "The needle points to north, here 60 degrees above the right, with an N.",
       drawn(north, 120, 100)},
      {"scale-bar",
       "A round length in alternating blocks with its scale, metric above, feet and inches below.",
       drawn(scale_bars)},
      {"table-split",
       "A table in two parts repeats its head; the total stands under the last part only.",
       drawn(split_table)},
      {"clouds-and-deltas",
       "A ring of arcs round what changed crosses no letters; a triangle with letter and number at "
       "it, "
       "numbers from the top.",
       clouded()},
  };
}

std::vector<Case> of_sets() {
  const TrialSet saltmarsh("saltmarsh"), heron("heron");
  const auto sheets = sheets::draw_set(saltmarsh.input(), 2);
  const auto sheet = [&](const std::string& number) -> const Sheet& {
    for (const Sheet& s : sheets)
      if (s.number == number) return s;
    FAIL("no sheet " << number);
    return sheets.front();
  };
  std::string match;
  for (const Item& item : sheet("E01").items)
    if (const auto* g = std::get_if<GroupStart>(&item))
      if (g->kind == "match-line" && match.empty()) match = g->id;
  return {
      {"match-line",
       "A heavy chain line at the joint where two strips meet, with the joint, its station and the "
       "strip or sheet that goes on.",
       testing::part_of(sheet("E01"), match)},
      {"title-block",
       "The title block names project, bridge, owner, sheet title, date, job, sheet and revision.",
       testing::part_of(sheet("G01"), "title-block")},
      {"panel-tapered", "One long edge slants and its curb with it; both ends are square.",
       panel_of(saltmarsh,
                [](const PanelShape& s) { return s.square() && s.left_back != s.left_ahead; })},
      {"panel-wedge", "The end faces are not parallel; both long edges run from corner to corner.",
       panel_of(heron, [](const PanelShape& s) { return s.back_slope != s.ahead_slope; })},
  };
}

}  // namespace

TEST_CASE("drawings: each is as it was approved") {
  for (const auto& cases : {alone(), of_sets()})
    for (const Case& c : cases) {
      CHECK_FALSE(c.sheet.items.empty());
      const std::string said =
          testing::difference(c.name, testing::drawing_text(c.sentence, c.sheet));
      CHECK_MESSAGE(said.empty(), said);
    }
}

TEST_CASE("drawings: no approved file without a drawing") {
  std::set<std::string> known;
  for (const auto& cases : {alone(), of_sets()})
    for (const Case& c : cases) CHECK(known.insert(c.name).second);
  const std::string folder = DECKQUIRE_SOURCE "/tests/drawings/approved";
  for (const auto& e : std::filesystem::directory_iterator(folder)) {
    const std::string name = e.path().stem().string();
    CHECK_MESSAGE(known.count(name) == 1, "no test draws " << name);
    CHECK(read_file(e.path().string()).starts_with("# "));
  }
}

TEST_CASE("drawings: a line that moved, one that is gone and a missing file are differences") {
  const Sheet sheet = drawn(broken_off);
  Sheet other = sheet;
  std::get<Stroke>(other.items[0]).path.points[0].x += 0.02;
  other.items.pop_back();
  const std::string old = testing::drawing_text("A.", sheet),
                    fresh = testing::drawing_text("A.", other);
  CHECK(old != fresh);
  const std::string picture = testing::picture(old, fresh);
  const auto times = [&](const std::string& word) {
    int n = 0;
    for (std::size_t at = 0; (at = picture.find(word, at)) != std::string::npos; ++at) ++n;
    return n;
  };
  CHECK(times("stroke='black'") == 5);    // three expected, two actual
  CHECK(times("stroke='#c00000'") == 2);  // moved, gone
  CHECK(times("stroke='#0040c0'") == 1);
  CHECK(times("stroke='#b0b0b0'") == 1);
  if (!testing::updating())
    CHECK(testing::difference("none-such", fresh).find("none-such.svg") != std::string::npos);
}
