// Check cases D1 to D9 of the reference on algorithms (each computed twice there), and every
// division of small runs counted one by one.
#include "deck/optimum.h"

#include <doctest/doctest.h>

#include <chrono>
#include <cmath>
#include <map>
#include <numeric>
#include <set>

using namespace deckquire::optimum;

namespace {

constexpr Nm mm = 1'000'000;

Limits limits(Nm least, Nm greatest, Nm step, Nm preferred) {
  Limits l;
  l.least = least * mm;
  l.greatest = greatest * mm;
  l.step = step * mm;
  l.preferred = preferred * mm;
  l.divisors = false;
  l.grain = mm;
  return l;
}

Task task_of(std::vector<Nm> lengths, const Limits& l, std::vector<std::pair<Nm, Nm>> zones = {}) {
  Task t;
  Nm at = 0;
  for (Nm length : lengths) {
    t.runs.push_back({at, at + length * mm, l, false});
    at += length * mm;
  }
  for (const auto& [from, to] : zones) t.zones.push_back({from * mm, to * mm, "zone"});
  return t;
}

std::vector<Nm> pitches(const Layout& l, std::size_t run = 0) {
  std::vector<Nm> out;
  for (std::size_t i = 1; i < l.lines[run].size(); ++i)
    out.push_back((l.lines[run][i] - l.lines[run][i - 1]) / mm);
  return out;
}

/// "10x2500 2x2600": runs of equal pitches in order.
std::string shown(const std::vector<Nm>& p) {
  std::string out;
  for (std::size_t i = 0, k = 0; i < p.size(); i = k) {
    while (k < p.size() && p[k] == p[i]) ++k;
    out += (out.empty() ? "" : " ") + std::to_string(k - i) + "x" + std::to_string(p[i]);
  }
  return out;
}

Layout solved(const Task& t) {
  const Answer a = fewest_types(t);
  REQUIRE(a.layout);
  REQUIRE(!a.infeasible);
  return *a.layout;
}

}  // namespace

TEST_CASE("optimum: one run, D1 and D2") {
  Layout l = solved(task_of({24000}, limits(2000, 3000, 50, 2500)));
  CHECK(l.types == 1);
  CHECK(shown(pitches(l)) == "8x3000");
  CHECK(l.proof.fewest);
  CHECK(l.proof.compared);
  CHECK(words(l.proof, l.types) == "one type is the least there can be");
  l = solved(task_of({25000}, limits(2000, 3000, 50, 2500)));
  CHECK(l.types == 1);
  CHECK(shown(pitches(l)) == "10x2500");
}

TEST_CASE("optimum: zones at 9 m and 21 m, D3: one type decides before fewer panels") {
  const Task t = task_of({30000}, limits(1500, 3000, 100, 2500), {{8700, 9300}, {20700, 21300}});
  const Layout l = solved(t);
  CHECK(l.types == 1);
  CHECK(shown(pitches(l)) == "12x2500");
  const auto two = best_with(t, 2);
  REQUIRE(two);
  CHECK(two->cost.panels == 11);
  CHECK(two->types == 2);
}

TEST_CASE("optimum: three zones, D4") {
  const Task t = task_of({24000}, limits(2000, 3000, 250, 2500),
                         {{5650, 7250}, {11500, 12500}, {17800, 18200}});
  const Layout l = solved(t);
  CHECK(l.types == 2);
  CHECK(l.cost.panels == 9);
  CHECK(l.cost.deviation == 1500 * mm);
  CHECK(shown(pitches(l)) == "3x2500 6x2750");
  CHECK(l.proof.fewest);
  CHECK(words(l.proof, 2) == "no layout with fewer than 2 types exists on this lattice");
}

TEST_CASE("optimum: two runs share types, D5: run divisors change the answer") {
  Limits l = limits(1500, 3000, 50, 2500);
  Layout a = solved(task_of({18500, 13200}, l));
  CHECK(a.types == 2);
  CHECK(a.cost.panels == 12);
  CHECK(a.cost.deviation == 1700 * mm);
  CHECK(a.cost.squares == Wide{245000} * mm * mm);
  CHECK(shown(pitches(a, 0)) == "1x2600 6x2650");
  CHECK(shown(pitches(a, 1)) == "1x2600 4x2650");
  l.divisors = true;
  a = solved(task_of({18500, 13200}, l));
  CHECK(a.types == 2);
  CHECK(a.cost.panels == 12);
  CHECK(a.cost.deviation == 1700 * mm);
  CHECK(a.cost.squares == Wide{241000} * mm * mm);
  CHECK(shown(pitches(a, 0)) == "5x2640 2x2650");
  CHECK(shown(pitches(a, 1)) == "5x2640");
}

TEST_CASE("optimum: a zone over the middle, D6: free, and the price of symmetry") {
  Task t = task_of({28000}, limits(2000, 3000, 100, 2500), {{13500, 14500}});
  Layout l = solved(t);
  CHECK(l.types == 2);
  CHECK(l.cost.panels == 10);
  CHECK(shown(pitches(l)) == "5x2700 5x2900");  // a line exactly at 13500 is legal
  t.runs[0].symmetrical = true;
  l = solved(t);
  CHECK(l.types == 2);
  CHECK(l.cost.panels == 11);
  auto p = pitches(l);
  CHECK(l.lines[0][5] == 12700 * mm);
  CHECK(l.lines[0][6] == 15300 * mm);
  CHECK(std::equal(p.begin(), p.end(), p.rbegin()));
  CHECK(std::count(p.begin(), p.end(), 2500) == 6);
  CHECK(std::count(p.begin(), p.end(), 2600) == 5);
}

TEST_CASE("optimum: a closing panel, D7; with divisors none is needed") {
  Limits l = limits(1500, 3000, 100, 3000);
  l.closing = Closing{1000 * mm, 3000 * mm, false};
  Layout a = solved(task_of({26370}, l));
  CHECK(a.types == 2);
  CHECK(shown(pitches(a)) == "8x3000 1x2370");
  l.closing->inside = true;  // not beside the run's end
  a = solved(task_of({26370}, l));
  CHECK(shown(pitches(a)) == "7x3000 1x2370 1x3000");
  l.divisors = true;
  a = solved(task_of({26370}, l));
  CHECK(a.types == 1);
  CHECK(shown(pitches(a)) == "9x2930");
}

TEST_CASE("optimum: a taper, D8: greedy joints, and the lightest heaviest panel") {
  // 3 to 5 m wide over 12 m, 0.2 m of 2500 kg/m3: the mass of a panel in mg is
  // 0.5 kg/mm2/m ... 500 kg/m2 * (3 L + (b2 - a2) / 12).
  Taper t;
  t.run.from = 0;
  t.run.to = 12000 * mm;
  t.run.limits = limits(500, 12000, 10, 2400);
  t.load = [](Nm from, Nm to) {
    const Nm a = from / mm, b = to / mm;  // 500 kg/m2 on whole mm: mg
    return 500 * (3000 * (b - a) + (b * b - a * a) / 12);
  };
  const std::int64_t kg = 1'000'000;
  CHECK(t.load(0, 12000 * mm) == 24000 * kg);
  t.most = 5000 * kg;
  const auto greedy = longest_first(t);
  REQUIRE(greedy);
  CHECK(greedy->lines ==
        std::vector<Nm>{0, 3070 * mm, 5740 * mm, 8140 * mm, 10340 * mm, 12000 * mm});
  CHECK(static_cast<double>(t.load(10340 * mm, 12000 * mm)) / 1e6 ==
        doctest::Approx(4035.2).epsilon(1e-5));
  const auto best = spread(t);
  REQUIRE(best);
  CHECK(best->lines.size() == 6);
  CHECK(static_cast<double>(best->heaviest) / 1e6 == doctest::Approx(4806.08).epsilon(1e-6));
}

TEST_CASE("optimum: on a curve, D9: equal pitches make equal wedges, rectangles do not fit") {
  // Plain geometry of radial joints: what the division's pitch stands for on a curve.
  const double radius = 60000, half = 1500, pitch = 2500, turn = pitch / radius;
  CHECK(turn * 180 / 3.14159265358979323846 == doctest::Approx(2.387324).epsilon(1e-6));
  CHECK(turn * (radius - half) == doctest::Approx(2437.5));
  CHECK(turn * (radius + half) == doctest::Approx(2562.5));
  CHECK(2 * (radius - half) * std::sin(turn / 2) == doctest::Approx(2437.324).epsilon(1e-6));
  CHECK(2 * (radius + half) * std::sin(turn / 2) == doctest::Approx(2562.315).epsilon(1e-6));
  CHECK((radius + half) * (1 - std::cos(turn / 2)) == doctest::Approx(13.346).epsilon(1e-4));
  // The run of four such panels: one type by pitch.
  const Layout l = solved(task_of({10000}, limits(1500, 2500, 100, 2500)));
  CHECK(l.types == 1);
  CHECK(shown(pitches(l)) == "4x2500");
}

// ---- every division of small runs

namespace {

struct Dice {
  std::uint64_t state;
  int upto(int n) {
    state = state * 6364136223846793005u + 1442695040888963407u;
    return static_cast<int>((state >> 33) % static_cast<std::uint64_t>(n));
  }
};

struct Small {
  Task task;
  Nm least = 0, greatest = 0;
};

/// Each way to divide a run: lines, one by one, nothing left out but what is against the rules.
void every_division(const Small& s, const Run& run, std::vector<Nm>& lines,
                    std::map<std::set<Nm>, std::pair<Cost, std::vector<Nm>>>& best) {
  if (lines.back() == run.to) {
    std::set<Nm> types;
    Cost cost;
    for (std::size_t i = 1; i < lines.size(); ++i) {
      const Nm p = lines[i] - lines[i - 1], off = std::abs(p - run.limits.preferred);
      types.insert(p);
      cost += Cost{1, off, Wide{off} * off, 0};
    }
    if (run.symmetrical)
      for (Nm x : lines)
        if (std::find(lines.begin(), lines.end(), run.from + run.to - x) == lines.end()) return;
    const auto value = std::pair(cost, lines);
    const auto [at, fresh] = best.try_emplace(types, value);
    if (!fresh && value < at->second) at->second = value;
    return;
  }
  for (Nm p = s.least; p <= s.greatest; ++p) {
    const Nm x = lines.back() + p;
    if (x > run.to) break;
    bool out = false;
    for (const Zone& z : s.task.zones) out = out || (z.from < x && x < z.to && x != run.to);
    if (out) continue;
    lines.push_back(x);
    every_division(s, run, lines, best);
    lines.pop_back();
  }
}

struct Key {
  int types = 0;
  Cost cost;
  std::vector<std::vector<Nm>> lines;
  friend bool operator<(const Key& a, const Key& b) {
    if (a.types != b.types) return a.types < b.types;
    return a.cost != b.cost ? a.cost < b.cost : a.lines < b.lines;
  }
};

std::optional<Key> by_counting(const Small& s) {
  std::vector<std::map<std::set<Nm>, std::pair<Cost, std::vector<Nm>>>> runs;
  for (const Run& r : s.task.runs) {
    runs.emplace_back();
    std::vector<Nm> lines{r.from};
    every_division(s, r, lines, runs.back());
  }
  std::optional<Key> best;
  const auto offer = [&](std::set<Nm> types, Cost cost, std::vector<std::vector<Nm>> lines) {
    const Key k{static_cast<int>(types.size()), cost, std::move(lines)};
    if (!best || k < *best) best = k;
  };
  for (const auto& [types, way] : runs[0]) {
    if (runs.size() == 1) {
      offer(types, way.first, {way.second});
      continue;
    }
    for (const auto& [more, other] : runs[1]) {
      std::set<Nm> all = types;
      all.insert(more.begin(), more.end());
      offer(all, way.first + other.first, {way.second, other.second});
    }
  }
  return best;
}

Small small_case(Dice& dice, int runs, bool symmetrical) {
  Small s;
  s.least = 5 + dice.upto(3);
  s.greatest = s.least + 1 + dice.upto(4);
  Limits l;
  l.least = s.least;
  l.greatest = s.greatest;
  l.step = 1;
  l.preferred = s.least + dice.upto(static_cast<int>(s.greatest - s.least) + 1);
  l.divisors = false;
  Nm at = 0;
  for (int r = 0; r < runs; ++r) {
    const Nm length = (runs == 1 ? 30 : 20) + dice.upto(runs == 1 ? 31 : 21);
    s.task.runs.push_back({at, at + length, l, symmetrical});
    at += length;
  }
  for (int z = dice.upto(5); z > 0; --z) {
    const Nm from = 1 + dice.upto(static_cast<int>(at) - 2);
    s.task.zones.push_back({from, from + 1 + dice.upto(5), "zone"});
  }
  // A line that must be a joint is not in question here.
  std::erase_if(s.task.zones, [&](const Zone& z) {
    return std::any_of(s.task.runs.begin(), s.task.runs.end(), [&](const Run& r) {
      return (z.from < r.from && r.from < z.to) || (z.from < r.to && r.to < z.to);
    });
  });
  return s;
}

void compare(const Small& s) {
  const auto counted = by_counting(s);
  const Answer a = fewest_types(s.task);
  CHECK(counted.has_value() == a.layout.has_value());
  CHECK(a.infeasible.has_value() != a.layout.has_value());
  if (!counted || !a.layout) return;
  CHECK(a.layout->types == counted->types);
  if (counted->types > 4) return;  // the beam claims nothing more
  CHECK(a.layout->proof.fewest);
  CHECK(a.layout->proof.compared);
  CHECK(a.layout->cost == counted->cost);
  CHECK(a.layout->lines == counted->lines);
}

}  // namespace

TEST_CASE("optimum: small runs with zones, as good as every division counted one by one") {
  Dice dice{7};
  for (int i = 0; i < 150; ++i) {
    CAPTURE(i);
    compare(small_case(dice, 1, false));
  }
}

TEST_CASE("optimum: two small runs, as good as every pair of divisions") {
  Dice dice{11};
  for (int i = 0; i < 150; ++i) {
    CAPTURE(i);
    compare(small_case(dice, 2, false));
  }
}

TEST_CASE("optimum: symmetrical small runs, as good as every symmetrical division") {
  Dice dice{13};
  for (int i = 0; i < 200; ++i) {
    CAPTURE(i);
    compare(small_case(dice, 1 + i % 2, true));
  }
}

TEST_CASE("optimum: a closing panel in small runs, no worse than every division with one") {
  // Panels of even lengths and one of any length: counted by trying each place and length of it.
  Dice dice{17};
  for (int i = 0; i < 100; ++i) {
    CAPTURE(i);
    Small s = small_case(dice, 1, false);
    Limits& l = s.task.runs[0].limits;
    l.step = 2;
    l.closing = Closing{4, s.greatest, false};
    const Nm end = s.task.runs[0].to;
    const auto free = [&](Nm x) {
      return x == end || std::none_of(s.task.zones.begin(), s.task.zones.end(),
                                      [&](const Zone& z) { return z.from < x && x < z.to; });
    };
    std::optional<std::pair<int, std::int64_t>> best;  // types, panels
    const std::function<void(Nm, std::set<Nm>, std::int64_t, bool)> walk =
        [&](Nm at, std::set<Nm> types, std::int64_t n, bool closed) {
          if (at == end) {
            const std::pair key(static_cast<int>(types.size()), n);
            if (!best || key < *best) best = key;
            return;
          }
          for (Nm p = 4; p <= s.greatest && at + p <= end; ++p) {
            const bool whole = p % 2 == 0 && p >= s.least;
            if ((!whole && closed) || !free(at + p)) continue;
            std::set<Nm> more = types;
            more.insert(p);
            walk(at + p, more, n + 1, closed || !whole);
          }
        };
    walk(0, {}, 0, false);
    const Answer a = fewest_types(s.task);
    CHECK(best.has_value() == a.layout.has_value());
    if (!best || !a.layout || best->first > 4) continue;
    CHECK(a.layout->types == best->first);
    CHECK(a.layout->cost.panels == best->second);
  }
}
