// Builds a working: takes the inputs that its declaration names, evaluates formulas, keeps the steps.
#pragma once

#include <map>
#include <stdexcept>
#include <string>
#include <utility>
#include <vector>

#include "workings/working.h"

namespace deckquire::workings {

/// Which constants of an empirical formula are used, and the units of its symbols. Formulas that
/// are true in any coherent units have only si.
enum class System { si, us };

/// An input of a working, declared once: for `reckon NAME`, for reading what was typed, for the text.
struct InputSpec {
  std::string symbol, meaning;
  Kind kind = Kind::number;
  std::string unit;               // label of the unit in which the formulas take it, SI
  std::string us_unit;            // the same where the US constants are used; empty: as SI
  std::string fallback;           // default as it would be typed; empty: must be given
  std::string why;                // where the default comes from
  double least = -1e300, most = 1e300;  // SI; outside is an error
  std::vector<std::string> choices;     // not empty: a word out of these instead of a number
  bool list = false;                    // text that the working reads itself, e.g. "800 N @ 75 mm, …"
};

/// The values given to a working, by symbol: numbers in SI, words and lists as text.
struct Given {
  double si = 0;
  std::string text;
  Origin origin;
};
using Values = std::map<std::string, Given, std::less<>>;

class Reckoner;

/// One entry of the registry.
struct WorkingKind {
  std::string name, title;
  std::string group;  // "drainage", "loads", "strength", "lifting", "movement", "trucks"
  std::vector<std::string> sources;
  std::vector<InputSpec> inputs;
  bool us_constants = false;  // offers `units=us`
  void (*work)(Reckoner&) = nullptr;
};

/// Raised by a working or the reckoner when given values do not make sense: one sentence with the
/// remedy.
class WorkingError : public std::runtime_error {
 public:
  using std::runtime_error::runtime_error;
};

/// Passed to a working's function.
class Reckoner {
 public:
  Reckoner(const WorkingKind& kind, const Values& values, System system);

  System system() const;
  /// The value of an input in SI; in its formula's unit; as text.
  double si(std::string_view symbol) const;
  double value(std::string_view symbol) const;
  const std::string& text(std::string_view symbol) const;
  bool given(std::string_view symbol) const;

  /// A constant of the formula, printed among the inputs with its source.
  void constant(std::string symbol, std::string meaning, double value, std::string source);
  /// Evaluates `formula` over inputs, constants and former steps, each in its formula's unit; keeps
  /// the step; returns the value in the step's unit. `unit` is a label of `kind`.
  double step(std::string symbol, std::string meaning, std::string formula, Kind kind,
              std::string_view unit);
  /// A step found by other means than one formula (iteration, table, solver): says which.
  double found(std::string symbol, std::string meaning, double value, Kind kind,
               std::string_view unit, std::string words);
  /// Declares a former step (or input) to be a result, printed in `unit` (empty: as it was).
  void result(std::string_view symbol, std::string_view unit = {});
  void limit(std::string words, bool kept, std::string otherwise);
  void verdict(std::string words, double demand_si, double capacity_si, Kind kind,
               std::string_view unit);
  void caution(std::string words);
  void curve(Curve c);

  Working finish();
  // Private parts are the implementer's.
};

/// Every working there is, in the order of `deckquire reckon`; names are unique.
const std::vector<WorkingKind>& registry();
const WorkingKind* find_working(std::string_view name);

/// Runs one: defaults filled in, ranges checked (WorkingError).
Working reckon(const WorkingKind& kind, Values values, System system = System::si);
/// The same from what was typed: {"Q", "1.5 L/s"}. WorkingError names the input, its units, and the
/// nearest name for an unknown one.
Working reckon_typed(const WorkingKind& kind,
                     const std::vector<std::pair<std::string, std::string>>& typed);

}  // namespace deckquire::workings
