// How the verbs that write in the register go about it.
#pragma once

#include <functional>
#include <optional>
#include <string>

#include "history/register.h"

namespace deckquire::commands {

struct NewEntry {
  history::Entry entry;
  history::Register seen;      // what it was made for
  std::function<void()> tell;  // what to print when it is in
};

/// Makes an entry from the text of the project file, and adds it; makes it anew when another run was
/// quicker. `make` returns nothing when it has said why not.
int enter(const std::string& project, const std::string& who,
          const std::function<std::optional<NewEntry>(const std::string& text)>& make);

}  // namespace deckquire::commands
