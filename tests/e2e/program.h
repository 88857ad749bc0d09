// The program as a user runs it, and the projects to run it on.
#pragma once

#include <map>
#include <string>
#include <vector>

#include "support/shell.h"

namespace deckquire {

struct Outcome {
  int status = -1;
  std::string out, err;
};

/// `deckquire ARGUMENTS` by the shell, killed after 20 s; `before` goes in front of it.
Outcome run(const std::string& arguments, const std::string& before = "");

/// Every projects/*.xml of the source, in order.
std::vector<std::string> example_projects();

/// The set of a project in the default way, drawn once for all tests that only read it.
struct DrawnSet {
  std::string folder;
  Outcome outcome;
};
const DrawnSet& drawn(const std::string& project);

/// Rows of a CSV text without quoted line ends: name of the column -> cell.
std::vector<std::map<std::string, std::string>> rows_of(const std::string& csv);

/// Text of every kind of thing below a folder that `find` prints, sorted.
std::string sums_below(const std::string& folder);

/// How often a word stands in a text, between white space.
int times(const std::string& word, const std::string& text);

}  // namespace deckquire
