#include <fmt/format.h>

#include "base/json.h"
#include "base/text.h"
#include "commands/commands.h"
#include "commands/load.h"

namespace deckquire::commands {
namespace {

const char* word(Severity s) {
  return s == Severity::error ? "error" : s == Severity::warning ? "warning" : "note";
}

std::string list_json(const std::vector<std::string>& rows) {
  return rows.empty() ? "[]" : "[\n  " + join(rows, ",\n  ") + "\n]";
}

std::string findings_json(const std::vector<Finding>& findings) {
  std::vector<std::string> rows;
  for (const Finding& f : findings)
    rows.push_back(fmt::format(
        "{{\"severity\": \"{}\", \"file\": {}, \"line\": {}, \"column\": {}, \"code\": {}, "
        "\"what\": {}, \"remedy\": {}}}",
        word(f.severity), json_string(f.place.file), f.place.line, f.place.column,
        json_string(f.code), json_string(f.what), json_string(f.remedy)));
  return list_json(rows);
}

std::string summary_json(const Calculations& all) {
  std::vector<std::string> rows;
  for (const CheckLine& line : all.summary)
    rows.push_back(fmt::format(
        "{{\"topic\": {}, \"check\": {}, \"worst\": {}, \"demand\": {}, \"limit\": {}, "
        "\"ratio\": {}, \"kept\": {}, \"of\": {}, \"calculation\": {}}}",
        json_string(topic_name(line.topic)), json_string(line.what), json_string(line.on),
        json_string(line.demand), json_string(line.capacity), machine_number(line.ratio), line.kept,
        line.count, json_string(all.list[line.worst].number)));
  return list_json(rows);
}

std::string calculations_json(const Loaded& loaded) {
  std::vector<std::string> rows;
  for (const Calculation& c : loaded.scope.calculations.list) {
    std::vector<std::string> marks;
    for (int m : c.marks)
      marks.push_back(json_string(loaded.deck.marks[static_cast<std::size_t>(m)].name));
    rows.push_back(fmt::format(
        "{{\"number\": {}, \"topic\": {}, \"on\": {}, \"marks\": [{}], \"working\": {}}}",
        json_string(c.number), json_string(topic_name(c.topic)), json_string(c.on),
        join(marks, ", "), workings::to_json(c.working)));
  }
  return list_json(rows);
}

std::string not_checked_json(const CheckScope& scope) {
  std::vector<std::string> rows;
  for (const std::string& s : scope.not_checked) rows.push_back(json_string(s));
  return list_json(rows);
}

void print_json(const Findings& findings, const Loaded* loaded) {
  const Loaded none{};
  const Loaded& l = loaded == nullptr ? none : *loaded;
  fmt::print(
      "{{\n\"findings\": {},\n\"summary\": {},\n\"not_checked\": {},\n\"calculations\": {}\n}}\n",
      findings_json(findings.sorted()), summary_json(l.scope.calculations),
      not_checked_json(l.scope), calculations_json(l));
}

}  // namespace

int check(const std::string& project, bool json) {
  Findings findings;
  const auto loaded = load(project, findings);
  report(findings);
  if (json) print_json(findings, loaded ? &*loaded : nullptr);
  if (!loaded) return project_errors;
  // What is built may not close though the deck is in order.
  const bool kept = loaded->scope.calculations.kept() && !findings.has_errors();
  const int status = kept ? done : project_errors;
  if (json) return status;
  const CheckScope& scope = loaded->scope;
  for (const std::string& s : scope.checked) fmt::print("checked: {}\n", s);
  for (const std::string& s : scope.not_checked) fmt::print("not checked: {}\n", s);
  fmt::print(
      "{}: {} panels of {} marks, {}\n", project, loaded->deck.panels.size(),
      loaded->deck.marks.size(),
      findings.empty() ? "nothing found" : fmt::format("{} found", findings.sorted().size()));
  return status;
}

}  // namespace deckquire::commands
