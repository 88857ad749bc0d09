// `deckquire divide` as a user runs it.
#include <doctest/doctest.h>

#include <regex>

#include "base/files.h"
#include "e2e/program.h"

using namespace deckquire;

namespace {

const std::string saltmarsh = DECKQUIRE_SOURCE "/projects/saltmarsh.xml";

/// The main example, each of its spans with this inside.
std::string with_spans(const std::string& inside) {
  const std::regex span("(<span [^>]*>).*</span>");
  return std::regex_replace(read_file(saltmarsh), span, "$1" + inside + "</span>");
}

std::string number_after(const std::string& text, const std::string& word) {
  const std::size_t at = text.find(word);
  if (at == std::string::npos) return "";
  const std::size_t from = text.find_first_of("0123456789", at + word.size());
  return text.substr(from, text.find_first_not_of("0123456789", from) - from);
}

}  // namespace

TEST_CASE("divide: what it prints, pasted into the project, is the deck that check and draw make") {
  const TrialFolder folder;
  const std::string asking = folder.path + "/asking.xml", frozen = folder.path + "/frozen.xml";
  write_file(asking, with_spans("<panels longest=\"3000\" divide=\"fewest-types\"/>"));
  const Outcome o = run("divide " + asking);
  CHECK(o.status == 0);
  CHECK(o.out.find("proven: no division within the rules has fewer than") != std::string::npos);
  CHECK(o.out.find("chosen: ") != std::string::npos);
  // The lines of each span in turn.
  std::string text = read_file(asking);
  std::size_t at = o.out.find("  span 1:");
  REQUIRE(at != std::string::npos);
  for (int i = 1; i <= 3; ++i) {
    const std::size_t from = o.out.find('\n', at) + 1;
    std::size_t to = o.out.find("  span ", from);
    if (to == std::string::npos) to = o.out.find("\n\n", from);
    const std::string rule = "<panels longest=\"3000\" divide=\"fewest-types\"/>";
    const std::size_t place = text.find(rule);
    REQUIRE(place != std::string::npos);
    text.replace(place, rule.size(), o.out.substr(from, to - from));
    at = to;
  }
  write_file(frozen, text);
  for (const std::string schedule : {"panels", "marks", "posts"}) {
    CAPTURE(schedule);
    const Outcome a = run("list " + asking + " " + schedule + " --csv");
    CHECK(a.status == 0);
    CHECK(!a.out.empty());
    CHECK(a.out == run("list " + frozen + " " + schedule + " --csv").out);
  }
  CHECK(o.out.find("No two marks become one by moving rail posts by up to 300, ") !=
        std::string::npos);
  CHECK(run("check " + asking).out.find("panels of") != std::string::npos);
}

TEST_CASE("divide: JSON agrees with the table, and with what check counts") {
  const Outcome o = run("divide " + saltmarsh + " --json");
  CHECK(o.status == 0);
  CHECK(o.out.find("\"division\": \"as it stands\"") != std::string::npos);
  const std::string stands = o.out.substr(o.out.find("as it stands"));
  const std::string check = run("check " + saltmarsh).out;
  CHECK(check.find(number_after(stands, "\"panels\":") + " panels of " +
                   number_after(stands, "\"marks\":") + " marks") != std::string::npos);
}

TEST_CASE("divide: no division, an error that says what stands in the way and what would help") {
  const TrialFolder folder;
  const std::string file = folder.path + "/tight.xml";
  write_file(file, with_spans("<panels longest=\"2490\" shortest=\"2480\" closing=\"no\" "
                              "clear-splice=\"2000\" divide=\"fewest-types\"/>"));
  for (const std::string verb : {"divide", "check", "divide --json"}) {
    CAPTURE(verb);
    const Outcome o = run(verb + " " + file);
    CHECK(o.status == 1);
    CHECK(o.err.find("error [") != std::string::npos);
    CHECK(o.err.find("clear-splice of splice") != std::string::npos);
    CHECK(o.err.find("would help") != std::string::npos);
  }
}
