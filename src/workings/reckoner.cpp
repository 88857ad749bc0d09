#include "workings/reckoner.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <utility>

#include "workings/formula.h"

namespace deckquire::workings {
namespace {

/// How far a value may pass a limit and still be on it: rounding of units, not of engineering.
constexpr double slack = 1e-8;

const Unit& unit_of(Kind kind, std::string_view label) {
  if (const Unit* u = find_unit(kind, label)) return *u;
  throw std::logic_error(fmt::format("'{}' is no unit of {}", label, words_of(kind)));
}

struct Comparison {
  std::string_view left, sign, right;
};

Comparison comparison_in(std::string_view formula) {
  for (std::string_view sign : {"<=", ">=", "<", ">"})
    if (const auto at = formula.find(sign); at != std::string_view::npos)
      return {formula.substr(0, at), sign, formula.substr(at + sign.size())};
  throw std::logic_error(fmt::format("condition \"{}\" compares nothing", formula));
}

bool holds(double left, std::string_view sign, double right) {
  const double near = slack * std::max(std::abs(left), std::abs(right));
  if (sign == "<=") return left <= right + near;
  if (sign == ">=") return left >= right - near;
  return sign == "<" ? left < right : left > right;
}

}  // namespace

double Working::result(std::string_view symbol) const {
  for (const Result& r : results)
    if (r.symbol == symbol) return r.si;
  throw std::logic_error(fmt::format("{} has no result '{}'", name, symbol));
}

bool Working::kept() const {
  return std::all_of(limits.begin(), limits.end(), [](const Limit& l) { return l.kept; }) &&
         std::all_of(verdicts.begin(), verdicts.end(), [](const Verdict& v) { return v.kept(); });
}

InputSpec InputSpec::range(double from, double to) const {
  InputSpec s = *this;
  s.least = from;
  s.most = to;
  return s;
}

InputSpec InputSpec::standard(std::string value, std::string reason) const {
  InputSpec s = *this;
  s.fallback = std::move(value);
  s.why = std::move(reason);
  return s;
}

InputSpec InputSpec::one_of(std::vector<std::string> words) const {
  InputSpec s = *this;
  s.choices = std::move(words);
  return s;
}

InputSpec InputSpec::as_list() const {
  InputSpec s = *this;
  s.list = true;
  return s;
}

InputSpec InputSpec::if_known() const {
  InputSpec s = *this;
  s.optional = true;
  return s;
}

InputSpec InputSpec::noted(std::string words) const {
  InputSpec s = *this;
  s.note = std::move(words);
  return s;
}

const Unit& InputSpec::unit_in(System system) const {
  return unit_of(kind, system == System::us && !us_unit.empty() ? us_unit : unit);
}

std::string InputSpec::range_words(System system) const {
  constexpr double all_but_zero = 1e-9;
  const Unit& u = unit_in(system);
  std::string out;
  if (least > 0 && least <= all_but_zero)
    out = "above 0";
  else if (least > -1e300)
    out = "at least " + print_with_unit(least, u);
  if (most < 1e300) out += (out.empty() ? "at most " : " and at most ") + print_with_unit(most, u);
  return out;
}

Reckoner::Reckoner(const WorkingKind& kind, const Values& values, System system)
    : kind_(kind), system_(system) {
  w_.name = kind.name;
  w_.title = kind.title;
  w_.sources = kind.sources;
  for (const InputSpec& spec : kind.inputs) {
    const auto found = values.find(spec.symbol);
    if (found == values.end()) {
      if (spec.optional) continue;
      throw std::logic_error(fmt::format("{}: no value for {}", kind.name, spec.symbol));
    }
    const Given& g = found->second;
    const bool words = spec.list || !spec.choices.empty();
    const Unit& unit = spec.unit_in(system);
    w_.inputs.push_back(
        {spec.symbol, spec.meaning, unit, words ? 0 : g.si, words ? g.text : "", g.origin});
    if (words)
      texts_[spec.symbol] = g.text;
    else
      know(spec.symbol, {spec.meaning, unit, unit.from_si(g.si), g.si,
                         g.origin.from != Origin::From::computed});
  }
}

const Reckoner::Known& Reckoner::known(std::string_view symbol) const {
  const auto found = known_.find(symbol);
  if (found != known_.end()) return found->second;
  throw std::logic_error(fmt::format("{}: '{}' has no value", kind_.name, symbol));
}

void Reckoner::know(const std::string& symbol, Known k) {
  if (!known_.emplace(symbol, std::move(k)).second)
    throw std::logic_error(fmt::format("{}: '{}' is declared twice", kind_.name, symbol));
}

double Reckoner::si(std::string_view symbol) const {
  return known(symbol).si;
}
double Reckoner::value(std::string_view symbol) const {
  return known(symbol).value;
}

const std::string& Reckoner::text(std::string_view symbol) const {
  const auto found = texts_.find(symbol);
  if (found != texts_.end()) return found->second;
  throw std::logic_error(fmt::format("{}: '{}' has no text", kind_.name, symbol));
}

bool Reckoner::given(std::string_view symbol) const {
  return known_.count(symbol) > 0 || texts_.count(symbol) > 0;
}

/// The optional input of that name, when it was left out.
const InputSpec* Reckoner::left_out(std::string_view symbol) const {
  if (given(symbol)) return nullptr;
  for (const InputSpec& spec : kind_.inputs)
    if (spec.symbol == symbol && spec.optional) return &spec;
  return nullptr;
}

double Reckoner::evaluated(std::string_view formula) const {
  return evaluate(formula, [&](std::string_view name) { return value(name); });
}

std::string Reckoner::numbers_in(std::string_view formula) const {
  return with_numbers(formula, [&](std::string_view name) {
    const Known& k = known(name);
    return k.exact ? print_given(k.si, k.unit) : print_in(k.si, k.unit);
  });
}

void Reckoner::add_value(std::string symbol, std::string meaning, double value, const Unit& unit,
                         std::string source, Origin::From from) {
  const double in_si = unit.to_si(value);
  know(symbol, {meaning, unit, value, in_si, true});
  w_.inputs.push_back(
      {std::move(symbol), std::move(meaning), unit, in_si, "", {from, std::move(source), {}}});
}

void Reckoner::constant(std::string symbol, std::string meaning, double value, std::string source) {
  constant(std::move(symbol), std::move(meaning), value, Kind::number, "", std::move(source));
}

void Reckoner::constant(std::string symbol, std::string meaning, double value, Kind kind,
                        std::string_view unit, std::string source) {
  add_value(std::move(symbol), std::move(meaning), value, unit_of(kind, unit), std::move(source),
            Origin::From::constant);
}

void Reckoner::looked_up(std::string symbol, std::string meaning, double value,
                         std::string source) {
  looked_up(std::move(symbol), std::move(meaning), value, Kind::number, "", std::move(source));
}

void Reckoner::looked_up(std::string symbol, std::string meaning, double value, Kind kind,
                         std::string_view unit, std::string source) {
  add_value(std::move(symbol), std::move(meaning), value, unit_of(kind, unit), std::move(source),
            Origin::From::table);
}

double Reckoner::step(std::string symbol, std::string meaning, std::string formula, Kind kind,
                      std::string_view unit) {
  const Unit& u = unit_of(kind, unit);
  const double v = evaluated(formula);
  const std::string numbers = numbers_in(formula);
  if (!std::isfinite(v))
    throw WorkingError(
        fmt::format("{} ({}) has no value: {} = {} divides by zero or takes a root of a negative "
                    "number; change "
                    "the values in it",
                    symbol, meaning, formula, numbers));
  know(symbol, {meaning, u, v, u.to_si(v), false});
  w_.steps.push_back(
      {std::move(symbol), std::move(meaning), std::move(formula), numbers, "", u, u.to_si(v)});
  return v;
}

double Reckoner::found(std::string symbol, std::string meaning, double value, Kind kind,
                       std::string_view unit, std::string words) {
  const Unit& u = unit_of(kind, unit);
  if (!std::isfinite(value))
    throw WorkingError(fmt::format("{} ({}) could not be found: {}", symbol, meaning, words));
  know(symbol, {meaning, u, value, u.to_si(value), false});
  w_.steps.push_back(
      {std::move(symbol), std::move(meaning), "", "", std::move(words), u, u.to_si(value)});
  return value;
}

void Reckoner::result(std::string_view symbol, std::string_view unit) {
  const Known& k = known(symbol);
  const Unit& u = unit.empty() ? k.unit : unit_of(k.unit.kind, unit);
  w_.results.push_back({std::string(symbol), k.meaning, u, k.si});
}

void Reckoner::condition(std::string formula, std::string words, std::string otherwise) {
  std::vector<std::string> needed;
  for (const std::string& name : names_in(formula))
    if (const InputSpec* spec = left_out(name))
      needed.push_back(fmt::format("{} ({})", name, spec->meaning));
  if (!needed.empty())
    return not_checked(fmt::format("{}: needs {}", words, fmt::join(needed, " and ")));
  const Comparison c = comparison_in(formula);
  const bool kept = holds(evaluated(c.left), c.sign, evaluated(c.right));
  std::string numbers = numbers_in(formula);
  w_.limits.push_back(
      {std::move(words), std::move(formula), std::move(numbers), kept, std::move(otherwise)});
}

void Reckoner::limit(std::string words, bool kept, std::string otherwise) {
  w_.limits.push_back({std::move(words), "", "", kept, std::move(otherwise)});
}

void Reckoner::verdict(std::string words, std::string_view demand, std::string_view capacity,
                       std::string_view unit) {
  for (std::string_view symbol : {demand, capacity})
    if (const InputSpec* spec = left_out(symbol))
      return not_checked(fmt::format("{}: needs {} ({})", words, symbol, spec->meaning));
  const Known &d = known(demand), &c = known(capacity);
  if (d.unit.kind != c.unit.kind)
    throw std::logic_error(
        fmt::format("{}: {} and {} are not of one kind", kind_.name, demand, capacity));
  const Unit& u = unit.empty() ? d.unit : unit_of(d.unit.kind, unit);
  w_.verdicts.push_back({std::move(words), d.si, c.si, u});
}

void Reckoner::verdict(std::string words, double demand_si, double capacity_si, Kind kind,
                       std::string_view unit) {
  w_.verdicts.push_back({std::move(words), demand_si, capacity_si, unit_of(kind, unit)});
}

void Reckoner::not_checked(std::string words) {
  w_.not_checked.push_back(std::move(words));
}

void Reckoner::caution(std::string words) {
  w_.cautions.push_back(std::move(words));
}

void Reckoner::curve(Curve c) {
  w_.curves.push_back(std::move(c));
}

void Reckoner::table(ResultTable t) {
  for (const auto& row : t.rows) {
    if (row.size() != t.heads.size()) throw std::logic_error(kind_.name + ": a row of another length");
    for (const std::string& symbol : row) w_.result(symbol);  // it is there
  }
  w_.table = std::move(t);
}

Working Reckoner::finish() {
  if (w_.results.empty()) throw std::logic_error(kind_.name + " has no result");
  return std::move(w_);
}

}  // namespace deckquire::workings
