// The grid against all pairs.
#include "base/neighbours.h"

#include <doctest/doctest.h>

#include <ctime>
#include <limits>

#include "base/convex.h"
#include "support/dice.h"

using namespace deckquire;

namespace {

using Boxes = std::vector<Box<PanelFrame>>;
using Pairs = std::vector<std::pair<int, int>>;

bool touch(const Box<PanelFrame>& a, const Box<PanelFrame>& b) {
  return a.low.x <= b.high.x && b.low.x <= a.high.x && a.low.y <= b.high.y && b.low.y <= a.high.y;
}

Pairs all_pairs(const Boxes& boxes) {
  Pairs out;
  for (std::size_t i = 0; i < boxes.size(); ++i)
    for (std::size_t j = i + 1; j < boxes.size(); ++j)
      if (touch(boxes[i], boxes[j])) out.push_back({static_cast<int>(i), static_cast<int>(j)});
  return out;
}

/// 200 boxes of a linear congruence (algorithms C4).
Boxes boxes_of_c4() {
  std::uint32_t x = 1;
  const auto draw = [&] {
    x = (1103515245u * x + 12345u) & 0x7fffffffu;
    return static_cast<int>(x >> 16);
  };
  Boxes boxes;
  for (int i = 0; i < 200; ++i) {
    const double left = draw() % 3000, low = draw() % 3000;
    const double w = 20 + draw() % 81, h = 20 + draw() % 81;
    boxes.push_back({{left, low}, {left + w, low + h}});
  }
  return boxes;
}

Box<PanelFrame> random_box(testing::Dice& dice, double longest) {
  const PanelPoint low{dice.next() * 3000 - 1500, dice.next() * 3000};
  return {low, {low.x + dice.next() * longest, low.y + dice.next() * dice.next() * longest}};
}

}  // namespace

TEST_CASE("neighbours: 200 boxes of a known sequence (algorithms C4)") {
  const Boxes boxes = boxes_of_c4();
  CHECK(boxes[0].low.x == 1838);
  CHECK(boxes[0].low.y == 2758);
  CHECK(boxes[0].high.x == 1927);
  CHECK(boxes[0].high.y == 2797);
  Boxes grown;
  for (const auto& b : boxes) grown.push_back(b.grown(12.5));
  Pairs clashes;
  int touching_ones = 0;
  for (const auto& [i, j] : touching(grown)) {
    const auto box = [&](int n) {
      return Convex<PanelFrame>{box_ring(boxes[static_cast<std::size_t>(n)]), 0};
    };
    const double d = separation(box(i), box(j)).distance;
    if (d >= 25) continue;
    clashes.push_back({i, j});
    touching_ones += d <= 0;
  }
  CHECK(clashes.size() == 48);
  CHECK(touching_ones == 26);
  CHECK(clashes.front() == std::pair(9, 60));
}

TEST_CASE("neighbours: the grid finds what all pairs find, for any mixture of sizes") {
  testing::Dice dice{11};
  for (int round = 0; round < 300; ++round) {
    CAPTURE(round);
    Boxes boxes;
    const int n = 1 + dice.upto(150);
    for (int i = 0; i < n; ++i) {
      const int kind = dice.upto(12);
      boxes.push_back(random_box(dice, kind == 0 ? 3000 : kind < 4 ? 0 : 120));
      if (dice.upto(9) == 0) boxes.push_back(boxes.back());  // twins
      if (dice.upto(9) == 0) {                               // sharing a corner only
        const Box<PanelFrame> b = boxes.back();
        boxes.push_back({b.high, {b.high.x + 10, b.high.y + 10}});
      }
    }
    REQUIRE(touching(boxes) == all_pairs(boxes));
  }
}

TEST_CASE("neighbours: none, one, all in a place, and one box over all others") {
  CHECK(touching(Boxes{}).empty());
  CHECK(touching(Boxes{{{0, 0}, {1, 1}}}).empty());
  CHECK(touching(Boxes(40, {{5, 5}, {5, 5}})).size() == 40 * 39 / 2);
  Boxes row{{{0, 0}, {1e6, 1e6}}};
  for (int i = 0; i < 1000; ++i) row.push_back({{i * 1000.0, 7}, {i * 1000.0 + 10, 8}});
  CHECK(touching(row).size() == 1000);
}

TEST_CASE("neighbours: ten times the boxes take about ten times as long") {
  const auto time = [](int n) {
    testing::Dice dice{5};
    Boxes boxes;
    for (int i = 0; i < n; ++i) {
      const PanelPoint low{i * 100.0 + dice.next() * 300, dice.next() * 3000};
      boxes.push_back({low, {low.x + 100 + dice.next() * 300, low.y + 200}});
    }
    std::clock_t least = std::numeric_limits<std::clock_t>::max();
    for (int k = 0; k < 5; ++k) {  // processor time: other programs do not count
      const std::clock_t before = std::clock();
      CHECK(touching(boxes).size() > static_cast<std::size_t>(n / 10));
      least = std::min(least, std::clock() - before);
    }
    return static_cast<double>(least) / CLOCKS_PER_SEC;
  };
  const double few = time(10000), many = time(100000);
  CAPTURE(few);
  CHECK(many < 30 * few);  // all pairs would take 100 times as long
}
