// Positions and serials that last. Used inside history/ only.
#pragma once

#include <map>
#include <set>

#include "deck/deck.h"
#include "history/register.h"

namespace deckquire::history {

/// For each panel of the deck the position of the issue that it continues, or nullptr.
std::vector<const IssuedPosition*> continued(const Deck& deck, const Issue& issue);

/// Hands out serials that were never given.
class Serials {
 public:
  Serials(const Project& project, const Register& issued);
  std::string next(const std::string& mark);

 private:
  const Project& project_;
  std::set<std::string> given_;
  std::map<std::string, int> highest_;  // by beginning
};

/// The highest position that was ever issued.
int highest_position(const Register& issued);

}  // namespace deckquire::history
