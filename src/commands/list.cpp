#include <fmt/format.h>

#include <algorithm>
#include <optional>

#include "commands/chosen_style.h"
#include "commands/commands.h"
#include "commands/load.h"
#include "schedules/schedules.h"
#include "sheets/plan.h"
#include "writers/writers.h"

namespace deckquire::commands {
namespace {

/// Characters, not bytes.
std::size_t length(const std::string& s) {
  return static_cast<std::size_t>(
      std::count_if(s.begin(), s.end(), [](char c) { return (c & 0xc0) != 0x80; }));
}

/// Columns in line, heads with their units, for reading on a terminal.
void print_text(const Table& table, UnitSystem units) {
  std::vector<std::vector<std::string>> lines(1);
  for (const Column& c : table.columns) {
    const std::string unit = column_unit(c.measure, units);
    lines[0].push_back(unit.empty() ? c.head : c.head + " [" + unit + "]");
  }
  for (const auto& row : table.rows) {
    lines.emplace_back();
    for (std::size_t i = 0; i < row.size(); ++i)
      lines.back().push_back(print_cell(row[i], table.columns[i].measure, units));
  }
  std::vector<std::size_t> widths(table.columns.size());
  for (const auto& line : lines)
    for (std::size_t i = 0; i < line.size(); ++i) widths[i] = std::max(widths[i], length(line[i]));
  for (const auto& line : lines) {
    std::string text;
    for (std::size_t i = 0; i < line.size(); ++i) {
      const bool left = table.columns[i].measure == Measure::text;
      text += left ? fmt::format("{:<{}}  ", line[i], widths[i])
                   : fmt::format("{:>{}}  ", line[i], widths[i]);
    }
    text.erase(text.find_last_not_of(' ') + 1);
    fmt::print("{}\n", text);
  }
}

/// Sheets of marks as the project's own style has them: on larger paper small marks share some.
std::vector<Table> as_drawn(const Loaded& loaded, const std::vector<Table>& tables,
                            const paper::Style& style, const Findings& findings) {
  const paper::Lettering lettering(style.fonts);
  const CheckScope scope;  // panel sheets do not print it
  const std::vector<Finding> remarks = findings.sorted();
  sheets::SetInput input{loaded.project, loaded.bridge, loaded.deck, tables,
                         scope,          remarks,       style,       lettering};
  // Marks keep the sheets that they were issued on, in that style.
  const history::Register before = loaded.issued.before(loaded.project.revisions.back().id);
  std::optional<sheets::SetHistory> history;
  if (const history::Issue* last = before.last_issue())
    if (last->style == style_name(loaded.project, ""))
      history.emplace(sheets::SetHistory{before, last->layout});
  if (history) input.history = &*history;
  return sheets::with_panel_sheets(tables, input, sheets::plan_panel_sheets(input));
}

bool names_sheets(const Table& t) {
  return std::any_of(t.columns.begin(), t.columns.end(),
                     [](const Column& c) { return c.name == "sheet"; });
}

int unknown(const std::string& schedule, const std::vector<Table>& tables) {
  std::vector<std::string> names;
  for (const Table& t : tables) names.push_back(t.name);
  const std::string near = nearest_word(schedule, names);
  fmt::print(stderr, "deckquire: list: there is no schedule '{}'; {}\n", schedule,
             near.empty() ? "there are " + join(names, ", ") : "did you mean '" + near + "'?");
  return wrong_command_line;
}

}  // namespace

int list(const std::string& project, const std::string& schedule, Form form) {
  Findings findings;
  const auto loaded = load(project, findings);
  report(findings);
  if (!loaded) return project_errors;
  std::vector<Table> tables = schedules_by_now(*loaded);
  if (schedule.empty()) {
    for (const Table& t : tables) fmt::print("{:<14} {}\n", t.name, t.title);
    return done;
  }
  const auto table = std::find_if(tables.begin(), tables.end(),
                                  [&](const Table& t) { return t.name == schedule; });
  if (table == tables.end()) return unknown(schedule, tables);
  if (names_sheets(*table)) {
    Findings of_style;
    const auto style = style_of(loaded->project, "", of_style);
    report(of_style);
    if (!style) return project_errors;
    const std::vector<Table> one = as_drawn(*loaded, {*table}, *style, findings);
    *table = one.front();
  }
  if (form == Form::text) print_text(*table, loaded->project.units);
  if (form == Form::csv) fmt::print("{}", writers::write_csv(*table));
  if (form == Form::json) fmt::print("{}", writers::write_json(*table));
  return done;
}

}  // namespace deckquire::commands
