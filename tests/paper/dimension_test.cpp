// Chains. The stations 0, 615, 1865 ... and the bays of 2500 in 3 were worked by hand; that chains
// close is tried on random points in both units.
#include "paper/dimension.h"

#include <cmath>
#include <numeric>
#include <random>

#include <doctest/doctest.h>

#include "paper/trial_board.h"

using namespace deckquire;
using namespace deckquire::paper;

namespace {

std::vector<ChainPoint> stations(std::initializer_list<double> at_mm, double ratio) {
  std::vector<ChainPoint> out;
  for (double s : at_mm) out.push_back({100 + s / ratio, mm(s), 100});
  return out;
}

std::vector<std::string> texts(const Sheet& sheet) {
  std::vector<std::string> out;
  for (const Item& i : sheet.items) {
    if (const auto* t = std::get_if<Text>(&i)) out.push_back(t->text);
  }
  return out;
}

std::int64_t sum(const std::vector<std::int64_t>& v) {
  return std::accumulate(v.begin(), v.end(), std::int64_t{0});
}

const PaperBox paper_box{{0, 0}, {841, 594}};

}  // namespace

TEST_CASE("chain: three or more equal neighbours are one value") {
  TrialBoard t;
  ChainLine line;
  line.across = 150;
  const auto values = chain(t.board, line, stations({0, 615, 1865, 3115, 4365, 5000}, 20));
  CHECK(values == std::vector<std::int64_t>{615, 1250, 1250, 1250, 635});
  CHECK(texts(t.sheet) == std::vector<std::string>{"615", "3 @ 1250 = 3750", "635"});
}

TEST_CASE("chain: equal bays that the unit cannot print are stated as equal") {
  TrialBoard t;
  ChainLine line;
  line.across = 150;
  std::vector<ChainPoint> points;
  for (int i = 0; i <= 3; ++i) points.push_back({100 + 40.0 * i, mm(2500) * i / 3.0, 100});
  CHECK(chain(t.board, line, points) == std::vector<std::int64_t>{833, 834, 833});
  CHECK(texts(t.sheet) == std::vector<std::string>{"3 EQUAL = 2500"});
  line.merge = false;
  TrialBoard u;
  chain(u.board, line, points);
  CHECK(texts(u.sheet) == std::vector<std::string>{"833", "834", "833"});
}

TEST_CASE("equal runs: pairs stay single") {
  const auto runs = equal_runs({5, 5, 7, 7, 7, 7, 5});
  REQUIRE(runs.size() == 4);
  CHECK(runs[1].value == 5);
  CHECK(runs[2].count == 4);
  CHECK(runs[2].value == 7);
}

TEST_CASE("chain: printed values sum to the printed overall, whatever the points and units") {
  std::mt19937 random(417);
  for (int trial = 0; trial < 400; ++trial) {
    const UnitSystem units = trial % 2 ? UnitSystem::imperial : UnitSystem::metric;
    std::uniform_int_distribution<std::int64_t> step(0, 900'000'000);
    std::vector<ChainPoint> points{{50, Length::from_nanometres(step(random)), 100}};
    for (int i = 0; i < 1 + trial % 12; ++i) {
      const Length d = Length::from_nanometres(step(random));
      points.push_back({points.back().paper + d.in_mm() / 20, points.back().model + d, 100});
    }
    TrialBoard t;
    ChainLine line;
    line.across = 130;
    line.units = units;
    const auto values = chain(t.board, line, points);
    CHECK(sum(values) == dimension(t.board, line, points.front(), points.back()));
    const Length u = print_unit(units);
    for (std::size_t i = 0; i < values.size(); ++i) {  // each within one unit of its true length
      const Length d = points[i + 1].model - points[i].model;
      CHECK(abs(d - u * values[i]) <= u);
    }
  }
}

TEST_CASE("chain: values of narrow spaces stand outside and clear of one another") {
  std::mt19937 random(7);
  for (int trial = 0; trial < 100; ++trial) {
    std::uniform_real_distribution<double> step(0.2, trial % 3 == 0 ? 3.0 : 25.0);
    for (Terminator end : {Terminator::tick, Terminator::arrow}) {
      TrialBoard t;
      t.style.terminator = end;
      ChainLine line;
      line.merge = false;
      line.heading = trial % 2 ? Heading::vertical : Heading::horizontal;
      line.across = trial % 4 < 2 ? 130 : 170;
      std::vector<ChainPoint> points{{200, mm(0), 150}};
      for (int i = 0; i < 8; ++i) {
        const double d = step(random);
        points.push_back({points.back().paper + d, points.back().model + mm(d * 20), 150});
      }
      chain(t.board, line, points);
      const auto found = faults(t.sheet, 2.5, paper_box);
      const std::string what = found.empty() ? "" : found.front();
      INFO(what);
      CHECK(found.empty());
    }
  }
}

TEST_CASE("chain: text stands above a level line and left of an upright one, read from the right") {
  TrialBoard t;
  ChainLine line;
  line.across = 150;
  line.heading = Heading::vertical;
  chain(t.board, line, stations({0, 1000}, 20));
  for (const Item& i : t.sheet.items) {
    if (const auto* text = std::get_if<Text>(&i)) {
      CHECK(text->angle == doctest::Approx(pi / 2));
      CHECK(text_box(*text).high.x < 150);
    }
  }
}

TEST_CASE("chain: a mirrored view prints the same values in the same order") {
  TrialBoard t;
  ChainLine line;
  line.across = 150;
  auto points = stations({0, 300, 1000}, 10);
  for (ChainPoint& p : points) p.paper = 500 - p.paper;
  CHECK(chain(t.board, line, points) == std::vector<std::int64_t>{300, 700});
}

TEST_CASE("chain: bracketed values are in brackets, labels replace values") {
  TrialBoard t;
  ChainLine line;
  line.across = 150;
  line.bracketed = true;
  chain(t.board, line, stations({0, 1000}, 20));
  line.bracketed = false;
  line.labels = {"cover"};
  chain(t.board, line, stations({0, 1000}, 20));
  CHECK(texts(t.sheet) == std::vector<std::string>{"(1000)", "cover"});
}

TEST_CASE("running dimensions: rise from an unprinted step to the overall, clear of one another") {
  TrialBoard t;
  ChainLine line;
  line.across = 150;
  running(t.board, line, stations({0, 12, 30, 615, 640, 5000}, 20));
  CHECK(texts(t.sheet) == std::vector<std::string>{"0", "12", "30", "615", "640", "5000"});
  CHECK(faults(t.sheet, 2.5, paper_box).empty());
}

TEST_CASE("chain: feet and inches close in sixteenths") {
  TrialBoard t;
  ChainLine line;
  line.across = 150;
  line.units = UnitSystem::imperial;
  std::vector<ChainPoint> points{{100, inches(0), 100},
                                 {160, inches(8.03), 100},
                                 {220, inches(16.06), 100},
                                 {300, inches(24), 100}};
  const auto values = chain(t.board, line, points);
  CHECK(sum(values) == 24 * 16);
  CHECK(texts(t.sheet) == std::vector<std::string>{"8\"", "8 1/16\"", "7 15/16\""});
}
