// Folders of a test's own, and other programs.
#pragma once

#include <string>

namespace deckquire {

/// A new folder, removed at the end.
class TrialFolder {
 public:
  TrialFolder();
  ~TrialFolder();
  std::string path;
};

/// What a shell command prints on standard output; `status` gets its exit status, -1 when killed.
std::string output_of(const std::string& command, int* status = nullptr);

}  // namespace deckquire
