#include "paper/sheet.h"

#include <doctest/doctest.h>

#include <algorithm>
#include <cmath>
#include <limits>

#include "paper/trial_board.h"

using namespace deckquire;
using namespace deckquire::paper;

namespace {

/// A sheet with two pens, narrow and heavy, nothing on it.
Sheet blank() {
  Sheet s;
  s.number = "P01";
  s.width = 420;
  s.height = 297;
  s.pens = {{0.25, {}, Ink::black, "thin"}, {0.5, {}, Ink::black, "outline"}};
  return s;
}

const PaperBox room{{20, 10}, {410, 287}};

Text letters(PaperPoint at, const std::string& text) {
  Text t;
  t.at = at;
  t.height = 3.5;
  t.width = 20;
  t.text = text;
  return t;
}

Stroke segment(PenIndex pen, PaperPoint a, PaperPoint b) {
  Stroke s;
  s.pen = pen;
  s.path.segment(a, b);
  return s;
}

/// The faults of a blank sheet with these items.
std::vector<std::string> faults_of(std::vector<Item> items) {
  Sheet s = blank();
  s.items = std::move(items);
  return faults(s, 2.5, room);
}

using Lines = std::vector<std::string>;

constexpr double not_a_number = std::numeric_limits<double>::quiet_NaN();

}  // namespace

TEST_CASE("text box: turned by quarters it is exact, and always positive") {
  Text t = letters({100, 50}, "x");
  CHECK(text_box(t).low == PaperPoint{100, 50});
  CHECK(text_box(t).high == PaperPoint{120, 53.5});
  t.angle = pi / 2;
  CHECK(text_box(t).low == PaperPoint{96.5, 50});
  CHECK(text_box(t).high == PaperPoint{100, 70});
  t.angle = -pi / 2;
  CHECK(text_box(t).low == PaperPoint{100, 30});
  CHECK(text_box(t).high == PaperPoint{103.5, 50});
  t.angle = pi;
  CHECK(text_box(t).low == PaperPoint{80, 46.5});
}

TEST_CASE("path: a circle keeps its radius within 0.03 %") {
  Path path;
  path.circle({50, 60}, 10);
  REQUIRE(path.points.size() == 13);
  PaperPoint from = path.points[0];
  for (std::size_t k = 1; k < 13; k += 3) {
    for (double t = 0; t <= 1; t += 0.05) {
      const double s = 1 - t;
      const PaperPoint p = from * (s * s * s) + path.points[k] * (3 * s * s * t) +
                           path.points[k + 1] * (3 * s * t * t) + path.points[k + 2] * (t * t * t);
      CHECK(std::hypot(p.x - 50, p.y - 60) == doctest::Approx(10).epsilon(0.0003));
    }
    from = path.points[k + 2];
  }
}

TEST_CASE("dump: one line an item, indented by group, rounded to 0.01 mm") {
  Sheet s = blank();
  s.title = "Trial";
  s.revision = "A";
  s.items = {GroupStart{"a", "view", "Plan", "P02"}, segment(1, {1.004, 2}, {-0.001, 3.126}),
             GroupEnd{}, letters({10, 20}, "DP01")};
  CHECK(dump(s) ==
        "sheet P01 revision A 420.00 x 297.00 \"Trial\"\n"
        "pen thin 0.25 black\n"
        "pen outline 0.50 black\n"
        "group id=\"a\" kind=\"view\" title=\"Plan\" target=\"P02\"\n"
        "  stroke outline M 1.00 2.00 L 0.00 3.13\n"
        "end\n"
        "text 10.00 20.00 turned 0.00 height 3.50 width 20.00 black \"DP01\"\n");
}

TEST_CASE("faults: a sound sheet has none") {
  CHECK(faults_of({GroupStart{"a", "view", "", ""}, segment(1, {30, 30}, {200, 30}), GroupEnd{},
                   letters({30, 31}, "DP01"), letters({50, 31}, "DP02"),
                   segment(0, {30, 32}, {60, 32})})
            .empty());
}

TEST_CASE("faults: text over text is one, named by both") {
  CHECK(faults_of({letters({100, 50}, "DP01"), letters({119, 53}, "2400")}) ==
        Lines{"P01: text over text at 119.0, 53.0: \"DP01\" and \"2400\""});
  CHECK(faults_of({letters({100, 50}, "DP01"), letters({120, 50}, "2400")}).empty());
}

TEST_CASE("faults: a mask hides lines below it, not letters nor lines drawn later") {
  Text t = letters({100, 50}, "DP01");
  t.masked = true;
  const Stroke line = segment(1, {90, 52}, {130, 52});
  CHECK(faults_of({line, t}).empty());
  CHECK(faults_of({t, line}) == Lines{"P01: text over a line of 0.5 mm at 100.0, 50.0: \"DP01\""});
  CHECK(faults_of({letters({110, 51}, "x"), t}).size() == 1);
}

TEST_CASE("faults: text over a heavy line is one, over a narrow line none") {
  const Text t = letters({100, 50}, "DP01");
  const Lines one{"P01: text over a line of 0.5 mm at 100.0, 50.0: \"DP01\""};
  CHECK(faults_of({t, segment(1, {90, 52}, {130, 52})}) == one);
  CHECK(faults_of({t, segment(1, {105, 20}, {110, 90})}) == one);
  CHECK(faults_of({t, segment(1, {90, 49.85}, {130, 49.85})}) == one);  // its edge, by the width
  CHECK(faults_of({t, segment(1, {90, 49.7}, {130, 49.7})}).empty());
  CHECK(faults_of({t, segment(1, {90, 20}, {99, 90})}).empty());
  CHECK(faults_of({t, segment(0, {90, 52}, {130, 52})}).empty());
}

TEST_CASE("faults: where outlines are thin, lines as wide as they count as heavy") {
  Sheet s = blank();
  s.items = {letters({100, 50}, "DP01"), segment(1, {90, 52}, {130, 52})};
  s.pens[1].width = 0.35;
  const Lines one{"P01: text over a line of 0.35 mm at 100.0, 50.0: \"DP01\""};
  CHECK(faults(s, 2.5, room) == one);
}

TEST_CASE("faults: curves and closing lines count as heavy lines too") {
  const Text t = letters({100, 50}, "DP01");
  Stroke ring;
  ring.pen = 1;
  ring.path.circle({110, 70}, 18);
  CHECK(faults_of({t, ring}).size() == 1);
  Stroke triangle;
  triangle.pen = 1;
  triangle.path.polygon({{90, 52}, {110, 90}, {130, 52}});
  CHECK(faults_of({t, triangle}).size() == 1);
}

TEST_CASE("faults: what lies outside the frame or the paper") {
  CHECK(faults_of({letters({395, 50}, "DP01")}) ==
        Lines{"P01: text \"DP01\" outside the frame: from 395.0, 50.0 to 415.0, 53.5"});
  CHECK(faults_of({segment(0, {30, 30}, {30, 300})}) ==
        Lines{"P01: stroke outside the paper: from 30.0, 30.0 to 30.0, 300.0"});
  CHECK(faults_of({GroupStart{"", "furniture", "", ""}, GroupStart{}, segment(0, {5, 5}, {415, 5}),
                   GroupEnd{}, GroupEnd{}})
            .empty());
  CHECK(faults_of({GroupStart{"", "furniture", "", ""}, segment(0, {5, 5}, {425, 5}), GroupEnd{}})
            .size() == 1);
}

TEST_CASE("faults: text below the least height") {
  Text t = letters({100, 50}, "DP01");
  t.height = 1.8;
  CHECK(faults_of({t}) ==
        Lines{"P01: text \"DP01\" at 100.0, 50.0 is 1.8 mm high, the least is 2.5"});
}

TEST_CASE("faults: groups that do not pair, ids used twice") {
  CHECK(faults_of({GroupStart{}}) == Lines{"P01: 1 groups are not closed"});
  CHECK(faults_of({GroupEnd{}}) == Lines{"P01: a group is closed that was never opened"});
  CHECK(faults_of({GroupStart{"a", "", "", ""}, GroupEnd{}, GroupStart{"a", "", "", ""},
                   GroupEnd{}}) == Lines{"P01: id a is used twice"});
}

TEST_CASE("faults: numbers that are none, unclean text, pens that are missing") {
  CHECK(faults_of({segment(0, {30, not_a_number}, {40, 40})}) ==
        Lines{"P01: stroke with a coordinate that is not a number"});
  CHECK(faults_of({letters({not_a_number, 30}, "x")}).size() == 1);
  CHECK(faults_of({letters({100, 50}, "\xff")}) == Lines{"P01: unclean text at 100.0, 50.0"});
  CHECK(faults_of({segment(2, {30, 30}, {40, 40})}) ==
        Lines{"P01: stroke with pen 2, the sheet has 2"});
  Stroke torn;
  torn.path.ops = {Op::move, Op::curve};
  torn.path.points = {{30, 30}, {40, 40}};
  CHECK(faults_of({torn}) == Lines{"P01: stroke whose points do not match its lines and curves"});
}

TEST_CASE("faults: paper and pens that no writer can print") {
  Sheet s = blank();
  s.width = not_a_number;
  CHECK(faults(s, 2.5, room).size() == 1);
  s = blank();
  s.pens[0].width = -1;
  CHECK(faults(s, 2.5, room).size() == 1);
  s = blank();
  s.pens[0].dash = {0, 0};
  CHECK(faults(s, 2.5, room) ==
        Lines{"P01: pen thin cannot draw: its width or dashes are not positive numbers"});
}

TEST_CASE("faults: clashes found by the sweep are those that every pair compared would find") {
  std::uint32_t seed = 7;
  const auto random = [&seed](double low, double high) {
    seed = seed * 1664525u + 1013904223u;
    return low + (high - low) * (seed >> 8) / 16777216.0;
  };
  std::vector<Item> items;
  std::vector<PaperBox> boxes;
  for (int i = 0; i < 400; ++i) {
    Text t = letters({random(30, 380), random(30, 260)}, "x");
    t.angle = i % 3 == 0 ? pi / 2 : 0;
    boxes.push_back(text_box(t).grown(-0.05));
    items.push_back(t);
  }
  std::size_t pairs = 0;
  for (std::size_t i = 0; i < boxes.size(); ++i)
    for (std::size_t j = i + 1; j < boxes.size(); ++j) pairs += boxes[i].overlaps(boxes[j]);
  REQUIRE(pairs > 20);
  const auto found = faults_of(items);
  const auto over = std::count_if(found.begin(), found.end(), [](const std::string& f) {
    return f.find("text over text") != std::string::npos;
  });
  CHECK(static_cast<std::size_t>(over) == pairs);
}
