#include "checks/fit.h"

#include <cmath>

#include "checks/clearance.h"
#include "deck/trial.h"

using namespace deckquire;

namespace {

bool has(const std::string& codes, const std::string& code) {
  return (" " + codes + " ").find(" " + code + " ") != std::string::npos;
}

}  // namespace

TEST_CASE("fit: the examples have nothing to be said") {
  for (const char* name : {"saltmarsh", "quickstart", "orchard"}) {
    CAPTURE(name);
    CHECK(trial::codes_of(trial::example(name)) == "");
  }
}

TEST_CASE("fit: a skewed panel on a parabola is warped, as by hand") {
  // z = dg / (2 L) s2; the ends' corners lie e = half width x tan(skew) before and behind: the warp
  // is dg / (2 L) x 4 e l, and each corner off by a quarter of it.
  Project p = trial::example("quickstart");
  p.deck.joints.skew = degrees(30);
  p.bridge.splices.clear();
  const Length length = p.bridge.alignment.to - p.bridge.alignment.from;
  const auto parabola = [&](double change) {
    p.bridge.alignment.grades = {{Length(), metres(50), {}},
                                 {length / 2, metres(50), {}, length},
                                 {length, metres(50) + length / 2 * change, {}}};
    return trial::build(p);
  };
  const auto b = parabola(0.06);
  const auto all = b.findings.sorted();
  const auto found = std::find_if(all.begin(), all.end(),
                                  [](const Finding& f) { return f.code == "panel-warped"; });
  REQUIRE_MESSAGE(found != all.end(), trial::codes(b.findings));
  double longest = 0;
  for (const Panel& q : b.deck.panels) longest = std::max(longest, q.shape.length);
  const double e = 1200 * std::tan(pi / 6);
  const double by_hand = 0.06 / (2 * length.in_mm()) * e * longest;
  CHECK(by_hand == doctest::Approx(2.6).epsilon(0.02));
  CHECK_MESSAGE(found->what.find("a flat panel is 2.6 off") != std::string::npos, found->what);
  CHECK(!has(trial::codes(parabola(0.04).findings), "panel-warped"));  // 1.7
}

TEST_CASE("fit: each change that does not fit is found") {
  const Project good = trial::example("saltmarsh");
  struct Change {
    const char* code;
    void (*make)(Project&);
  };
  const Change changes[] = {
      {"opening-over-flange", [](Project& p) { p.deck.sleeves[0].offset = mm(1000); }},
      {"opening-over-flange", [](Project& p) { p.deck.scuppers->inset = mm(100); }},
      {"features-overlap", [](Project& p) { p.deck.scuppers->scuppers[0].station = mm(8776); }},
      {"features-too-near",
       [](Project& p) {  // sleeve edge 250 - 40 = 210 less 200 away from the recess
         p.deck.sleeves[0].station = mm(41296);
         p.deck.sleeves[0].offset = mm(800);
       }},
      {"recess-cover", [](Project& p) { p.deck.section.recess_cover = mm(89); }},
      {"recess-deep", [](Project& p) { p.bridge.splices[0].projection = mm(55); }},
      {"edge-too-thin", [](Project& p) { p.deck.section.least_edge = mm(115); }},
      {"crossfall-steep", [](Project& p) { p.deck.section.slope = 0.021; }},
      {"slope-excess", [](Project& p) { p.bridge.alignment.grades[1].level = metres(104.5); }},
      {"grade-changes-inside-panel",
       [](Project& p) {
         p.bridge.alignment.grades.insert(p.bridge.alignment.grades.begin() + 1,
                                          {mm(41296), metres(102), {}});
       }},
      {"vertical-curve-off-panel",
       [](Project& p) {
         p.bridge.alignment.grades.insert(p.bridge.alignment.grades.begin() + 1,
                                          {mm(41296), metres(102), {}, metres(3)});
       }},
      {"bolt-near-plate-edge", [](Project& p) { p.deck.posts->plate.pitch_across = mm(42); }},
      {"thread-short", [](Project& p) { p.deck.posts->plate.tap_depth = mm(15); }},
      {"tapped-through", [](Project& p) { p.deck.posts->plate.tap_depth = mm(17); }},
      {"plate-cover", [](Project& p) { p.deck.posts->plate.width = mm(90); }},
      {"shipping-width", [](Project& p) { p.conditions.ship_width = mm(2487); }},
      {"shipping-length", [](Project& p) { p.conditions.ship_length = mm(3899); }},
      {"shipping-mass", [](Project& p) { p.conditions.ship_mass = Mass::si(500); }},
      {"hatch-cover-heavy", [](Project& p) { p.deck.hatches[0].cover = mm(30); }},
      {"feature-near-joint", [](Project& p) { p.deck.hatches[0].station = mm(2532 + 340 + 49); }},
  };
  for (const Change& c : changes) {
    CAPTURE(c.code);
    Project p = good;
    c.make(p);
    const std::string found = trial::codes_of(p);
    CAPTURE(found);
    CHECK(has(found, c.code));
  }
}

TEST_CASE("fit: a value exactly at its limit is right") {
  Project p = trial::example("saltmarsh");
  p.deck.section.least_edge = mm(150 - 0.015 * 2400);
  p.conditions.ship_length = mm(3900);
  p.conditions.ship_width = mm(2488);
  p.deck.section.recess_cover = mm(150 - 0.015 * 1150 - 16 - 32 - 10 + 10);
  CHECK(trial::codes_of(p) == "");
}

TEST_CASE("clearances: the same in either order, and every one has a source") {
  Findings findings;
  const Clearances all(trial::example("saltmarsh"), findings);
  CHECK(findings.empty());
  for (int a = 0; a < part_count; ++a)
    for (int b = 0; b < part_count; ++b) {
      const ClearanceRule *r = all.between(Part(a), Part(b)), *s = all.between(Part(b), Part(a));
      CHECK((r == nullptr) == (s == nullptr));
      if (!r) continue;
      CHECK(r->plan == s->plan);
      CHECK(r->depth == s->depth);
      CHECK(!r->source.empty());
      CHECK(all.reach(Part(a)) >= r->plan);
    }
}

TEST_CASE("scope: what can hurt someone is listed as not checked") {
  const Project project = trial::example("quickstart");  // says nothing of loads
  trial::Built b = trial::build(project);
  const CheckScope scope = check_scope(project, b.bridge, b.deck, b.findings);
  CHECK(!scope.checked.empty());
  for (const char* word : {"strength", "anchorage", "lifting", "drainage", "uplift", "movement"}) {
    CAPTURE(word);
    CHECK(std::any_of(scope.not_checked.begin(), scope.not_checked.end(), [&](const auto& s) {
      return s.find(word) != std::string::npos && s.find(": needs ") != std::string::npos;
    }));
  }
}
