// C sheets: every working there is, printed in full from its example, on every paper.
#include "sheets/calculation_sheet.h"

#include <doctest/doctest.h>

#include <algorithm>
#include <set>

#include "audit/audit.h"
#include "sheets/trial_set.h"
#include "support/reckoned.h"
#include "workings/formula.h"
#include "workings/reckoner.h"

using namespace deckquire;
using namespace deckquire::sheets;

namespace {

/// All workings of the registry, run on their examples, as if the deck had asked for them.
Calculations all_workings() {
  Calculations out;
  for (int topic = 0; topic < topic_count; ++topic) {
    const auto& kinds = workings::registry();
    for (std::size_t i = 0; i < kinds.size(); ++i) {
      if (static_cast<int>(i) % topic_count != topic) continue;
      out.list.push_back(
          {static_cast<Topic>(topic),
           "",
           "DP01",
           {0},
           {},
           {},
           workings::reckon_typed(kinds[i], testing::typed_values(kinds[i].example))});
    }
  }
  out.not_checked.push_back({Topic::lifting, "tipping of the panel", "the hook's place"});
  number_and_summarise(out);
  return out;
}

std::string words_of(const paper::Sheet& sheet) {
  std::string out;
  for (const paper::Item& i : sheet.items)
    if (const auto* t = std::get_if<paper::Text>(&i)) out += t->text + " ";
  return out;
}

}  // namespace

TEST_CASE("calculation sheets: every working in full, nothing that an approver sends back") {
  for (const char* style : {"a1", "a3", "arch-d"}) {
    CAPTURE(style);
    TrialSet set("quickstart", style);
    set.scope.calculations = all_workings();
    const SetPlan plan = plan_set(set.input());
    const auto sheets = draw_set(set.input(), plan, 1);
    for (const audit::Flaw& f : audit::audit_set(set.input(), plan, sheets).flaws)
      FAIL_CHECK(f.sheet << " at " << f.at.x << ", " << f.at.y << " [" << f.code
                         << "]: " << f.what);
    std::string words;
    std::size_t count = 0;
    for (const paper::Sheet& s : sheets)
      if (s.number.front() == 'C') words += words_of(s), ++count;
    CHECK(count > 2);
    for (const Calculation& c : set.scope.calculations.list) {
      CHECK_MESSAGE(words.find(c.number + ": ") != std::string::npos, c.number);
      // Results that are read across stand in a table, the steps of its first row before it.
      std::set<std::string> tabled;
      const auto& rows = c.working.table.rows;
      for (std::size_t i = 0; i < rows.size(); ++i)
        for (const std::string& symbol : rows[i]) {
          if (i > 0) tabled.insert(symbol);
          if (symbol.front() != 'g') continue;
          const auto& results = c.working.results;
          const auto r = std::find_if(results.begin(), results.end(),
                                      [&](const workings::Result& x) { return x.symbol == symbol; });
          CHECK_MESSAGE(words.find(workings::print_in(r->si, r->unit)) != std::string::npos, symbol);
        }
      for (const workings::Step& s : c.working.steps)
        if (tabled.count(s.symbol) == 0)
          CHECK_MESSAGE(words.find(workings::typeset(s.symbol) + ":") != std::string::npos, s.symbol);
    }
    CHECK(words.find("NOT CHECKED: LIFTING") != std::string::npos);
    CHECK(words.find("tipping of the panel: needs the hook's place") != std::string::npos);
  }
}

TEST_CASE("calculation sheets: the summary names the sheet on which each calculation stands") {
  TrialSet set("quickstart");
  set.scope.calculations = all_workings();
  const SetPlan plan = plan_set(set.input());
  REQUIRE(plan.calculations);
  const auto sheets = draw_set(set.input(), plan, 1);
  std::size_t named = 0;
  for (const auto& [number, sheet] : plan.calculations->sheet_of)
    for (const paper::Sheet& s : sheets)
      if (s.number == sheet) {
        CHECK_MESSAGE(words_of(s).find(number + ": ") != std::string::npos, number << " " << sheet);
        ++named;
      }
  CHECK(named == set.scope.calculations.list.size());
  // The panel sheet says where its own are.
  for (const paper::Sheet& s : sheets)
    if (s.number == "P01") CHECK(words_of(s).find(" on C0") != std::string::npos);
}

TEST_CASE("calculation sheets: none where nothing was calculated, and panels say not checked") {
  TrialSet set("quickstart");
  set.scope.calculations = {};
  const SetPlan plan = plan_set(set.input());
  CHECK(!plan.calculations);
  const auto sheets = draw_set(set.input(), plan, 1);
  for (const paper::Sheet& s : sheets) {
    CHECK(s.number.front() != 'C');
    if (s.number == "P01") CHECK(words_of(s).find("NOT CHECKED: strength") != std::string::npos);
  }
}
