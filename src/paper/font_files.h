// Where font files are looked for.
#pragma once

#include <string>
#include <vector>

namespace deckquire::paper {

/// The folders, in the order they are searched: those named in DECKQUIRE_FONTS (':' between them),
/// then the system's, then the user's.
std::vector<std::string> font_folders();

/// The path of the font file `name`: as it stands when it is an absolute path, else the first of
/// that name below `folders` (in each, the first by path). FontError, saying where it was looked
/// for and which Debian package has it, when there is none.
std::string find_font_file(const std::string& name, const std::vector<std::string>& folders);

}  // namespace deckquire::paper
