#include "deck/site.h"
#include "deck/trial.h"

using namespace deckquire;

namespace {

/// A project with one span from 0 to `to`, otherwise the smallest example.
Project one_span(Length to, Length gap, Length end_gap) {
  Project p = trial::example("quickstart");
  p.bridge.alignment.from = Length();
  p.bridge.alignment.to = to;
  p.deck.joints.gap = gap;
  p.deck.joints.end_gap = end_gap;
  p.deck.spans.resize(1);
  p.deck.spans[0].from = Length();
  p.deck.spans[0].to = to;
  return p;
}

/// The bridge's own findings are left out.
Division divided(const Project& p, Findings& findings) {
  Findings other;
  return divide(p, build_bridge(p, other), findings);
}

Length closing_error(const Project& p, const Division& d) {
  Length error;
  for (const SpanRun& s : d.spans) {
    Length sum = s.end_gap_back + s.end_gap_ahead;
    if (s.count > 0) sum += p.deck.joints.gap * (s.count - 1);
    for (int i = s.first; i < s.first + s.count; ++i) {
      const auto& piece = d.pieces[static_cast<std::size_t>(i)];
      sum += piece.end - piece.start;
    }
    error += abs(sum - (s.to - s.from));
  }
  return error;
}

}  // namespace

TEST_CASE("division: longest panels, closing exactly for odd spans in millimetres and inches") {
  trial::Dice dice{20260101};
  for (int i = 0; i < 400; ++i) {
    const bool metric = i % 2 == 0;
    const Length to =
        metric ? mm(6000 + dice.upto(60000)) : inches((2000 + dice.upto(90000)) / 16.0);
    Project p = one_span(to, metric ? mm(12) : inches(0.5), metric ? mm(32) : inches(1.25));
    p.units = metric ? UnitSystem::metric : UnitSystem::imperial;
    const Length longest =
        metric ? mm(1500 + dice.upto(2000)) : inches((60 * 16 + dice.upto(900)) / 16.0);
    p.deck.spans[0].runs.clear();
    p.deck.spans[0].rule = PanelsRule{std::nullopt, longest, {}};
    Findings findings;
    const Division d = divided(p, findings);
    CAPTURE(i);
    REQUIRE(findings.empty());
    CHECK(closing_error(p, d) == Length());
    const Length unit = print_unit(p.units);
    for (std::size_t k = 0; k < d.pieces.size(); ++k) {
      const Length l = d.pieces[k].end - d.pieces[k].start;
      CHECK(l <= longest);
      if (k + 1 < d.pieces.size()) CHECK(l.in_nanometres() % unit.in_nanometres() == 0);
    }
    // One panel fewer could not do it.
    const auto n = static_cast<std::int64_t>(d.pieces.size());
    CHECK(longest * (n - 1) + p.deck.joints.gap * (n - 2) < to - p.deck.joints.end_gap * 2);
  }
}

TEST_CASE("division: the three ways of the main example close on their spans") {
  const Project p = trial::example("saltmarsh");
  Findings findings;
  const Division d = divided(p, findings);
  REQUIRE(findings.empty());
  CHECK(closing_error(p, d) == Length());
  REQUIRE(d.pieces.size() == 38);
  for (const auto& piece : d.pieces) CHECK(piece.end - piece.start == mm(2488));
  REQUIRE(d.joints.size() == 39);
  CHECK(d.joints[0].station == mm(16));
  CHECK(d.joints[0].back == -1);
  CHECK(d.joints[12].station == mm(30036));  // over the pier, shared by both spans
  CHECK(d.joints[12].end);
  CHECK(d.joints[38].ahead == -1);
  CHECK(d.joints[5].station == mm(12526));
}

TEST_CASE("division: panels that do not add up say by how much and what would close") {
  Project p = one_span(mm(10000), mm(10), mm(20));
  p.deck.spans[0].rule.reset();
  p.deck.spans[0].runs = {{mm(2485), 4, {}}};  // 4 x 2485 + 3 x 10 = 9970; 9960 are there
  Findings findings;
  divided(p, findings);
  REQUIRE(findings.sorted().size() == 1);
  const Finding f = findings.sorted()[0];
  CHECK(f.code == "panels-do-not-add-up");
  CHECK(f.what ==
        "the panels of span 1 with their gaps are 10 too long (they come to 9970, the "
        "span leaves 9960 between its end gaps)");
  CHECK(f.remedy == "a last panel of 2475 would close the span");
}

TEST_CASE("division: spans that overlap, leave a gap, leave the bridge; panels too short") {
  const Project good = trial::example("saltmarsh");
  const auto codes = [](const Project& p) {
    Findings f;
    divided(p, f);
    return trial::codes(f);
  };
  Project p = good;
  p.deck.spans[1].from += mm(1);
  CHECK(codes(p) == "gap-between-spans");
  p = good;
  p.deck.spans[1].from -= mm(1);
  CHECK(codes(p) == "spans-overlap");
  p = good;
  p.deck.spans[2].to += mm(1);
  CHECK(codes(p) == "span-outside-bridge");
  p = good;
  p.deck.spans[1].rule = PanelsRule{200, std::nullopt, {}};
  CHECK(codes(p) == "panel-too-short");
}

TEST_CASE("posts: half-bay rule on pitches 2500, 2500, 3000, 2700") {
  // reference case F1: gap 20, greatest spacing 1500; posts measured from the first joint line.
  Project p = one_span(mm(10700), mm(20), mm(10));  // end gap half a joint: faces 10 off the lines
  p.deck.spans[0].rule.reset();
  p.deck.spans[0].runs = {{mm(2480), 2, {}}, {mm(2980), 1, {}}, {mm(2680), 1, {}}};
  p.deck.posts->greatest = mm(1500);
  p.deck.scuppers.reset();
  p.bridge.splices.clear();
  p.bridge.supports.clear();
  Findings findings;
  const Bridge bridge = build_bridge(p, findings);
  const Deck deck = build_deck(p, bridge, findings);
  REQUIRE(findings.empty());
  const double expected[] = {625, 1875, 3125, 4375, 5750, 7250, 8675, 10025};
  REQUIRE(deck.posts.size() == 16);
  for (std::size_t i = 0; i < 8; ++i) {
    CHECK(deck.posts[i].station.in_mm() == doctest::Approx(expected[i]));
    CHECK(deck.posts[i].name == std::to_string(i + 1) + "L");
    CHECK(deck.posts[i + 8].name == std::to_string(i + 1) + "R");
  }
}

TEST_CASE("division: ten thousand panels are laid at once") {
  Project p;
  p.bridge.alignment.to = metres(25000);
  p.deck.joints.gap = mm(12);
  p.deck.spans.resize(1);
  p.deck.spans[0].to = metres(25000);
  p.deck.spans[0].rule = PanelsRule{10000, std::nullopt, {}};
  Findings findings;
  const Division d = divided(p, findings);
  CHECK(findings.empty());
  REQUIRE(d.pieces.size() == 10000);
  CHECK(owner(d, metres(12345), {}) == owner(d, metres(12345), metres(1)));
  const auto& found = d.pieces[static_cast<std::size_t>(owner(d, metres(12345), {}))];
  CHECK(found.start <= metres(12345));
  CHECK(found.end >= metres(12345));
}

TEST_CASE("division: a gap is square to its joint line, and longer along the alignment at a skew") {
  Project p = one_span(mm(10000), mm(12), mm(32));
  p.deck.joints.skew = degrees(60);
  p.deck.spans[0].skew_to = Angle();
  p.deck.spans[0].runs.clear();
  p.deck.spans[0].rule = PanelsRule{4, std::nullopt, {}};
  Findings findings;
  const Division d = divided(p, findings);
  CHECK(findings.empty());
  REQUIRE(d.pieces.size() == 4);
  CHECK(d.pieces[0].start == mm(64));  // 32 / cos 60
  CHECK(d.pieces[1].start - d.pieces[0].end == mm(24));
  CHECK(d.pieces[3].end == mm(10000 - 32));
  CHECK(d.joints[1].station == d.pieces[0].end + mm(12));
  CHECK(d.joints.back().skew == 0);
}

TEST_CASE("division: rows from the left, between their row joints, as far as these run") {
  Project p = trial::example("quickstart");
  p.deck.row_joints.push_back(
      {"L1", mm(500), mm(10), p.deck.spans[0].from, p.deck.spans[0].to, {}});
  p.deck.row_joints.push_back({"L2", mm(-600), mm(20), p.deck.spans[0].from, metres(2.5), {}});
  Findings findings;
  const Division d = divided(p, findings);
  REQUIRE(d.bays.size() > 1);
  CHECK(d.bays[1] == 3);
  CHECK(d.pieces[0].row == 0);
  CHECK(!d.pieces[0].left_limit);
  CHECK(*d.pieces[0].right_limit == mm(505));
  CHECK(*d.pieces[1].left_limit == mm(495));
  CHECK(*d.pieces[1].right_limit == mm(-590));
  CHECK(*d.pieces[2].left_limit == mm(-610));
  CHECK(!d.pieces[2].right_limit);
  CHECK(d.pieces[4].row == 1);
  CHECK(!d.pieces[4].right_limit);
  const Length at = d.pieces[0].start + mm(500);
  CHECK(owner(d, at, mm(900)) == 0);
  CHECK(owner(d, at, mm(0)) == 1);
  CHECK(owner(d, at, mm(-700)) == 2);
  CHECK(outermost(d, 0, Side::left) == 0);
  CHECK(outermost(d, 0, Side::right) == 2);
}
