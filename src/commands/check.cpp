#include <fmt/format.h>

#include "commands/commands.h"
#include "commands/load.h"
#include "writers/writers.h"

namespace deckquire::commands {
namespace {

const char* word(Severity s) {
  return s == Severity::error ? "error" : s == Severity::warning ? "warning" : "note";
}

void print_json(const std::vector<Finding>& findings) {
  using writers::json_string;
  fmt::print("[");
  const char* between = "\n";
  for (const Finding& f : findings) {
    fmt::print(
        "{}  {{\"severity\": \"{}\", \"file\": {}, \"line\": {}, \"column\": {}, \"code\": {}, "
        "\"what\": {}, \"remedy\": {}}}",
        between, word(f.severity), json_string(f.place.file), f.place.line, f.place.column,
        json_string(f.code), json_string(f.what), json_string(f.remedy));
    between = ",\n";
  }
  fmt::print("{}]\n", findings.empty() ? "" : "\n");
}

}  // namespace

int check(const std::string& project, bool json) {
  Findings findings;
  const auto loaded = load(project, findings);
  report(findings);
  if (json) print_json(findings.sorted());
  if (!loaded) return project_errors;
  const int status = loaded->scope.calculations.kept() ? done : project_errors;
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
