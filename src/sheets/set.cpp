#include "sheets/set.h"

#include "base/parallel.h"
#include "sheets/plan.h"

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
    case 'T':
      return draw_table_sheet(input, plan, index);
    default:
      return draw_cover(input, plan, index);
  }
}

}  // namespace

std::vector<paper::Sheet> draw_set(const SetInput& input, int jobs) {
  const SetPlan plan = plan_set(input);
  std::vector<paper::Sheet> sheets(plan.sheets.size());
  for_each_index(
      sheets.size(), jobs, [] { return 0; },
      [&](int, std::size_t i) { sheets[i] = draw(input, plan, i); });
  return sheets;
}

}  // namespace deckquire::sheets
