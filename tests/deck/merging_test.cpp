// Marks that a small move would make one.
#include "deck/merging.h"

#include "deck/trial.h"

using namespace deckquire;

namespace {

std::optional<Deck> rebuild(const Project& p) {
  auto b = trial::build(p);
  if (b.findings.has_errors()) return std::nullopt;
  return std::move(b.deck);
}

std::vector<std::string> hints(const Project& p) {
  const auto b = trial::build(p);
  REQUIRE(!b.findings.has_errors());
  std::vector<std::string> out;
  for (const Merger& m : find_mergers({p, b.bridge, b.deck}, rebuild)) {
    out.push_back(move_words(m, p.units));
    // What the hint says is what comes out when it is followed.
    const auto after = rebuild(with_moves(p, b.deck, m.moves));
    REQUIRE(after);
    CHECK(after->marks.size() == m.marks);
    CHECK(m.marks < b.deck.marks.size());
  }
  return out;
}

using Words = std::vector<std::string>;

ScupperData& scupper(Project& p, const std::string& name) {
  for (ScupperData& s : p.deck.scuppers->scuppers)
    if (s.name == name) return s;
  FAIL("no such scupper");
  return p.deck.scuppers->scuppers.front();
}

}  // namespace

TEST_CASE("mergers: a scupper off the place it has elsewhere, alone and with its twin") {
  Project p = trial::example("saltmarsh");
  CHECK(hints(p) == Words{});
  scupper(p, "S7").station += mm(24);
  CHECK(hints(p) == Words{"moving scupper S7 by 24 back"});
  scupper(p, "S8").station += mm(24);
  CHECK(hints(p) == Words{"moving scuppers S8, S7 by 24 back"});
}

TEST_CASE("mergers: in a panel that lies turned the move is the other way, and still merges") {
  Project p = trial::example("saltmarsh");
  const auto plain = trial::build(p);
  // Off the middle of their panels, so that the panels have a direction: S1 and S2 (panel 3) ahead,
  // S7 and S8 (panel 25) back: the one lies turned to the other.
  for (const char* name : {"S1", "S2"}) scupper(p, name).station += mm(200);
  for (const char* name : {"S3", "S4", "S5", "S6"}) scupper(p, name).station += mm(200);
  for (const char* name : {"S7", "S8"}) scupper(p, name).station -= mm(200 - 30);
  const auto b = trial::build(p);
  CHECK(b.deck.marks.size() == plain.deck.marks.size() + 1);
  CHECK(hints(p) == Words{"moving scuppers S8, S7 by 30 back"});
}

TEST_CASE("mergers: hatches move both ways, but not far") {
  Project p = trial::example("saltmarsh");
  p.deck.hatches[1].offset = mm(25);
  CHECK(hints(p) == Words{"moving hatch H2 by 25 to the right"});
  p.deck.hatches[1].station += mm(15);
  CHECK(hints(p) == Words{"moving hatch H2 by 15 back, 25 to the right"});
  p.deck.hatches[1].offset = mm(110);
  CHECK(hints(p) == Words{});
  p.deck.hatches[1].offset = mm(25);
  p.deck.hatches[1].cover += mm(4);  // another hatch: moving it saves nothing
  CHECK(hints(p) == Words{});
}

TEST_CASE("mergers: a post moves within the greatest bay only; the others stay where they are") {
  Project p = trial::example("quickstart");
  const auto before = trial::build(p);
  // All posts written out, one of them moved: the hint brings it back.
  const Project written = with_moves(p, before.deck, {{FeatureKind::post_plate, "3L", 40, 0}});
  CHECK(!written.deck.posts->greatest);
  const auto b = trial::build(written);
  REQUIRE(!b.findings.has_errors());
  CHECK(b.deck.posts.size() == before.deck.posts.size());
  for (std::size_t i = 0; i < b.deck.posts.size(); ++i) {
    CHECK(b.deck.posts[i].name == before.deck.posts[i].name);
    const Length moved = b.deck.posts[i].station - before.deck.posts[i].station;
    CHECK(moved == (b.deck.posts[i].name == "3L" ? mm(40) : Length()));
  }
  CHECK(b.deck.marks.size() == before.deck.marks.size() + 1);
  CHECK(hints(written) == Words{"moving post plate 3L by 40 back"});
}

TEST_CASE("mergers: a move into something that is in the way is no hint") {
  Project p = trial::example("saltmarsh");
  scupper(p, "S7").station += mm(24);
  REQUIRE(hints(p).size() == 1);
  const auto b = trial::build(p);
  const auto never = [](const Project&) -> std::optional<Deck> { return std::nullopt; };
  CHECK(find_mergers({p, b.bridge, b.deck}, never).empty());
  const auto unchanged = [&](const Project&) -> std::optional<Deck> { return b.deck; };
  CHECK(find_mergers({p, b.bridge, b.deck}, unchanged).empty());
}

TEST_CASE("mergers: asked for one mark, those of that mark only") {
  Project p = trial::example("saltmarsh");
  scupper(p, "S7").station += mm(24);
  const auto b = trial::build(p);
  int with = 0;
  for (int i = 0; i < static_cast<int>(b.deck.marks.size()); ++i)
    for (const Merger& m : find_mergers({p, b.bridge, b.deck}, rebuild, i)) {
      CHECK((m.from == i || m.into == i));
      ++with;
    }
  CHECK(with == 2);  // once for each of the two
}

TEST_CASE("mergers: on a curve the move of a fitting is a move along the alignment") {
  Project p = trial::example("heron");
  CHECK(hints(p) == Words{});
  scupper(p, "S3").station += mm(30);
  const auto b = trial::build(p);
  const auto found = find_mergers({p, b.bridge, b.deck}, rebuild);
  REQUIRE(found.size() == 1);
  REQUIRE(found[0].moves.size() == 1);
  CHECK(found[0].moves[0].name == "S3");
  // Chord and arc of 30 mm at 1.2 m inside a radius of 45 m differ by less than a millimetre.
  CHECK(found[0].moves[0].ahead == doctest::Approx(-30).epsilon(0.03));
}

TEST_CASE("mergers: what a rule places goes no farther than its freedom, scuppers upstream only") {
  Project p = trial::example("saltmarsh");
  p.deck.scuppers->scuppers.clear();
  p.bridge.crossings.clear();  // a road that is wider than the spacing leaves no place
  p.deck.scuppers->spacing = metres(7);
  const auto any = [](const Words& all) {
    return std::any_of(all.begin(), all.end(),
                       [](const std::string& w) { return w.find("scupper") != std::string::npos; });
  };
  p.deck.scuppers->freedom = Length();
  const auto b = trial::build(p);
  REQUIRE(!b.findings.has_errors());
  REQUIRE(scupper_freedom(p) == 0.0);
  CHECK(!any(hints(p)));
  // The same scuppers written out are the designer's: some would merge two marks.
  Project written = with_moves(p, b.deck, {{FeatureKind::scupper, "S1", 0, 0}});
  CHECK(!scupper_freedom(written));
  CHECK(any(hints(written)));
  // With a freedom: within it, and never downhill.
  p.deck.scuppers->freedom = mm(200);
  const auto c = trial::build(p);
  for (const Merger& m : find_mergers({p, c.bridge, c.deck}, rebuild))
    for (const FittingMove& f : m.moves) {
      if (f.kind != FeatureKind::scupper) continue;
      CHECK(std::abs(f.ahead) <= 200 + 1e-3);
      for (const ScupperPlace& s : c.deck.scuppers)
        if (s.name == f.name) CHECK(f.ahead * s.grade >= 0);
    }
}
