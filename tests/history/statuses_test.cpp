#include "history/statuses.h"

#include <doctest/doctest.h>

#include <set>
#include <string>
#include <vector>

#include "base/files.h"

using namespace deckquire;
using namespace deckquire::history;

namespace {
const std::vector<std::string> statuses{"preliminary",         "for approval",    "approved as noted",
                                        "revise and resubmit", "for fabrication", "as built"};

std::string allowed(const std::string& from, std::string (*refused)(const std::string&,
                                                                    const std::string&)) {
  std::string out;
  for (const std::string& to : statuses)
    if (refused(from, to).empty()) out += (out.empty() ? "" : ", ") + to;
  return out;
}
}  // namespace

// The state machine of the practice reference, 4.2 (common practice, no source), in the words that
// the project file has.
TEST_CASE("statuses: what a new revision may go out as") {
  CHECK(allowed("", refused_issue) == "preliminary, for approval");
  CHECK(allowed("preliminary", refused_issue) == "preliminary, for approval");
  CHECK(allowed("for approval", refused_issue) == "preliminary, for approval, for fabrication");
  CHECK(allowed("approved as noted", refused_issue) ==
        "preliminary, for approval, for fabrication");
  CHECK(allowed("revise and resubmit", refused_issue) == "preliminary, for approval");
  CHECK(allowed("for fabrication", refused_issue) ==
        "preliminary, for approval, for fabrication, as built");
  CHECK(allowed("as built", refused_issue) == "as built");
}

TEST_CASE("statuses: what a revision may become without a change") {
  CHECK(allowed("preliminary", refused_change) == "for approval");
  CHECK(allowed("for approval", refused_change) ==
        "approved as noted, revise and resubmit, for fabrication");
  CHECK(allowed("approved as noted", refused_change) == "");
  CHECK(allowed("revise and resubmit", refused_change) == "");
  CHECK(allowed("for fabrication", refused_change) == "as built");
  CHECK(allowed("as built", refused_change) == "");
}

TEST_CASE("statuses: the page about the register has the same table") {
  const std::string page = read_file(DECKQUIRE_SOURCE "/projects/register.md");
  const auto row = [&](const std::string& name, const std::string& issues,
                       const std::string& changes) {
    const std::string line =
        "| " + name + " | " + issues + " | " + changes + (changes.empty() ? "|" : " |") + "\n";
    CHECK_MESSAGE(page.find(line) != std::string::npos, line);
  };
  row("none", allowed("", refused_issue), "");
  for (const std::string& s : statuses)
    row(s, allowed(s, refused_issue), allowed(s, refused_change));
}

TEST_CASE("statuses: the shop works to what is released, or approved as noted") {
  std::string made;
  for (const std::string& s : statuses)
    if (may_be_made(s)) made += s + ", ";
  CHECK(made == "approved as noted, for fabrication, as built, ");
}

TEST_CASE("statuses: letters of revisions run on (case R4 of the algorithms reference, part 6)") {
  std::string letter = "A", all = letter;
  for (int i = 1; i < 15; ++i) all += letter = next_revision(letter, "IO");
  CHECK(all == "ABCDEFGHJKLMNPQ");
  CHECK(next_revision("H") == "J");
  CHECK(next_revision("Y") == "AA");
  CHECK(next_revision("AH") == "AJ");
  CHECK(next_revision("AY") == "BA");
  CHECK(is_earlier("Y", "AA"));
  CHECK(!is_earlier("AA", "Y"));
  CHECK(!is_earlier("C", "C"));
}
