// What the tests of the project file share.
#pragma once

#include <string>

#include "base/files.h"
#include "base/findings.h"

namespace deckquire::testing {

inline std::string source_path(const std::string& relative) {
  return std::string(DECKQUIRE_SOURCE) + "/" + relative;
}

/// True when the tests are to rewrite what they compare with: DECKQUIRE_UPDATE=1.
bool updating();

/// The text of a file of the sources; when updating, it is first written anew if it differs.
std::string approved(const std::string& relative, const std::string& actual);

/// One finding a line, as the program prints them.
std::string lines(const Findings& findings);

/// Exit status of a command; what it printed goes to `output`.
int run(const std::string& command, std::string& output);

}  // namespace deckquire::testing
