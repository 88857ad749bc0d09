// Broken projects: each file of tests/broken/ with the exact lines that it gives.
#include <doctest/doctest.h>

#include <algorithm>
#include <filesystem>
#include <vector>

#include "checks/fit.h"
#include "deck/objects.h"
#include "project/reader.h"
#include "project/support.h"

using namespace deckquire;
using namespace deckquire::testing;

namespace {

std::vector<std::string> broken_files() {
  std::vector<std::string> stems;
  for (const auto& e : std::filesystem::directory_iterator(source_path("tests/broken")))
    if (e.path().extension() == ".xml") stems.push_back(e.path().stem().string());
  std::sort(stems.begin(), stems.end());
  return stems;
}

std::string complaints(const std::string& text, const std::string& name) {
  Findings findings;
  const auto project = read_project(text, name, findings);
  if (!project) return lines(findings);
  const Bridge bridge = build_bridge(*project, findings);
  if (findings.has_errors()) return lines(findings);
  const Deck deck = build_deck(*project, bridge, findings);
  if (!findings.has_errors()) check_fit(*project, bridge, deck, findings);
  if (!findings.has_errors()) check_redlines(*project, bridge, deck, findings);
  if (!findings.has_errors()) check_scope(*project, bridge, deck, findings);
  return lines(findings);
}

}  // namespace

TEST_CASE("broken: every file gives exactly its expected lines") {
  const auto stems = broken_files();
  CHECK(stems.size() >= 60);
  for (const std::string& stem : stems) {
    const std::string text = read_file(source_path("tests/broken/" + stem + ".xml"));
    const std::string actual = complaints(text, stem + ".xml");
    const std::string expected = approved("tests/broken/" + stem + ".expected", actual);
    CHECK_MESSAGE(actual == expected, stem);
    CHECK_MESSAGE(!actual.empty(), stem);
  }
}
