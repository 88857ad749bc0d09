// What was cast is kept: the errors that say so, and the three ways out.
#include <doctest/doctest.h>

#include "deck/trial.h"
#include "history/identities.h"
#include "history/signature.h"

using namespace deckquire;
using namespace deckquire::history;

namespace {

Project story(const std::string& name) {
  Findings findings;
  auto p = read_project(read_file(DECKQUIRE_SOURCE "/projects/story/" + name + ".xml"), "weir.xml",
                        findings);
  REQUIRE(p);
  return *p;
}

struct Kept {
  Deck deck;
  Findings findings;
};

/// The deck with its names, and what was found about it as a whole.
Kept keep(const Project& p, const Register& r, const IssuedShapes& shapes = {}) {
  Kept k;
  const Bridge bridge = build_bridge(p, k.findings);
  k.deck = build_deck(p, bridge, k.findings);
  keep_identities(k.deck, p, bridge, r, k.findings, shapes);
  return k;
}

/// Revision C is issued, the panel with the hatch (position 3) and two others are cast.
struct Cast {
  Project project = story("4-C-for-fabrication");
  Register issued;
  Deck deck;
  Cast() {
    project.revisions.pop_back();  // the first issue of these tests
    deck = keep(project, {}).deck;
    Entry e;
    e.number = 1;
    e.issue = issue_of(project, {}, deck);
    issued.entries.push_back(e);
    Entry built;
    built.number = 2;
    for (int i : {0, 1, 2}) {
      const Panel& p = deck.panels[static_cast<std::size_t>(i)];
      built.built.push_back({p.serial, deck.marks[static_cast<std::size_t>(p.mark)].name, "B",
                             Stage::cast, "2027-01-11", "", "", {}, {}, {}, {}});
    }
    issued.entries.push_back(built);
    project.revisions.push_back({"C", "2027-01-18", "", "", "for fabrication", "", {}});
  }
  IssuedShapes shapes() const {
    return [this](const std::string& serial) -> std::optional<PanelShape> {
      for (const Panel& p : deck.panels)
        if (p.serial == serial) return p.shape;
      return std::nullopt;
    };
  }
  Kept now() const { return keep(project, issued, shapes()); }
  void decide(const std::string& serial, const std::string& way,
              const std::string& revision = "C") {
    project.decisions.push_back({serial, way, revision, "", "2027-01-18", "because",
                                 {"weir.xml", 70, 3}});
  }
  /// As an issue of the last revision, and the next one begun.
  void issue(const Kept& k, const std::string& next) {
    Entry e;
    e.number = static_cast<int>(issued.entries.size()) + 1;
    e.issue = issue_of(project, {}, k.deck);
    e.voided = voided_by(*e.issue, issued, project);
    issued.entries.push_back(e);
    project.revisions.push_back({next, "2027-02-01", "", "", "for fabrication", "", {}});
  }
  void move_hatch(double by) { project.deck.hatches[0].station += mm(by); }
};

std::string mark(const Deck& d, int panel) {
  return d.marks[static_cast<std::size_t>(d.panels[static_cast<std::size_t>(panel)].mark)].name;
}

}  // namespace

TEST_CASE("built: what leaves cast panels as they are is no error") {
  Cast job;
  CHECK(trial::codes(job.now().findings) == "");
  job.project.deck.scuppers->scuppers[0].station -= mm(40);  // in a panel that is not cast
  const Kept k = job.now();
  CHECK(trial::codes(k.findings) == "");
  CHECK(mark(k.deck, 2) == "DP03");
  CHECK(mark(k.deck, 7) == "DP07");
}

TEST_CASE("built: a change of a cast panel is an error at its line, with all there is to know") {
  Cast job;
  job.move_hatch(60);
  const Kept k = job.now();
  REQUIRE(trial::codes(k.findings) == "built-panel-changed");
  const Finding f = k.findings.sorted()[0];
  CHECK(f.place.line == 38);
  CHECK(f.what.find("panel 0733-003 (DP03, position 3) was cast on 2027-01-11 to revision B, but "
                    "the design now asks for hatch H1 at x = 1296 instead of 1236") == 0);
  for (const char* word : {"rework", "replace", "accept", "<decision on=\"0733-003\""})
    CHECK(f.remedy.find(word) != std::string::npos);
  // Without the project as it was issued the change is still found.
  CHECK(trial::codes(keep(job.project, job.issued).findings) == "built-panel-changed");
}

TEST_CASE("built: what changes all panels is one error for those of a mark") {
  Cast job;
  job.project.deck.section.top_skin = mm(9);
  const Kept k = job.now();
  CHECK(trial::codes(k.findings) ==
        "built-panel-changed built-panel-changed built-panel-changed");
  CHECK(k.findings.sorted()[0].what.find("another make of what all panels share") !=
        std::string::npos);
}

TEST_CASE("built: reworked, the panel keeps its serial and takes the new mark") {
  Cast job;
  job.move_hatch(60);
  job.decide("0733-003", "rework");
  const Kept k = job.now();
  CHECK(trial::codes(k.findings) == "");
  CHECK(k.deck.panels[2].serial == "0733-003");
  CHECK(mark(k.deck, 2) == "DP07");
  job.issue(k, "D");
  CHECK(job.issued.entries.back().voided.empty());
  const PanelLife life = job.issued.lives()[2];
  CHECK(life.mark == "DP07");
  CHECK(life.stage == Stage::cast);
  CHECK(life.events[0].mark == "DP03");
  // That decision is used up: another change needs another.
  CHECK(trial::codes(job.now().findings) == "");
  job.move_hatch(60);
  CHECK(trial::codes(job.now().findings) == "built-panel-changed");
}

TEST_CASE("built: replaced, its serial is void and a new panel takes its place") {
  Cast job;
  job.move_hatch(60);
  job.decide("0733-003", "replace");
  const Kept k = job.now();
  CHECK(trial::codes(k.findings) == "");
  CHECK(k.deck.panels[2].serial == "0733-009");
  CHECK(mark(k.deck, 2) == "DP07");
  job.issue(k, "D");
  const auto lives = job.issued.lives();
  CHECK(lives[2].voided);
  CHECK(lives[2].position == 0);
  CHECK(lives[2].replaced_by == "0733-009");
  CHECK(lives[2].reason == "position 3 needs DP07; because");
  CHECK(lives.back().serial == "0733-009");
  CHECK(lives.back().stage == Stage::planned);
  job.move_hatch(60);  // the new one is not cast yet
  CHECK(trial::codes(job.now().findings) == "");
}

TEST_CASE("built: accepted, the panel stays as it was built, and everything is checked with it") {
  Cast job;
  job.move_hatch(60);
  job.decide("0733-003", "accept");
  Kept k = job.now();
  CHECK(trial::codes(k.findings) == "");
  CHECK(k.deck.panels[2].serial == "0733-003");
  CHECK(mark(k.deck, 2) == "DP03");
  const auto hatch = [](const PanelShape& s) {
    for (const Feature& f : s.features)
      if (f.kind == FeatureKind::hatch) return f;
    return Feature{};
  };
  CHECK(hatch(k.deck.panels[2].shape).at.x ==
        doctest::Approx(hatch(job.deck.panels[2].shape).at.x));
  CHECK(hatch(k.deck.panels[2].shape).source == "H1");
  CHECK(!k.deck.panels[2].wanted.empty());
  CHECK(!same_part(k.deck.panels[2].wanted, job.issued.entries[0].issue->marks[2].signature));
  const Bridge bridge = build_bridge(job.project, k.findings);
  check_fit(job.project, bridge, k.deck, k.findings);
  CHECK(trial::codes(k.findings) == "");
  job.issue(k, "D");
  // It stays accepted while the design asks for the same, and only so long.
  Cast& later = job;
  k = later.now();
  CHECK(trial::codes(k.findings) == "");
  CHECK(mark(k.deck, 2) == "DP03");
  job.move_hatch(30);
  CHECK(trial::codes(job.now().findings) == "built-panel-changed");
  job.project.decisions.clear();
  CHECK(trial::codes(job.now().findings) == "built-panel-changed");
}

TEST_CASE("built: accepted or reworked cannot be what there is no place for, or no drawing") {
  Cast job;
  job.project.deck.section.top_skin = mm(9);
  for (const char* serial : {"0733-001", "0733-002", "0733-003"}) job.decide(serial, "accept");
  CHECK(trial::codes(job.now().findings) ==
        "decision-impossible decision-impossible decision-impossible");
  Cast gone;
  gone.move_hatch(0);
  gone.project.bridge.alignment.from = metres(5.012);
  gone.project.deck.spans[0].from = metres(5.012);
  gone.project.bridge.supports[0].station = metres(5.012);
  const std::string open = trial::codes(gone.now().findings);
  CHECK(open.find("built-panel-changed") != std::string::npos);
  for (const char* serial : {"0733-001", "0733-002"}) gone.decide(serial, "rework");
  CHECK(trial::codes(gone.now().findings).find("decision-impossible") != std::string::npos);
  gone.project.decisions.clear();
  for (const char* serial : {"0733-001", "0733-002", "0733-003"}) gone.decide(serial, "replace");
  const Kept k = gone.now();
  CHECK(trial::codes(k.findings).find("decision-impossible") == std::string::npos);
  CHECK(trial::codes(k.findings).find("built-panel-changed") == std::string::npos);
}

TEST_CASE("built: a decision that decides nothing is said") {
  Cast job;
  job.decide("0733-001", "replace");
  job.decide("0733-999", "replace");
  job.decide("0733-002", "replace", "B");  // of an earlier revision: a record
  const Kept k = job.now();
  CHECK(trial::codes(k.findings) == "decision-idle decision-idle");
  CHECK(k.deck.panels[0].serial == "0733-001");
  Findings without;
  Deck d = job.deck;
  keep_identities(d, job.project, {}, {}, without);
  CHECK(trial::codes(without) == "decision-idle decision-idle");
}
