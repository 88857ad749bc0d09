#include "writers/workbook.h"

#include <fmt/format.h>
#include <stdlib.h>
#include <unistd.h>
#include <xlsxwriter.h>

#include <algorithm>
#include <array>
#include <charconv>
#include <ctime>
#include <filesystem>
#include <memory>
#include <stdexcept>

#include "base/files.h"

namespace deckquire::writers {
namespace {

/// The library writes to a path only: a folder of our own, gone with its last user.
class Folder {
 public:
  Folder() {
    std::string pattern = (std::filesystem::temp_directory_path() / "workbook-XXXXXX").string();
    if (!mkdtemp(pattern.data()))
      throw FileError("no temporary folder for the workbook: " + pattern);
    path_ = pattern;
  }
  ~Folder() {
    std::error_code ignored;
    std::filesystem::remove_all(path_, ignored);
  }
  Folder(const Folder&) = delete;
  Folder& operator=(const Folder&) = delete;
  std::string file() const { return (path_ / "tables.xlsx").string(); }

 private:
  std::filesystem::path path_;
};

void check(lxw_error e) {
  if (e != LXW_NO_ERROR)
    throw std::runtime_error(std::string("workbook: ") + lxw_strerror(e));
}

/// Midnight of an ISO date in universal time; the epoch where there is none: never the clock's.
std::time_t moment(const std::string& date) {
  std::tm day{};
  if (date.size() < 10 || !strptime(date.c_str(), "%Y-%m-%d", &day)) return 0;
  return timegm(&day);
}

struct Formats {
  lxw_format* plain = nullptr;
  lxw_format* bold = nullptr;
};

constexpr int widest = 60;  // characters; longer texts run on

void write_cell(lxw_worksheet* sheet, lxw_row_t row, lxw_col_t column, const Cell& cell, Measure m,
                lxw_format* format) {
  if (std::holds_alternative<std::monostate>(cell)) return;
  const std::string text = machine_cell(cell, m);
  if (is_words(cell))
    return check(worksheet_write_string(sheet, row, column, text.c_str(), format));
  double value = 0;
  const auto read = std::from_chars(text.data(), text.data() + text.size(), value);
  if (read.ec != std::errc()) throw std::runtime_error("workbook: no number: " + text);
  check(worksheet_write_number(sheet, row, column, value, format));
}

void set_widths(lxw_worksheet* sheet, const Table& t) {
  for (std::size_t i = 0; i < t.columns.size(); ++i) {
    std::size_t most = t.columns[i].name.size();
    for (const auto& row : t.rows) most = std::max(most, machine_cell(row[i], t.columns[i].measure).size());
    const auto column = static_cast<lxw_col_t>(i);
    check(worksheet_set_column(sheet, column, column,
                               std::min<double>(widest, static_cast<double>(most) + 3), nullptr));
  }
}

void write_table(lxw_worksheet* sheet, const Table& t, const Formats& formats) {
  set_widths(sheet, t);
  for (std::size_t i = 0; i < t.columns.size(); ++i)
    check(worksheet_write_string(sheet, 0, static_cast<lxw_col_t>(i), t.columns[i].name.c_str(),
                                 formats.bold));
  const auto write = [&](std::size_t row, const std::vector<Cell>& cells, lxw_format* format) {
    for (std::size_t i = 0; i < cells.size(); ++i)
      write_cell(sheet, static_cast<lxw_row_t>(row), static_cast<lxw_col_t>(i), cells[i],
                 t.columns[i].measure, format);
  };
  for (std::size_t r = 0; r < t.rows.size(); ++r) write(r + 1, t.rows[r], formats.plain);
  if (!t.total.empty()) write(t.rows.size() + 1, t.total, formats.bold);
  worksheet_freeze_panes(sheet, 1, 0);
  if (!t.rows.empty() && !t.columns.empty())
    check(worksheet_autofilter(sheet, 0, 0, static_cast<lxw_row_t>(t.rows.size()),
                               static_cast<lxw_col_t>(t.columns.size() - 1)));
}

Table contents(const std::vector<Table>& tables) {
  Table t;
  t.columns = {{"table", "", Measure::text}, {"title", "", Measure::text}, {"rows", "", Measure::count}};
  for (const Table& of : tables)
    t.rows.push_back({of.name, of.title, static_cast<std::int64_t>(of.rows.size())});
  return t;
}

lxw_worksheet* add_sheet(lxw_workbook* book, const std::string& name) {
  check(workbook_validate_sheet_name(book, name.c_str()));
  return workbook_add_worksheet(book, name.c_str());
}

}  // namespace

std::string write_workbook(const std::vector<Table>& tables, const DocumentInfo& info) {
  const Folder folder;
  const std::string file = folder.file();
  // Closing frees it too; until then a table that cannot be written would leave it behind.
  std::unique_ptr<lxw_workbook, void (*)(lxw_workbook*)> owner(workbook_new(file.c_str()), lxw_workbook_free);
  lxw_workbook* const book = owner.get();
  if (!book) throw std::runtime_error("workbook: no memory");
  lxw_doc_properties properties{};
  std::string title = info.title, author = info.author, job = info.job;
  properties.title = title.data(), properties.author = author.data(), properties.subject = job.data();
  properties.created = moment(info.date);
  if (properties.created == 0) properties.created = 1;  // 0 would mean: now
  check(workbook_set_properties(book, &properties));
  Formats formats{nullptr, workbook_add_format(book)};
  format_set_bold(formats.bold);
  write_table(add_sheet(book, "contents"), contents(tables), formats);
  for (const Table& t : tables) write_table(add_sheet(book, t.name), t, formats);
  check(workbook_close(owner.release()));
  return read_file(file);
}

}  // namespace deckquire::writers
