// Places along a line. Check cases F1, F2, F4, F6, F7: each confirmed a second way when they were
// made (enumeration, another formula); the rest against brute force here.
#include "deck/spread.h"

#include <doctest/doctest.h>

#include <algorithm>
#include <cmath>
#include <tuple>

#include "deck/trial.h"

using namespace deckquire;

namespace {

using Places = std::vector<std::int64_t>;

bool free_of(const std::vector<Stretch>& forbidden, std::int64_t at) {
  return std::none_of(forbidden.begin(), forbidden.end(),
                      [&](const Stretch& f) { return f.from < at && at < f.to; });
}

/// Every set of places, tried in order: the least key wins, the first of equals.
struct Brute {
  const Spreading& task;
  const std::vector<Stretch>& forbidden;
  Stretch whole;
  Places now, best;
  std::tuple<std::int64_t, std::int64_t> least{INT64_MAX, 0};

  void judge() {
    std::int64_t squares = 0, off = 0;
    for (std::size_t i = 0; i < now.size(); ++i) {
      squares += (now[i] - task.ideals[i]) * (now[i] - task.ideals[i]);
      off += std::abs(now[i] - task.middle);
    }
    if (std::tuple(squares, off) >= least) return;
    least = {squares, off};
    best = now;
  }
  void search() {
    if (now.size() == task.ideals.size()) return judge();
    for (std::int64_t at = whole.from; at <= whole.to; ++at) {
      if (!free_of(forbidden, at)) continue;
      if (!now.empty() && (at - now.back() < task.least || at - now.back() > task.greatest))
        continue;
      now.push_back(at);
      search();
      now.pop_back();
    }
  }
};

std::vector<Stretch> random_zones(trial::Dice& dice, int most, int length) {
  std::vector<Stretch> out;
  for (int i = dice.upto(most + 1); i > 0; --i) {
    const int from = dice.upto(length);
    out.push_back({from, from + dice.upto(length / 3 + 1)});
  }
  return out;
}

}  // namespace

TEST_CASE("allowed stretches: open zones leave their ends, also a single place between two") {
  CHECK(allowed_between({0, 10}, {}) == std::vector<Stretch>{{0, 10}});
  CHECK(allowed_between({0, 10}, {{2, 5}, {5, 8}}) ==
        std::vector<Stretch>{{0, 2}, {5, 5}, {8, 10}});
  CHECK(allowed_between({0, 10}, {{-5, 12}}).empty());
  CHECK(allowed_between({0, 10}, {{-5, 0}, {10, 20}}) == std::vector<Stretch>{{0, 10}});
  CHECK(allowed_between({0, 10}, {{4, 9}, {3, 6}}) == std::vector<Stretch>{{0, 3}, {9, 10}});
}

TEST_CASE("allowed stretches: at random, every whole place agrees with the zones") {
  trial::Dice dice{3};
  for (int n = 0; n < 300; ++n) {
    const auto zones = random_zones(dice, 5, 30);
    const auto allowed = allowed_between({0, 30}, zones);
    for (std::int64_t at = 0; at <= 30; ++at) {
      const bool in = std::any_of(allowed.begin(), allowed.end(),
                                  [&](const Stretch& a) { return a.from <= at && at <= a.to; });
      CHECK(in == free_of(zones, at));
    }
  }
}

TEST_CASE("spreading: at random, the places are those of brute force") {
  trial::Dice dice{20};
  int none = 0;
  for (int n = 0; n < 400; ++n) {
    Spreading t;
    const Stretch whole{0, 16};
    const auto zones = random_zones(dice, 4, 16);
    t.allowed = allowed_between(whole, zones);
    for (int i = 1 + dice.upto(4); i > 0; --i) t.ideals.push_back(dice.upto(17));
    std::sort(t.ideals.begin(), t.ideals.end());
    t.least = dice.upto(9);
    t.greatest = t.least + dice.upto(4);
    t.middle = dice.upto(17);
    Brute brute{t, zones, whole, {}, {}};
    brute.search();
    const auto found = spread_evenly(t);
    CAPTURE(n);
    CHECK(found.has_value() == !brute.best.empty());
    if (found) CHECK(*found == brute.best);
    none += found ? 0 : 1;
  }
  CHECK(none > 20);
  CHECK(none < 380);
}

TEST_CASE("spreading: nothing in the way leaves every thing at its ideal") {
  Spreading t;
  t.ideals = {200, 893, 1587, 2280};
  t.allowed = {{0, 2480}};
  t.step = 5;
  CHECK(*spread_evenly(t) == t.ideals);
  t.allowed = allowed_between({0, 2480}, {{850, 950}});
  CHECK(*spread_evenly(t) == Places{200, 850, 1587, 2280});
  t.before = 0;  // one that stands already, 150 away at least
  t.after = 2400;
  t.least = 150;
  CHECK(*spread_evenly(t) == Places{200, 850, 1587, 2250});
  t.reach = 40;
  CHECK_FALSE(spread_evenly(t));
  CHECK(spread_evenly(Spreading{})->empty());
}

TEST_CASE("half-bay rule: F1") {
  const Places posts = half_bays({0, 2500, 5000, 8000, 10700}, 1500);
  CHECK(posts == Places{625, 1875, 3125, 4375, 5750, 7250, 8675, 10025});
  Places bays;
  for (std::size_t i = 1; i < posts.size(); ++i) bays.push_back(posts[i] - posts[i - 1]);
  CHECK(bays == Places{1250, 1250, 1250, 1375, 1500, 1425, 1350});
  // Edge distance from the panel's end face: half a gap of 20 taken off.
  CHECK(posts[0] - 10 == 615);
  CHECK(posts[4] - 5000 - 10 == 740);
  CHECK(posts[6] - 8000 - 10 == 665);
}

TEST_CASE("imposed spacing: F2") {
  Places joints;
  for (std::int64_t i = 1; i <= 11; ++i) joints.push_back(2500 * i);
  std::vector<Stretch> zones;
  for (std::int64_t j : joints) zones.push_back({j - 200, j + 200});
  CHECK(free_phases(zones, 1500) == std::vector<Stretch>{{200, 300}, {700, 800}, {1200, 1300}});
  CHECK(free_phases(zones, 1400).empty());
  CHECK(free_phases(zones, 1250) == std::vector<Stretch>{{200, 1050}});
}

TEST_CASE("imposed spacing: at random, a phase is free when no thing is too near a joint") {
  trial::Dice dice{77};
  for (int n = 0; n < 100; ++n) {
    Places joints;
    for (int i = dice.upto(5); i >= 0; --i) joints.push_back(dice.upto(400));
    const std::int64_t spacing = 20 + dice.upto(40), clear = dice.upto(9);
    std::vector<Stretch> zones;
    for (std::int64_t j : joints) zones.push_back({j - clear, j + clear});
    const auto free = free_phases(zones, spacing);
    for (std::int64_t phase = 0; phase < spacing; ++phase) {
      bool good = true;
      for (std::int64_t j : joints)
        for (std::int64_t at = phase - 2 * spacing; at < 600; at += spacing)
          good = good && std::abs(at - j) >= clear;
      const bool found = std::any_of(free.begin(), free.end(), [&](const Stretch& f) {
        return f.from <= phase && phase <= f.to;
      });
      CHECK(found == good);
    }
  }
}

TEST_CASE("imposed spacing: the phase nearest to the wish, also round the circle") {
  const std::vector<Stretch> free{{200, 300}, {700, 800}, {1200, 1300}};
  CHECK(*nearest_phase(free, 250, 1500) == 250);
  CHECK(*nearest_phase(free, 450, 1500) == 300);
  CHECK(*nearest_phase(free, 1450, 1500) == 1300);
  CHECK(*nearest_phase({{100, 120}}, 1400, 1500) == 100);
  CHECK(*nearest_phase({{100, 120}}, -2900, 1500) == 100);
  CHECK_FALSE(nearest_phase({}, 250, 1500));
}

namespace {

auto standing_in(const std::vector<Stretch>& allowed) {
  return [allowed](std::int64_t last, std::int64_t limit) -> std::optional<std::int64_t> {
    std::optional<std::int64_t> best;
    for (const Stretch& a : allowed)
      if (a.from <= limit && std::min(a.to, limit) > last) best = std::min(a.to, limit);
    return best;
  };
}

/// Deck length drained: 20,000 at most, in mm.
Gutter by_length(std::int64_t end, std::vector<Stretch> forbidden, double caught) {
  Gutter g;
  g.run = {0, end};
  g.stand = standing_in(allowed_between(g.run, std::move(forbidden)));
  g.caught = caught;
  g.furthest = [](std::int64_t from, double carried) {
    return from + 20000 - std::llround(carried);
  };
  g.flow = [](std::int64_t from, std::int64_t to) { return static_cast<double>(to - from); };
  return g;
}

}  // namespace

TEST_CASE("scuppers along a gutter: F4") {
  const auto all = furthest_places(by_length(60000, {{19700, 20300}, {39500, 40500}}, 1));
  CHECK(all.places == Places{19700, 39500, 59500});
  CHECK_FALSE(all.dry_of_places);
  const auto part = furthest_places(by_length(60000, {{19700, 20300}, {35200, 36000}}, 0.8));
  CHECK(part.places == Places{19700, 35200, 51312});
}

TEST_CASE("scuppers along a gutter: a stretch without an allowed place is reported, not jumped") {
  const auto found = furthest_places(by_length(60000, {{19000, 41000}}, 1));
  CHECK(found.places == Places{19000});
  CHECK(found.dry_of_places == Stretch{19000, 39000});
  CHECK(furthest_places(by_length(15000, {}, 1)).places.empty());
}

TEST_CASE("scuppers along a gutter: at random, never more than brute force needs") {
  trial::Dice dice{5};
  for (int n = 0; n < 200; ++n) {
    const auto zones = random_zones(dice, 4, 40);
    Gutter g;
    g.run = {0, 40};
    g.stand = standing_in(allowed_between(g.run, zones));
    g.furthest = [](std::int64_t from, double) { return from + 12; };
    g.flow = [](std::int64_t from, std::int64_t to) { return static_cast<double>(to - from); };
    const auto found = furthest_places(g);
    // Fewest places by dynamic programming over every whole place.
    std::vector<int> fewest(41, 1000);
    for (int at = 40; at >= 0; --at) {
      if (at + 12 >= 40) fewest[static_cast<std::size_t>(at)] = 0;
      for (int to = at + 1; to <= std::min(at + 12, 40); ++to)
        if (free_of(zones, to))
          fewest[static_cast<std::size_t>(at)] = std::min(fewest[static_cast<std::size_t>(at)],
                                                          1 + fewest[static_cast<std::size_t>(to)]);
    }
    CAPTURE(n);
    CHECK(found.dry_of_places.has_value() == (fewest[0] >= 1000));
    if (!found.dry_of_places) CHECK(static_cast<int>(found.places.size()) == fewest[0]);
  }
}

TEST_CASE("overhangs of a bar on 2, 3 and 4 supports: F6") {
  CHECK(best_overhang(2) == doctest::Approx(0.2071).epsilon(0.0003));
  CHECK(best_overhang(3) == doctest::Approx(0.1449).epsilon(0.0005));
  CHECK(best_overhang(4) == doctest::Approx(0.1070).epsilon(0.0005));
  CHECK((1 - 2 * best_overhang(3)) / 2 == doctest::Approx(0.3551).epsilon(0.0003));
  CHECK((1 - 2 * best_overhang(4)) / 3 == doctest::Approx(0.2620).epsilon(0.0003));
  // Two supports: hogging over a support and sagging between are the same.
  const double a = best_overhang(2), hog = a * a / 2, sag = (0.5 - a) / 2 - 0.125;
  CHECK(hog == doctest::Approx(sag));
  CHECK(hog == doctest::Approx(0.02145).epsilon(0.001));
}

TEST_CASE("clips along a girder: F7") {
  const Stretch between{200, 2280};
  const int count = count_for(between, 800);
  CHECK(count == 4);
  CHECK(even_places(between, count) == Places{200, 893, 1587, 2280});
  CHECK(even_places({0, 2500}, 4) == Places{0, 833, 1667, 2500});
  CHECK(even_places({100, 301}, 1) == Places{200});
  CHECK(count_for({0, 1600}, 800) == 3);
  CHECK(count_for({0, 1601}, 800) == 4);
}
