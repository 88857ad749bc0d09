// One calculation with its inputs, steps and source, as it is printed in a C sheet, as text and as
// JSON. What is printed is what was computed: a step's formula is a text that is both shown and
// evaluated (formula.h), never written twice.
#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "base/findings.h"
#include "workings/quantity.h"

namespace deckquire::workings {

/// Where the value of an input comes from.
struct Origin {
  enum class From { typed, project, computed, fallback, table, constant } from = From::typed;
  /// The table and row, the other working, or the reason for the default; empty where plain.
  std::string words;
  Place place;  // of a project value; line 0 where there is none
};

struct Input {
  std::string symbol;   // "Sx"
  std::string meaning;  // "cross slope"
  Unit unit;            // in which it is printed, and in which the formulas take it
  double si = 0;
  std::string text;  // for inputs that are words or lists, instead of the number
  Origin origin;
};

struct Step {
  std::string symbol, meaning;
  std::string formula;  // "(Q*n/(Kg*Sx^(5/3)*SL^(1/2)))^(3/8)"; empty: a word step, see `words`
  std::string numbers;  // the same with the numbers put in
  std::string
      words;  // what was done where no single formula says it (an iteration, a table look-up)
  Unit unit;
  double si = 0;
};

struct Result {
  std::string symbol, meaning;
  Unit unit;
  double si = 0;
};

/// A limit of validity of the method.
struct Limit {
  std::string words;      // "the water does not pass the high line"
  std::string condition;  // "T <= w", evaluated from this text; empty: `words` say it all
  std::string numbers;    // the same with the numbers put in
  bool kept = true;
  std::string otherwise;  // what a reader must do where it is not kept
};

/// demand <= capacity.
struct Verdict {
  std::string words;                // "spread at scupper S3"
  double demand = 0, capacity = 0;  // SI
  Unit unit;
  double ratio() const { return capacity > 0 ? demand / capacity : demand > 0 ? 1e9 : 0; }
  bool kept() const { return demand <= capacity * (1 + 1e-9); }
};

/// A curve for a diagram on a C sheet: values at places, both SI.
struct Curve {
  std::string title;  // "moment"
  Unit along, unit;
  std::vector<double> x, y;
  std::vector<double> supports;  // places marked with a triangle on the axis
  bool down = false;             // drawn with positive values downwards, as a beam bends
};

/// Results that are read across, a row for each case of the same formulas.
struct ResultTable {
  std::vector<std::string> heads;              // of the columns, without units
  std::vector<std::vector<std::string>> rows;  // symbols of results
};

struct Working {
  std::string name, title;           // "gutter-spread", "Spread of water in a triangular gutter"
  std::vector<std::string> sources;  // document, edition, clause, equation; "from memory" where so
  std::vector<Input> inputs;
  std::vector<Step> steps;
  std::vector<Result> results;
  std::vector<Limit> limits;
  std::vector<Verdict> verdicts;
  std::vector<std::string> not_checked;  // "the water stays below the curb: needs hc (curb height)"
  std::vector<std::string> cautions;
  std::vector<Curve> curves;
  ResultTable table;  // where there is one, sheets print the steps of its first row only

  /// The result of that symbol, SI. It is there (a logic_error otherwise).
  double result(std::string_view symbol) const;
  /// True where every limit and verdict is kept; says nothing of what was not checked.
  bool kept() const;
};

/// The value of an input without its unit's label: words as they are, numbers as they would be typed;
/// one that was computed has four digits, as a step has.
std::string print_value(const Input& in);
/// Lines of text for a terminal: title, inputs with origins, steps (formula, numbers, result),
/// results, limits, verdicts, what was not checked, source, cautions.
std::string to_text(const Working& w);
/// One JSON object: SI values with full precision, and the printed unit beside each.
std::string to_json(const Working& w);

}  // namespace deckquire::workings
