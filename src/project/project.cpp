#include "project/project.h"

namespace deckquire {

std::string Project::party(const std::string& role) const {
  for (const Party& p : parties)
    if (p.role == role) return p.name;
  return "not stated";
}

std::string Project::element_at(const Place& at) const {
  const auto found = elements.find({at.line, at.column});
  return found == elements.end() ? "" : found->second;
}

}  // namespace deckquire
