// A project for each kind of clash: tests/clash/NAME.xml gives exactly the lines of NAME.expected,
// NAME-clear.xml, where the same things keep just enough, nothing at all.
#include <doctest/doctest.h>

#include <algorithm>
#include <filesystem>
#include <vector>

#include "checks/fit.h"
#include "project/reader.h"
#include "project/support.h"

using namespace deckquire;
using namespace deckquire::testing;

namespace {

std::vector<std::string> clash_files() {
  std::vector<std::string> stems;
  for (const auto& e : std::filesystem::directory_iterator(source_path("tests/clash")))
    if (e.path().extension() == ".xml") stems.push_back(e.path().stem().string());
  std::sort(stems.begin(), stems.end());
  return stems;
}

std::string said_of(const std::string& stem) {
  Findings findings;
  const auto project =
      read_project(read_file(source_path("tests/clash/" + stem + ".xml")), stem + ".xml", findings);
  if (!project) return lines(findings);
  const Bridge bridge = build_bridge(*project, findings);
  const Deck deck = build_deck(*project, bridge, findings);
  if (!findings.has_errors()) check_fit(*project, bridge, deck, findings);
  return lines(findings);
}

}  // namespace

TEST_CASE("clash files: each gives exactly its expected lines, and nothing where it keeps enough") {
  const auto stems = clash_files();
  CHECK(stems.size() >= 60);
  for (const std::string& stem : stems) {
    const std::string actual = said_of(stem);
    if (stem.ends_with("-clear")) {
      CHECK_MESSAGE(actual == "", stem);
      continue;
    }
    CHECK_MESSAGE(std::binary_search(stems.begin(), stems.end(), stem + "-clear"), stem);
    CHECK_MESSAGE(actual == approved("tests/clash/" + stem + ".expected", actual), stem);
    CHECK_MESSAGE(!actual.empty(), stem);
  }
}
