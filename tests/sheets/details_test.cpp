// Detail sheets of every example on every paper.
#include <algorithm>
#include <set>

#include "sheets/details.h"
#include "trial_set.h"

using namespace deckquire;
using namespace deckquire::sheets;

namespace {

template <class Visit>
void for_every_case(Visit visit) {
  for (const char* project : {"quickstart", "saltmarsh", "orchard"})
    for (const char* style : {"a1", "a3", "arch-d"}) {
      CAPTURE(std::string(project) + " on " + style);
      const TrialSet set(project, style);
      visit(set, plan_set(set.input()));
    }
}

std::vector<std::string> texts(const paper::Sheet& sheet) {
  std::vector<std::string> out;
  for (const paper::Item& i : sheet.items)
    if (const auto* t = std::get_if<paper::Text>(&i)) out.push_back(t->text);
  return out;
}

}  // namespace

TEST_CASE("detail sheets: nothing unfit on any example and paper") {
  for_every_case([](const TrialSet& set, const SetPlan& plan) {
    for (std::size_t i = 0; i < plan.sheets.size(); ++i) {
      if (plan.sheets[i].series != 'D') continue;
      const paper::Sheet sheet = draw_details(set.input(), plan, i);
      for (const std::string& f : paper::faults(sheet, set.style.least_height, set.style.frame()))
        FAIL_CHECK(f);
    }
  });
}

TEST_CASE("detail sheets: every detail of the plan is drawn once, on the sheet it is referred to") {
  for_every_case([](const TrialSet& set, const SetPlan& plan) {
    std::set<std::string> letters;
    for (const DetailRef& ref : plan.details) {
      CHECK(letters.insert(ref.letter).second);
      for (std::size_t i = 0; i < plan.sheets.size(); ++i) {
        if (plan.sheets[i].series != 'D') continue;
        const auto words = texts(draw_details(set.input(), plan, i));
        const auto n = std::count(words.begin(), words.end(), ref.title);
        CHECK(n == (plan.sheets[i].number == ref.sheet ? 1 : 0));
      }
    }
  });
}

TEST_CASE("detail sheets: a value of the project that changes is drawn and printed anew") {
  TrialSet set("saltmarsh");
  const auto has = [&](const std::string& word) {
    const SetPlan plan = plan_set(set.input());
    for (std::size_t i = 0; i < plan.sheets.size(); ++i) {
      if (plan.sheets[i].series != 'D') continue;
      const auto words = texts(draw_details(set.input(), plan, i));
      if (std::find(words.begin(), words.end(), word) != words.end()) return true;
    }
    return false;
  };
  CHECK_FALSE(has("4 × M14 tapped, 13 deep"));
  set.project.deck.posts->plate.thread = "M14";
  set.project.deck.posts->plate.tap_depth = mm(13);
  CHECK(has("4 × M14 tapped, 13 deep"));
}
