#include "project/project.h"

namespace deckquire {

std::string Project::party(const std::string& role) const {
  for (const Party& p : parties)
    if (p.role == role) return p.name;
  return "not stated";
}

}  // namespace deckquire
