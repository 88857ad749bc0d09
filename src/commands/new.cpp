#include <fmt/format.h>

#include <cstdio>
#include <filesystem>

#include "base/files.h"
#include "commands/commands.h"
#include "project/reader.h"
#include "starter.h"

namespace deckquire::commands {

int new_project(const std::string& folder) {
  namespace fs = std::filesystem;
  std::error_code trouble;
  if (fs::exists(folder, trouble) && !fs::is_empty(folder, trouble)) {
    std::fprintf(stderr, "deckquire: new: %s is there already; name a new or empty folder\n",
                 folder.c_str());
    return file_trouble;
  }
  fs::create_directories(folder, trouble);
  if (trouble) throw FileError(fmt::format("{}: cannot create: {}", folder, trouble.message()));
  const std::string project = (fs::path(folder) / "project.xml").string();
  write_file((fs::path(folder) / "project.xsd").string(), project_schema());
  write_file(project, starter_project);
  fmt::print("{0}: a small bridge to change into yours; draw it with: deckquire draw {0}\n",
             project);
  return done;
}

}  // namespace deckquire::commands
