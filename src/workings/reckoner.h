// Builds a working: takes the inputs that its declaration names, evaluates formulas, keeps the
// steps.
#pragma once

#include <map>
#include <stdexcept>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include "workings/working.h"

namespace deckquire::workings {

/// Which constants of an empirical formula are used, and the units of its symbols. Formulas that
/// are true in any coherent units have only si.
enum class System { si, us };

/// An input of a working, declared once: for `reckon NAME`, for reading what was typed, for the
/// text.
/// `{"SL", "grade", Kind::number}` and, chained, what else is to say.
struct InputSpec {
  std::string symbol = {}, meaning = {};
  Kind kind = Kind::number;
  std::string unit = {};                  // label of the unit in which the formulas take it, SI
  std::string us_unit = {};               // the same where the US constants are used; empty: as SI
  std::string fallback = {};              // default as it would be typed; empty: must be given
  std::string why = {};                   // where the default comes from
  double least = -1e300, most = 1e300;    // SI; outside is an error
  std::vector<std::string> choices = {};  // not empty: a word out of these instead of a number
  bool list = false;      // text that the working reads itself, e.g. "800 N @ 75 mm, …"
  bool optional = false;  // may be left out: given() is false then, what needs it is not checked
  std::string note = {};  // for the help only: "or give T"

  InputSpec range(double from, double to = 1e300) const;
  InputSpec standard(std::string value, std::string reason) const;  // the default
  InputSpec one_of(std::vector<std::string> words) const;
  InputSpec as_list() const;
  InputSpec if_known() const;  // optional
  InputSpec noted(std::string words) const;

  /// The unit in which the formulas take it (a number's for words and lists).
  const Unit& unit_in(System system) const;
  /// "at least 0.01 m and at most 100 m", "above 0"; empty where anything goes.
  std::string range_words(System system) const;
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
  std::string name = {}, title = {};
  std::string about = {};  // one or two sentences: what it is for, which case it takes
  std::string group = {};  // "drainage", "loads", "strength", "lifting", "movement", "trucks"
  std::vector<std::string> sources = {};
  std::vector<InputSpec> inputs = {};
  bool us_constants = false;  // offers `units=us`
  void (*work)(Reckoner&) = nullptr;
  std::string example = {};  // values as typed, "Q=1.5L/s SL=2%": for help, and run by a test
};

/// Raised by a working or the reckoner when given values do not make sense: one sentence with the
/// remedy.
class WorkingError : public std::runtime_error {
 public:
  using std::runtime_error::runtime_error;
};

/// Passed to a working's function. A symbol means an input, a constant or a former step; none is
/// declared twice (logic_error, as is every other mistake of the working itself).
class Reckoner {
 public:
  /// The values are complete and in range (see reckon below).
  Reckoner(const WorkingKind& kind, const Values& values, System system);

  System system() const { return system_; }
  /// a under SI, b under US constants: for constants and units.
  double either(double a, double b) const { return system_ == System::si ? a : b; }
  const char* either(const char* a, const char* b) const { return system_ == System::si ? a : b; }
  /// The value of a symbol in SI; in its formula's unit; the text of an input that is a word or
  /// list.
  double si(std::string_view symbol) const;
  double value(std::string_view symbol) const;
  const std::string& text(std::string_view symbol) const;
  /// False for an optional input that was left out.
  bool given(std::string_view symbol) const;

  /// A constant of the formula, printed among the inputs with its source; a number, or in `unit`.
  void constant(std::string symbol, std::string meaning, double value, std::string source);
  void constant(std::string symbol, std::string meaning, double value, Kind kind,
                std::string_view unit, std::string source);
  /// A value out of a table, printed among the inputs with table and row.
  void looked_up(std::string symbol, std::string meaning, double value, std::string source);
  void looked_up(std::string symbol, std::string meaning, double value, Kind kind,
                 std::string_view unit, std::string source);
  /// Evaluates `formula` over inputs, constants and former steps, each in its formula's unit; keeps
  /// the step; returns the value in the step's unit. `unit` is a label of `kind`. A value that is
  /// not finite is a WorkingError.
  double step(std::string symbol, std::string meaning, std::string formula, Kind kind,
              std::string_view unit);
  /// A step found by other means than one formula (iteration, table, solver): says which. The value
  /// is in `unit`.
  double found(std::string symbol, std::string meaning, double value, Kind kind,
               std::string_view unit, std::string words);
  /// Declares a former step (or input) to be a result, printed in `unit` (empty: as it was).
  void result(std::string_view symbol, std::string_view unit = {});

  /// A limit of the method: "T <= w" (two formulas and <=, <, >= or >), printed and evaluated; a
  /// hundred-millionth over is kept. Where it names an optional input that was left out, it is
  /// printed as not checked.
  void condition(std::string formula, std::string words, std::string otherwise);
  /// A limit that no formula says.
  void limit(std::string words, bool kept, std::string otherwise);
  /// demand <= capacity, both symbols of one kind, in the demand's unit or in `unit`; not checked
  /// where one is an optional input that was left out.
  void verdict(std::string words, std::string_view demand, std::string_view capacity,
               std::string_view unit = {});
  void verdict(std::string words, double demand_si, double capacity_si, Kind kind,
               std::string_view unit);
  void not_checked(std::string words);
  void caution(std::string words);
  void curve(Curve c);
  /// Results, each a former result(), that are printed as a table; at most once.
  void table(ResultTable t);

  /// There is a result (logic_error).
  Working finish();

 private:
  struct Known {
    std::string meaning;
    Unit unit;
    double value = 0, si = 0;
    bool exact = true;  // printed as typed; what was computed is rounded to four digits
  };
  const Known& known(std::string_view symbol) const;
  void know(const std::string& symbol, Known k);
  const InputSpec* left_out(std::string_view symbol) const;
  double evaluated(std::string_view formula) const;
  std::string numbers_in(std::string_view formula) const;
  void add_value(std::string symbol, std::string meaning, double value, const Unit& unit,
                 std::string source, Origin::From from);

  const WorkingKind& kind_;
  System system_;
  Working w_;
  std::map<std::string, Known, std::less<>> known_;
  std::map<std::string, std::string, std::less<>> texts_;
};

/// Every working there is, in the order of `deckquire reckon`; names are unique.
const std::vector<WorkingKind>& registry();
const WorkingKind* find_working(std::string_view name);

/// Runs one: defaults filled in, values checked for being there and in range (WorkingError with all
/// that is wrong). A value that the working does not know is a logic_error.
Working reckon(const WorkingKind& kind, Values values, System system = System::si);
/// The same from what was typed: {"Q", "1.5 L/s"}, {"units", "us"}. WorkingError names every input
/// that is wrong or missing with its units, and the nearest name for an unknown one.
Working reckon_typed(const WorkingKind& kind,
                     const std::vector<std::pair<std::string, std::string>>& typed);

}  // namespace deckquire::workings
