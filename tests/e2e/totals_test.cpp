// The same numbers in every file: list, CSV, workbook and index page, travellers and tags.
#include <doctest/doctest.h>

#include <algorithm>
#include <cmath>
#include <pugixml.hpp>
#include <set>
#include <sstream>

#include "base/files.h"
#include "e2e/program.h"
#include "support/workbook.h"

using namespace deckquire;

namespace {

using Rows = std::vector<std::vector<std::string>>;

/// The cells of a CSV text (RFC 4180, without quoted line ends), heads first.
Rows csv_cells(const std::string& text) {
  Rows out;
  std::istringstream lines(text);
  for (std::string line; std::getline(lines, line);) {
    out.emplace_back(1);
    bool quoted = false;
    for (std::size_t i = 0; i < line.size(); ++i) {
      if (line[i] == '"' && quoted && i + 1 < line.size() && line[i + 1] == '"') {
        out.back().back() += '"';
        ++i;
      } else if (line[i] == '"') {
        quoted = !quoted;
      } else if (line[i] == ',' && !quoted) {
        out.back().emplace_back();
      } else {
        out.back().back() += line[i];
      }
    }
  }
  return out;
}

/// A cell of a worksheet against one of CSV: numbers to the sixteen digits that a workbook has, texts by
/// their letters.
bool same_cell(const std::string& of_book, const std::string& of_csv) {
  if (of_book.empty()) return of_csv.empty();
  if (of_book[0] == 's') return of_book.substr(2) == of_csv;
  if (of_csv.empty()) return false;
  const double a = std::stod(of_book.substr(2)), b = std::stod(of_csv);
  return std::abs(a - b) <= 1e-15 * std::abs(b);
}

/// How many cells of the table differ; the number of cells in `looked_at`.
int differences(const std::map<std::string, std::string>& book, const Rows& csv, int& looked_at) {
  int wrong = 0;
  for (std::size_t r = 0; r < csv.size(); ++r)
    for (std::size_t c = 0; c < csv[r].size(); ++c) {
      const auto at = book.find(column_letters(c) + std::to_string(r + 1));
      ++looked_at;
      if (!same_cell(at == book.end() ? "" : at->second, csv[r][c])) ++wrong;
    }
  return wrong;
}

std::vector<std::string> projects() {
  return {DECKQUIRE_SOURCE "/projects/saltmarsh.xml", DECKQUIRE_SOURCE "/projects/orchard.xml",
          DECKQUIRE_SOURCE "/projects/ropewalk.xml"};
}

/// Words of the rows of the table of that id.
Rows page_rows(const std::string& html, const std::string& id) {
  pugi::xml_document doc;
  REQUIRE(doc.load_string(html.c_str(), pugi::parse_default));
  const auto table = doc.select_node(("//table[@id='" + id + "']").c_str()).node();
  REQUIRE(table);
  Rows out;
  for (pugi::xml_node row : table.child("tbody").children("tr")) {
    out.emplace_back();
    for (pugi::xml_node cell : row.children("td"))
      out.back().push_back(cell.child("a") ? cell.child("a").text().get() : cell.text().get());
  }
  return out;
}

}  // namespace

TEST_CASE("files: every table of the set is the same in CSV, in list and in the workbook") {
  for (const std::string& project : projects()) {
    CAPTURE(project);
    REQUIRE(drawn(project).outcome.status == 0);
    const std::string set = drawn(project).folder;
    TrialFolder trial;
    REQUIRE(run("shop " + project + " --out " + trial.path + "/shop").status == 0);
    const auto files = unpacked(read_file(trial.path + "/shop/tables.xlsx"));
    const std::vector<std::string> sheets = worksheets(files);
    int looked_at = 0, tables = 0;
    for (std::size_t i = 1; i < sheets.size(); ++i) {
      CAPTURE(sheets[i]);
      const std::string file = set + "/tables/" + sheets[i] + ".csv";
      std::string csv;
      try {
        csv = read_file(file);
      } catch (const FileError&) {
        continue;  // of the shop only: loads, sequence
      }
      ++tables;
      CHECK(csv == run("list " + project + " " + sheets[i] + " --csv").out);
      const auto book = cells(files, static_cast<int>(i) + 1);
      const Rows want = csv_cells(csv);
      CHECK(differences(book, want, looked_at) == 0);
      Rows fault = want;
      fault.back().front() += "1";
      CHECK(differences(book, fault, looked_at) == 1);
    }
    CHECK(tables >= 14);
    CHECK(looked_at > 5000);
    for (const char* name : {"materials", "materials-by-span", "materials-by-mark", "materials-by-panel",
                             "orders", "serial-register"})
      CHECK(std::count(sheets.begin(), sheets.end(), name) == 1);
  }
}

TEST_CASE("files: a traveller and a tag for every panel, and a row of the register on the index page") {
  for (const std::string& project : projects()) {
    CAPTURE(project);
    TrialFolder trial;
    REQUIRE(run("shop " + project + " --out " + trial.path + "/shop").status == 0);
    const auto panels = rows_of(run("list " + project + " panels --csv").out);
    std::set<std::string> serials;
    for (const auto& p : panels) serials.insert(p.at("serial"));
    CHECK(serials.size() == panels.size());
    const std::string info = output_of("pdfinfo " + trial.path + "/shop/travellers.pdf");
    CHECK(info.find("Pages:") != std::string::npos);
    CHECK(std::stoul(info.substr(info.find("Pages:") + 6)) == panels.size());
    const std::string tags = output_of("ls " + trial.path + "/shop/tags | wc -l");
    CHECK(std::stoul(tags) == panels.size());
    const Rows page = page_rows(read_file(drawn(project).folder + "/index.html"), "serial-register");
    const auto lines = rows_of(run("list " + project + " serial-register --csv").out);
    CHECK(page.size() == panels.size());
    REQUIRE(lines.size() == panels.size());
    for (std::size_t i = 0; i < page.size(); ++i) {
      CHECK(page[i].front() == lines[i].at("serial"));
      CHECK(page[i].at(1) == lines[i].at("mark"));
      CHECK(serials.count(page[i].front()) == 1);
    }
  }
}

TEST_CASE("index page: the script is its own, and without it every row shows") {
  const std::string html = read_file(drawn(projects().front()).folder + "/index.html");
  CHECK(html.find(" src=\"http") == std::string::npos);
  CHECK(html.find("<script src") == std::string::npos);
  CHECK(html.find("<script>") != std::string::npos);
  CHECK(html.find("<p class=\"find\" data-of=\"serial-register\" hidden=\"\">") != std::string::npos);
  CHECK(html.find("<tr hidden") == std::string::npos);
}
