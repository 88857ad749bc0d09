#include "project/support.h"

#include <sys/wait.h>

#include <cstdio>
#include <cstdlib>
#include <filesystem>

namespace deckquire::testing {

bool updating() {
  const char* wish = std::getenv("DECKQUIRE_UPDATE");
  return wish != nullptr && std::string(wish) == "1";
}

std::string approved(const std::string& relative, const std::string& actual) {
  const std::string path = source_path(relative);
  const bool there = std::filesystem::exists(path);
  if (updating() && (!there || read_file(path) != actual)) write_file(path, actual);
  return there || updating() ? read_file(path) : "(there is no " + relative + ")";
}

std::string lines(const Findings& findings) {
  std::string out;
  for (const Finding& f : findings.sorted()) out += to_line(f) + "\n";
  return out;
}

int run(const std::string& command, std::string& output) {
  output.clear();
  FILE* pipe = popen((command + " 2>&1").c_str(), "r");
  if (pipe == nullptr) return -1;
  char part[4096];
  while (const std::size_t n = fread(part, 1, sizeof part, pipe)) output.append(part, n);
  const int status = pclose(pipe);
  return WIFEXITED(status) ? WEXITSTATUS(status) : -1;
}

}  // namespace deckquire::testing
