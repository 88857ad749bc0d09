#include "schedules/erection_order.h"

#include <algorithm>
#include <functional>
#include <queue>

namespace deckquire {
namespace {

/// From any panel that still waits, always to one that it waits for: sooner or later round a cycle.
std::vector<int> find_cycle(const std::vector<Needs>& needs, const std::vector<int>& waiting) {
  const std::size_t n = waiting.size();
  std::vector<int> before(n, -1);  // one that it waits for and that waits itself
  for (const Needs& e : needs)
    if (waiting[static_cast<std::size_t>(e.before)] > 0)
      before[static_cast<std::size_t>(e.after)] = e.before;
  int at = 0;
  while (waiting[static_cast<std::size_t>(at)] == 0) ++at;
  std::vector<char> seen(n, 0);
  for (; !seen[static_cast<std::size_t>(at)]; at = before[static_cast<std::size_t>(at)])
    seen[static_cast<std::size_t>(at)] = 1;
  std::vector<int> cycle{at};
  for (int i = before[static_cast<std::size_t>(at)]; i != at; i = before[static_cast<std::size_t>(i)])
    cycle.push_back(i);
  std::rotate(cycle.begin(), std::min_element(cycle.begin(), cycle.end()), cycle.end());
  return cycle;
}

}  // namespace

std::vector<int> from_both_ends(int n) {
  std::vector<int> order;
  for (int low = 0, high = n - 1; low <= high; ++low, --high) {
    order.push_back(low);
    if (high > low) order.push_back(high);
  }
  return order;
}

ErectionOrder erection_order(const std::vector<int>& wished, const std::vector<Needs>& needs) {
  const std::size_t n = wished.size();
  std::vector<int> rank(n), waiting(n, 0);
  for (std::size_t i = 0; i < n; ++i) rank[static_cast<std::size_t>(wished[i])] = static_cast<int>(i);
  std::vector<std::vector<int>> then(n);
  for (const Needs& e : needs) {
    then[static_cast<std::size_t>(e.before)].push_back(e.after);
    ++waiting[static_cast<std::size_t>(e.after)];
  }
  std::priority_queue<int, std::vector<int>, std::greater<>> free;  // ranks
  for (std::size_t i = 0; i < n; ++i)
    if (waiting[i] == 0) free.push(rank[i]);
  ErectionOrder out;
  while (!free.empty()) {
    const int panel = wished[static_cast<std::size_t>(free.top())];
    free.pop();
    out.order.push_back(panel);
    for (int next : then[static_cast<std::size_t>(panel)])
      if (--waiting[static_cast<std::size_t>(next)] == 0) free.push(rank[static_cast<std::size_t>(next)]);
  }
  if (out.order.size() < n) out.cycle = find_cycle(needs, waiting);
  return out;
}

}  // namespace deckquire
