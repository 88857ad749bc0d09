// A working as one JSON object.
#include <fmt/format.h>

#include <array>
#include <cmath>

#include "base/json.h"
#include "base/text.h"
#include "workings/working.h"

namespace deckquire::workings {
namespace {

std::string number(double v) {
  return std::isfinite(v) ? machine_number(v) : "null";
}

template <class List, class Row>
std::string array(const List& list, Row row, std::string_view between = ",\n    ") {
  std::string out;
  for (const auto& item : list) out += (out.empty() ? "" : std::string(between)) + row(item);
  return out;
}

std::string strings(const std::vector<std::string>& list) {
  return array(
      list, [](const std::string& s) { return json_string(s); }, ", ");
}

std::string numbers(const std::vector<double>& list) {
  return array(
      list, [](double v) { return number(v); }, ", ");
}

/// "value": in the unit, "unit": its label, "si": in SI.
std::string quantity(double si, const Unit& unit) {
  return fmt::format("\"value\": {}, \"unit\": {}, \"si\": {}", number(unit.from_si(si)),
                     json_string(std::string(unit.label)), number(si));
}

std::string input(const Input& in) {
  constexpr std::array<std::string_view, 6> from{"typed",   "project", "computed",
                                                 "default", "table",   "constant"};
  std::string out = fmt::format("{{\"symbol\": {}, \"meaning\": {}, ", json_string(in.symbol),
                                json_string(in.meaning));
  out += in.text.empty() ? quantity(in.si, in.unit) : "\"text\": " + json_string(in.text);
  out += fmt::format(", \"from\": \"{}\"", from[static_cast<std::size_t>(in.origin.from)]);
  if (!in.origin.words.empty()) out += ", \"because\": " + json_string(in.origin.words);
  if (in.origin.place.line > 0)
    out += fmt::format(", \"file\": {}, \"line\": {}", json_string(in.origin.place.file),
                       in.origin.place.line);
  return out + "}";
}

std::string step(const Step& s) {
  const std::string way = s.formula.empty()
                              ? "\"words\": " + json_string(s.words)
                              : fmt::format("\"formula\": {}, \"numbers\": {}",
                                            json_string(s.formula), json_string(s.numbers));
  return fmt::format("{{\"symbol\": {}, \"meaning\": {}, {}, {}}}", json_string(s.symbol),
                     json_string(s.meaning), way, quantity(s.si, s.unit));
}

std::string result(const Result& r) {
  return fmt::format("{{\"symbol\": {}, \"meaning\": {}, {}}}", json_string(r.symbol),
                     json_string(r.meaning), quantity(r.si, r.unit));
}

std::string limit(const Limit& l) {
  std::string out = fmt::format("{{\"words\": {}, ", json_string(l.words));
  if (!l.condition.empty())
    out += fmt::format("\"condition\": {}, \"numbers\": {}, ", json_string(l.condition),
                       json_string(l.numbers));
  return out + fmt::format("\"kept\": {}, \"otherwise\": {}}}", l.kept, json_string(l.otherwise));
}

std::string verdict(const Verdict& v) {
  return fmt::format(
      "{{\"words\": {}, \"demand_si\": {}, \"capacity_si\": {}, \"unit\": {}, \"ratio\": {}, "
      "\"kept\": {}}}",
      json_string(v.words), number(v.demand), number(v.capacity),
      json_string(std::string(v.unit.label)), number(v.ratio()), v.kept());
}

std::string curve(const Curve& c) {
  return fmt::format(
      "{{\"title\": {}, \"along_unit\": {}, \"unit\": {}, \"x_si\": [{}], \"y_si\": [{}], "
      "\"supports_si\": [{}]}}",
      json_string(c.title), json_string(std::string(c.along.label)),
      json_string(std::string(c.unit.label)), numbers(c.x), numbers(c.y), numbers(c.supports));
}

template <class List, class Row>
std::string block(std::string_view name, const List& list, Row row) {
  return list.empty() ? fmt::format("  \"{}\": [],\n", name)
                      : fmt::format("  \"{}\": [\n    {}\n  ],\n", name, array(list, row));
}

}  // namespace

std::string to_json(const Working& w) {
  return fmt::format("{{\n  \"name\": {},\n  \"title\": {},\n  \"sources\": [{}],\n",
                     json_string(w.name), json_string(w.title), strings(w.sources)) +
         block("inputs", w.inputs, input) + block("steps", w.steps, step) +
         block("results", w.results, result) + block("limits", w.limits, limit) +
         block("verdicts", w.verdicts, verdict) + block("curves", w.curves, curve) +
         fmt::format("  \"not_checked\": [{}],\n  \"cautions\": [{}],\n  \"kept\": {}\n}}\n",
                     strings(w.not_checked), strings(w.cautions), w.kept());
}

}  // namespace deckquire::workings
