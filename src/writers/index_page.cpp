// The index page: one file, no scripts, works from a folder.
#include <fmt/format.h>

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
@media print { .sheets { grid-template-columns: repeat(3, 1fr); } .sheets li { break-inside: avoid; } }
)";

void add_sheet(std::string& out, const paper::Sheet& s) {
  const std::string number = escaped(s.number), title = escaped(s.title);
  out += fmt::format(
      "<li><a href=\"sheets/{0}.svg\"><img src=\"sheets/{0}.svg\" alt=\"\" loading=\"lazy\" "
      "width=\"{2:.0f}\" height=\"{3:.0f}\"/><b>{0}</b> {1}{4}</a></li>\n",
      number, title, s.width, s.height,
      s.revision.empty() ? "" : " <small>rev. " + escaped(s.revision) + "</small>");
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
  out += "<h2>Tables as CSV</h2>\n<ul class=\"tables\">\n";
  for (const Table& t : tables)
    out += fmt::format("<li><a href=\"tables/{}.csv\">{}</a></li>\n", escaped(t.name),
                       escaped(t.title));
  return out + "</ul>\n</main>\n</body>\n</html>\n";
}

}  // namespace deckquire::writers
