// panel-strip as it is typed: what lists mean, what is refused, what is not checked.
#include <algorithm>
#include <string>

#include "support/reckoned.h"
#include "workings/strip_inputs.h"
#include "workings/threads.h"

using namespace deckquire::testing;
using namespace deckquire::workings;

namespace {

Typed with(Typed typed, const Typed& more) {
  typed.insert(typed.end(), more.begin(), more.end());
  return typed;
}

const Typed strip{{"L", "3000"}, {"supports", "500, 2500 mm"}, {"D", "1.2e12"}, {"S", "6e6"}};

std::string refusal(const char* name, const Typed& typed) {
  try {
    reckoned(name, typed);
  } catch (const WorkingError& e) {
    return e.what();
  }
  return "";
}

bool says(const std::string& text, const char* words) {
  return text.find(words) != std::string::npos;
}

}  // namespace

TEST_CASE("loads are told apart by their units") {
  const auto loads = typed_loads(
      "800 N @ 75 mm; 10 kN @ 200 to 400 mm; -2 kN m @ 1 m; 5 kPa @ 0 to 1 m; "
      "2 kN/m @ 100 to 200; 1 kip @ 2 ft",
      600);
  REQUIRE(loads.size() == 6);
  CHECK(loads[0].kind == StripLoad::Kind::point);
  CHECK(loads[0].size == printed(800, 1e-12));
  CHECK(loads[1].kind == StripLoad::Kind::uniform);
  CHECK(loads[1].size == printed(50, 1e-12));
  CHECK(loads[1].from == printed(200, 1e-12));
  CHECK(loads[2].kind == StripLoad::Kind::couple);
  CHECK(loads[2].size == printed(-2e6, 1e-12));
  CHECK(loads[2].from == printed(1000, 1e-12));
  CHECK(loads[3].size == printed(0.005 * 600, 1e-12));
  CHECK(loads[3].to == printed(1000, 1e-12));
  CHECK(loads[4].size == printed(2, 1e-12));
  CHECK(loads[5].size == printed(4448.222, 1e-6));
  CHECK(loads[5].from == printed(609.6, 1e-12));
}

TEST_CASE("what is no load is refused with the ways to write one") {
  for (const char* text : {"800 N", "800 @ 75 mm", "5 kPa @ 75 mm", "2 kN m @ 0 to 75 mm",
                           "800 N @ 75 kg", "10 kN @ 400 to 200 mm", "800 N @ 75 mm @ 80 mm"}) {
    CAPTURE(text);
    CHECK_THROWS_AS(typed_loads(text, 1000), WorkingError);
  }
  CHECK(says(refusal("panel-strip", with(strip, {{"loads", "8 kN @ 3100 mm"}})),
             "lies off the strip"));
  CHECK(says(refusal("panel-strip", {{"L", "3000"}, {"supports", "500"}, {"D", "1e12"}}),
             "two supports"));
  CHECK(says(refusal("panel-strip", with(strip, {{"k_span", "360"}})), "there is no load"));
  CHECK(says(refusal("panel-strip", with(strip, {{"q", "1 kPa"}, {"at", "3001"}})),
             "lies off the strip"));
  CHECK(says(
      refusal("panel-strip", with(strip, {{"q", "4 kPa"}, {"pattern", "bays"}, {"hold", "push"}})),
      "can only push"));
}

TEST_CASE("weaker parts cut the strip into stretches") {
  const auto s = typed_stretches("0.5 @ 1200 to 1500 mm; 0.8 0.4 @ 1400 to 1600 mm", 3000, 100, 10);
  REQUIRE(s.size() == 5);
  CHECK(s[0].to == 1200);
  CHECK(s[1].D == printed(50, 1e-12));
  CHECK(s[2].D == printed(40, 1e-12));  // where both lie
  CHECK(s[2].S == printed(2, 1e-12));
  CHECK(s[3].D == printed(80, 1e-12));
  CHECK(s[3].S == printed(4, 1e-12));
  CHECK(s[4].to == 3000);
  for (const char* text :
       {"0 @ 1 to 2 mm", "0.5 @ 2 mm", "0.5 @ 2000 to 4000 mm", "0.5", "a @ 1 to 2 mm"}) {
    CAPTURE(text);
    CHECK_THROWS_AS(typed_stretches(text, 3000, 100, 10), WorkingError);
  }
  const Typed loaded = with(strip, {{"q", "4 kPa"}});
  CHECK(in(reckoned("panel-strip", with(loaded, {{"weaker", "0.5 @ 1200 to 1800 mm"}})), "w_max",
           "mm") > 1.2 * in(reckoned("panel-strip", loaded), "w_max", "mm"));
}

TEST_CASE("a support that lets go is told as a limit, and pulls nothing") {
  // Three supports, a load on the overhang: the middle one lets go.
  const Typed three{{"L", "4000"},
                    {"supports", "1000, 2500, 4000"},
                    {"D", "1.2e12"},
                    {"g", "0.5 kPa"},
                    {"loads", "1 kN @ 0 mm"}};
  const Working held = reckoned("panel-strip", three);
  CHECK(in(held, "R_2", "kN") < 0);
  CHECK(held.kept());
  CHECK(std::any_of(held.not_checked.begin(), held.not_checked.end(),
                    [](const std::string& s) { return says(s, "R_up"); }));
  CHECK(reckoned("panel-strip", with(three, {{"R_up", "0.32 kN"}})).kept());
  CHECK(!reckoned("panel-strip", with(three, {{"R_up", "0.3 kN"}})).kept());
  const Working pushed = reckoned("panel-strip", with(three, {{"hold", "push"}}));
  CHECK(in(pushed, "R_2", "kN") == 0);
  CHECK(!pushed.kept());
  // Statics of what is left: 1 kN at the tip and 2 kN of own weight on 1000 and 4000.
  CHECK(in(pushed, "R_1", "kN") == printed((4000 + 2.0 * 2000) / 3000, 1e-9));
}

TEST_CASE("limits are judged where they are given, and named where they are not") {
  const Typed loaded = with(strip, {{"q", "4 kPa"}});
  const Working bare = reckoned("panel-strip", loaded);
  CHECK(bare.verdicts.empty());
  CHECK(bare.not_checked.size() == 7);  // three bays, two moments, shear, bearing
  const Working all = reckoned("panel-strip", with(loaded, {{"k_span", "360"},
                                                            {"k_arm", "220"},
                                                            {"M_sag", "5 kN m"},
                                                            {"M_hog", "5 kN m"},
                                                            {"V_R", "20 kN"},
                                                            {"R_R", "1 kN"}}));
  CHECK(all.not_checked.empty());
  CHECK(all.verdicts.size() == 7);
  const auto demand = [&](const char* words) {
    const auto v = std::find_if(all.verdicts.begin(), all.verdicts.end(),
                                [&](const Verdict& one) { return one.words == words; });
    REQUIRE(v != all.verdicts.end());
    return v->demand;
  };
  // 4 kN/m on a span of 2 m with overhangs of 0.5 m: 0.5 kN m hogging, 1.5 sagging, 4 kN shear, 6
  // kN bearing.
  CHECK(demand("sagging moment") == printed(1500, 1e-9));
  CHECK(demand("hogging moment") == printed(500, 1e-9));
  CHECK(demand("shear") == printed(4000, 1e-9));
  CHECK(demand("bearing on a support") == printed(6000, 1e-9));
  CHECK(demand("deflection of span 1") == printed(in(all, "w_span1", "m"), 1e-9));
  CHECK(std::count_if(all.verdicts.begin(), all.verdicts.end(),
                      [](const Verdict& v) { return !v.kept(); }) == 1);
}

TEST_CASE("the diagrams carry the printed peaks") {
  const Working w =
      reckoned("panel-strip", with(strip, {{"q", "4 kPa"}, {"loads", "8 kN @ 1500 mm"}}));
  REQUIRE(w.curves.size() == 3);
  CHECK(w.curves[0].title == "moment");
  CHECK(*std::max_element(w.curves[0].y.begin(), w.curves[0].y.end()) ==
        printed(1e3 * in(w, "M_max", "kN m"), 1e-9));
  CHECK(*std::max_element(w.curves[1].y.begin(), w.curves[1].y.end()) ==
        printed(1e3 * in(w, "V_max", "kN"), 1e-9));
  CHECK(w.curves[2].supports == std::vector<double>{0.5, 2.5});
  CHECK(w.curves[2].x.front() == 0);
  CHECK(w.curves[2].x.back() == printed(3, 1e-12));
  const Working p = reckoned("panel-strip", with(strip, {{"q", "4 kPa"}, {"pattern", "bays"}}));
  CHECK(p.curves.size() == 6);
}

// Webs alone carry the shear (common practice, no source); D as for a sandwich.
TEST_CASE("a webbed section takes its shear stiffness from the webs") {
  const Working w = reckoned("sandwich-stiffness", {{"section", "webbed"},
                                                    {"b", "1000"},
                                                    {"t", "8"},
                                                    {"c", "109"},
                                                    {"E", "22 GPa"},
                                                    {"G", "4 GPa"},
                                                    {"t_w", "42 mm"}});
  CHECK(in(w, "S", "N") == printed(4000.0 * 42 * 117, 1e-9));
  CHECK(in(w, "D_f", "N mm2") == printed(22000.0 * 1000 * 8 * 117 * 117 / 2, 1e-9));
  CHECK(says(refusal("sandwich-stiffness", {{"t", "8"}, {"c", "109"}, {"E", "22 GPa"}}),
             "G is missing"));
}

TEST_CASE("thread sizes are found by name, and each has limits that make sense") {
  CHECK(find_thread("M16") != nullptr);
  CHECK(find_thread("5/8-11")->d == printed(15.875, 1e-12));
  CHECK(find_thread("M15") == nullptr);
  for (const ThreadSize& t : thread_sizes()) {
    CAPTURE(t.name);
    CHECK(t.d2_min < t.d_min);
    CHECK(t.d_min < t.d);
    CHECK(t.D1_max < t.d2_min);
    CHECK(t.D2_max > t.d2_min);
  }
}
