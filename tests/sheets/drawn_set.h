// Whole sets drawn once and shared by the tests that only look at them.
#pragma once

#include <map>
#include <string>
#include <utility>
#include <vector>

#include "sheets/trial_set.h"

namespace deckquire::sheets {

/// A set with its plan and its sheets, as the program draws it.
struct DrawnSet {
  TrialSet set;
  SetPlan plan;
  std::vector<paper::Sheet> sheets;
  DrawnSet(const std::string& project, const std::string& style)
      : set(project, style), plan(plan_set(set.input())), sheets(draw_set(set.input(), 1)) {}
  /// One that was drawn elsewhere, of that project.
  DrawnSet(Project project, const Deck& deck, SetPlan p, std::vector<paper::Sheet> drawn)
      : set(std::move(project), "a1"), plan(std::move(p)), sheets(std::move(drawn)) {
    set.deck = deck;
    set.tables = make_schedules(set.project, set.bridge, set.deck);
  }
  DrawnSet(const DrawnSet&) = delete;
};

/// Drawn when first asked for. Not to be changed: copy what a fault is seeded in.
inline const DrawnSet& drawn_set(const std::string& project, const std::string& style = "a1") {
  static std::map<std::pair<std::string, std::string>, DrawnSet> drawn;
  return drawn.try_emplace({project, style}, project, style).first->second;
}

}  // namespace deckquire::sheets
