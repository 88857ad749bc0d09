// What is said where there is no division, and how the work grows.
#include <doctest/doctest.h>

#include <algorithm>
#include <chrono>

#include "deck/optimum.h"

using namespace deckquire::optimum;

namespace {

constexpr Nm mm = 1'000'000;

Task one_run(Nm length, Nm least, Nm greatest, Nm step) {
  Task t;
  Limits l;
  l.least = least * mm;
  l.greatest = greatest * mm;
  l.step = step * mm;
  l.preferred = greatest * mm;
  l.divisors = false;
  l.grain = mm;
  t.runs = {{0, length * mm, l, false}};
  return t;
}

Infeasible refused(const Task& t) {
  const Answer a = fewest_types(t);
  REQUIRE(a.infeasible);
  REQUIRE(!a.layout);
  return *a.infeasible;
}

const Relaxation* relaxation(const Infeasible& why, const std::string& constraint) {
  for (const Relaxation& r : why.relaxations)
    if (r.constraint == constraint) return &r;
  return nullptr;
}

/// The task with one relaxation granted must have a division, and none with a step less of it.
void check_longest(Task t, const Infeasible& why, Nm step) {
  const Relaxation* r = relaxation(why, "longest");
  REQUIRE(r);
  t.runs[0].limits.greatest += r->amount - step;
  CHECK(!fewest_types(t).layout);
  t.runs[0].limits.greatest += step;
  CHECK(fewest_types(t).layout);
}

}  // namespace

TEST_CASE("optimum: a zone longer than the greatest pitch, said with both cures") {
  // The reference's message DIV-03: no joint between 4.000 and 7.200, pitch at most 3,000.
  Task t = one_run(12000, 1500, 3000, 100);
  t.zones = {{4000 * mm, 6800 * mm, "hatch H1"}, {6500 * mm, 7200 * mm, "post P7"}};
  const Infeasible why = refused(t);
  CHECK(why.code == Infeasible::Code::zone_too_long);
  CHECK(why.from == 4000 * mm);
  CHECK(why.to == 7200 * mm);
  CHECK(why.required == 3200 * mm);
  CHECK(why.available == 3000 * mm);
  REQUIRE(!why.constraints.empty());
  CHECK(why.constraints[0] == "hatch H1 + post P7");
  REQUIRE(!why.relaxations.empty());
  REQUIRE(relaxation(why, "longest"));
  CHECK(relaxation(why, "longest")->amount == 200 * mm);
  REQUIRE(relaxation(why, "hatch H1 + post P7"));
  CHECK(relaxation(why, "hatch H1 + post P7")->amount == 100 * mm);  // 100 at each end
  check_longest(t, why, 100 * mm);
}

TEST_CASE("optimum: a line that must be a joint inside a zone") {
  Task t = one_run(10000, 1500, 3000, 100);
  t.runs.push_back(t.runs[0]);
  t.runs[1].from = 10000 * mm;
  t.runs[1].to = 18500 * mm;
  t.zones = {{9800 * mm, 10300 * mm, "splice S2"}};
  const Infeasible why = refused(t);
  CHECK(why.code == Infeasible::Code::line_in_zone);
  REQUIRE(why.relaxations.size() == 1);
  CHECK(why.relaxations[0].constraint == "splice S2");
  CHECK(why.relaxations[0].amount == 200 * mm);
  CHECK(why.relaxations[0].at == 10000 * mm);
}

TEST_CASE("optimum: a run shorter than the least pitch") {
  const Infeasible why = refused(one_run(1200, 1500, 3000, 100));
  CHECK(why.code == Infeasible::Code::run_too_short);
  CHECK(why.required == 1500 * mm);
  CHECK(why.available == 1200 * mm);
  REQUIRE(relaxation(why, "shortest"));
  CHECK(relaxation(why, "shortest")->amount == 300 * mm);
}

TEST_CASE("optimum: limits too close together for the run's length") {
  // 10 m in pitches of 2800 to 3000: three are 9000 at most, four 11200 at least.
  const Task t = one_run(10000, 2800, 3000, 100);
  const Infeasible why = refused(t);
  CHECK(why.code == Infeasible::Code::no_lines);
  CHECK(relaxation(why, "shortest")->amount == 300 * mm);  // four of 2500
  CHECK(relaxation(why, "longest")->amount == 400 * mm);   // 3400 + 3400 + 3200
  CHECK(why.relaxations[0].constraint == "shortest");      // the smaller one first
  CHECK(!relaxation(why, "step"));
  check_longest(t, why, 100 * mm);
}

TEST_CASE("optimum: a length off the lattice needs a closing panel or a finer step") {
  Task t = one_run(10037, 1500, 3000, 100);
  const Infeasible why = refused(t);
  CHECK(why.code == Infeasible::Code::no_lines);
  CHECK(relaxation(why, "closing"));
  CHECK(relaxation(why, "step"));
  CHECK(!relaxation(why, "longest"));
  t.runs[0].limits.closing = Closing{1500 * mm, 3000 * mm, true};
  const Answer a = fewest_types(t);
  REQUIRE(a.layout);
  CHECK(a.layout->types == 2);
}

TEST_CASE("optimum: zones that lock one another") {
  // The first line must stand from 2000 to 3000; the two zones leave 2960 to 2970 of that, where no
  // whole step is.
  Task t = one_run(6000, 2000, 3000, 100);
  t.zones = {{1950 * mm, 2960 * mm, "splice S1"}, {2970 * mm, 3940 * mm, "hatch H1"}};
  const Infeasible why = refused(t);
  CHECK(why.code == Infeasible::Code::no_lines);
  REQUIRE(relaxation(why, "splice S1"));
  CHECK(relaxation(why, "splice S1")->amount == 50 * mm);  // lines at 2000 and 4000
  REQUIRE(relaxation(why, "hatch H1"));
  CHECK(relaxation(why, "hatch H1")->amount == 30 * mm);  // a line at 3000
  CHECK(why.relaxations[0].constraint == "hatch H1");
  CHECK(!relaxation(why, "step"));  // a line at 2965 would be 3035 from the end
  CHECK(why.from == 0);
  CHECK(why.to == 3000 * mm);
  CHECK(std::count(why.constraints.begin(), why.constraints.end(), "splice S1") == 1);
}

TEST_CASE("optimum: five lengths are needed, the beam finds a division and says what is proven") {
  // Zones leave single lines whose distances are five different lengths.
  Task t = one_run(35, 5, 9, 1);
  const Nm lines[] = {5, 11, 18, 26, 35};  // distances 5, 6, 7, 8, 9: none may be skipped
  Nm at = 0;
  for (Nm x : lines) {
    t.zones.push_back({at * mm, x * mm, "zone"});
    at = x;
  }
  const Answer a = fewest_types(t);
  REQUIRE(a.layout);
  CHECK(a.layout->types == 5);
  CHECK(a.layout->proof.at_least == 5);
  CHECK(a.layout->proof.fewest);  // four and fewer were all tried
  CHECK(words(a.layout->proof, 5).find("no layout with fewer than 5") == 0);
}

TEST_CASE("optimum: panels of one pitch and two kinds are two types") {
  Task t = one_run(12000, 2000, 3000, 500);
  // Wide from 4.5 m on: a panel across that line is a third kind.
  t.kind = [](Nm from, Nm to) { return to <= 4500 * mm ? 0 : from >= 4500 * mm ? 1 : 2; };
  const Answer a = fewest_types(t);
  REQUIRE(a.layout);
  // Four of 3000 cross it (3 types); 2000 + 2500 and 3 x 2500 have a joint there: 3 types, five
  // panels; with two types only 1500 would do.
  CHECK(a.layout->types == 3);
  CHECK(a.layout->cost.panels == 4);
}

TEST_CASE("optimum: the work grows with the deck's length; equal spans are solved once") {
  const auto seconds = [](const Task& t) {
    const auto before = std::chrono::steady_clock::now();
    const Answer a = fewest_types(t);
    REQUIRE(a.layout);
    CHECK(a.layout->proof.fewest);
    return std::chrono::duration<double>(std::chrono::steady_clock::now() - before).count();
  };
  // 84 spans of 30 m, 1008 panels of 2500; each with a splice in another place.
  const auto deck = [](int spans, bool equal) {
    Task t = one_run(30000, 2000, 3000, 50);
    const Run first = t.runs[0];
    t.runs.clear();
    for (int i = 0; i < spans; ++i) {
      Run r = first;
      r.from = i * 30000 * mm;
      r.to = r.from + 30000 * mm;
      t.runs.push_back(r);
      const Nm shift = equal ? 0 : (i * 37) % 900;
      for (Nm s : {8300 + shift, 21300 - shift})
        t.zones.push_back({r.from + s * mm, r.from + (s + 900) * mm, "splice"});
    }
    return t;
  };
  // Unoptimised builds on busy machines are ten times slower than what is asked of the program.
  CHECK(seconds(deck(84, true)) < 1.0);
  CHECK(seconds(deck(84, false)) < 3.0);
  std::int64_t panels = fewest_types(deck(84, true)).layout->cost.panels;
  CHECK(panels >= 840);
}
