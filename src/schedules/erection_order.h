// In which order panels are set: from one end, from both, or as a crew must because one panel needs
// another first. Pure numbers: 0 to n - 1 along the bridge.
#pragma once

#include <utility>
#include <vector>

namespace deckquire {

/// 0, n-1, 1, n-2, ...: from both ends, the closing panel last.
std::vector<int> from_both_ends(int n);

/// `after` must wait until `before` stands.
struct Needs {
  int before = 0, after = 0;
};

struct ErectionOrder {
  std::vector<int> order;  // all panels, unless there is a cycle
  std::vector<int> cycle;  // panels that wait for one another, each for the next, the last for the first
};

/// The wished order as far as the needs allow: of all panels that need nothing more, always the one
/// that is wished first (Kahn's topological order with a priority queue; O((n + needs) log n)). `wished`
/// holds every panel once. A cycle is returned with its members, starting at the lowest.
ErectionOrder erection_order(const std::vector<int>& wished, const std::vector<Needs>& needs);

}  // namespace deckquire
