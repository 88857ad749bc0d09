// What a project file states, statement by statement, in one form whatever way it is written.
#pragma once

#include <map>
#include <optional>
#include <string>

#include "base/findings.h"

namespace deckquire::history {

/// One value of one element, or (attribute empty) that there is such an element.
struct Statement {
  std::string element;    // in words: "hatch H2", "edge at 0+012.526", "section"
  std::string attribute;  // "at", "text", "panels"; empty: the element itself
  std::string value;  // compared: lengths in whole nanometres, the rest in SI, words as they are
  std::string shown;  // printed: in the project's own system, with unit
  std::optional<double> si;  // m, kg, N, rad ...; none where it is no number
  bool given = false;        // false: the default, which holds where the file is silent
  Place place;               // of what is given, else of the element around it; line 0: nowhere
};

/// By path: "deck/hatch[H2]@at". Elements are known by the attributes that tell them from their
/// neighbours (name, at, of, girder and at ...), never by where they stand; several that are alike
/// in these, and notes, are counted. The panels written out in a span are one value, in order.
using Statements = std::map<std::string, Statement>;

/// Of a file that read_project() accepts; std::invalid_argument when it is no XML at all. White
/// space, order of elements and attributes, and the unit that a value is written in do not matter;
/// nor whether a default is written out. Defaults of materials and tolerances that are left out
/// whole are not filled in.
Statements statements_of(const std::string& text, const std::string& file);

}  // namespace deckquire::history
