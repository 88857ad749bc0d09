#include "support/shell.h"

#include <stdlib.h>
#include <sys/wait.h>

#include <cstdio>
#include <filesystem>
#include <stdexcept>

namespace deckquire {

TrialFolder::TrialFolder() {
  path = (std::filesystem::temp_directory_path() / "deckquire-test-XXXXXX").string();
  if (!mkdtemp(path.data())) throw std::runtime_error("no folder for the test");
}

TrialFolder::~TrialFolder() {
  std::error_code none;
  std::filesystem::remove_all(path, none);
}

std::string output_of(const std::string& command, int* status) {
  std::string out;
  FILE* pipe = popen(command.c_str(), "r");
  if (!pipe) throw std::runtime_error("cannot run " + command);
  char block[4096];
  for (std::size_t n; (n = fread(block, 1, sizeof block, pipe)) > 0;) out.append(block, n);
  const int rc = pclose(pipe);
  if (status) *status = WIFEXITED(rc) ? WEXITSTATUS(rc) : -1;
  return out;
}

}  // namespace deckquire
