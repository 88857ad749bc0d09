// Measured panels in their runs: drift by hand, the prediction by the closed form (normal distribution;
// Abramowitz and Stegun, Handbook of Mathematical Functions, 26.2, from memory) and by closure_test.
#include "schedules/as_built.h"

#include <doctest/doctest.h>

#include <cmath>

#include "deck/trial.h"

using namespace deckquire;

namespace {

history::BuiltPanel cast(const Panel& p, const Deck& deck, double left, double right) {
  history::BuiltPanel b;
  b.serial = p.serial, b.mark = deck.marks[static_cast<std::size_t>(p.mark)].name;
  b.date = "2027-01-11", b.length_left = mm(left), b.length_right = mm(right);
  return b;
}

/// The first panels of quickstart (seven of 2489, one of 2485, gaps 12, end gaps 32), 1.5 and 1 mm too
/// long, left and right as they lie.
struct Story {
  Project project = trial::example("quickstart");
  trial::Built built;
  history::Register issued;
  explicit Story(int measured, double left = 1.5, double right = 1) {
    project.conditions.temperature.least_gap = mm(25);
    built = trial::build(project);
    history::Entry e;
    for (int i = 0; i < measured; ++i) {
      const Panel& p = built.deck.panels[static_cast<std::size_t>(i)];
      const double l = p.shape.length + left, r = p.shape.length + right;
      e.built.push_back(cast(p, built.deck, p.turned ? r : l, p.turned ? l : r));
    }
    issued.entries.push_back(e);
  }
  std::vector<MeasuredRun> runs() const { return measured_runs(project, built.deck, issued); }
  std::string said() const {
    Findings f;
    find_as_built(project, built.deck, runs(), f);
    std::string out;
    for (const Finding& x : f.sorted()) out += x.code + ": " + x.what + "; " + x.remedy + "\n";
    return out;
  }
};

double normal(double x) { return 0.5 * std::erfc(-x / std::sqrt(2.0)); }

}  // namespace

TEST_CASE("as built: drift left and right by hand, the closing gap and the prediction by closed form") {
  const Story s(6);
  const auto runs = s.runs();
  REQUIRE(runs.size() == 1);
  const MeasuredRun& r = runs.front();
  CHECK(r.measured == 6);
  CHECK(r.panels[5].drift_left == doctest::Approx(9));
  CHECK(r.panels[5].drift_right == doctest::Approx(6));
  CHECK(r.panels[7].drift_left == doctest::Approx(9));
  CHECK(r.drift == doctest::Approx(9));
  CHECK(r.closing->name == "J9");
  CHECK(*r.can_take() == doctest::Approx(7));  // 32 - 25
  // Two panels of +-3 and seven gaps of +-3 to come; the mean of those measured goes on.
  CHECK(r.prediction.drift == doctest::Approx(9 + 2 * 1.5));
  CHECK(r.prediction.worst == doctest::Approx(27));
  CHECK(r.prediction.root_sum_square == doctest::Approx(9));
  CHECK(r.prediction.within_normal == doctest::Approx(normal((7 - 12) / 3.0) - normal((-7 - 12) / 3.0)));
  CHECK(r.too_far());
  const Table t = as_built_table(s.project, s.built.deck, runs), c = closure_table(s.built.deck, runs);
  CHECK(t.rows.size() == 8);
  REQUIRE(c.rows.size() == 1);
  for (const auto& row : t.rows) CHECK(row.size() == t.columns.size());
  CHECK(c.rows[0].size() == c.columns.size());
  CHECK(std::get<std::string>(c.rows[0].back()) == "NO");
}

TEST_CASE("as built: a run that does not close says what would close it") {
  const std::string text = Story(6).said();
  CHECK(text.find("run-does-not-close: span 1: 6 of 8 panels were measured, together 9 longer than designed; the "
                  "closing gap at joint J9 becomes 23 instead of 32, and it can take 7") == 0);
  // Panel 7 less 9, or less 2 at the least.
  CHECK(text.find("0301-007 at position 7, 2480 instead of 2489 long (2487 at most closes)") !=
        std::string::npos);
  // 2 over seven joints of 12, which would be tighter than 25.
  CHECK(text.find("tighter") == std::string::npos);
  CHECK(Story(2).said() == "run-may-not-close: span 1: 2 of 8 panels were measured, together 3 longer than designed, "
                           "1.5 each; if the others come out so too, the run ends 12 off; the closing gap can take "
                           "7: put the mould right before the next panel is cast\n");
  CHECK(Story(4, 1, 1).said().find("run-may-not-close") == 0);  // 4 + 4 is more than 7
  CHECK(Story(4, 0.8, 0.8).said().empty());                     // 3.2 + 3.2 is not
  CHECK(Story(3, -3, -3).said().find("run-does-not-close: span 1: 3 of 8 panels were measured, together 9 shorter") == 0);
}

TEST_CASE("as built: out of tolerance, and what is not measured or not stated") {
  Story s(1, 4, -1);
  CHECK(s.said().find("panel-out-of-tolerance: panel 0301-001 at position 1 was measured 4 too long; the "
                      "tolerance of length is ±3") != std::string::npos);
  CHECK(Story(0).runs().empty());
  // Without a least gap only what closes the gap altogether is an error.
  Story open(6);
  open.project.conditions.temperature = {};
  CHECK(open.said().empty());
  CHECK(!open.runs().front().can_take());
  // One side alone stands for both.
  Story one(6);
  for (auto& b : one.issued.entries[0].built) b.length_right.reset(), b.length_left = mm(2490.5);
  CHECK(one.runs().front().panels[5].drift_right == doctest::Approx(9));
  // What was measured to an earlier mark does not count.
  Story again(1);
  history::BuiltPanel b = again.issued.entries[0].built[0];
  b.mark = "DP99", b.length_left.reset(), b.length_right.reset();
  again.issued.entries[0].built.push_back(b);
  CHECK(again.runs().empty());
}

TEST_CASE("as built: from both ends the run closes in its middle") {
  Story s(6);
  s.project.conditions.erection.way = ErectionWay::both_ends;
  const MeasuredRun r = s.runs().front();
  // 1 8 2 7 3 6 4 5: the last one closes at the joint ahead of it.
  CHECK(r.panels.back().panel == 4);
  CHECK(r.closing->name == "J6");
}
