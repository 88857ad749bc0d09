#include <cmath>

#include "deck/features.h"
#include "deck/trial.h"

using namespace deckquire;
using doctest::Approx;

namespace {

std::vector<Feature> of_kind(const PanelShape& s, FeatureKind kind) {
  std::vector<Feature> out;
  for (const Feature& f : s.features)
    if (f.kind == kind) out.push_back(f);
  return out;
}

const PanelShape& shape_at(const Deck& deck, int position) {
  return deck.panels[static_cast<std::size_t>(position - 1)].shape;
}

}  // namespace

TEST_CASE("outline: a panel on a taper is the trapezium of its own stations") {
  const auto b = trial::build(trial::example("saltmarsh"));
  const PanelShape& s = shape_at(b.deck, 5);  // 10032 to 12520 on a taper from 10026 to 12526
  REQUIRE(s.outline.size() == 4);
  CHECK(s.left_back == Approx(1500 + 900 * 6 / 2500.0));
  CHECK(s.left_ahead == Approx(1500 + 900 * 2494 / 2500.0));
  CHECK(s.right_back == Approx(-1500));
  CHECK(area(s.outline) == Approx((s.left_back + s.left_ahead + 3000) / 2 * 2488));
}

TEST_CASE("outline: a corner of the width inside a panel is a vertex, a step an error") {
  Project p = trial::example("saltmarsh");
  p.deck.edges[1].station += mm(400);  // the taper now begins inside panel 5
  auto b = trial::build(p);
  CHECK(shape_at(b.deck, 5).outline.size() == 5);
  p.deck.edges.insert(p.deck.edges.begin() + 1, {mm(5026), mm(1500), mm(1500), {}});
  p.deck.edges.insert(p.deck.edges.begin() + 2, {mm(5026), mm(1600), mm(1500), {}});
  CHECK(trial::codes_of(p).find("step-inside-panel") == std::string::npos);  // on joint J3
  p.deck.edges[1].station = p.deck.edges[2].station = mm(5226);
  CHECK(trial::codes_of(p).find("step-inside-panel") != std::string::npos);
}

TEST_CASE("outline: a mast inside makes an opening, over the edge a notch that cuts the curb") {
  Project p = trial::example("saltmarsh");
  auto b = trial::build(p);
  const PanelShape inside = shape_at(b.deck, 7);
  REQUIRE(inside.openings.size() == 1);
  CHECK(area(inside.openings[0]) == Approx(pi / 4 * 400 * 400));  // 300 and 50 all round
  CHECK(inside.curbs.size() == 2);
  p.bridge.obstructions[0].offset = mm(2350);
  Findings f;
  const Bridge bridge = build_bridge(p, f);
  Division d = divide(p, bridge, f);
  place_fittings(p, bridge, d, f);
  const PanelShape notched = shape_panel(p, bridge, d, 6, f);
  CHECK(notched.openings.empty());
  CHECK(notched.outline.size() == 8);
  CHECK(area(notched.outline) == Approx(2488.0 * 3900 - 400 * (2400 - 2150)));
  CHECK(notched.curbs.size() == 3);
}

TEST_CASE("recess: a splice under a joint is parted, and the parts with the gap make the whole") {
  const auto b = trial::build(trial::example("saltmarsh"));
  const auto back = of_kind(shape_at(b.deck, 9), FeatureKind::recess);
  const auto ahead = of_kind(shape_at(b.deck, 10), FeatureKind::recess);
  REQUIRE(back.size() == 2);
  REQUIRE(ahead.size() == 2);
  CHECK(back[0].length == Approx(394));
  CHECK(back[0].length + 12 + ahead[0].length == Approx(760 + 2 * 20));
  CHECK(back[0].box().high.x == Approx(2488));
  CHECK(ahead[0].box().low.x == Approx(0));
  CHECK(back[0].depth == Approx(14 + 30 + 10 - 10));  // plate, bolt end, over, less the pad
  CHECK(b.deck.panels[8].mark == b.deck.panels[9].mark);
  CHECK(b.deck.panels[9].turned);
  for (const Feature& f : of_kind(shape_at(b.deck, 10), FeatureKind::hold_down))
    CHECK(f.box().low.x >= 394 + 50);
}

TEST_CASE("hold-downs: two a girder, equally far from both ends, off the flange") {
  const auto b = trial::build(trial::example("saltmarsh"));
  const auto found = of_kind(shape_at(b.deck, 14), FeatureKind::hold_down);
  REQUIRE(found.size() == 4);
  CHECK(found[0].at == PanelPoint{400, -1180});  // flange edge 1150 and gauge 30
  CHECK(found[3].at == PanelPoint{2088, 1180});
}

TEST_CASE("lifting inserts: about the centre of gravity, 0.2929 of the length away") {
  const auto b = trial::build(trial::example("saltmarsh"));
  for (const Mark& m : b.deck.marks) {
    CAPTURE(m.name);
    const auto found = of_kind(m.shape, FeatureKind::lifting_insert);
    REQUIRE(found.size() == 4);
    PanelPoint sum;
    for (const Feature& f : found) sum = sum + f.at;
    CHECK(std::abs(sum.x / 4 - m.masses.x) <= 1.0);  // set out in whole millimetres
    CHECK(std::abs(sum.y / 4 - m.masses.y) <= 1.0);
    for (const Feature& f : found) {
      CHECK(contains(m.shape.outline, f.at));
      for (const CurbRun& c : m.shape.curbs) CHECK(!contains(c.plan, f.at));
    }
  }
  const auto plain = of_kind(trial::mark_at(b.deck, 14).shape, FeatureKind::lifting_insert);
  CHECK(plain[3].at.x - plain[0].at.x == Approx(2 * 730));  // 0.2929 x 2488 = 728.7
}

TEST_CASE("things across a joint or off the deck: one error that names the joint") {
  const Project good = trial::example("saltmarsh");
  Project p = good;
  p.deck.hatches[0].station = mm(5100);
  const auto b = trial::build(p);
  REQUIRE(b.findings.sorted().size() == 1);
  CHECK(b.findings.sorted()[0].code == "hatch-across-joint");
  CHECK(b.findings.sorted()[0].what.find("joint J3 at 0+005.026") != std::string::npos);
  p = good;
  p.deck.sleeves[0].offset = mm(1340);
  CHECK(trial::codes_of(p) == "sleeve-outside-deck");
  p = good;
  p.deck.surfaces[1].from = mm(84000);
  CHECK(trial::codes_of(p) == "surface-border-inside-panel");
  p = good;
  p.deck.posts->greatest.reset();
  p.deck.posts->spacing = mm(1300);
  p.deck.posts->first = mm(500);
  CHECK(trial::codes_of(p).find("post-near-joint") != std::string::npos);
  CHECK(trial::codes_of(p).rfind("post-near-joint") == trial::codes_of(p).find("post-near-joint"));
}

TEST_CASE("post 1L and scupper S1: station, offset and levels by hand") {
  const auto b = trial::build(trial::example("saltmarsh"));
  const double grade = (102.201 - 101.250) / 95.092;
  const Post& post = b.deck.posts[0];
  CHECK(post.name == "1L");
  // Joint line 6 behind the face at 32; a quarter of the pitch 2500 ahead of it.
  CHECK(post.station == mm(32 - 6 + 625));
  CHECK(post.offset == mm(1500 - 135 / 2.0));  // middle of the curb's top, 150 less 15 batter
  CHECK(post.level.in_m() == Approx(101.250 + 0.651 * grade - 0.015 * 1.350 + 0.100).epsilon(1e-8));
  const double b62 = 62.5 * pi / 180;
  CHECK(post.survey.easting ==
        Approx(4120.5 + 0.651 * std::sin(b62) - 1.4325 * std::cos(b62)).epsilon(1e-10));
  const ScupperPlace& s = b.deck.scuppers[0];
  CHECK(s.name == "S1");
  CHECK(s.offset == mm(1500 - 150 - 20 - 100));
  CHECK(s.grate_level.in_m() == Approx(101.250 + 6.276 * grade - 0.015 * 1.230).epsilon(1e-8));
  CHECK(s.outlet_level.in_m() == Approx(101.250 + 6.276 * grade - 0.150 - 0.350).epsilon(1e-8));
}

TEST_CASE("holes: plate turned with the taper, labels by kind then x then y") {
  const auto b = trial::build(trial::example("saltmarsh"));
  const Mark& m = trial::mark_at(b.deck, 5);
  std::vector<Hole> tapped;
  for (const Hole& h : m.holes)
    if (h.kind == HoleKind::tapped) tapped.push_back(h);
  REQUIRE(tapped.size() == 16);
  for (std::size_t i = 1; i < tapped.size(); ++i)
    CHECK(tapped[i - 1].at.x <= tapped[i].at.x + 0.01);
  CHECK(tapped[0].label.substr(1) == "1");
  CHECK(tapped[15].label.substr(1) == "16");
  CHECK(*tapped[0].depth == 16);
  const double angle = std::atan(900 / 2500.0);
  for (const Hole& h : tapped) {
    const Feature& f = m.shape.features[static_cast<std::size_t>(h.feature)];
    CHECK(std::hypot(h.at.x - f.at.x, h.at.y - f.at.y) == Approx(std::hypot(70, 20)));
    if (f.variant == static_cast<int>(Side::left)) CHECK(f.angle == Approx(angle));
  }
}
