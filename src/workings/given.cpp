// From values, given by the program or typed by hand, to a working: what is missing, wrong or out
// of range is said in one go.
#include <fmt/format.h>

#include <algorithm>
#include <cctype>
#include <set>

#include "base/text.h"
#include "workings/reckoner.h"

namespace deckquire::workings {
namespace {

bool is_words(const InputSpec& spec) {
  return spec.list || !spec.choices.empty();
}

const InputSpec* find_input(const WorkingKind& kind, std::string_view symbol) {
  const auto found = std::find_if(kind.inputs.begin(), kind.inputs.end(),
                                  [&](const InputSpec& s) { return s.symbol == symbol; });
  return found == kind.inputs.end() ? nullptr : &*found;
}

std::string what_it_takes(const InputSpec& spec) {
  if (!spec.choices.empty()) return "one of " + join(spec.choices, ", ");
  return spec.list ? "a list" : unit_words(spec.kind);
}

std::string missing(const InputSpec& spec) {
  return fmt::format("{} is missing ({}; {})", spec.symbol, spec.meaning, what_it_takes(spec));
}

/// Why a value is none for this input; empty where all is well.
std::string fault_of(const InputSpec& spec, const Given& g, System system) {
  if (spec.list) return "";
  if (!spec.choices.empty()) {
    if (std::find(spec.choices.begin(), spec.choices.end(), g.text) != spec.choices.end())
      return "";
    const std::string near = nearest_word(g.text, spec.choices);
    return fmt::format(
        "{}={}: there is no such choice; {}", spec.symbol, g.text,
        near.empty() ? "write one of " + join(spec.choices, ", ") : "did you mean '" + near + "'?");
  }
  if (g.si >= spec.least && g.si <= spec.most) return "";
  const Unit& u = spec.unit_in(system);
  return fmt::format("{} = {} is out of range ({}): {}", spec.symbol, print_with_unit(g.si, u),
                     spec.meaning, spec.range_words(system));
}

/// Defaults into `values`; faults of values and missing ones.
std::vector<std::string> fill_and_check(const WorkingKind& kind, Values& values, System system,
                                        const std::set<std::string>& said_already) {
  std::vector<std::string> faults;
  for (const InputSpec& spec : kind.inputs) {
    const auto found = values.find(spec.symbol);
    if (found != values.end()) {
      const std::string fault = fault_of(spec, found->second, system);
      if (!fault.empty()) faults.push_back(fault);
    } else if (!spec.fallback.empty()) {
      Given g{0, spec.fallback, {Origin::From::fallback, spec.why, {}}};
      if (!is_words(spec)) {
        const Parsed p = parse_quantity(spec.fallback, spec.unit_in(system));
        if (!p.si)
          throw std::logic_error(kind.name + ": default of " + spec.symbol + " " + p.fault);
        g = {*p.si, "", g.origin};
      }
      values[spec.symbol] = g;
    } else if (!spec.optional && said_already.count(spec.symbol) == 0) {
      faults.push_back(missing(spec));
    }
  }
  return faults;
}

Working work(const WorkingKind& kind, const Values& values, System system) {
  Reckoner r(kind, values, system);
  kind.work(r);
  return r.finish();
}

/// The input most likely meant: the same letters in other case, else the nearest word.
std::string nearest_symbol(const std::string& typed, const std::vector<std::string>& symbols) {
  const auto same = [](unsigned char a, unsigned char b) {
    return std::tolower(a) == std::tolower(b);
  };
  for (const std::string& s : symbols)
    if (std::equal(s.begin(), s.end(), typed.begin(), typed.end(), same)) return s;
  return nearest_word(typed, symbols);
}

[[noreturn]] void refuse(const std::vector<std::string>& faults) {
  throw WorkingError(join(faults, "; "));
}

System system_from(const WorkingKind& kind, const std::string& text,
                   std::vector<std::string>& faults) {
  if (text == "us" && kind.us_constants) return System::us;
  if (text == "us")
    faults.push_back(
        "units=us: this working has no constants of its own for US units; leave it out and give "
        "each "
        "value with its unit, US or SI");
  else if (text != "si")
    faults.push_back(fmt::format("units={}: write units=si or units=us", text));
  return System::si;
}

/// The value of one input as typed.
void take_typed(const InputSpec& spec, const std::string& text, System system, Values& values,
                std::vector<std::string>& faults) {
  Given g;
  if (is_words(spec)) {
    g.text = text;
  } else {
    const Parsed p = parse_quantity(text, spec.unit_in(system));
    if (!p.si) {
      faults.push_back(fmt::format("{} ({}): {}", spec.symbol, spec.meaning, p.fault));
      return;
    }
    g.si = *p.si;
  }
  if (!values.emplace(spec.symbol, g).second) faults.push_back(spec.symbol + " is given twice");
}

}  // namespace

Working reckon(const WorkingKind& kind, Values values, System system) {
  for (const auto& [symbol, given] : values)
    if (!find_input(kind, symbol))
      throw std::logic_error(fmt::format("{} has no input '{}'", kind.name, symbol));
  if (system == System::us && !kind.us_constants)
    throw std::logic_error(kind.name + " has no US constants");
  const std::vector<std::string> faults = fill_and_check(kind, values, system, {});
  if (!faults.empty()) refuse(faults);
  return work(kind, values, system);
}

Working reckon_typed(const WorkingKind& kind,
                     const std::vector<std::pair<std::string, std::string>>& typed) {
  std::vector<std::string> faults, symbols;
  for (const InputSpec& spec : kind.inputs) symbols.push_back(spec.symbol);
  System system = System::si;
  for (const auto& [symbol, text] : typed)
    if (symbol == "units") system = system_from(kind, text, faults);
  Values values;
  std::set<std::string> said;  // inputs that a fault already names: they are not missing as well
  for (const auto& [symbol, text] : typed) {
    if (symbol == "units") continue;
    if (const InputSpec* spec = find_input(kind, symbol)) {
      said.insert(symbol);
      take_typed(*spec, text, system, values, faults);
      continue;
    }
    const std::string near = nearest_symbol(symbol, symbols);
    said.insert(near);
    faults.push_back(fmt::format(
        "there is no input '{}'; {}", symbol,
        near.empty() ? "the inputs are " + join(symbols, ", ") : "did you mean '" + near + "'?"));
  }
  const std::vector<std::string> more = fill_and_check(kind, values, system, said);
  faults.insert(faults.end(), more.begin(), more.end());
  if (!faults.empty()) refuse(faults);
  return work(kind, values, system);
}

}  // namespace deckquire::workings
