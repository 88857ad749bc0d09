// Redlines on the sheets: where they stand, and that they stand on nothing.
#include <doctest/doctest.h>

#include <algorithm>

#include "audit/audit.h"
#include "deck/objects.h"
#include "sheets/drawn_set.h"
#include "sheets/redlines.h"

using namespace deckquire;
using namespace deckquire::sheets;

namespace {

Redline redline(const std::string& on, const std::string& text, const std::string& sheet = "") {
  Redline r{on, "Calder and Pruitt", "2026-10-09", text, {}};
  r.sheet = sheet;
  return r;
}

std::vector<Redline> remarks() {
  return {redline("hatch H1", "Confirm clear opening with the cable owner."),
          redline("panel 3", "Is the mark the right way round? The arrow points back."),
          redline("joint J2", "Gap at setting temperature to be stated."),
          redline("post 5L", "Base plate fouls the existing parapet.", "E01"),
          redline("girder G1", "Flange is 260 mm wide on site."),
          redline("set", "Say who supplies the grout.")};
}

std::vector<std::string> carried(const SetInput& input, const SetPlan& plan, const Redline& r) {
  std::vector<std::string> out;
  for (std::size_t i = 0; i < plan.sheets.size(); ++i)
    if (carries_redline(input, plan, i, r)) out.push_back(plan.sheets[i].number);
  return out;
}

const paper::GroupStart* note_of(const paper::Sheet& sheet, int number) {
  for (const paper::Item& item : sheet.items)
    if (const auto* g = std::get_if<paper::GroupStart>(&item))
      if (g->kind == "redline" && g->id == "redline-" + std::to_string(number)) return g;
  return nullptr;
}

}  // namespace

TEST_CASE("redlines: each stands on the sheets that show its object, on nothing else there") {
  for (const char* style : {"a1", "a3", "arch-d"}) {
    TrialSet set("saltmarsh", style);
    set.project.redlines = remarks();
    for (const Redline& r : set.project.redlines)
      REQUIRE_MESSAGE(find_object(set.bridge, set.deck, r.on), r.on);
    const SetInput input = set.input();
    const SetPlan plan = plan_set(input);
    std::vector<paper::Sheet> sheets = draw_sheets(input, plan, 1);
    for (std::size_t i = 0; i < sheets.size(); ++i) {
      if (plan.sheets[i].series == 'G') continue;
      const paper::Sheet before = sheets[i];
      CHECK(draw_redlines(sheets[i], input, plan, i).empty());
      for (std::size_t k = 0; k < set.project.redlines.size(); ++k) {
        const bool there = note_of(sheets[i], static_cast<int>(k) + 1) != nullptr;
        CHECK_MESSAGE(there == carries_redline(input, plan, i, set.project.redlines[k]),
                      style << " " << sheets[i].number << " redline " << k + 1);
      }
      const auto faults = paper::faults(sheets[i], set.style.least_height, set.style.frame());
      CHECK_MESSAGE(faults.empty(), style << " " << join(faults, "; "));
    }
    CHECK(carried(input, plan, remarks()[3]) == std::vector<std::string>{"E01"});
    CHECK(carried(input, plan, remarks()[5]).empty());
    CHECK(carried(input, plan, remarks()[0]).size() >= 2);
    draw_covers(sheets, input, plan, 1);
    const auto report = audit::audit_set(input, plan, sheets);
    for (const audit::Flaw& f : report.flaws)
      CHECK_MESSAGE(false, style << " " << f.sheet << " [" << f.code << "] " << f.what);
  }
}

TEST_CASE("redlines: answered ones go, or stay where the style says so") {
  TrialSet set("quickstart");
  Redline r = redline("panel 2", "Why?");
  r.status = RedlineStatus::answered;
  r.answer = "Because.";
  r.revision = "A";
  set.project.redlines = {r};
  const SetPlan plan = plan_set(set.input());
  CHECK(carried(set.input(), plan, r).empty());
  set.style.keep_answered = true;
  CHECK(carried(set.input(), plan, r).size() == 2);
  const auto table = redline_rows(set.input(), plan);
  REQUIRE(table.rows.size() == 1);
  CHECK(table.rows[0][6] == "answered");
  CHECK(table.rows[0][7] == "Because.");
}
