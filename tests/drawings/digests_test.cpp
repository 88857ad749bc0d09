// Whole sheets of the examples by digest: a change of looks nobody meant is seen, and on which
// sheet.
#include <doctest/doctest.h>
#include <fmt/format.h>

#include <cstdint>
#include <map>
#include <sstream>

#include "project/support.h"
#include "sheets/trial_set.h"
#include "support/thorough.h"

using namespace deckquire;
using sheets::TrialSet;

namespace {

/// FNV-1a, 64 bits (draft-eastlake-fnv, constants from memory).
std::string digest(const std::string& text) {
  std::uint64_t h = 0xcbf29ce484222325u;
  for (char c : text) h = (h ^ static_cast<unsigned char>(c)) * 0x100000001b3u;
  return fmt::format("{:016x}", h);
}

using Digests = std::map<std::string, std::string>;  // "quickstart P01" -> digest

Digests read(const std::string& text) {
  Digests out;
  std::istringstream in(text);
  for (std::string line; std::getline(in, line);) {
    if (line.empty() || line[0] == '#') continue;
    const std::size_t space = line.rfind(' ');
    out[line.substr(0, space)] = line.substr(space + 1);
  }
  return out;
}

}  // namespace

// Vectors of the same source: of nothing, and of "a".
TEST_CASE("digest: known values") {
  CHECK(digest("") == "cbf29ce484222325");
  CHECK(digest("a") == "af63dc4c8601ec8c");
}

TEST_CASE("sheets by digest: every sheet of the examples is as it was approved") {
  if (!thorough) return;
  std::string text =
      "# One line a sheet, style a1: project, sheet, digest of all that is drawn. Renewed by the "
      "tests "
      "with DECKQUIRE_UPDATE=1;\n# look at the sheets that differ first.\n";
  for (const char* name : {"quickstart", "saltmarsh", "orchard", "heron", "ropewalk"}) {
    const TrialSet set(name);
    for (const paper::Sheet& sheet : sheets::draw_set(set.input(), 2))
      text += fmt::format("{} {} {}\n", name, sheet.number, digest(dump(sheet)));
  }
  const Digests now = read(text),
                expected = read(testing::approved("tests/drawings/sheets.txt", text));
  std::string differ, missing, more;
  for (const auto& [sheet, value] : now)
    if (!expected.count(sheet))
      more += sheet + "; ";
    else if (expected.at(sheet) != value)
      differ += sheet + "; ";
  for (const auto& [sheet, value] : expected)
    if (!now.count(sheet)) missing += sheet + "; ";
  const std::string how =
      "draw them before and after and look; if they are right run this test with "
      "DECKQUIRE_UPDATE=1";
  CHECK_MESSAGE(differ.empty(), "drawn otherwise than approved: " << differ << how);
  CHECK_MESSAGE(missing.empty(), "approved, not drawn: " << missing << how);
  CHECK_MESSAGE(more.empty(), "drawn, not approved: " << more << how);
}
