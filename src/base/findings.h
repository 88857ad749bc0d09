// What the program has to say about a project: one record a cause, with its place in the file.
#pragma once

#include <string>
#include <vector>

namespace deckquire {

/// A place in an input file; line and column count from 1, columns in code points. line 0: none.
struct Place {
  std::string file;
  int line = 0;
  int column = 0;
};

enum class Severity { error, warning, note };

struct Finding {
  Severity severity = Severity::error;
  Place place;
  std::string code;    // short, stable, lower case with hyphens: "unknown-attribute"
  std::string what;    // what is wrong, with the value
  std::string remedy;  // what to do
};

class Findings {
 public:
  void error(Place place, std::string code, std::string what, std::string remedy);
  void warning(Place place, std::string code, std::string what, std::string remedy);
  void note(Place place, std::string code, std::string what, std::string remedy);
  /// All of another list, after those here.
  void add(const Findings& others);
  bool has_errors() const;
  bool empty() const { return list_.empty(); }
  /// In the order of line and column; equal places in the order found; the same sentence once.
  std::vector<Finding> sorted() const;

 private:
  std::vector<Finding> list_;
};

/// "file:line:column: error [code]: what; remedy" (no line and column where line is 0).
std::string to_line(const Finding& f);

}  // namespace deckquire
