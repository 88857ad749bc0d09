// The E sheets of the setting: every panel in one stage, its step on the small plan, gaps as calculated,
// torques as stated.
#include "sheets/setting_plan.h"

#include <cmath>
#include <set>

#include "sheets/trial_set.h"

using namespace deckquire;
using namespace deckquire::sheets;

namespace {

struct SettingCase {
  TrialSet set;
  SetPlan plan;
  std::vector<paper::Sheet> sheets;  // of the setting
  explicit SettingCase(const std::string& name, const std::string& style = "a1")
      : SettingCase(trial_project(name), style) {}
  SettingCase(Project p, const std::string& style) : set(std::move(p), style), plan(plan_set(set.input())) {
    for (std::size_t i = 0; i < plan.sheets.size(); ++i) {
      const SheetPlan& s = plan.sheets[i];
      if (s.series == 'E' && s.subject >= plan.strip_sheets() && s.subject < plan.first_of_moved())
        sheets.push_back(draw_erection(set.input(), plan, i));
    }
  }
  /// All letters, a space between.
  std::string words() const {
    std::string out;
    for (const auto& s : sheets)
      for (const paper::Item& i : s.items)
        if (const auto* t = std::get_if<paper::Text>(&i)) out += t->text + " ";
    return out;
  }
  bool says(const std::string& text) const { return words().find(text) != std::string::npos; }
  /// Letters of the small plans, by stage.
  std::vector<std::multiset<std::string>> on_plans() const {
    std::vector<std::multiset<std::string>> out;
    for (const auto& s : sheets) {
      int depth = 0, stage = -1;
      for (const paper::Item& i : s.items) {
        if (const auto* g = std::get_if<paper::GroupStart>(&i)) {
          ++depth;
          if (g->kind == "stage") stage = depth, out.emplace_back();
        } else if (std::get_if<paper::GroupEnd>(&i)) {
          if (depth-- == stage) stage = -1;
        } else if (const auto* t = std::get_if<paper::Text>(&i); t && stage >= 0) {
          out.back().insert(t->text);
        }
      }
    }
    return out;
  }
};

}  // namespace

TEST_CASE("setting: every panel in one stage, stages in order, no more than a dozen") {
  for (const char* name : {"saltmarsh", "quickstart", "orchard", "heron"}) {
    const SettingCase c(name);
    const SettingPlan& s = *c.plan.setting;
    CHECK(s.stages.size() >= 1);
    CHECK(s.stages.size() <= 12);
    int next = 0;
    for (const SettingStage& stage : s.stages) {
      CHECK(stage.first == next);
      CHECK(stage.count > 0);
      next += stage.count;
    }
    CHECK(next == static_cast<int>(c.set.deck.panels.size()));
    CHECK(static_cast<int>(c.sheets.size()) == c.plan.setting_sheets);
    const auto plans = c.on_plans();
    REQUIRE(plans.size() == s.stages.size());
    // Every step stands on the plan of its stage, or lies between two that do where panels are too short
    // on paper to carry a number.
    int printed = 0;
    for (std::size_t k = 0; k < plans.size(); ++k)
      for (int step = s.stages[k].first + 1; step <= s.stages[k].first + s.stages[k].count; ++step) {
        const std::string text = std::to_string(step);
        const bool closing = step == next;
        CHECK((!closing || plans[k].count("closes") == 1));
        printed += plans[k].count(text) >= 1 ? 1 : 0;
      }
    CHECK(printed >= next * 3 / 4);
  }
}

TEST_CASE("setting: by truck load where trucks are stated, by span where each is done first, else in parts") {
  CHECK(SettingCase("saltmarsh").plan.setting->by == "by truck load");
  Project p = trial_project("saltmarsh");
  p.conditions.truck.reset();
  CHECK(SettingCase(p, "a1").plan.setting->by == "in equal parts");  // both ends: to and fro
  p.conditions.erection = {};
  const SettingCase plain(p, "a1");
  CHECK(plain.plan.setting->by == "by span");
  CHECK(plain.plan.setting->stages.size() == 6);  // 12, 14 and 12 panels: each span in two parts
  CHECK(plain.says("STAGE 3, SPAN 2, PART 1 OF 2"));
}

TEST_CASE("setting: gaps by temperature are those of the workings, in the project's units") {
  const SettingCase c("saltmarsh");
  // At the temperature of setting the gap is as drawn; the table is in steps of 5 degrees from 0.
  int tables = 0;
  std::set<int> joints;
  for (const Calculation& k : c.set.scope.calculations.list) {
    if (k.working.table.rows.empty()) continue;
    ++tables;
    joints.insert(k.joints.begin(), k.joints.end());
    CHECK(k.working.result("g_4") * 1e3 ==
          doctest::Approx(c.set.deck.joints[static_cast<std::size_t>(k.joints.front())].gap.in_mm()).epsilon(1e-6));
    CHECK(c.says(decimal(k.working.result("g_1") * 1e3, 1)));
    CHECK(c.says(decimal(k.working.result("g_9") * 1e3, 1)));
  }
  CHECK(tables >= 2);
  CHECK(c.says("GAPS TO SET, BY TEMPERATURE"));
  CHECK(joints.size() == c.set.deck.joints.size());
  CHECK_FALSE(c.says("NOT CHECKED by temperature"));
  Project bare = trial_project("saltmarsh");
  bare.conditions.temperature.panel_expansion.reset();
  const SettingCase unknown(bare, "a1");
  CHECK(unknown.says("NOT CHECKED by temperature"));
}

TEST_CASE("setting: torques with their source, or that they are not stated") {
  const SettingCase c("saltmarsh");
  CHECK(c.says("45 N m"));
  CHECK(c.says("ask the engineer"));  // of the others
  Project p = trial_project("saltmarsh");
  p.conditions.torques.clear();
  CHECK_FALSE(SettingCase(p, "a1").says("45 N m"));
  // NIST SP 811: 1 lbf ft = 1.355 818 N m.
  CHECK(torque_words({Fastener::grate, 135.5818, "", {}}, UnitSystem::imperial) == "100 lbf ft");
}

TEST_CASE("setting: cranes with the largest radius of each stage, and what is beyond a chart") {
  const SettingCase c("saltmarsh");
  const SettingPlan& s = *c.plan.setting;
  const auto plans = c.on_plans();
  for (std::size_t k = 0; k < s.stages.size(); ++k) {
    std::map<int, double> most;
    for (int i = s.stages[k].first; i < s.stages[k].first + s.stages[k].count; ++i) {
      const auto& reach = s.picks[static_cast<std::size_t>(i)].crane;
      REQUIRE(reach);
      most[reach->crane] = std::max(most[reach->crane], reach->radius);
    }
    for (const auto& [crane, radius] : most) {
      const std::string name = c.set.project.conditions.erection.cranes[static_cast<std::size_t>(crane)].name;
      const std::string text = name + " to " + decimal(std::ceil(radius / 100 - 1e-6) / 10, 1) + " m";
      CHECK_MESSAGE(plans[k].count(text) == 1, text);
    }
  }
  Project p = trial_project("saltmarsh");
  p.conditions.erection.cranes.resize(1);
  const SettingCase short_of(p, "a1");
  CHECK(short_of.says("BEYOND CHART"));
  p.conditions.erection.cranes.clear();
  CHECK(SettingCase(p, "a1").says("Cranes are not stated"));
}

TEST_CASE("setting: no figure of a crane is broken in two, on any paper") {
  for (const std::string& style : trial_styles) {
    const SettingCase c("saltmarsh", style);
    for (const CraneData& crane : c.set.project.conditions.erection.cranes) {
      CHECK_MESSAGE(c.says(" " + print_station(crane.station, UnitSystem::metric) + " "), style);
      CHECK_MESSAGE(c.says(" " + print_length(crane.offset, UnitSystem::metric) + " "), style);
    }
  }
}
