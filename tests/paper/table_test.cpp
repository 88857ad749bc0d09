#include "paper/table.h"

#include <random>

#include <doctest/doctest.h>

#include "paper/trial_board.h"

using namespace deckquire;
using namespace deckquire::paper;

namespace {

TableData marks() {
  TableData t;
  t.title = "MARKS";
  t.columns = {{"Mark", "", Align::left, 0},
               {"Quantity", "", Align::right, 0},
               {"Mass", "kg", Align::right, 0},
               {"Remark", "", Align::left, 0}};
  for (int i = 1; i <= 30; ++i) {
    t.rows.push_back({"DP" + std::to_string(i), std::to_string(i * 7 % 13),
                      i % 3 ? std::to_string(i * 37) : std::to_string(i * 37) + ".25",
                      i % 4 ? "as drawn" : "with hatch and two recesses, turned at the far end"});
  }
  t.total = {"Total", "188", "17205.00", ""};
  return t;
}

const Text* find(const Sheet& sheet, const std::string& text) {
  for (const Item& i : sheet.items) {
    if (const auto* t = std::get_if<Text>(&i); t != nullptr && t->text == text) return t;
  }
  return nullptr;
}

const PaperBox paper_box{{0, 0}, {841, 594}};

}  // namespace

TEST_CASE("table: the rows that fit are those that draw within the height, at any width") {
  for (double width : {0.0, 105.0, 120.0, 150.0, 260.0}) {
    for (double height : {65.0, 80.0, 100.0, 400.0}) {
      std::size_t first = 0;
      while (first < marks().rows.size()) {
        TrialBoard t;
        const std::size_t n =
            rows_that_fit(t.board, marks(), width, height, 6, LetterUse::table, first);
        REQUIRE(n > 0);
        const double low =
            draw_table(t.board, marks(), {100, 560}, width, 6, LetterUse::table, first, n);
        CHECK(560 - low <= height + 1e-6);
        const auto found = faults(t.sheet, 2.5, paper_box);
        const std::string what = found.empty() ? "" : found.front();
        INFO(what);
        CHECK(found.empty());
        if (first + n < marks().rows.size()) {  // one more row would not have fitted
          const double lower =
              draw_table(t.board, marks(), {500, 560}, width, 6, LetterUse::table, first, n + 1);
          CHECK(560 - lower > height);
        }
        first += n;
      }
    }
  }
}

TEST_CASE("table: the total stands under the last row only, continued parts say so") {
  TrialBoard t;
  draw_table(t.board, marks(), {100, 560}, 0, 6, LetterUse::table, 0, 10);
  CHECK(find(t.sheet, "Total") == nullptr);
  CHECK(find(t.sheet, "MARKS") != nullptr);
  draw_table(t.board, marks(), {400, 560}, 0, 6, LetterUse::table, 10, 20);
  CHECK(find(t.sheet, "Total") != nullptr);
  CHECK(find(t.sheet, "MARKS, continued") != nullptr);
}

TEST_CASE("table: numbers stand on their decimal points") {
  TrialBoard t;
  TableData data;
  data.columns = {{"Level", "m", Align::right, 0}};
  data.rows = {{"9"}, {"12.5"}, {"103.125"}};
  draw_table(t.board, data, {100, 300}, 40, 6, LetterUse::table, 0, 3);
  const auto point = [&](const std::string& s) {
    const Text* text = find(t.sheet, s);
    REQUIRE(text != nullptr);
    return text->at.x + t.board.text_width(LetterUse::table, s.substr(0, s.find('.')));
  };
  CHECK(point("12.5") == doctest::Approx(point("103.125")));
  CHECK(point("9") == doctest::Approx(point("103.125")));
}

TEST_CASE("table: natural widths hold the widest cell, a wished width is met") {
  TrialBoard t;
  const auto widths = column_widths(t.board, marks(), LetterUse::table);
  REQUIRE(widths.size() == 4);
  CHECK(widths[0] >= t.board.text_width(LetterUse::table, "DP30"));
  draw_table(t.board, marks(), {100, 560}, 200, 6, LetterUse::table, 0, 30);
  double right = 0;
  for (const Item& i : t.sheet.items) {
    if (const auto* s = std::get_if<Stroke>(&i))
      right = std::max(right, bounds(s->path.points).high.x);
  }
  CHECK(right == doctest::Approx(300));
}

TEST_CASE("table: a row with a target is a link") {
  TrialBoard t;
  TableData data = marks();
  data.targets = {"P01"};
  draw_table(t.board, data, {100, 560}, 0, 6, LetterUse::table, 0, 2);
  int links = 0;
  for (const Item& i : t.sheet.items) {
    if (const auto* g = std::get_if<GroupStart>(&i)) links += g->target == "P01";
  }
  CHECK(links == 1);
}
