#include <doctest/doctest.h>

#include "base/files.h"
#include "checks/fit.h"
#include "deck/deck.h"
#include "project/reader.h"

using namespace deckquire;

TEST_CASE("deck of the examples: no finding, spans close exactly") {
  for (const char* name : {"saltmarsh", "quickstart"}) {
    CAPTURE(name);
    Findings findings;
    const auto project =
        read_project(read_file(std::string(DECKQUIRE_SOURCE "/projects/") + name + ".xml"),
                     std::string(name) + ".xml", findings);
    REQUIRE(project);
    const Bridge bridge = build_bridge(*project, findings);
    const Deck deck = build_deck(*project, bridge, findings);
    check_fit(*project, bridge, deck, findings);
    for (const Finding& f : findings.sorted()) FAIL_CHECK(to_line(f));
    for (const SpanRun& s : deck.spans) {
      Length sum = s.end_gap_back + s.end_gap_ahead + project->deck.joints.gap * (s.count - 1);
      for (int i = 0; i < s.count; ++i) {
        const Panel& p = deck.panels[static_cast<std::size_t>(s.first + i)];
        sum += p.end - p.start;
      }
      CHECK(sum == s.to - s.from);
    }
    int quantity = 0;
    for (const Mark& m : deck.marks) quantity += m.quantity;
    CHECK(quantity == static_cast<int>(deck.panels.size()));
  }
}
