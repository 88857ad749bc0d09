#include "paper/font_files.h"

#include <algorithm>
#include <cstdlib>
#include <filesystem>
#include <system_error>

#include <fmt/format.h>

#include "base/text.h"
#include "paper/lettering.h"

namespace deckquire::paper {

namespace {

namespace fs = std::filesystem;

std::string environment(const char* name) {
  const char* value = std::getenv(name);
  return value == nullptr ? "" : value;
}

void add_split(std::vector<std::string>& out, const std::string& list) {
  for (std::size_t at = 0; at < list.size();) {
    const std::size_t end = std::min(list.find(':', at), list.size());
    if (end > at) out.push_back(list.substr(at, end - at));
    at = end + 1;
  }
}

/// The first path, in alphabetical order, of a regular file of that name below `folder`; or empty.
std::string first_below(const std::string& folder, const std::string& name) {
  std::string best;
  std::error_code failed;
  const auto lenient = fs::directory_options::skip_permission_denied;
  for (fs::recursive_directory_iterator it(folder, lenient, failed), end; !failed && it != end;
       it.increment(failed)) {
    if (it->path().filename() != name || !it->is_regular_file(failed)) continue;
    if (best.empty() || it->path().string() < best) best = it->path().string();
  }
  return best;
}

std::string package_of(const std::string& name) {
  if (name == "osifont.ttf") return "install the Debian package fonts-osifont";
  if (name.rfind("DejaVuSans", 0) == 0) return "install the Debian package fonts-dejavu-core";
  return "install the package that holds it";
}

}  // namespace

std::vector<std::string> font_folders() {
  std::vector<std::string> out;
  add_split(out, environment("DECKQUIRE_FONTS"));
  out.insert(out.end(), {"/usr/share/fonts", "/usr/local/share/fonts"});
  const std::string data = environment("XDG_DATA_HOME"), home = environment("HOME");
  if (!data.empty()) out.push_back(data + "/fonts");
  if (!home.empty()) out.push_back(home + "/.local/share/fonts");
  return out;
}

std::string find_font_file(const std::string& name, const std::vector<std::string>& folders) {
  std::error_code failed;
  if (fs::path(name).is_absolute()) {
    if (fs::is_regular_file(name, failed)) return name;
    throw FontError(fmt::format("lettering: there is no font file '{}'", name));
  }
  for (const std::string& folder : folders) {
    const std::string found = first_below(folder, name);
    if (!found.empty()) return found;
  }
  throw FontError(fmt::format(
      "lettering: font file '{}' is not in {}; {}, or name its folder in DECKQUIRE_FONTS", name,
      join(folders, ", "), package_of(name)));
}

}  // namespace deckquire::paper
