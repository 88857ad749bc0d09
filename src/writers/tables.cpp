// Tables for machines: CSV and JSON.
#include <fmt/format.h>

#include "writers/writers.h"

namespace deckquire::writers {
namespace {

/// RFC 4180: quoted when it holds a comma, a quote or a line end; quotes doubled.
void append_field(std::string& out, const std::string& field) {
  if (field.find_first_of(",\"\r\n") == std::string::npos) {
    out += field;
    return;
  }
  out += '"';
  for (char c : field) {
    if (c == '"') out += '"';
    out += c;
  }
  out += '"';
}

void append_row(std::string& out, const std::vector<std::string>& fields) {
  for (std::size_t i = 0; i < fields.size(); ++i) {
    if (i > 0) out += ',';
    append_field(out, fields[i]);
  }
  out += '\n';
}

std::string json_value(const Cell& cell, Measure measure) {
  if (std::holds_alternative<std::monostate>(cell)) return "null";
  if (is_words(cell)) return json_string(machine_cell(cell, measure));
  return machine_cell(cell, measure);
}

}  // namespace

std::string write_csv(const Table& table) {
  std::string out;
  std::vector<std::string> fields;
  for (const Column& c : table.columns) fields.push_back(c.name);
  append_row(out, fields);
  for (const auto& row : table.rows) {
    fields.clear();
    for (std::size_t i = 0; i < row.size(); ++i)
      fields.push_back(machine_cell(row[i], table.columns[i].measure));
    append_row(out, fields);
  }
  return out;
}

std::string write_json(const Table& table) {
  std::string out = "[";
  for (std::size_t r = 0; r < table.rows.size(); ++r) {
    out += r == 0 ? "\n  {" : ",\n  {";
    for (std::size_t i = 0; i < table.columns.size(); ++i) {
      if (i > 0) out += ", ";
      out += json_string(table.columns[i].name) + ": " +
             json_value(table.rows[r][i], table.columns[i].measure);
    }
    out += '}';
  }
  return out + (table.rows.empty() ? "]\n" : "\n]\n");
}

}  // namespace deckquire::writers
