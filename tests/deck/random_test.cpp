// Decks out of dice, every invariant of each. DECKQUIRE_RANDOM=n: so many decks;
// DECKQUIRE_RANDOM=a-b: the seeds from a to b. What they found is in random_found_test.cpp.
#include <cctype>
#include <cstdlib>

#include "deck/random_checks.h"

using namespace deckquire;

namespace {

#ifdef NDEBUG
constexpr int usual = 160;  // a few seconds
#else
constexpr int usual = 40;  // the same in a build that is not optimised
#endif

struct Seeds {
  int first = 0, end = 0;
};

/// DECKQUIRE_RANDOM=n: so many; DECKQUIRE_RANDOM=a-b: those seeds.
Seeds wanted() {
  const char* text = std::getenv("DECKQUIRE_RANDOM");
  if (!text) return {0, usual};
  char* rest = nullptr;
  const int n = static_cast<int>(std::strtol(text, &rest, 10));
  return *rest == '-' ? Seeds{n, std::atoi(rest + 1) + 1} : Seeds{0, n};
}

/// What is wrong with a deck, in words; `clean`: it has no error, so that everything was checked.
std::vector<std::string> faults_of(const trial::RandomDeck& made, bool* clean = nullptr) {
  std::vector<std::string> wrong;
  const trial::Built built = trial::build(made.project);
  const trial::Case c{made, built, wrong};
  trial::check_findings(c);
  trial::check_whole(c);
  if (clean) *clean = !built.findings.has_errors();
  if (!built.deck.panels.empty()) trial::check_clashes(c);
  if (!made.fault.empty() && trial::codes(built.findings).find(made.fault) == std::string::npos)
    c.say("{} was not found", made.fault);
  if (built.findings.has_errors() || built.deck.panels.empty()) return wrong;
  for (auto* check :
       {trial::check_spans, trial::check_faces, trial::check_tiling, trial::check_features,
        trial::check_through, trial::check_posts, trial::check_types, trial::check_masses,
        trial::check_drainage})
    check(c);
  return wrong;
}

/// A degree and a pound are not read to the last bit, and which of two equal places is named first
/// may turn on that.
std::string without_figures(const std::string& s) {
  std::string out;
  for (char c : s)
    if (!std::isdigit(static_cast<unsigned char>(c)) && c != '/' && c != ' ' && c != '.') out += c;
  return out;
}

std::string first_lines(const std::vector<std::string>& wrong) {
  std::string out;
  for (std::size_t i = 0; i < wrong.size() && i < 6; ++i) out += "\n  " + wrong[i];
  return out;
}

}  // namespace

TEST_CASE("random decks: every invariant holds") {
  const Seeds seeds = wanted();
  int good = 0;
  for (int seed = seeds.first; seed < seeds.end; ++seed) {
    bool clean = false;
    const auto wrong = faults_of(trial::random_deck(static_cast<std::uint64_t>(seed)), &clean);
    good += clean ? 1 : 0;
    if (!wrong.empty()) FAIL_CHECK("seed " << seed << ":" << first_lines(wrong));
  }
  const int count = seeds.end - seeds.first;
  MESSAGE(good << " of " << count << " decks without an error");
  if (count >= 40) CHECK(good > count * 2 / 3);  // else the dice make nothing worth checking
}

TEST_CASE("random decks: read from their XML, the same deck and the same findings") {
  const Seeds seeds = wanted();
  for (int seed = seeds.first; seed < seeds.end; seed += 2) {
    const trial::RandomDeck made = trial::random_deck(static_cast<std::uint64_t>(seed));
    if (!made.fault.empty()) continue;
    Findings read;
    const auto project = read_project(made.xml, made.project.file, read);
    CAPTURE(seed);
    REQUIRE(project);
    REQUIRE(read.empty());
    const trial::Built a = trial::build(made.project), b = trial::build(*project);
    CHECK(a.deck.mass.in_si() == doctest::Approx(b.deck.mass.in_si()));
    REQUIRE(a.deck.panels.size() == b.deck.panels.size());
    for (std::size_t i = 0; i < a.deck.panels.size(); ++i) {
      const Panel &p = a.deck.panels[i], &q = b.deck.panels[i];
      CHECK(p.start == q.start);
      CHECK(p.end == q.end);
      CHECK(p.mark == q.mark);
      CHECK(p.turned == q.turned);
    }
    const auto said = a.findings.sorted(), heard = b.findings.sorted();
    REQUIRE(said.size() == heard.size());
    for (std::size_t i = 0; i < said.size(); ++i) {
      CHECK(said[i].code == heard[i].code);
      CHECK(without_figures(said[i].what) == without_figures(heard[i].what));
      CHECK(said[i].place.line == heard[i].place.line);
    }
  }
}
