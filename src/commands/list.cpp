#include <fmt/format.h>

#include <algorithm>
#include <cstdio>

#include "commands/commands.h"
#include "commands/load.h"
#include "schedules/schedules.h"
#include "writers/writers.h"

namespace deckquire::commands {
namespace {

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
    for (std::size_t i = 0; i < line.size(); ++i) widths[i] = std::max(widths[i], line[i].size());
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

int unknown(const std::string& schedule, const std::vector<Table>& tables) {
  std::vector<std::string> names;
  for (const Table& t : tables) names.push_back(t.name);
  const std::string near = nearest_word(schedule, names);
  std::fprintf(stderr, "deckquire: list: there is no schedule '%s'; %s\n", schedule.c_str(),
               near.empty() ? ("there are: " + join(names, ", ")).c_str()
                            : ("did you mean '" + near + "'?").c_str());
  return wrong_command_line;
}

}  // namespace

int list(const std::string& project, const std::string& schedule, Form form) {
  Findings findings;
  const auto loaded = load(project, findings);
  report(findings);
  if (!loaded) return project_errors;
  const std::vector<Table> tables = make_schedules(loaded->project, loaded->bridge, loaded->deck);
  if (schedule.empty()) {
    for (const Table& t : tables) fmt::print("{:<14} {}\n", t.name, t.title);
    return done;
  }
  const auto table = std::find_if(tables.begin(), tables.end(),
                                  [&](const Table& t) { return t.name == schedule; });
  if (table == tables.end()) return unknown(schedule, tables);
  if (form == Form::text) print_text(*table, loaded->project.units);
  if (form == Form::csv) fmt::print("{}", writers::write_csv(*table));
  if (form == Form::json) fmt::print("{}", writers::write_json(*table));
  return done;
}

}  // namespace deckquire::commands
