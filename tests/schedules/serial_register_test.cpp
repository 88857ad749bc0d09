// The life of every panel in one line.
#include "schedules/serial_register.h"

#include <doctest/doctest.h>

#include "history/identities.h"
#include "sheets/trial_set.h"
#include "support/cells.h"

using namespace deckquire;
using deckquire::sheets::TrialSet;

namespace {

std::string at(const Table& t, std::size_t row, const std::string& name) {
  return machine_cell(testing::cell(t, row, name), t.columns[testing::column(t, name)].measure);
}

history::Entry built(const std::string& serial, history::Stage stage, const std::string& date) {
  history::Entry e;
  history::BuiltPanel b;
  b.serial = serial;
  b.revision = "A";
  b.stage = stage;
  b.date = date;
  e.built = {b};
  return e;
}

}  // namespace

TEST_CASE("serial register: without a register every panel is planned, on its load where a truck is stated") {
  const TrialSet s("saltmarsh");
  Findings findings;
  const auto deliveries = plan_deliveries(s.project, s.deck, findings);
  REQUIRE(deliveries);
  const Table t = serial_register_table(s.deck, {}, deliveries);
  REQUIRE(t.rows.size() == s.deck.panels.size());
  std::map<std::string, std::string> load;
  const Table loads = loads_table(s.deck, *deliveries);
  for (std::size_t i = 0; i < loads.rows.size(); ++i) load[at(loads, i, "serial")] = at(loads, i, "load");
  for (std::size_t i = 0; i < t.rows.size(); ++i) {
    const Panel& p = s.deck.panels[i];
    CHECK(at(t, i, "serial") == p.serial);
    CHECK(at(t, i, "position") == std::to_string(p.position));
    CHECK(at(t, i, "mark") == s.deck.marks[static_cast<std::size_t>(p.mark)].name);
    CHECK(at(t, i, "status") == "planned");
    CHECK(at(t, i, "made_to") == "");
    CHECK(at(t, i, "load") == load[p.serial]);
    CHECK(at(t, i, "load") != "");
  }
}

TEST_CASE("serial register: dates and sizes as entered, void serials stay with what took their place") {
  TrialSet s("quickstart");
  history::Register r;
  history::Entry a;
  a.issue = history::issue_of(s.project, s.bridge, s.deck);
  a.issue->revision = "A";
  r.entries.push_back(a);
  const std::string second = s.deck.panels[1].serial, third = s.deck.panels[2].serial;
  history::Entry cast = built(second, history::Stage::cast, "2026-11-02");
  cast.built.front().length_left = mm(2481);
  cast.built.front().width_back = mm(2999);
  r.entries.push_back(cast);
  r.entries.push_back(built(second, history::Stage::shipped, "2026-11-20"));
  r.entries.push_back(built(third, history::Stage::cast, "2026-11-03"));
  // B replaces the third panel by a new one.
  history::Entry b = a;
  b.issue->revision = "B";
  b.issue->positions[2].serial = "new-1";
  b.voided.push_back({third, "DP01", "B", "new-1", "the frame was cracked"});
  r.entries.push_back(b);
  s.deck.panels[2].serial = "new-1";
  s.deck.panels.back().serial = "draft-1";  // of a revision that was not issued yet
  const Table t = serial_register_table(s.deck, r, {});
  REQUIRE(t.rows.size() == s.deck.panels.size() + 2);
  CHECK(at(t, 1, "serial") == second);
  CHECK(at(t, 1, "status") == "shipped");
  CHECK(at(t, 1, "made_to") == "A");
  CHECK(at(t, 1, "cast") == "2026-11-02");
  CHECK(at(t, 1, "shipped") == "2026-11-20");
  CHECK(at(t, 1, "set") == "");
  CHECK(at(t, 1, "length_left_mm") == "2481");
  CHECK(at(t, 1, "length_right_mm") == "");
  CHECK(at(t, 1, "width_back_mm") == "2999");
  CHECK(at(t, 1, "load") == "");
  CHECK(at(t, 2, "serial") == third);
  CHECK(at(t, 2, "status") == "void");
  CHECK(at(t, 2, "cast") == "2026-11-03");
  CHECK(at(t, 2, "position") == "3");  // where it was
  CHECK(at(t, 2, "replaced_by") == "new-1");
  CHECK(at(t, 2, "reason") == "the frame was cracked");
  const std::size_t gone = s.deck.panels.size() - 1, fresh = s.deck.panels.size();
  CHECK(at(t, gone, "status") == "planned");
  CHECK(at(t, gone, "reason") == "not in the file any more: void when that is issued");
  CHECK(at(t, fresh, "serial") == "new-1");
  CHECK(at(t, fresh, "replaces") == third);
  CHECK(at(t, fresh, "position") == "3");
  CHECK(at(t, fresh + 1, "serial") == "draft-1");
  CHECK(at(t, fresh + 1, "status") == "planned");
}
