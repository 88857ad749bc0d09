#include <algorithm>

#include "workings/groups.h"
#include "workings/reckoner.h"

namespace deckquire::workings {

const std::vector<WorkingKind>& registry() {
  static const std::vector<WorkingKind> all = [] {
    std::vector<WorkingKind> joined;
    for (auto group : {
             drainage_workings,
             load_workings,
             strength_workings,
             fastener_workings,
             movement_workings,
             lifting_workings,
             transport_workings,
         }) {
      std::vector<WorkingKind> kinds = group();
      std::move(kinds.begin(), kinds.end(), std::back_inserter(joined));
    }
    return joined;
  }();
  return all;
}

const WorkingKind* find_working(std::string_view name) {
  const auto& all = registry();
  const auto found =
      std::find_if(all.begin(), all.end(), [&](const WorkingKind& k) { return k.name == name; });
  return found == all.end() ? nullptr : &*found;
}

}  // namespace deckquire::workings
