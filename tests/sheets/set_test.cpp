#include <doctest/doctest.h>

#include <algorithm>
#include <set>

#include "sheets/cover.h"
#include "sheets/frame.h"
#include "sheets/table_sheet.h"
#include "sheets/title_block.h"
#include "sheets/trial_set.h"

using namespace deckquire;
using namespace deckquire::sheets;

namespace {

std::vector<std::string> texts(const paper::Sheet& sheet) {
  std::vector<std::string> out;
  for (const auto& item : sheet.items)
    if (const auto* t = std::get_if<paper::Text>(&item)) out.push_back(t->text);
  return out;
}

bool has(const std::vector<std::string>& list, const std::string& text) {
  return std::find(list.begin(), list.end(), text) != list.end();
}

}  // namespace

TEST_CASE("frame, fields of the A sizes: as many as ISO 5457 gives") {
  // ISO 5457:1999, number of fields (from memory, see the reference table): short side x long side.
  const auto fields = [](double frame) { return 2 * half_fields(frame / 2, 50).size(); };
  CHECK(fields(821) == 16);
  CHECK(fields(1159) == 24);
  CHECK(fields(574) == 12);
  CHECK(fields(811) == 16);
  CHECK(fields(400) == 8);
  CHECK(fields(564) == 12);
  CHECK(fields(277) == 6);
  CHECK(fields(390) == 8);
  CHECK(half_fields(574.0 / 2, 50).back() == doctest::Approx(37));
  CHECK(half_fields(811.0 / 2, 50).back() == doctest::Approx(55.5));
  CHECK(zone_letter(7) == "H");
  CHECK(zone_letter(8) == "J");  // no I
}

TEST_CASE(
    "plan of the set: numbers unique, every panel on exactly one strip, letters without I O Q") {
  for (const char* name : trial_names)
    for (const std::string& style : trial_styles) {
      const TrialSet s(name, style);
      const SetPlan plan = plan_set(s.input());
      std::set<std::string> numbers;
      for (const SheetPlan& sheet : plan.sheets) CHECK(numbers.insert(sheet.number).second);
      std::vector<int> owners(s.deck.panels.size(), 0);
      for (const Strip& strip : plan.strips)
        for (int i = strip.first; i < strip.first + strip.count; ++i)
          ++owners[static_cast<std::size_t>(i)];
      for (int o : owners) CHECK(o == 1);
      for (std::size_t i = 1; i < plan.strips.size(); ++i)
        CHECK(plan.strips[i].from == plan.strips[i - 1].to);
      std::set<std::string> letters;
      for (const DetailRef& d : plan.details) {
        CHECK(letters.insert(d.letter).second);
        CHECK(d.letter.find_first_of("IOQSXZ") == std::string::npos);
        CHECK(numbers.count(d.sheet) == 1);
      }
      for (std::size_t i = 0; i < s.deck.panels.size(); ++i)
        CHECK(numbers.count(plan.erection_sheet(static_cast<int>(i))) == 1);
    }
}

TEST_CASE("tables on sheets: every row of every table exactly once, in order") {
  for (const std::string& style : trial_styles) {
    const TrialSet s("saltmarsh", style);
    std::vector<std::size_t> next(s.tables.size(), 0);
    for (const SheetPlan& sheet : arrange_tables(s.input(), sheet_tables(s.input())))
      for (const TablePart& p : sheet.parts) {
        const auto t = static_cast<std::size_t>(p.table);
        CHECK(p.first == next[t]);
        next[t] = p.first + p.count;
      }
    for (std::size_t t = 0; t < s.tables.size(); ++t)
      CHECK(next[t] == (s.tables[t].on_sheet ? s.tables[t].rows.size() : 0));
  }
}

TEST_CASE("index of sheets: the sheets of the set, in order, with number, title and revision") {
  const TrialSet s("saltmarsh");
  const SetPlan plan = plan_set(s.input());
  const auto index = index_table(s.input(), plan);
  const auto sheets = draw_set(s.input(), 2);
  REQUIRE(index.rows.size() == sheets.size());
  for (std::size_t i = 0; i < sheets.size(); ++i) {
    CHECK(index.rows[i][0] == sheets[i].number);
    CHECK(index.rows[i][1] == sheets[i].title);
    CHECK(index.rows[i][2] == sheets[i].revision);
  }
}

// A mass of 13617 broken into 1361 and 7 would be read as 1361.
TEST_CASE("table sheets, every example and style: marks, serials and masses stand unbroken") {
  for (const char* name : trial_names)
    for (const std::string& style : trial_styles) {
      CAPTURE(name);
      CAPTURE(style);
      const TrialSet s(name, style);
      const SetPlan plan = plan_set(s.input());
      std::set<std::string> printed_words;
      for (std::size_t i = 0; i < plan.sheets.size(); ++i)
        if (plan.sheets[i].series == 'T')
          for (const std::string& t : texts(draw_table_sheet(s.input(), plan, i)))
            printed_words.insert(t);
      const UnitSystem u = s.project.units;
      for (const Panel& p : s.deck.panels) {
        const Mark& m = s.deck.marks[static_cast<std::size_t>(p.mark)];
        for (const std::string& word :
             {p.serial, m.name, print_mass(m.masses.total, u), print_station(p.start, u),
              print_length(p.end - p.start, u), print_mass(s.deck.mass, u)})
          CHECK_MESSAGE(printed_words.count(word) == 1, word);
      }
    }
}

TEST_CASE(
    "every sheet: title block names project, sheet and revision; nothing left as a template") {
  for (const char* name : trial_names) {
    const TrialSet s(name);
    for (const auto& sheet : draw_set(s.input(), 2)) {
      const auto t = texts(sheet);
      CAPTURE(sheet.number);
      CHECK(has(t, sheet.number));
      CHECK(has(t, s.project.title));
      CHECK(has(t, s.project.number));
      CHECK(has(t, s.project.revisions.back().date));
      for (const auto& text : t) CHECK(text.find('{') == std::string::npos);
    }
  }
}

TEST_CASE("title fields: what the project leaves empty says so") {
  TrialSet s("quickstart");
  const SetPlan plan = plan_set(s.input());
  const SetInput input = s.input();
  const BlockContext c{input, plan, 0, "1:50"};
  CHECK(fill_template(c, "{bridge.location}") == "not stated");
  CHECK(fill_template(c, "{bridge.name}, {bridge.structure}") == "Millrace footbridge");
  CHECK(fill_template(c, "{sheet.number} of {sheet.count}") ==
        "G01 of " + std::to_string(plan.sheets.size()));
  CHECK(fill_template(c, "{sheet.scale}") == "1:50");
  CHECK(fill_template(c, "{no.such}") == "{no.such}");
}

TEST_CASE("drawing the set: the same sheets whatever the number of threads") {
  const TrialSet s("quickstart");
  const auto one = draw_set(s.input(), 1), four = draw_set(s.input(), 4);
  REQUIRE(one.size() == four.size());
  for (std::size_t i = 0; i < one.size(); ++i) CHECK(dump(one[i]) == dump(four[i]));
}

TEST_CASE("stamp space: at the same place on every sheet, with nothing in it") {
  const TrialSet s("saltmarsh");
  const auto sheets = draw_set(s.input(), 2);
  const auto& st = s.style;
  std::set<std::string> places;
  for (const auto& sheet : sheets) {
    paper::PaperBox stamp;
    for (const auto& item : sheet.items)
      if (const auto* k = std::get_if<paper::Stroke>(&item)) {
        const auto b = paper::bounds(k->path);
        if (std::abs(b.width() - st.stamp_width) < 0.01 &&
            std::abs(b.height() - st.stamp_height) < 0.01)
          stamp = b;
      }
    CAPTURE(sheet.number);
    REQUIRE(stamp.width() > 1);
    places.insert(decimal(stamp.low.x, 2) + " " + decimal(stamp.low.y, 2));
    for (const auto& item : sheet.items)
      if (const auto* t = std::get_if<paper::Text>(&item))
        CHECK(!text_box(*t).overlaps(stamp.grown(-0.1)));
  }
  CHECK(places.size() == 1);
}

TEST_CASE("legend of the cover: the pens that the set shows, and no others") {
  const TrialSet set("quickstart");
  const SetPlan plan = plan_set(set.input());
  const std::pair<const char*, paper::PenUse> lines[] = {
      {"outline of our panels", paper::PenUse::outline},
      {"hidden edge", paper::PenUse::hidden},
      {"match line", paper::PenUse::match},
      {"ground, concrete", paper::PenUse::ground},
      {"neighbouring panel, repeated", paper::PenUse::neighbour}};
  const auto sheets = draw_set(set.input(), 2);
  const SetUse use = use_of({sheets.begin() + 1, sheets.end()}, set.input(), plan);
  const auto said = texts(sheets.front());
  for (const auto& [text, pen] : lines) {
    CAPTURE(text);
    CHECK(has(said, text) == use.shows(pen));
    CHECK(has(texts(draw_cover(set.input(), plan, 0)), text));  // where the use is not known
  }
  CHECK(use.shows(paper::PenUse::outline));
  CHECK_FALSE(use.shows(paper::PenUse::revision));
  const auto few = texts(draw_cover_for({true, {"outline", "match"}, {}, {}, {}}, set.input(), plan, 0));
  for (const auto& [text, pen] : lines)
    CHECK(has(few, text) == (pen == paper::PenUse::outline || pen == paper::PenUse::match));
}

TEST_CASE("abbreviations of the cover: those that stand on a sheet, each once") {
  const TrialSet set("quickstart");
  const SetPlan plan = plan_set(set.input());
  SetUse use{true, {}, {"CG", "J1"}, {}, {}};
  auto rows = abbreviation_table(set.input(), plan, use).rows;
  REQUIRE(rows.size() == 1);  // J2 is said nowhere
  CHECK(rows[0][0] == "CG");
  use.words.insert("J2");
  CHECK(abbreviation_table(set.input(), plan, use).rows.size() == 2);
  const auto sheets = draw_set(set.input(), 2);
  const SetUse found = use_of({sheets.begin() + 1, sheets.end()}, set.input(), plan);
  for (const auto& row : abbreviation_table(set.input(), plan, found).rows) {
    CAPTURE(row[0]);
    bool there = false;
    for (const auto& sheet : sheets)
      for (const auto& t : texts(sheet))
        there = there || (sheet.number != "G01" &&
                          t.find(row[0].substr(0, row[0].find_first_of("/,"))) != std::string::npos);
    CHECK(there);
  }
}

// ISO 5456-2: third angle, the view on an end stands beside that end. The panel sheets do so: the
// elevation from the right is below the plan, whose right edge is its lower one.
TEST_CASE("projection symbol: third angle, as the elevation below the plan is") {
  const TrialSet set("quickstart");
  const auto sheets = draw_set(set.input(), 2);
  for (const auto& sheet : sheets) {
    CAPTURE(sheet.number);
    // In the title block, in thin strokes: the side, then the end.
    std::vector<const paper::Path*> drawn;
    bool block = false;
    int depth = 0;
    double plan = 0, elevation = 0;
    std::string view;
    for (const auto& item : sheet.items) {
      if (const auto* g = std::get_if<paper::GroupStart>(&item)) {
        block = block || g->id == "title-block";
        depth += block;
        if (g->kind == "view") view = g->id;
      }
      if (std::holds_alternative<paper::GroupEnd>(item) && block && --depth == 0) block = false;
      const auto* k = std::get_if<paper::Stroke>(&item);
      if (k && block && sheet.pens[k->pen].name == "thin") drawn.push_back(&k->path);
      if (k && sheet.pens[k->pen].name == "outline" && view == "view-top")
        plan = paper::bounds(k->path).centre().y;
      if (k && sheet.pens[k->pen].name == "outline" && view == "view-side")
        elevation = paper::bounds(k->path).centre().y;
    }
    REQUIRE(drawn.size() == 2);
    const auto& side = drawn[0]->points;
    REQUIRE(side.size() == 4);
    CHECK(side[3].y - side[0].y < side[2].y - side[1].y);  // small end at the left
    const double rings = paper::bounds(*drawn[1]).centre().x;
    CHECK(rings < side[0].x);  // and the view on it beside it
    if (sheet.number[0] == 'P' && plan > 0 && elevation > 0) CHECK(elevation < plan);
  }
}
