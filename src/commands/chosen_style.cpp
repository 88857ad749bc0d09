#include "commands/chosen_style.h"

#include <fmt/format.h>

#include <algorithm>
#include <cstdlib>
#include <filesystem>

namespace deckquire::commands {
namespace {

namespace fs = std::filesystem;

/// Where named styles are: told by the environment, beside an installed program, or in the sources
/// that built it.
std::string styles_folder() {
  if (const char* told = std::getenv("DECKQUIRE_STYLES")) return told;
  std::error_code none;
  const fs::path program = fs::read_symlink("/proc/self/exe", none);
  const fs::path installed = program.parent_path().parent_path() / "share/deckquire/styles";
  return fs::is_directory(installed, none) ? installed.string() : DECKQUIRE_STYLES;
}

std::vector<std::string> style_names(const std::string& folder) {
  std::vector<std::string> names;
  std::error_code none;
  for (const fs::directory_entry& e : fs::directory_iterator(folder, none))
    if (e.path().extension() == ".xml") names.push_back(e.path().stem().string());
  std::sort(names.begin(), names.end());
  return names;
}

}  // namespace

const std::string& style_name(const Project& project, const std::string& asked) {
  return asked.empty() ? project.set.style : asked;
}

std::optional<paper::Style> style_of(const Project& project, const std::string& asked,
                                     Findings& findings) {
  const std::string& name = style_name(project, asked);
  const std::string folder = styles_folder();
  const std::vector<std::string> known = style_names(folder);
  if (!name.ends_with(".xml") && std::find(known.begin(), known.end(), name) == known.end()) {
    const std::string what = fmt::format("there is no style '{}'", name);
    const std::string there_are = "there are " + join(known, ", ") + ", or name a file";
    if (!asked.empty()) throw WrongLine("--style: " + what + "; " + there_are);
    findings.error(project.set.place, "unknown-style", what, there_are);
    return std::nullopt;
  }
  Findings own;  // the project's may hold errors that forbid no drawing
  paper::Style style = paper::read_style(name, folder, own);
  std::vector<paper::StyleChange> changes;
  if (asked.empty())
    for (const OverrideData& o : project.set.overrides)
      changes.push_back({o.element, o.of, o.property, o.value, o.place});
  paper::change_style(style, changes, own);
  findings.add(own);
  if (own.has_errors()) return std::nullopt;
  return style;
}

}  // namespace deckquire::commands
