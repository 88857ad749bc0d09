// Projects for the tests of bridge, deck and checks: the examples, to be changed field by field.
#pragma once

#include <doctest/doctest.h>

#include <algorithm>
#include <string>

#include "base/files.h"
#include "checks/fit.h"
#include "deck/deck.h"
#include "project/reader.h"

namespace trial {

using namespace deckquire;

inline Project example(const std::string& name) {
  Findings findings;
  const auto project = read_project(
      read_file(std::string(DECKQUIRE_SOURCE "/projects/") + name + ".xml"), name, findings);
  REQUIRE(project);
  REQUIRE(findings.empty());
  return *project;
}

struct Built {
  Bridge bridge;
  Deck deck;
  Findings findings;
};

inline Built build(const Project& project) {
  Built b;
  b.bridge = build_bridge(project, b.findings);
  b.deck = build_deck(project, b.bridge, b.findings, check_fit);
  check_fit(project, b.bridge, b.deck, b.findings);
  return b;
}

inline std::string codes(const Findings& findings) {
  std::string out;
  for (const Finding& f : findings.sorted()) out += (out.empty() ? "" : " ") + f.code;
  return out;
}

/// The findings of a changed example, as codes in the order of the file.
inline std::string codes_of(const Project& project) {
  return codes(build(project).findings);
}

inline const Mark& mark_at(const Deck& deck, int position) {
  return deck
      .marks[static_cast<std::size_t>(deck.panels[static_cast<std::size_t>(position - 1)].mark)];
}

/// A deterministic number in [0, 1) (linear congruence; the standard's distributions differ between
/// libraries).
struct Dice {
  std::uint64_t state;
  double next() {
    state = state * 6364136223846793005u + 1442695040888963407u;
    return static_cast<double>(state >> 11) / 9007199254740992.0;
  }
  int upto(int n) { return static_cast<int>(next() * n); }
};

}  // namespace trial
