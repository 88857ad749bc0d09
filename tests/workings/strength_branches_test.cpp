// The ways through the workings of loads, strength, movement, lifting and trucks that the published
// cases do not take; values by hand.
#include <cmath>
#include <set>

#include "support/reckoned.h"

using namespace deckquire::testing;
using deckquire::workings::Working;
using deckquire::workings::WorkingError;

TEST_CASE("loads of the codes that give one value") {
  CHECK(in(reckoned("pedestrian-load", {{"code", "aashto-sidewalk"}}), "p", "kPa") ==
        printed(3.591));
  CHECK(in(reckoned("pedestrian-load", {{"code", "aashto-frp-2008"}}), "p", "kPa") ==
        printed(4.070));
  CHECK(
      in(reckoned("pedestrian-load", {{"code", "en-1991-2"}, {"s", "300 m"}, {"p_least", "3 kPa"}}),
         "p", "kPa") == printed(3, 1e-9));
}

TEST_CASE("vehicles: none on a narrow deck, and the owner's axles instead") {
  const Working none = reckoned("maintenance-vehicle", {{"code", "csa-s6"}, {"w", "3 m"}});
  CHECK(in(none, "W_2", "kN") == 0);
  const Working csa =
      reckoned("maintenance-vehicle", {{"code", "csa-s6"}, {"w", "3.1 m"}, {"P_heavy", "60 kN"}});
  CHECK(in(csa, "P_1", "kN") == printed(24, 1e-9));
  CHECK(in(csa, "W_2", "kN") == printed(30, 1e-9));
  CHECK(!reckoned("maintenance-vehicle",
                  {{"code", "csa-s6"}, {"w", "3.1 m"}, {"L", "1 m"}, {"c", "1.2 m"}})
             .kept());
}

TEST_CASE("a post with a load and lever arm of its own, and a vertical load") {
  const Working w = reckoned("post-anchor", {{"P_post", "2 kN"},
                                             {"h", "1000"},
                                             {"e", "50"},
                                             {"y_t", "130"},
                                             {"y_c", "30"},
                                             {"z", "125"},
                                             {"gamma", "1"},
                                             {"P_v", "1 kN"},
                                             {"e_v", "100"},
                                             {"n_c", "0"}});
  CHECK(in(w, "M", "N mm") == printed(2.1e6, 1e-9));
  CHECK(in(w, "T_c", "N") == printed(2.1e6 / 250, 1e-9));
  CHECK(in(w, "T_p", "N") == printed(2.1e6 / 260, 1e-9));
  CHECK(in(w, "V", "N") == printed(1000, 1e-9));
  CHECK(in(w, "M_p", "N mm") == printed(2.2e6, 1e-9));
  CHECK_THROWS_AS(
      reckoned("post-anchor",
               {{"h", "1000"}, {"e", "50"}, {"y_t", "130"}, {"y_c", "30"}, {"gamma", "1"}}),
      WorkingError);
}

TEST_CASE("a drill of one's own") {
  const Working w = reckoned("thread", {{"size", "M16"}, {"drill", "13.5 mm"}});
  CHECK(in(w, "p_t", "%") == printed(250 / 2.598));
  CHECK(!w.kept());  // smaller than the minor diameter of 13.835
  CHECK_THROWS_AS(
      reckoned("thread-stripping", {{"size", "M16"}, {"Fu_b", "800 MPa"}, {"Fu_p", "400 MPa"}}),
      WorkingError);
}

TEST_CASE("gaps: play across the bridge, and a gap that closes") {
  const Typed typed{{"p", "2400"},    {"L", "2396"},   {"alpha_f", "20e-6"}, {"T_sh", "45"},
                    {"T_fh", "60"},   {"T_sc", "-30"}, {"T_fc", "-30"},      {"a", "1800"},
                    {"play", "1 mm"}, {"t_L", "1 mm"}};
  const Working w = reckoned("thermal-gap", typed);
  CHECK(in(w, "u", "mm") == printed((20e-6 * 45 - 11.7e-6 * 30) * 1800, 1e-9));
  const double hot = 2400 * (1 + 11.7e-6 * 30) - 2396 * (1 + 20e-6 * 45);
  CHECK(in(w, "g_least", "mm") == printed(hot - 1, 1e-9));
  CHECK(in(w, "g_s", "mm") == printed(3 + 4 - hot + 1, 1e-9));
  CHECK(!w.kept());  // 1.686 mm is left of the 3 asked for
  REQUIRE(w.curves.size() == 1);
  CHECK(w.curves[0].x.front() == -30);
  CHECK(w.curves[0].x.back() == 60);
}

TEST_CASE("gaps: the cold asks for more play where it is farther from the reference temperature") {
  const Working w = reckoned("thermal-gap", {{"p", "2400"},
                                             {"L", "2394"},
                                             {"alpha_f", "20e-6"},
                                             {"T_sh", "30"},
                                             {"T_fh", "30"},
                                             {"T_sc", "-30"},
                                             {"T_fc", "-30"},
                                             {"a", "1800"}});
  CHECK(in(w, "u", "mm") == printed(8.3e-6 * 45 * 1800, 1e-9));
}

TEST_CASE("the gap at an abutment") {
  const Typed typed{{"x", "24 m"}, {"T_sh", "45"}, {"T_sc", "-30"}};
  CHECK(reckoned("girder-movement", typed).not_checked.size() == 1);
  Typed edge = typed;
  edge.emplace_back("x_f", "1 m");  // and nothing said of the deck
  CHECK_THROWS_AS(reckoned("girder-movement", edge), WorkingError);
  Typed with = typed;
  with.emplace_back("g", "20 mm");
  const Working w = reckoned("girder-movement", with);
  CHECK(in(w, "g_h", "mm") == printed(20 - 8.424));
  CHECK(in(w, "g_c", "mm") == printed(20 + 12.636));
  CHECK(w.kept());
  with.back().second = "11 mm";
  CHECK(!reckoned("girder-movement", with).kept());
}

TEST_CASE("tolerances: a part that counts against the others, and a limit") {
  const Working w =
      reckoned("tolerance-stack", {{"parts", "2400 ± 2 mm; -2394 ± 3 mm"}, {"T_max", "4 mm"}});
  CHECK(in(w, "G", "mm") == printed(6, 1e-9));
  CHECK(in(w, "T_r", "mm") == printed(std::sqrt(13.0), 1e-9));
  CHECK(!w.kept());
  for (const char* parts : {"", "2 x 5", "0 x 5 +- 1", "5 +- -1", "a +- 1"}) {
    CAPTURE(parts);
    CHECK_THROWS_AS(reckoned("tolerance-stack", {{"parts", parts}}), WorkingError);
  }
}

TEST_CASE("a panel is weaker in the lift where it is cut away") {
  const Typed typed{{"m", "500 kg"},          {"phi", "1.25"}, {"L", "2400"},
                    {"inserts", "300, 2100"}, {"D", "1e12"},   {"S", "6e6"}};
  Typed cut = typed;
  cut.emplace_back("weaker", "0.3 @ 1000 to 1400 mm");
  CHECK(in(reckoned("lift-bending", cut), "w_max", "mm") >
        1.1 * in(reckoned("lift-bending", typed), "w_max", "mm"));
  CHECK(in(reckoned("lift-bending", cut), "M_max", "kN m") ==
        printed(in(reckoned("lift-bending", typed), "M_max", "kN m"), 1e-9));
}

TEST_CASE("a sling only pulls: a line of inserts may go slack, and a panel may tip") {
  const auto lift = [](const char* inserts) {
    return reckoned(
        "lift-bending",
        {{"m", "500 kg"}, {"phi", "1"}, {"L", "4000"}, {"inserts", inserts}, {"D", "1e12"}});
  };
  CHECK(lift("800, 3200").kept());
  // Two lines close together at one end: the first of them would have to push.
  const Working slack = lift("1000, 1100, 3900");
  CHECK(!slack.kept());
  CHECK(in(slack, "R_1", "kN") == 0);
  CHECK(in(slack, "R_3", "kN") == printed(500 * 9.80665 / 1e3 * 900 / 2800, 1e-9));
  CHECK_THROWS_WITH_AS(lift("2100, 3900"),
                       "the panel tips: its weight lies outside the lines of inserts; move them",
                       WorkingError);
  CHECK_THROWS_AS(lift("2000"), WorkingError);
}

TEST_CASE("a truck with the fifth wheel over the drive axles, and fewer panels than fit") {
  const Typed typed{{"m", "1000 lb"},   {"l", "10 ft"}, {"t", "1 ft"},       {"h_d", "5 ft"},
                    {"L_d", "45 ft"},   {"s", "0"},     {"A_s", "11200 lb"}, {"A_d", "13800 lb"},
                    {"A_t", "8000 lb"}, {"w", "18 ft"}, {"f", "0"},          {"k", "40 ft"},
                    {"x", "20 ft"},     {"n_p", "10"}};
  const Working w = reckoned("truck-axles", typed);
  CHECK(in(w, "n_h") == 8);
  CHECK(in(w, "n_s") == 4);
  CHECK(in(w, "W_s", "lb") == printed(11200, 1e-9));
  CHECK(in(w, "W_d", "lb") == printed(18800, 1e-9));
  CHECK(in(w, "W_t", "lb") == printed(13000, 1e-9));
  CHECK(w.kept());
  Typed many = typed;
  many.back().second = "33";
  CHECK(!reckoned("truck-axles", many).kept());
}

TEST_CASE("the least of all limits of a truck governs, whichever it is") {
  const Typed typed{{"m", "1000 lb"},   {"l", "10 ft"}, {"t", "1 ft"},       {"h_d", "5 ft"},
                    {"L_d", "45 ft"},   {"s", "0"},     {"A_s", "11200 lb"}, {"A_d", "13800 lb"},
                    {"A_t", "8000 lb"}, {"w", "18 ft"}, {"k", "40 ft"}};
  const auto most = [&](const char* x, const char* f, const char* gross) {
    Typed t = typed;
    t.insert(t.end(), {{"x", x}, {"f", f}, {"G_max", gross}});
    return in(reckoned("truck-axles", t), "n_most");
  };
  CHECK(most("20", "0", "80000") == 32);  // room
  CHECK(most("35", "0", "80000") == 29);
  CHECK(most("35", "1", "80000") == 29);  // trailer: 26000 / 875
  CHECK(most("5", "0", "80000") == 23);   // drive: 20200 / 875
  CHECK(most("5", "9", "80000") == 20);   // steering: 8800 / 437.5
  CHECK(most("20", "0", "50000") == 17);  // gross
  CHECK(most("20", "0", "30000") == 0);   // nothing at all, never less
}

TEST_CASE("the bridge formula is capped by the gross weight") {
  const Working w = reckoned("bridge-formula", {{"L", "60"}, {"N", "6"}});
  CHECK(in(w, "W_r", "lb") == printed(90000, 1e-9));
  CHECK(in(w, "W_g", "lb") == printed(80000, 1e-9));
}

TEST_CASE("uplift on girders that lie off the middle: the more loaded clip is judged") {
  const Working w = reckoned("hold-down", {{"B", "3 m"},
                                           {"l", "1 m"},
                                           {"x_1", "0.5 m"},
                                           {"x_2", "2 m"},
                                           {"q", "1 kPa"},
                                           {"g_d", "0"},
                                           {"gamma_W", "1"},
                                           {"gamma_D", "1"},
                                           {"R_c", "1.3 kN"}});
  CHECK(in(w, "T_1", "kN") == printed(2.5, 1e-9));
  CHECK(in(w, "T_2", "kN") == printed(3.5, 1e-9));
  CHECK(in(w, "n_1") == 2);
  CHECK(in(w, "n_2") == 3);
  CHECK(in(w, "F_c", "kN") == printed(1.25, 1e-9));
}

TEST_CASE("the handling factor comes on top of the largest pull") {
  const Working two = reckoned("sling", {{"legs", "two-uneven"},
                                         {"W", "12.5 kN"},
                                         {"a", "1 m"},
                                         {"b", "1.4 m"},
                                         {"h", "1.5 m"},
                                         {"phi", "1.25"}});
  CHECK(in(two, "T", "kN") == printed(1.25 * 8.763));
  const Working points =
      reckoned("pick-points", {{"W", "12.5 kN"},
                               {"points", "0.9, 0.6 m; 0.9, -0.6 m; -0.9, 0.6 m; -0.9, -0.6 m"},
                               {"x_g", "0.1 m"},
                               {"y_g", "-0.05 m"},
                               {"phi", "1.25"}});
  CHECK(in(points, "F", "kN") == printed(1.25 * 3.733));
  const Working beam = reckoned("lift-bending", {{"m", "500 kg"},
                                                 {"phi", "1.25"},
                                                 {"L", "2400"},
                                                 {"inserts", "300, 2100"},
                                                 {"D", "1e12"},
                                                 {"M_sag", "2 kN m"},
                                                 {"M_hog", "2 kN m"}});
  REQUIRE(beam.verdicts.size() == 2);
  const double q = 500 * 9.80665 * 1.25 / 2.4;  // N/m
  CHECK(beam.verdicts[0].demand == printed(q * (1.8 * 1.8 - 4 * 0.3 * 0.3) / 8, 1e-9));
  CHECK(beam.verdicts[1].demand == printed(q * 0.3 * 0.3 / 2, 1e-9));
}

TEST_CASE("mass in plan: what is no outline is refused") {
  for (const char* corners : {"0 0, 1 1", "0 0, 1, 2 2", "0 0, 10 0 0, 5 5", "0 0, a 0, 5 5"}) {
    CAPTURE(corners);
    CHECK_THROWS_AS(reckoned("plan-centroid", {{"corners", corners}, {"m_A", "60"}}), WorkingError);
  }
  CHECK_THROWS_AS(
      reckoned("plan-centroid",
               {{"corners", "0 0, 1000 0, 0 1000"}, {"openings", "round 100 100"}, {"m_A", "60"}}),
      WorkingError);
}

TEST_CASE(
    "each of these workings is in the registry once, with a source, and cautions where people can "
    "be hurt") {
  const char* names[] = {"pedestrian-load", "maintenance-vehicle",
                         "panel-strip",     "sandwich-stiffness",
                         "hold-down",       "post-anchor",
                         "thread",          "thread-stripping",
                         "thermal-gap",     "girder-movement",
                         "tolerance-stack", "panel-mass",
                         "plan-centroid",   "sling",
                         "pick-points",     "lift-bending",
                         "truck-axles",     "bridge-formula"};
  std::set<std::string> seen;
  for (const char* name : names) {
    CAPTURE(name);
    const auto* kind = deckquire::workings::find_working(name);
    REQUIRE(kind != nullptr);
    CHECK(seen.insert(name).second);
    CHECK(!kind->sources.empty());
    CHECK(!kind->about.empty());
    for (const auto& input : kind->inputs) {
      CHECK(!input.meaning.empty());
      CHECK((input.fallback.empty() || !input.why.empty()));  // a default says where it comes from
    }
  }
}
