// The index page: one file, works from a folder. Its only script filters rows that are there without it.
#include <fmt/format.h>

#include <algorithm>

#include "writers/markup.h"
#include "writers/writers.h"

namespace deckquire::writers {
namespace {

constexpr const char* look = R"(
:root { color-scheme: light; }
body { margin: 0 auto; max-width: 76rem; padding: 2rem 1.5rem 4rem; background: #fff; color: #111;
  font: 16px/1.5 "DejaVu Sans", "Segoe UI", sans-serif; }
header { border-bottom: 4px solid #111; padding-bottom: .75rem; margin-bottom: 1.5rem; }
h1 { font-size: 1.7rem; margin: 0; font-weight: 600; }
h2 { font-size: 1rem; margin: 2.5rem 0 .75rem; font-weight: 600; border-bottom: 1px solid #111; }
a { color: #0b5351; }
.sheets { display: grid; gap: 1.25rem; grid-template-columns: repeat(auto-fill, minmax(20rem, 1fr));
  list-style: none; margin: 0; padding: 0; }
.sheets a { display: block; text-decoration: none; color: inherit; }
.sheets img { width: 100%; height: auto; display: block; border: 1px solid #999; background: #fff; }
.sheets a:hover img, .sheets a:focus img { border-color: #0b5351; outline: 2px solid #0b5351; }
.sheets b { display: inline-block; min-width: 3rem; }
.tables { columns: 3 16rem; padding-left: 1.1rem; }
.find { display: flex; gap: .75rem; align-items: baseline; }
.find[hidden] { display: none; }
.find input { font: inherit; padding: .5rem .75rem; border: 2px solid #111; min-width: 16rem; }
.wide { overflow: auto; max-height: 80vh; border: 1px solid #999; }
.wide table { border-collapse: collapse; font-size: .9rem; }
.wide th { position: sticky; top: 0; background: #111; color: #fff; text-align: left; font-weight: 600;
  vertical-align: bottom; }
.wide th, .wide td { padding: .45rem .7rem; border-bottom: 1px solid #ccc; }
.wide td { white-space: nowrap; }
.wide td.n, .wide th.n { text-align: right; }
.wide tr.void td { text-decoration: line-through; color: #555; }
.wide td.as-is { white-space: normal; }
.wide tr.void td.as-is { text-decoration: none; }
@media print { .find { display: none; } .wide { max-height: none; overflow: visible; border: 0; }
  .sheets { grid-template-columns: repeat(3, 1fr); } .sheets li { break-inside: avoid; } }
)";

void add_sheet(std::string& out, const paper::Sheet& s) {
  const std::string number = escaped(s.number), title = escaped(s.title);
  out += fmt::format(
      "<li><a href=\"sheets/{0}.svg\"><img src=\"sheets/{0}.svg\" alt=\"\" loading=\"lazy\" "
      "width=\"{2:.0f}\" height=\"{3:.0f}\"/><b>{0}</b> {1}{4}</a></li>\n",
      number, title, s.width, s.height,
      s.revision.empty() ? "" : " <small>rev. " + escaped(s.revision) + "</small>");
}

// Rows whose words hold all words of the box stay. Without it the box stays hidden, and all rows show.
constexpr const char* finding = R"(<script>
document.querySelectorAll('.find').forEach(function (find) {
  var box = find.querySelector('input'), said = find.querySelector('output');
  var rows = Array.from(document.getElementById(find.dataset.of).tBodies[0].rows);
  var words = rows.map(function (row) {
    return Array.from(row.cells, function (c) { return c.textContent; }).join(' ').toLowerCase();
  });
  function search() {
    var wanted = box.value.toLowerCase().split(' ').filter(Boolean), shown = 0;
    rows.forEach(function (row, i) {
      row.hidden = !wanted.every(function (w) { return words[i].indexOf(w) >= 0; });
      if (!row.hidden) shown += 1;
    });
    said.textContent = shown + ' of ' + rows.length;
  }
  box.addEventListener('input', search);
  find.hidden = false;
  search();
});
</script>
)";

bool is_number(Measure m) {
  return m != Measure::text;
}

/// Columns in which some row has something: the CSV file has them all.
std::vector<std::size_t> filled_columns(const Table& t) {
  std::vector<std::size_t> out;
  for (std::size_t i = 0; i < t.columns.size(); ++i)
    if (std::any_of(t.rows.begin(), t.rows.end(), [&](const auto& row) {
          return !machine_cell(row[i], t.columns[i].measure).empty();
        }))
      out.push_back(i);
  return out;
}

/// Sheets of the set are links; what is void is struck through, but for the words about it.
void add_row(std::string& out, const Table& t, const std::vector<Cell>& row,
             const std::vector<std::size_t>& columns, const DocumentInfo& info) {
  const auto named = [&](std::size_t i, const char* name) { return t.columns[i].name == name; };
  bool is_void = false;
  for (std::size_t i = 0; i < row.size(); ++i)
    is_void = is_void || (named(i, "status") && print_cell(row[i], Measure::text, info.units) == "void");
  out += is_void ? "<tr class=\"void\">" : "<tr>";
  for (std::size_t i : columns) {
    const std::string text = escaped(print_cell(row[i], t.columns[i].measure, info.units));
    const bool link = named(i, "sheet") &&
                      std::find(info.sheets.begin(), info.sheets.end(), text) != info.sheets.end();
    const bool as_is = named(i, "status") || named(i, "replaced_by") || named(i, "reason");
    out += is_number(t.columns[i].measure) ? "<td class=\"n\">" : as_is ? "<td class=\"as-is\">" : "<td>";
    out += link ? fmt::format("<a href=\"sheets/{0}.svg\">{0}</a>", text) : text;
    out += "</td>";
  }
  out += "</tr>\n";
}

void add_table(std::string& out, const Table& t, const DocumentInfo& info) {
  const std::string id = escaped(t.name);
  out += fmt::format("<h2>{}</h2>\n<p>{}</p>\n", escaped(t.title), escaped(t.intro));
  out += fmt::format(
      "<p class=\"find\" data-of=\"{0}\" hidden=\"\"><label for=\"find-{0}\">"
      "Find a serial, mark, date or word</label> "
      "<input id=\"find-{0}\" type=\"search\" autocomplete=\"off\"/> <output for=\"find-{0}\"></output></p>\n",
      id);
  out += fmt::format("<div class=\"wide\" tabindex=\"0\"><table id=\"{}\">\n<thead><tr>", id);
  const std::vector<std::size_t> columns = filled_columns(t);
  for (std::size_t i : columns) {
    const Column& c = t.columns[i];
    const std::string unit = column_unit(c.measure, info.units);
    out += fmt::format("<th scope=\"col\"{}>{}{}</th>", is_number(c.measure) ? " class=\"n\"" : "",
                       escaped(c.head), unit.empty() ? "" : " [" + unit + "]");
  }
  out += "</tr></thead>\n<tbody>\n";
  for (const auto& row : t.rows) add_row(out, t, row, columns, info);
  out += "</tbody>\n</table></div>\n";
}

}  // namespace

std::string write_index(const std::vector<paper::Sheet>& sheets, const std::vector<Table>& tables,
                        const DocumentInfo& info) {
  std::string out =
      "<!DOCTYPE html>\n<html lang=\"en\">\n<head>\n<meta charset=\"utf-8\"/>\n"
      "<meta name=\"viewport\" content=\"width=device-width\"/>\n<title>";
  out += escaped(info.job + " " + info.title) + "</title>\n<style>" + look + "</style>\n</head>\n";
  out += fmt::format(
      "<body>\n<header>\n<h1>{}</h1>\n<p>Job {} · {} · {} sheets · "
      "<a href=\"set.pdf\">whole set as PDF</a></p>\n</header>\n<main>\n",
      escaped(info.title), escaped(info.job), escaped(info.date), sheets.size());
  char series = 0;
  for (const paper::Sheet& s : sheets) {
    if (s.number[0] != series) {
      if (series) out += "</ul>\n";
      series = s.number[0];
      out += "<h2>" + series_name(series) + "</h2>\n<ul class=\"sheets\">\n";
    }
    add_sheet(out, s);
  }
  if (series) out += "</ul>\n";
  bool finds = false;
  for (const Table& t : tables) {
    if (!t.on_page) continue;
    add_table(out, t, info);
    finds = true;
  }
  out += "<h2>Tables as CSV</h2>\n<ul class=\"tables\">\n";
  for (const Table& t : tables)
    out += fmt::format("<li><a href=\"tables/{}.csv\">{}</a></li>\n", escaped(t.name),
                       escaped(t.title));
  return out + "</ul>\n</main>\n" + (finds ? finding : "") + "</body>\n</html>\n";
}

}  // namespace deckquire::writers
