// <panels divide="fewest-types">: the main example with its spans divided by the program.
#include <set>

#include "deck/alternatives.h"
#include "deck/trial.h"
#include "support/thorough.h"

using namespace deckquire;

namespace {

/// The main example with every span by the same rule.
Project saltmarsh(Length longest, bool fewest) {
  Project p = trial::example("saltmarsh");
  for (SpanData& s : p.deck.spans) {
    s.runs.clear();
    PanelsRule rule = s.usual;  // all defaults of the vocabulary
    rule.count.reset();
    rule.longest = longest;
    rule.shortest = longest / 2;
    rule.preferred = longest;
    rule.fewest_types = fewest;
    rule.place = s.place;
    s.rule = rule;
  }
  return p;
}

struct Made {
  Bridge bridge;
  Deck deck;
  Findings findings;
};

Made made(const Project& p) {
  Made m;
  m.bridge = build_bridge(p, m.findings);
  m.deck = build_deck(p, m.bridge, m.findings);
  return m;
}

std::vector<std::pair<Length, Length>> places(const Deck& d) {
  std::vector<std::pair<Length, Length>> out;
  for (const Panel& p : d.panels) out.push_back({p.start, p.end});
  return out;
}

/// Distance of a stretch of the deck from the nearest joint's edge, negative across it.
Length from_joints(const Deck& d, Length from, Length to) {
  Length least = metres(1000);
  for (const Joint& j : d.joints) {
    const Length back = j.station - j.gap / 2, ahead = j.station + j.gap / 2;
    least = std::min(least, std::max(from - ahead, back - to));
  }
  return least;
}

}  // namespace

TEST_CASE("fewest types: the main example by longest panels of 3 m, marks against equal division") {
  const Made equal = made(saltmarsh(mm(3000), false)), fewest = made(saltmarsh(mm(3000), true));
  // Equal panels of that length do not even fit: the heavy surface begins inside one of them.
  CHECK(equal.findings.has_errors());
  CHECK_MESSAGE(!fewest.findings.has_errors(), trial::codes(fewest.findings));
  CHECK(fewest.deck.marks.size() + 1 <= equal.deck.marks.size());
}

TEST_CASE(
    "fewest types: the main example by its own longest panels, no more marks, and the proof") {
  // The bridge was laid out for pitches of 2500, so equal panels cannot be beaten by outline: five
  // are the least, which the search proves (two tapers, and three constant widths and surfaces).
  const Project p = saltmarsh(mm(2490), true);
  const Made equal = made(saltmarsh(mm(2490), false)), fewest = made(p);
  CHECK(!fewest.findings.has_errors());
  CHECK(fewest.deck.marks.size() <= equal.deck.marks.size());
  Findings findings;
  const Alternatives a = compare_divisions(p, fewest.bridge, findings);
  CHECK(findings.empty());
  REQUIRE(!a.all.empty());
  CHECK(a.proven);
  CHECK(a.at_least == 5);
  CHECK(a.all[0].outlines == 5);
  CHECK(a.all[0].setups == static_cast<int>(fewest.deck.marks.size()));
  CHECK(a.all[0].panels == static_cast<int>(fewest.deck.panels.size()));
}

TEST_CASE("fewest types: marks of spans that are written out count too") {
  Project p = trial::example("saltmarsh");
  const Project asking = saltmarsh(mm(2490), true);
  p.deck.spans[1] = asking.deck.spans[1];  // the others panel by panel
  REQUIRE(!p.deck.spans[0].runs.empty());
  const Made m = made(p);
  REQUIRE_MESSAGE(!m.findings.has_errors(), trial::codes(m.findings));
  Findings findings;
  const Alternatives a = compare_divisions(p, m.bridge, findings);
  REQUIRE(!a.all.empty());
  CHECK(a.all[0].setups == static_cast<int>(m.deck.marks.size()));
  CHECK(a.all[0].panels == static_cast<int>(m.deck.panels.size()));
}

TEST_CASE("fewest types: what is chosen, written out panel by panel, is the same deck") {
  const Project p = saltmarsh(mm(3000), true);
  const Made by_rule = made(p);
  Findings findings;
  const Alternatives a = compare_divisions(p, by_rule.bridge, findings);
  REQUIRE(!a.all.empty());
  const Made written = made(with_division(p, a.all[0].spans));
  CHECK(!written.findings.has_errors());
  CHECK(places(written.deck) == places(by_rule.deck));
  CHECK(written.deck.marks.size() == by_rule.deck.marks.size());
  for (std::size_t i = 0; i < written.deck.panels.size(); ++i)
    CHECK(written.deck.panels[i].mark == by_rule.deck.panels[i].mark);
}

TEST_CASE("fewest types: every rule given is kept by the built deck") {
  Project p = saltmarsh(mm(3000), true);
  for (SpanData& s : p.deck.spans) {
    s.rule->clear = {mm(60), mm(75), mm(80), mm(90), mm(110)};
    s.rule->mould = mm(2900);
    s.rule->shortest = mm(1200);
  }
  p.deck.hatches[0].station += mm(700);
  const Made m = made(p);
  REQUIRE_MESSAGE(!m.findings.has_errors(), to_line(m.findings.sorted().front()));
  for (const Panel& q : m.deck.panels) {
    CHECK(q.end - q.start <= mm(2900));
    CHECK(q.end - q.start >= mm(1200));
  }
  for (const HatchData& h : p.deck.hatches) {
    const Length half = h.length / 2 + h.rebate;
    CHECK(from_joints(m.deck, h.station - half, h.station + half) >= mm(90));
  }
  for (const ScupperData& s : p.deck.scuppers->scuppers)
    CHECK(from_joints(m.deck, s.station - mm(180), s.station + mm(180)) >= mm(80));
  for (const Splice& s : m.bridge.splices) {
    const Length half = s.length / 2 + p.deck.section.recess_around;
    CHECK(from_joints(m.deck, s.station - half, s.station + half) >= mm(60));
  }
  CHECK(from_joints(m.deck, mm(15670 - 200), mm(15670 + 200)) >= mm(110));  // the mast
  // A joint wherever the width bends.
  for (Length s : m.bridge.edges.breaks()) {
    if (s <= p.deck.spans[0].from || s >= p.deck.spans[2].to) continue;
    const bool there = std::any_of(m.deck.joints.begin(), m.deck.joints.end(),
                                   [&](const Joint& j) { return j.station == s; });
    CHECK_MESSAGE(there, s.in_mm());
  }
}

TEST_CASE("fewest types: a greatest mass is kept by the panels as built") {
  for (double most : thorough ? std::vector{540.0, 500.0} : std::vector{500.0}) {
    Project p = saltmarsh(mm(2490), true);
    for (SpanData& s : p.deck.spans) {
      s.rule->heaviest = Mass::si(most);
      s.rule->shortest = mm(900);
    }
    const Made m = made(p);
    REQUIRE_MESSAGE(!m.findings.has_errors(), to_line(m.findings.sorted().front()));
    for (const Mark& k : m.deck.marks) CHECK(k.masses.total.in_si() <= most);
  }
}

TEST_CASE("fewest types: symmetrical joints in a span of one width") {
  Project p = saltmarsh(mm(2700), true);
  p.deck.spans[1].rule->symmetrical = true;
  p.deck.sleeves[0].station += mm(2000);
  const Made m = made(p);
  REQUIRE_MESSAGE(!m.findings.has_errors(), to_line(m.findings.sorted().front()));
  const SpanRun& s = m.deck.spans[1];
  for (int i = 0; i < s.count; ++i) {
    const Panel& a = m.deck.panels[static_cast<std::size_t>(s.first + i)];
    const Panel& b = m.deck.panels[static_cast<std::size_t>(s.first + s.count - 1 - i)];
    CHECK(a.start - s.from == s.to - b.end);
  }
}

TEST_CASE("fewest types: posts given one by one keep joints away, posts by half bays do not") {
  Project p = trial::example("quickstart");
  PanelsRule rule = p.deck.spans[0].usual;
  rule.fewest_types = true;
  rule.shortest = mm(1500);
  p.deck.spans[0].rule = rule;
  p.deck.scuppers->scuppers.clear();
  const Made free = made(p);
  REQUIRE(!free.findings.has_errors());
  // A post on the second joint of that division moves it.
  const Length joint = free.deck.joints[1].station;
  p.deck.posts->greatest.reset();
  p.deck.posts->posts.push_back({"X1", joint, CurbSides::both, {}});
  const Made m = made(p);
  REQUIRE_MESSAGE(!m.findings.has_errors(), to_line(m.findings.sorted().front()));
  const Length half = p.deck.posts->plate.length / 2;
  CHECK(from_joints(m.deck, joint - half, joint + half) >= p.deck.posts->clear);
}

TEST_CASE("fewest types: opposite hands count once where moulds are counted") {
  Project p = saltmarsh(mm(2490), true);
  const Made m = made(p);
  Findings findings;
  const int marks = compare_divisions(p, m.bridge, findings).all.at(0).setups;
  for (SpanData& s : p.deck.spans) s.rule->moulds = true;
  const int moulds = compare_divisions(p, m.bridge, findings).all.at(0).setups;
  CHECK(moulds < marks);  // the tapers of a lookout are opposite hands
}

TEST_CASE("divide: a project that asks for nothing is compared as it stands") {
  const Project p = trial::example("quickstart");
  const Made m = made(p);
  Findings findings;
  const Alternatives a = compare_divisions(p, m.bridge, findings);
  const auto stands = std::find_if(a.all.begin(), a.all.end(),
                                   [](const Alternative& x) { return x.name == "as it stands"; });
  REQUIRE(stands != a.all.end());
  CHECK(stands->setups == static_cast<int>(m.deck.marks.size()));
  CHECK(stands->panels == static_cast<int>(m.deck.panels.size()));
  Mass heaviest;
  for (const Mark& k : m.deck.marks) heaviest = std::max(heaviest, k.masses.total);
  CHECK(stands->heaviest.in_si() == doctest::Approx(heaviest.in_si()));
  CHECK(stands->mean.in_si() * stands->panels == doctest::Approx(m.deck.mass.in_si()));
  CHECK(a.all[0].setups <= stands->setups);
}
