// The division chosen as a whole deck: what shows only there decides too.
#include "deck/trial.h"
#include "deck/trials.h"

using namespace deckquire;

namespace {

/// The starter project divided by the program, with a mast through its left curb. Posts stand at
/// half bays: whether one stands where the mast is shows only when the joints are chosen.
Project with_mast(Length station) {
  Project p = trial::example("quickstart");
  PanelsRule rule = p.deck.spans[0].usual;
  rule.longest = mm(2490);
  rule.shortest = mm(1500);
  rule.fewest_types = true;
  rule.place = p.deck.spans[0].place;
  p.deck.spans[0].rule = rule;
  ObstructionData mast;
  mast.name = "M1";
  mast.kind = "mast";
  mast.station = station;
  mast.offset = mm(1180);
  mast.diameter = mm(60);
  mast.clearance = mm(60);
  p.bridge.obstructions.push_back(mast);
  return p;
}

/// Chosen without the checks, then checked.
trial::Built unheeding(const Project& p) {
  trial::Built b;
  b.bridge = build_bridge(p, b.findings);
  b.deck = build_deck(p, b.bridge, b.findings);
  check_fit(p, b.bridge, b.deck, b.findings);
  return b;
}

const Finding* said(const trial::Built& b, const std::string& code) {
  static std::vector<Finding> all;
  all = b.findings.sorted();
  const auto f = std::find_if(all.begin(), all.end(), [&](auto& x) { return x.code == code; });
  return f == all.end() ? nullptr : &*f;
}

std::vector<Length> joints(const Deck& d) {
  std::vector<Length> out;
  for (const Joint& j : d.joints) out.push_back(j.station);
  return out;
}

}  // namespace

TEST_CASE("settling: where the best division has a clash the next best is taken, and it is said") {
  const Project p = with_mast(mm(6850));
  const trial::Built best = unheeding(p), taken = trial::build(p);
  REQUIRE(best.findings.has_errors());
  const Finding* clash = said(best, "features-overlap");
  REQUIRE(clash);
  CHECK(clash->what.find("post plate") == 0);
  CHECK_MESSAGE(!taken.findings.has_errors(), trial::codes(taken.findings));
  CHECK(joints(taken.deck) != joints(best.deck));
  CHECK(taken.deck.marks.size() >= best.deck.marks.size());
  const Finding* note = said(taken, "division-next-best");
  REQUIRE(note);
  CHECK(note->severity == Severity::note);
  CHECK(note->what.find("the best division has 1 error as a whole deck (the first: post plate") ==
        0);
  const std::string marks = "with " + std::to_string(taken.deck.marks.size()) +
                            " marks instead of " + std::to_string(best.deck.marks.size());
  CHECK(note->what.find(marks) != std::string::npos);
  // The same with nothing in the way: not a word.
  CHECK(said(trial::build(with_mast(mm(7200))), "division-next-best") == nullptr);
}

TEST_CASE("settling: where no division is without errors, that is said beside the errors") {
  const trial::Built b = trial::build(with_mast(mm(5100)));
  CHECK(b.findings.has_errors());
  const Finding* warning = said(b, "division-not-clean");
  REQUIRE(warning);
  CHECK(warning->severity == Severity::warning);
  int errors = 0;
  for (const Finding& f : b.findings.sorted()) errors += f.severity == Severity::error;
  CHECK(warning->what.find("with the fewest, " + std::to_string(errors) + ",") !=
        std::string::npos);
}

TEST_CASE("settling: a trial is good just where the deck is built without an error") {
  // Among them panels without room for clips or lifting inserts, posts and scuppers without a
  // place.
  int good = 0, bad = 0;
  for (const std::string name :
       {"hold-down-room-fails", "hold-down-spacing-fails", "hold-down-spacing",
        "lifting-room-fails", "lifting-room", "post-equal-fails", "post-equal",
        "post-half-bay-fails", "post-half-bay", "post-given-near-joint", "scupper-no-place-fails",
        "scupper-spacing", "scupper-sag", "tag-hidden-fails", "tag-hidden"}) {
    CAPTURE(name);
    Findings findings;
    const std::string file = std::string(DECKQUIRE_SOURCE "/tests/placement/") + name + ".xml";
    const auto p = read_project(read_file(file), name, findings);
    REQUIRE(p);
    REQUIRE(p->deck.spans.size() == 1);
    const Bridge bridge = build_bridge(*p, findings);
    std::vector<Length> panels;
    for (const PanelRun& r : p->deck.spans[0].runs)
      panels.insert(panels.end(), static_cast<std::size_t>(r.times), r.length);
    if (panels.empty()) continue;  // divided by a rule
    build_deck(*p, bridge, findings);
    const auto frames = span_frames(*p, findings);
    Trials trials(*p, bridge, frames);
    CHECK(trials.of(0, panels).good == !findings.has_errors());
    ++(findings.has_errors() ? bad : good);
  }
  CHECK(good >= 4);
  CHECK(bad >= 3);
}
