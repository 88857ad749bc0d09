// Placement rules. tests/placement/: of every rule a project that breaks it (name-fails.xml, with
// the exact lines it gives) and one that keeps it (no finding at all).
#include <algorithm>
#include <cmath>
#include <filesystem>
#include <map>

#include "deck/features.h"
#include "deck/gutters.h"
#include "deck/rail_line.h"
#include "deck/trial.h"
#include "project/support.h"

using namespace deckquire;
using namespace deckquire::testing;

namespace {

std::vector<std::string> placement_files() {
  std::vector<std::string> stems;
  for (const auto& e : std::filesystem::directory_iterator(source_path("tests/placement")))
    if (e.path().extension() == ".xml") stems.push_back(e.path().stem().string());
  std::sort(stems.begin(), stems.end());
  return stems;
}

Project placement(const std::string& stem) {
  Findings findings;
  const std::string name = stem + ".xml";
  const auto project =
      read_project(read_file(source_path("tests/placement/" + name)), name, findings);
  REQUIRE_MESSAGE(project, lines(findings));
  return *project;
}

std::vector<double> stations(const Deck& deck, Side side) {
  std::vector<double> out;
  for (const Post& p : deck.posts)
    if (p.side == side) out.push_back(p.station.in_mm());
  return out;
}

std::vector<double> scuppers(const Deck& deck, Side side) {
  std::vector<double> out;
  for (const ScupperPlace& s : deck.scuppers)
    if (s.side == side) out.push_back(s.station.in_mm());
  return out;
}

double widest(const std::vector<double>& at) {
  double most = 0;
  for (std::size_t i = 1; i < at.size(); ++i) most = std::max(most, at[i] - at[i - 1]);
  return most;
}

}  // namespace

TEST_CASE("placement: every broken rule gives exactly its lines, every kept one none") {
  int broken = 0, kept = 0;
  for (const std::string& stem : placement_files()) {
    const Project p = placement(stem);
    Findings findings;
    const Bridge bridge = build_bridge(p, findings);
    const Deck deck = build_deck(p, bridge, findings);
    if (!findings.has_errors()) check_fit(p, bridge, deck, findings);
    const std::string actual = lines(findings);
    const bool fails = stem.ends_with("-fails");
    (fails ? broken : kept) += 1;
    CAPTURE(stem);
    if (!fails) {
      CHECK_MESSAGE(actual.empty(), actual);
      continue;
    }
    CHECK_FALSE(actual.empty());
    CHECK(actual == approved("tests/placement/" + stem + ".expected", actual));
  }
  CHECK(broken >= 12);
  CHECK(kept >= 9);
}

TEST_CASE("posts: equal bays stand at ends and corners, clear of joints, no bay too long") {
  const Project p = placement("post-equal");
  const auto b = trial::build(p);
  const auto left = stations(b.deck, Side::left);
  CHECK(left == stations(b.deck, Side::right));  // in line
  CHECK(left.front() == doctest::Approx(14 + 250));
  CHECK(left.back() == doctest::Approx(20000 - 14 - 250));
  // The corner at 5000 lies 2 from a joint line (5004): moved to 181 from it at least.
  const RailLine rail(b.bridge, {Side::left}, mm(0), mm(20000));
  for (std::size_t i = 1; i < left.size(); ++i)
    CHECK(rail.length(mm(left[i - 1]), mm(left[i])) <= 1300.001);
  for (double at : left)
    for (const Joint& j : b.deck.joints)
      CHECK(std::abs(at - j.station.in_mm()) >= 100 + 75 + 6 - 1e-6);
  for (double corner : {5000.0, 7500.0, 12500.0, 15000.0}) {
    double nearest = 1e9;
    for (double at : left) nearest = std::min(nearest, std::abs(at - corner));
    CHECK(nearest < 210);
  }
}

TEST_CASE("posts: one written out takes the place of the nearest, all others stay") {
  const Project plain = placement("post-half-bay");
  Project p = plain;
  p.deck.posts->posts.push_back({"X", mm(4380), CurbSides::right, {}});
  const auto before = trial::build(plain), after = trial::build(p);
  auto expected = stations(before.deck, Side::right);
  CHECK(stations(after.deck, Side::left) == stations(before.deck, Side::left));
  const auto nearest = std::min_element(expected.begin(), expected.end(), [](double a, double b) {
    return std::abs(a - 4380) < std::abs(b - 4380);
  });
  *nearest = 4380;
  CHECK(stations(after.deck, Side::right) == expected);
  // Farther than half a bay from every post of the rule: in addition.
  p.deck.posts->greatest.reset();
  p.deck.posts->spacing = mm(5000);
  CHECK(stations(trial::build(p).deck, Side::right).size() ==
        stations(trial::build(p).deck, Side::left).size());
  p.deck.posts->sides = CurbSides::left;
  CHECK(stations(trial::build(p).deck, Side::right) == std::vector<double>{4380});
}

TEST_CASE("posts: skewed joints, each edge by itself has half a bay from its own joint line") {
  Project p = placement("post-half-bay");
  p.deck.joints.skew = degrees(12);
  p.deck.spans[0].skew_from = p.deck.spans[0].skew_to = Angle();
  p.deck.spans[0].runs.clear();
  p.deck.spans[0].rule = PanelsRule{8, std::nullopt, {}};
  const auto in_line = trial::build(p);
  CHECK(stations(in_line.deck, Side::left) == stations(in_line.deck, Side::right));
  p.deck.posts->in_line = false;
  const auto each = trial::build(p);
  // A middle panel: on both edges the nearest post is a quarter of the pitch from the joint line
  // as it meets the posts, in the middle of their curb; its left end lies ahead by the skew.
  const Joint& j = each.deck.joints[3];
  const double pitch = (each.deck.joints[4].station - j.station).in_mm();
  for (Side side : {Side::left, Side::right}) {
    const double out = 1000 - post_inset(p.deck.section.curb);
    const double shift = (side == Side::left ? out : -out) * std::tan(j.skew);
    double nearest = 1e9;
    for (double at : stations(each.deck, side))
      nearest = std::min(nearest, std::abs(at - j.station.in_mm() - shift));
    CHECK(nearest == doctest::Approx(pitch / 4).epsilon(1e-6));
  }
}

TEST_CASE("posts: on a taper and on a curve bays are measured along the edge") {
  Project p = placement("post-half-bay");
  p.deck.edges = {{mm(0), mm(1000), mm(1000), {}}, {mm(20000), mm(9000), mm(1000), {}}};
  p.deck.posts->greatest = mm(1260);  // 1249 along the bridge is 1345 along the left edge
  const auto b = trial::build(p);
  CHECK(stations(b.deck, Side::left).size() == 24);
  p.deck.posts->in_line = false;
  const auto each = trial::build(p);
  CHECK(stations(each.deck, Side::left).size() == 24);
  CHECK(stations(each.deck, Side::right).size() == 16);
}

TEST_CASE("posts: freedom makes more panels alike") {
  Project p = placement("post-spacing-freedom");
  p.deck.posts->spacing = mm(1240);
  p.deck.posts->first = mm(640);
  p.deck.posts->first_given = true;
  p.deck.posts->freedom = Length();
  const auto strict = trial::build(p);
  p.deck.posts->freedom = mm(70);
  const auto free = trial::build(p);
  CHECK(lines(strict.findings) == "");
  CHECK(lines(free.findings) == "");
  CHECK(free.deck.marks.size() < strict.deck.marks.size());
  const auto a = stations(strict.deck, Side::left), b = stations(free.deck, Side::left);
  REQUIRE(a.size() == b.size());
  for (std::size_t i = 0; i < a.size(); ++i) CHECK(std::abs(a[i] - b[i]) <= 70 + 1e-6);
}

TEST_CASE("water: runs from crests to sags, level stretches with their neighbours") {
  AlignmentData a;
  a.to = metres(100);
  const auto at = [&](double s, double level) {
    a.grades.push_back({metres(s), metres(level), {}});
  };
  at(0, 10);
  at(30, 9);
  at(40, 9);
  at(70, 11);
  at(100, 10);
  const auto runs = water_runs(Alignment(a), a.from, a.to);
  REQUIRE(runs.size() == 3);
  CHECK(runs[0].high == metres(0));
  CHECK(runs[0].low == metres(40));
  CHECK(runs[0].sag);
  CHECK(runs[1].high == metres(70));
  CHECK(runs[1].low == metres(40));
  CHECK_FALSE(runs[1].ahead());
  CHECK(runs[2].high == metres(70));
  CHECK(runs[2].low == metres(100));
  CHECK_FALSE(runs[2].sag);
  a.grades.resize(1);
  const auto level = water_runs(Alignment(a), a.from, a.to);
  REQUIRE(level.size() == 1);
  CHECK(level[0].ahead());
}

TEST_CASE("scuppers: one at the sag, none where the water leaves nothing to drain") {
  const auto b = trial::build(placement("scupper-sag"));
  const auto left = scuppers(b.deck, Side::left);
  CHECK(left == scuppers(b.deck, Side::right));
  REQUIRE(left.size() == 1);
  const auto runs = water_runs(b.bridge.alignment, mm(0), mm(20000));
  REQUIRE(runs.size() == 2);
  CHECK(runs[0].low == runs[1].low);
  CHECK(std::abs(left[0] - runs[0].low.in_mm()) <= 5);
}

TEST_CASE("scuppers: at most spacing of gutter to each, the last one before the end joint") {
  const Project p = placement("scupper-spacing");
  const auto b = trial::build(p);
  for (Side side : {Side::left, Side::right}) {
    auto at = scuppers(b.deck, side);
    REQUIRE_FALSE(at.empty());
    // Rising ahead: the water runs back. At the lower end the end joint, at the upper the crest.
    CHECK(at.front() < 500);
    at.push_back(20000 - 14);
    CHECK(widest(at) <= 6000 + 1e-6);
    CHECK(at.size() - 1 <= 5);
  }
}

TEST_CASE("scuppers: those written out count, and a rule never doubles them") {
  Project p = placement("scupper-spacing");
  p.deck.scuppers->scuppers = {{"A", mm(6260), CurbSides::left, {}},
                               {"", mm(1250), CurbSides::left, {}}};
  const auto b = trial::build(p);
  CHECK(lines(b.findings) == "");
  auto at = scuppers(b.deck, Side::left);
  CHECK(std::count(at.begin(), at.end(), 6260) == 1);
  CHECK(std::count(at.begin(), at.end(), 1250) == 1);
  CHECK(at.front() == 1250);  // it keeps the end joint dry
  at.push_back(20000 - 14);
  CHECK(widest(at) <= 6000 + 1e-6);
  std::map<std::string, int> names;
  for (const ScupperPlace& s : b.deck.scuppers) CHECK(++names[s.name] == 1);
}

TEST_CASE("scuppers: a rule puts no outlet above a road, and minds no water") {
  Project p = placement("scupper-spacing");
  const auto free = trial::build(p);
  const auto there = scuppers(free.deck, Side::left);
  REQUIRE(there.size() >= 3);
  CrossingData road;
  road.name = "Mill Road";
  road.from = mm(there[1] - 300), road.to = mm(there[1] + 200), road.clear = mm(500);
  p.bridge.crossings = {road};
  const auto b = trial::build(p);
  CHECK(lines(b.findings) == "");
  const double kept = 500 + p.deck.scuppers->outlet.in_mm() / 2;
  for (Side side : {Side::left, Side::right}) {
    auto at = scuppers(b.deck, side);
    for (double x : at) CHECK((x <= there[1] - 300 - kept + 1e-6 || x >= there[1] + 200 + kept - 1e-6));
    at.push_back(20000 - 14);
    CHECK(widest(at) <= 6000 + 1e-6);
  }
  p.bridge.crossings[0].outlets_allowed = true;
  CHECK(scuppers(trial::build(p).deck, Side::left) == there);
}

TEST_CASE("scuppers: freedom makes more panels alike and costs none") {
  Project p = placement("scupper-spacing");
  p.deck.hatches.clear();
  p.deck.scuppers->spacing = mm(4200);
  p.deck.scuppers->freedom = Length();
  const auto strict = trial::build(p);
  p.deck.scuppers->freedom = mm(1000);
  const auto free = trial::build(p);
  CHECK(lines(free.findings) == "");
  CHECK(free.deck.scuppers.size() == strict.deck.scuppers.size());
  CHECK(free.deck.marks.size() < strict.deck.marks.size());
}

TEST_CASE("lifting: F5, inserts about the centre of gravity of a panel with an opening") {
  Project p = placement("lifting-room");
  p.deck.edges = {{mm(0), mm(1500), mm(1500), {}}};
  p.deck.section.curb.sides = CurbSides::none;
  p.deck.section.fall = Fall::none;
  p.deck.section.slope = 0;
  p.bridge.alignment.to = mm(2508);
  p.deck.spans[0].to = mm(2508);
  p.deck.spans[0].runs = {{mm(2480), 1, {}}};
  p.deck.hold_downs.reset();
  p.deck.pads.reset();
  p.deck.surfaces.clear();
  p.deck.lifting.from_edge = mm(150);
  for (MaterialData& m : p.deck.materials) m.density = Density::si(2500);
  HatchData h;
  h.name = "H";
  h.station = mm(14 + 1850);
  h.length = h.width = mm(600);
  p.deck.hatches = {h};
  const auto b = trial::build(p);
  REQUIRE(b.deck.marks.size() == 1);
  const Mark& m = b.deck.marks[0];
  CHECK(m.masses.x == doctest::Approx(1208.98).epsilon(1e-5));
  CHECK(m.masses.total.in_si() == doctest::Approx(2655.0).epsilon(5e-4));  // steel in it
  std::vector<std::pair<double, double>> at;
  for (const Feature& f : m.shape.features)
    if (f.kind == FeatureKind::lifting_insert) at.push_back({f.at.x, f.at.y + 1500});
  CHECK(at ==
        std::vector<std::pair<double, double>>{{484, 620}, {484, 2380}, {1934, 620}, {1934, 2380}});
}

TEST_CASE("tag: moves off what would hide it") {
  const Project p = placement("tag-hidden");
  const auto b = trial::build(p);
  PanelShape s = b.deck.marks[0].shape;
  const auto tag = [](const PanelShape& shape) {
    for (const Feature& f : shape.features)
      if (f.kind == FeatureKind::tag) return f;
    return Feature{};
  };
  const Feature first = tag(s);
  CHECK(first.at.x == doctest::Approx(150));
  CHECK(first.at.y == doctest::Approx(-1000 + 120));
  std::erase_if(s.features, [](const Feature& f) { return f.kind == FeatureKind::tag; });
  Feature sleeve;
  sleeve.kind = FeatureKind::sleeve;
  sleeve.round = true;
  sleeve.length = sleeve.width = 60;
  sleeve.at = first.at;
  s.features.push_back(sleeve);
  add_tag(s, p.deck, widest_flange(b.bridge));
  CHECK(tag(s).at.y == doctest::Approx(first.at.y));
  CHECK(tag(s).at.x >= 150 + 50 + 50);
  CHECK(tag_is_seen(s, p.deck, widest_flange(b.bridge), tag(s)));
}
