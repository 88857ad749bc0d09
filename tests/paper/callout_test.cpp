// Callouts. The three placing cases were worked by hand from the least-squares condition; that
// leaders never cross is tried on random sites.
#include "paper/callout.h"

#include <algorithm>
#include <cmath>
#include <random>

#include <doctest/doctest.h>

#include "paper/leaders.h"
#include "paper/trial_board.h"

using namespace deckquire;
using namespace deckquire::paper;

namespace {

void check_near(const std::vector<double>& got, const std::vector<double>& expected) {
  REQUIRE(got.size() == expected.size());
  for (std::size_t i = 0; i < got.size(); ++i) CHECK(got[i] == doctest::Approx(expected[i]));
}

int crossings(const std::vector<PaperPoint>& sites, const std::vector<double>& places, double x) {
  int n = 0;
  for (std::size_t i = 0; i < sites.size(); ++i) {
    for (std::size_t j = i + 1; j < sites.size(); ++j) {
      n += segments_cross(sites[i], {x, places[i]}, sites[j], {x, places[j]});
    }
  }
  return n;
}

/// Smallest gap between labels, less their sizes.
double least_air(std::vector<double> places, const std::vector<double>& sizes) {
  double air = 1e9;
  for (std::size_t i = 0; i < places.size(); ++i) {
    for (std::size_t j = i + 1; j < places.size(); ++j) {
      air = std::min(air, std::abs(places[i] - places[j]) - (sizes[i] + sizes[j]) / 2);
    }
  }
  return air;
}

const PaperBox paper_box{{0, 0}, {841, 594}};

}  // namespace

TEST_CASE("spread: labels that would overlap share their moves") {
  check_near(spread({10, 12, 14, 40, 41, 80}, {6, 6, 6, 6, 6, 6}, 0, 100),
             {6, 12, 18, 37.5, 43.5, 80});
}

TEST_CASE("spread: crowded ends are pushed in from the limits") {
  check_near(spread({1, 2, 3, 50, 97, 98, 99}, {6, 6, 6, 8, 6, 6, 6}, 0, 100),
             {3, 9, 15, 50, 85, 91, 97});
}

TEST_CASE("spread: too many labels are packed from the low limit") {
  check_near(spread({50, 60}, {30, 30}, 0, 40), {15, 45});
}

TEST_CASE("spread: no other placing has a smaller sum of squares") {
  std::mt19937 random(3);
  std::uniform_real_distribution<double> place(0, 60), nudge(-3, 3);
  for (int trial = 0; trial < 200; ++trial) {
    std::vector<double> ideals(6), sizes{5, 7, 4, 6, 5, 8};
    for (double& v : ideals) v = place(random);
    std::sort(ideals.begin(), ideals.end());
    const auto best = spread(ideals, sizes, 0, 60);
    const auto cost = [&](const std::vector<double>& c) {
      double s = 0;
      for (std::size_t i = 0; i < c.size(); ++i) s += (c[i] - ideals[i]) * (c[i] - ideals[i]);
      return s;
    };
    CHECK(least_air(best, sizes) > -1e-9);
    for (int k = 0; k < 40; ++k) {
      auto other = best;
      for (double& v : other) v += nudge(random);
      const bool allowed = least_air(other, sizes) >= 0 && other.front() >= 2.5 &&
                           other.back() <= 56 && std::is_sorted(other.begin(), other.end());
      if (allowed) CHECK(cost(other) >= cost(best) - 1e-9);
    }
  }
}

TEST_CASE("two sides: the split with the least squared moves is taken") {
  const SideSplit s = split_sides({5, 7, 9, 30, 31, 33, 8}, std::vector<double>(7, 10), 0, 40);
  CHECK(s.count == 4);
  CHECK(s.cost == doctest::Approx(385));
}

TEST_CASE("leaders: crowded sites at both ends of a column do not cross") {
  std::vector<PaperPoint> sites;
  for (double y : {1., 2., 3., 50., 97., 98., 99.}) sites.push_back({10, y});
  const std::vector<double> sizes{6, 6, 6, 8, 6, 6, 6};
  const auto places = place_along(sites, sizes, {40, 0, 100});
  check_near(places, {3, 9, 15, 50, 85, 91, 97});
  CHECK(crossings(sites, places, 40) == 0);
}

TEST_CASE("leaders: no two cross in random trials, equal or unequal labels") {
  std::mt19937 random(60);
  for (int trial = 0; trial < 300; ++trial) {
    const int n = 2 + trial % 24;
    std::uniform_real_distribution<double> x(0, 100), y(0, 150), h(4, 14);
    std::vector<PaperPoint> sites;
    std::vector<double> sizes;
    for (int i = 0; i < n; ++i) {
      sites.push_back({x(random), y(random)});
      sizes.push_back(trial % 2 ? 6 : h(random));
    }
    const auto places = place_along(sites, sizes, {110, -100, 300});
    CHECK(crossings(sites, places, 110) == 0);
    CHECK(least_air(places, sizes) > -1e-9);
  }
}

TEST_CASE("leaders: in the order of height alone some of them would cross") {
  // Shows that the exchange has work to do: a near site just below a far one, both led downwards.
  const std::vector<PaperPoint> sites{{95, 40}, {0, 41}, {90, 42}, {0, 43}};
  const std::vector<double> sizes(4, 20);
  CHECK(crossings(sites, spread({40, 41, 42, 43}, sizes, 0, 100), 100) > 0);
  CHECK(crossings(sites, place_along(sites, sizes, {100, 0, 100}), 100) == 0);
}

TEST_CASE("callouts: pills and notes on both sides lie clear of one another") {
  std::mt19937 random(5);
  std::uniform_real_distribution<double> x(200, 400), y(200, 300);
  for (int trial = 0; trial < 40; ++trial) {
    std::vector<Callout> list;
    for (int i = 0; i < 20; ++i) {
      list.push_back(
          {{x(random), y(random)}, std::to_string(i + 1), trial % 2 ? "a note\nof two lines" : ""});
    }
    TrialBoard columns, rows;
    callouts(columns.board, CalloutColumns{180, 420, 180, 320}, list);
    CHECK(faults(columns.sheet, 2.5, paper_box).empty());
    if (trial % 2) continue;
    callouts(rows.board, CalloutRows{320, 180, 150, 450}, list);
    CHECK(faults(rows.sheet, 2.5, paper_box).empty());
  }
}

TEST_CASE("callouts: those of an issued sheet stay where they were, a new one makes room") {
  const CalloutColumns columns{100, 300, 50, 250};
  const auto site = [](double y, const char* text) { return Callout{{200, y}, "", text}; };
  const std::vector<Callout> old{site(100, "cap"), site(101, "seal"), site(180, "cap")};
  TrialBoard issued;
  callout_column(issued.board, columns, 1, old);
  REQUIRE(issued.sheet.callouts.size() == 3);
  CHECK(issued.sheet.callouts.count("cap #2") == 1);
  // One more near the first two, and the site of the third a little higher.
  std::vector<Callout> now{old[0], site(102, "rod"), old[1], site(181.5, "cap")};
  TrialBoard plain, kept;
  callout_column(plain.board, columns, 1, now);
  kept.sheet.kept_callouts = issued.sheet.callouts;
  callout_column(kept.board, columns, 1, now);
  CHECK(std::abs(plain.sheet.callouts["cap #2"].y - issued.sheet.callouts["cap #2"].y) > 1);
  CHECK(kept.sheet.callouts["cap #2"].y == doctest::Approx(issued.sheet.callouts["cap #2"].y));
  CHECK(faults(kept.sheet, 2.5, paper_box).empty());
  // The same again is the same to the byte.
  TrialBoard again;
  again.sheet.kept_callouts = issued.sheet.callouts;
  callout_column(again.board, columns, 1, old);
  CHECK(dump(again.sheet) == dump(issued.sheet));
  // A column elsewhere is another picture.
  TrialBoard moved;
  moved.sheet.kept_callouts = issued.sheet.callouts;
  callout_column(moved.board, {90, 310, 50, 250}, 1, now);
  CHECK(moved.sheet.callouts["cap #2"].y == plain.sheet.callouts["cap #2"].y);
}

TEST_CASE("section mark: letter and sheet at both ends, linked to that sheet") {
  TrialBoard t;
  section_mark(t.board, {100, 100}, {300, 100}, {0, 1}, "A", "D02");
  int letters = 0, links = 0;
  for (const Item& i : t.sheet.items) {
    if (const auto* text = std::get_if<Text>(&i)) letters += text->text == "A";
    if (const auto* g = std::get_if<GroupStart>(&i)) links += g->target == "D02";
  }
  CHECK(letters == 2);
  CHECK(links == 2);
  CHECK(faults(t.sheet, 2.5, paper_box).empty());
}

TEST_CASE("detail mark: ring, letter over sheet, link") {
  TrialBoard t;
  detail_mark(t.board, {{100, 100}, {120, 115}}, {150, 140}, "C", "D01");
  bool linked = false;
  for (const Item& i : t.sheet.items) {
    if (const auto* g = std::get_if<GroupStart>(&i)) linked = linked || g->target == "D01";
  }
  CHECK(linked);
  CHECK(faults(t.sheet, 2.5, paper_box).empty());
}
