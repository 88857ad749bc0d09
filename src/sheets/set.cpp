#include "sheets/set.h"

#include "base/parallel.h"
#include "sheets/cover.h"
#include "sheets/plan.h"
#include "sheets/revision_sheet.h"
#include "sheets/transmittal.h"

namespace deckquire::sheets {
namespace {

paper::Sheet draw(const SetInput& input, const SetPlan& plan, std::size_t index) {
  switch (plan.sheets[index].series) {
    case 'E':
      return draw_erection(input, plan, index);
    case 'P':
      return draw_panel(input, plan, index);
    case 'D':
      return draw_details(input, plan, index);
    case 'C':
      return draw_calculations(input, plan, index);
    case 'R':
      if (is_transmittal(plan, plan.sheets[index])) return draw_transmittal(input, plan, index);
      return draw_revision(input, plan, index);
    default:
      return draw_table_sheet(input, plan, index);
  }
}

bool is_cover(const SetPlan& plan, std::size_t index) {
  return plan.sheets[index].series == 'G';
}

}  // namespace

std::vector<paper::Sheet> draw_set(const SetInput& input, int jobs) {
  return draw_set(input, plan_set(input), jobs);
}

std::vector<paper::Sheet> draw_set(const SetInput& input, const SetPlan& plan, int jobs) {
  std::vector<paper::Sheet> sheets = draw_sheets(input, plan, jobs);
  draw_covers(sheets, input, plan, jobs);
  return sheets;
}

std::vector<paper::Sheet> draw_sheets(const SetInput& input, const SetPlan& plan, int jobs) {
  std::vector<paper::Sheet> sheets(plan.sheets.size());
  for_each_index(
      sheets.size(), jobs, [] { return 0; },
      [&](int, std::size_t i) {
        if (!is_cover(plan, i)) sheets[i] = draw(input, plan, i);
      });
  return sheets;
}

void draw_covers(std::vector<paper::Sheet>& sheets, const SetInput& input, const SetPlan& plan,
                 int jobs) {
  std::vector<std::size_t> covers;
  for (std::size_t i = 0; i < sheets.size(); ++i)
    if (is_cover(plan, i)) covers.push_back(i);
  if (covers.empty()) return;
  const SetUse use = use_of(sheets, input, plan);
  for_each_index(
      covers.size(), jobs, [] { return 0; },
      [&](int, std::size_t i) { sheets[covers[i]] = draw_cover_for(use, input, plan, covers[i]); });
}

}  // namespace deckquire::sheets
