// One change at a time: what a project would be if only one element of it had been edited.
#pragma once

#include <string>
#include <vector>

#include "history/changes.h"

namespace deckquire::history {

/// Changes of one element, which only make sense together: by the path of what was edited. An
/// element known by name, station or the like counts with all that is in it; one of which there can
/// only be one counts by itself.
struct ChangeGroup {
  std::vector<std::string> paths;    // of the elements; two where one moved
  std::vector<std::size_t> changes;  // indices into the list
};
std::vector<ChangeGroup> groups_of(const std::vector<Change>& changes);

/// The text of the old file with that group of changes as the new file has it, and nothing else, on one
/// line: drawings name elements, not lines.
/// Lengths that are copied over get their unit. Both files are such as read_project() accepts; what
/// comes out need not be (an edge that only fits together with another change).
std::string with_group(const std::string& before, const std::string& now, const ChangeGroup& group);

}  // namespace deckquire::history
