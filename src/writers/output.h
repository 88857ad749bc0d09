// A whole set of files moved into place at once.
#pragma once

#include <string>
#include <vector>

namespace deckquire::writers {

struct OutputFile {
  std::string path;  // relative: "sheets/E01.svg"
  std::string bytes;
};

/// Writes every file below a new folder beside `folder`, checks and syncs, then exchanges the two in
/// one step: until then, and after any failure, the previous set is whole. Files in the old folder
/// that a set never writes are carried over. Leftovers of a killed run are removed. FileError on
/// failure.
void replace_set(const std::string& folder, const std::vector<OutputFile>& files);

}  // namespace deckquire::writers
