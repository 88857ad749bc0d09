#include "commands/register_entry.h"

#include <fmt/format.h>

#include "base/files.h"
#include "commands/commands.h"
#include "history/store.h"

namespace deckquire::commands {

int enter(const std::string& project, const std::string& who,
          const std::function<std::optional<NewEntry>(const std::string& text)>& make) {
  const std::string folder = history::register_folder(project);
  constexpr int most_tries = 5;
  for (int tries = 0; tries < most_tries; ++tries) {
    const std::string text = read_file(project, std::size_t{256} << 20);
    const auto made = make(text);
    if (!made) return project_errors;
    history::Appending how;
    how.who = who;
    if (!history::append(folder, made->seen, made->entry, text, how)) continue;
    made->tell();
    return done;
  }
  throw FileError(folder + ": other runs keep writing to this register; try again");
}

}  // namespace deckquire::commands
