#include "sheets/set.h"

#include <algorithm>
#include <atomic>
#include <exception>
#include <thread>

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
  const std::size_t count = plan.sheets.size();
  std::vector<paper::Sheet> sheets(count);
  std::vector<std::exception_ptr> troubles(count);
  std::atomic<std::size_t> next{0};
  const auto work = [&] {
    for (std::size_t i = next++; i < count; i = next++) {
      try {
        sheets[i] = draw(input, plan, i);
      } catch (...) {
        troubles[i] = std::current_exception();
      }
    }
  };
  std::vector<std::jthread> others;
  const auto helpers = std::min(count, static_cast<std::size_t>(std::max(1, jobs))) - 1;
  for (std::size_t i = 0; i < helpers; ++i) others.emplace_back(work);
  work();
  others.clear();  // joins
  for (const auto& t : troubles)
    if (t) std::rethrow_exception(t);
  return sheets;
}

}  // namespace deckquire::sheets
