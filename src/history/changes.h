// What differs between two project files by meaning: not how they are written.
#pragma once

#include <string>
#include <vector>

#include "history/statements.h"

namespace deckquire::history {

/// One change of one value, or of a whole element that came or went.
struct Change {
  enum class Way { added, removed, changed };
  Way way = Way::changed;
  std::string element;      // "hatch H2"
  std::string attribute;    // "at"; empty: the element itself
  std::string before, now;  // as printed; of a whole element its given values: at="0+003.776" ...
  std::optional<double> before_si, now_si;
  Place old_place, new_place;     // line 0: the file is silent there
  std::vector<std::string> keys;  // of the statements that it is made of
};

/// Every statement that differs, once. An element that came or went is one change; one that went
/// and one that came under the same parent, equal but for what they are known by (an edge at
/// another station), are one that moved. Empty for files that mean the same. In the order of the
/// new file's lines, what went at its old line among them.
std::vector<Change> changes(const Statements& before, const Statements& now);

/// A statement in two files, as two values: empty where a file has none.
struct Step {
  std::optional<std::string> before, now;
  friend bool operator==(const Step&, const Step&) = default;
};
using Steps = std::map<std::string, Step>;
/// The same differences, statement by statement, and two of them one after the other: steps(a, b)
/// then steps(b, c) are steps(a, c).
Steps steps(const Statements& before, const Statements& now);
Steps then(const Steps& first, const Steps& second);

/// "hatch H2 at: 0+003.776, was 0+003.700", "scupper S9 added: ...".
std::string to_words(const Change& c);

}  // namespace deckquire::history
