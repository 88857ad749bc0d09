#include "paper/board.h"

#include <cmath>

#include <doctest/doctest.h>

#include "paper/trial_board.h"

using namespace deckquire;
using namespace deckquire::paper;

TEST_CASE("board: the pens of the sheet are those of the style, by use") {
  TrialBoard t;
  REQUIRE(t.sheet.pens.size() == static_cast<std::size_t>(PenUse::count_));
  for (std::size_t i = 0; i < t.sheet.pens.size(); ++i)
    CHECK(t.sheet.pens[i].name == name_of(static_cast<PenUse>(i)));
}

TEST_CASE("board: text stands on, under and about its point") {
  TrialBoard t;
  const double w = t.board.text_width(LetterUse::mark, "DP03"), h = 5;
  const PaperBox base = t.board.text(LetterUse::mark, {100, 50}, "DP03");
  CHECK(base.low == PaperPoint{100, 50});
  CHECK(base.high == PaperPoint{100 + w, 50 + h});
  const PaperBox middle =
      t.board.text(LetterUse::mark, {100, 50}, "DP03", Align::centre, Stand::middle);
  CHECK(middle.centre().x == doctest::Approx(100));
  CHECK(middle.centre().y == doctest::Approx(50));
  const PaperBox right = t.board.text(LetterUse::mark, {100, 50}, "DP03", Align::right, Stand::top);
  CHECK(right.high.x == doctest::Approx(100));
  CHECK(right.high.y == doctest::Approx(50));
}

TEST_CASE("board: turned text reads from the right") {
  TrialBoard t;
  const double w = t.board.text_width(LetterUse::mark, "DP03");
  const PaperBox b =
      t.board.text(LetterUse::mark, {100, 50}, "DP03", Align::left, Stand::base, false);
  CHECK(b.low.x == doctest::Approx(95));
  CHECK(b.high.x == doctest::Approx(100));
  CHECK(b.low.y == doctest::Approx(50));
  CHECK(b.high.y == doctest::Approx(50 + w));
  const PaperBox m =
      t.board.text(LetterUse::mark, {100, 50}, "DP03", Align::centre, Stand::middle, false);
  CHECK(m.centre().x == doctest::Approx(100));
  CHECK(m.centre().y == doctest::Approx(50));
}

TEST_CASE("board: empty text, empty paths and hairs draw nothing") {
  TrialBoard t;
  t.board.text(LetterUse::note, {10, 10}, "");
  t.board.masked_text(LetterUse::note, {10, 10}, "");
  t.board.stroke(PenUse::outline, {});
  t.board.line(PenUse::outline, {10, 10}, {10.004, 10});
  t.board.box(PenUse::outline, {{10, 10}, {10, 10}});
  CHECK(t.sheet.items.empty());
}

TEST_CASE("board: a path loses its segments below 0.005 mm but not the length they add up to") {
  TrialBoard t;
  Path path;
  path.move({10, 10});
  for (int i = 1; i <= 100; ++i) path.line({10 + i * 0.001, 10});
  path.line({20, 10});
  path.line({20, 10});
  t.board.stroke(PenUse::outline, path);
  const Path& drawn = std::get<Stroke>(t.sheet.items.at(0)).path;
  CHECK(drawn.points.front() == PaperPoint{10, 10});
  CHECK(drawn.points.back() == PaperPoint{20, 10});
  for (std::size_t i = 1; i < drawn.points.size(); ++i)
    CHECK(drawn.points[i].x - drawn.points[i - 1].x >= 0.005 - 1e-12);
}

TEST_CASE("board: a closed path stays closed and its second ring is kept") {
  TrialBoard t;
  Path path;
  path.box({{10, 10}, {20, 20}});
  path.circle({15, 15}, 2);
  t.board.fill(Ink::grey, path);
  const Path& drawn = std::get<Fill>(t.sheet.items.at(0)).path;
  CHECK(drawn.ops == path.ops);
  CHECK(drawn.points == path.points);
}

TEST_CASE("board: unclean text is replaced, tabs and line ends become spaces") {
  TrialBoard t;
  t.board.text(LetterUse::note, {10, 10}, "a\tb\nc\x01\xff");
  CHECK(std::get<Text>(t.sheet.items.at(0)).text == "a b c??");
}

// ISO 3098 type B: base lines of mixed case 15/10 of the height apart.
TEST_CASE("board: lines of a paragraph stand 1.5 heights apart and hang from its point") {
  TrialBoard t;
  const double below = t.board.paragraph(LetterUse::note, {30, 200}, 60,
                                         "The erector checks the seat of each panel before the "
                                         "next one is set.");
  std::vector<double> ys;
  for (const Item& item : t.sheet.items) {
    const Text& line = std::get<Text>(item);
    CHECK(line.width <= 60);
    ys.push_back(line.at.y);
  }
  REQUIRE(ys.size() >= 3);
  CHECK(ys[0] == doctest::Approx(200 - 3.5));
  CHECK(ys[0] - ys[1] == doctest::Approx(5.25));
  CHECK(below == doctest::Approx(ys.back() - 5.25));
}

TEST_CASE("board: broken lines hold every word once, and cut words that are too long") {
  TrialBoard t;
  const auto lines =
      t.board.broken(LetterUse::note, 20, "one two  three\nfour Unbreakablewordwithoutend");
  std::string all;
  for (const auto& line : lines) {
    CHECK(t.board.text_width(LetterUse::note, line) <= 20);
    all += line;
  }
  std::string letters;
  for (char c : all)
    if (c != ' ') letters += c;
  CHECK(letters == "onetwothreefourUnbreakablewordwithoutend");
  CHECK(t.board.broken(LetterUse::note, 20, "").empty());
  CHECK(t.board.broken(LetterUse::note, 0.1, "abc").size() == 3);
}

TEST_CASE("board: groups open and close around what is drawn in them") {
  TrialBoard t;
  {
    Group outer(t.board, "panel-7", "panel", "DP03", "P03");
    t.board.line(PenUse::outline, {10, 10}, {20, 10});
  }
  REQUIRE(t.sheet.items.size() == 3);
  CHECK(std::get<GroupStart>(t.sheet.items[0]).id == "panel-7");
  CHECK(std::holds_alternative<GroupEnd>(t.sheet.items[2]));
}

TEST_CASE("board: an arrow ends at its point, its head three times as long as wide") {
  TrialBoard t;
  arrow(t.board, PenUse::dimension, {10, 10}, {30, 10}, 3);
  REQUIRE(t.sheet.items.size() == 2);
  const PaperBox head = bounds(std::get<Fill>(t.sheet.items[1]).path);
  CHECK(head.high.x == doctest::Approx(30));
  CHECK(head.width() == doctest::Approx(3));
  CHECK(head.height() == doctest::Approx(1));
  arrow(t.board, PenUse::dimension, {10, 10}, {10, 10});
  CHECK(t.sheet.items.size() == 2);
}
