#include <doctest/doctest.h>

#include <algorithm>
#include <filesystem>
#include <map>
#include <pugixml.hpp>
#include <set>

#include "base/files.h"
#include "e2e/program.h"

using namespace deckquire;
namespace fs = std::filesystem;

namespace {

std::vector<std::string> files_in(const std::string& folder) {
  std::vector<std::string> names;
  for (const auto& e : fs::directory_iterator(folder))
    names.push_back(e.path().filename().string());
  std::sort(names.begin(), names.end());
  return names;
}

/// Every "E02.svg#id" and "#id" of a sheet leads to a file of the set and an id in it.
void check_links(const std::string& folder) {
  std::map<std::string, std::set<std::string>> ids;
  std::vector<std::pair<std::string, std::string>> links;
  for (const std::string& name : files_in(folder)) {
    pugi::xml_document svg;
    REQUIRE(svg.load_file((folder + "/" + name).c_str()));
    std::string twice;
    for (const auto& n : svg.select_nodes("//@id"))
      if (!ids[name].insert(n.attribute().value()).second)
        twice += std::string(" ") + n.attribute().value();
    CAPTURE(name);
    CHECK(twice == "");
    for (const auto& n : svg.select_nodes("//a/@href"))
      links.emplace_back(name, n.attribute().value());
  }
  CHECK(links.size() > 10);
  for (const auto& [from, link] : links) {
    CAPTURE(from);
    CAPTURE(link);
    const std::size_t hash = std::min(link.find('#'), link.size());
    const std::string file = hash == 0 ? from : link.substr(0, hash);
    CHECK(fs::exists(folder + "/" + file));
    if (hash < link.size()) CHECK(ids[file].count(link.substr(hash + 1)) == 1);
  }
}

void check_pdf(const std::string& pdf, std::size_t sheets) {
  int status = -1;
  output_of("qpdf --check " + pdf + " 2>&1", &status);
  CHECK(status == 0);
  CHECK(output_of("pdfinfo " + pdf + " | grep ^Pages: | tr -dc 0-9") == std::to_string(sheets));
  CHECK(output_of("pdfimages -list " + pdf + " | tail -n +3").empty());
  const std::string fonts = output_of("pdffonts " + pdf + " | tail -n +3");
  CHECK(fonts.find("Type 3") == std::string::npos);
  CHECK(fonts.find(" no ") == std::string::npos);
}

/// Pages of one series as text; the sheet numbers are the page labels, in the order of the names.
std::string text_of_series(const std::string& set, char series) {
  std::string text;
  int page = 0;
  for (char letter : {'G', 'E', 'P', 'D', 'T'})
    for (const std::string& name : files_in(set + "/sheets")) {
      if (name[0] != letter) continue;
      ++page;
      if (letter == series)
        text += output_of("pdftotext -raw -f " + std::to_string(page) + " -l " +
                          std::to_string(page) + " " + set + "/set.pdf -");
    }
  return text;
}

}  // namespace

TEST_CASE("draw: every example gives a whole, sound set without a finding") {
  for (const std::string& project : example_projects()) {
    CAPTURE(project);
    const std::string set = drawn(project).folder;
    const Outcome o = drawn(project).outcome;
    CHECK(o.status == 0);
    CHECK(o.err == "");
    CHECK(o.out.find(" sheets -> " + set + "\n") != std::string::npos);
    REQUIRE(files_in(set) == std::vector<std::string>{"index.html", "set.pdf", "sheets", "tables"});
    check_pdf(set + "/set.pdf", files_in(set + "/sheets").size());
    check_links(set + "/sheets");
    int status = -1;
    const std::string said = output_of("xmllint --noout " + set + "/sheets/*.svg 2>&1", &status);
    CHECK(said == "");
    CHECK(status == 0);
    pugi::xml_document index;
    REQUIRE(index.load_file((set + "/index.html").c_str(), pugi::parse_default));
    for (const auto& n : index.select_nodes("//a/@href | //img/@src"))
      CHECK(fs::exists(set + "/" + n.attribute().value()));
  }
}

TEST_CASE("draw: the same bytes again, and with another number of threads") {
  for (const std::string& project : example_projects()) {
    CAPTURE(project);
    const TrialFolder trial;
    const std::string set = trial.path + "/set";
    CHECK(run("draw " + project + " --jobs 1 --out " + set).status == 0);
    const std::string sums = sums_below(set);
    CHECK(sums == sums_below(drawn(project).folder));
    CHECK(sums.size() > 1000);
  }
}

TEST_CASE("draw: every mark is on the erection plans as often as its quantity says") {
  for (const std::string& project : example_projects()) {
    CAPTURE(project);
    const std::string set = drawn(project).folder;
    REQUIRE(drawn(project).outcome.status == 0);
    const std::string plans = text_of_series(set, 'E');
    const auto marks = rows_of(read_file(set + "/tables/marks.csv"));
    CHECK(marks.size() > 1);
    for (auto mark : marks) {
      CAPTURE(mark["mark"]);
      CHECK(times(mark["mark"], plans) == std::stoi(mark["quantity"]));
    }
    for (auto panel : rows_of(read_file(set + "/tables/panels.csv"))) {
      CAPTURE(panel["serial"]);
      CHECK(times(panel["serial"], plans) >= 1);
    }
  }
}

TEST_CASE("draw: only the sheets asked for, links to others left out") {
  const TrialFolder trial;
  const std::string set = trial.path + "/set",
                    project = DECKQUIRE_SOURCE "/projects/quickstart.xml";
  CHECK(run("draw " + project + " --sheets P02,e --out " + set).status == 0);
  CHECK(files_in(set + "/sheets") == std::vector<std::string>{"E01.svg", "E02.svg", "P02.svg"});
  const std::string plan = read_file(set + "/sheets/E01.svg");
  CHECK(plan.find("P02.svg") != std::string::npos);
  CHECK(plan.find("P01.svg") == std::string::npos);
  const Outcome wrong = run("draw " + project + " --sheets P99 --out " + set);
  CHECK(wrong.status == 2);
  CHECK(wrong.err.find("'P99' names no sheet of this set") != std::string::npos);
}

TEST_CASE("draw, list: tables name the sheets that there are, where small marks share some") {
  const TrialFolder trial;
  const std::string set = trial.path + "/set",
                    project = DECKQUIRE_SOURCE "/tests/sheets/fillers.xml";
  CHECK(run("draw " + project + " --out " + set).status == 0);
  const std::string marks = read_file(set + "/tables/marks.csv");
  std::set<std::string> named, there;
  const auto rows = rows_of(marks);
  for (const auto& row : rows) named.insert(row.at("sheet") + ".svg");
  for (const std::string& file : files_in(set + "/sheets"))
    if (file.front() == 'P') there.insert(file);
  CHECK(named == there);
  CHECK(there.size() < rows.size());
  CHECK(run("list " + project + " marks --csv").out == marks);
}

TEST_CASE("draw: other styles, by name and as a file") {
  const TrialFolder trial;
  const std::string set = trial.path + "/set",
                    project = DECKQUIRE_SOURCE "/projects/quickstart.xml";
  CHECK(run("draw " + project + " --style a3 --out " + set).status == 0);
  CHECK(read_file(set + "/sheets/G01.svg").find("width=\"420mm\" height=\"297mm\"") !=
        std::string::npos);
  CHECK(
      run("draw " + project + " --style " DECKQUIRE_SOURCE "/styles/a1.xml --out " + set).status ==
      0);
  const Outcome wrong = run("draw " + project + " --style a7 --out " + set);
  CHECK(wrong.status == 2);
  CHECK(wrong.err.find("there is no style 'a7'; there are a1, a3") != std::string::npos);
}

TEST_CASE("draw: a full disk is told, the set of last time stays whole") {
  const TrialFolder trial;
  const std::string set = trial.path + "/set",
                    project = DECKQUIRE_SOURCE "/projects/quickstart.xml";
  REQUIRE(run("draw " + project + " --out " + set).status == 0);
  const std::string before = sums_below(set);
  const Outcome o = run("draw " + project + " --style a3 --out " + set, "ulimit -f 16;");
  CHECK(o.status == 3);
  CHECK(o.err.find("File too large") != std::string::npos);
  CHECK(before == sums_below(set));
  CHECK(files_in(trial.path) == std::vector<std::string>{"set"});
}

TEST_CASE("draw: two values of a style edited, and the set shows both and nothing else") {
  const TrialFolder trial;
  const std::string set = trial.path + "/set", mine = trial.path + "/mine.xml",
                    project = DECKQUIRE_SOURCE "/projects/quickstart.xml";
  const auto pen_rule = [&](const std::string& pen) {
    const std::string svg = read_file(set + "/sheets/P01.svg");
    const std::size_t at = svg.find("path." + pen + "{");
    REQUIRE(at != std::string::npos);
    return svg.substr(at, svg.find('}', at) - at);
  };
  write_file(mine, "<style xmlns=\"urn:deckquire:style:1\" name=\"a1\" based-on=\"a1\"></style>\n");
  REQUIRE(run("draw " + project + " --style " + mine + " --out " + set).status == 0);
  const std::string plain = read_file(set + "/sheets/P01.svg"), hidden = pen_rule("hidden");
  CHECK(pen_rule("outline").find("stroke-width:50;") != std::string::npos);
  write_file(mine,
             "<style xmlns=\"urn:deckquire:style:1\" name=\"a1\" based-on=\"a1\">\n"
             "  <pens><pen of=\"outline\" width=\"0.35\"/></pens>\n"
             "  <inks><ink of=\"accent\" colour=\"#702080\"/></inks>\n</style>\n");
  REQUIRE(run("draw " + project + " --style " + mine + " --out " + set).status == 0);
  CHECK(pen_rule("outline").find("stroke-width:35;") != std::string::npos);
  CHECK(pen_rule("feature").find("stroke:#702080;") != std::string::npos);
  CHECK(pen_rule("hidden") == hidden);
  const auto body = [](const std::string& svg) { return svg.substr(svg.find("</style>")); };
  CHECK(body(read_file(set + "/sheets/P01.svg")) == body(plain));
}

TEST_CASE("draw: what is wrong with a style is told with file, line, column and remedy") {
  const TrialFolder trial;
  const std::string set = trial.path + "/set", mine = trial.path + "/mine.xml",
                    project = DECKQUIRE_SOURCE "/projects/quickstart.xml";
  write_file(mine,
             "<style xmlns=\"urn:deckquire:style:1\" name=\"mine\">\n"
             "  <pens><pen of=\"outline\" width=\"35\"/></pens>\n</style>\n");
  const Outcome o = run("draw " + project + " --style " + mine + " --out " + set);
  CHECK(o.status == 1);
  CHECK(o.err.find(mine + ":2:34: error [out-of-range]: width=\"35\" is out of range; give 0.05 to "
                          "5") != std::string::npos);
  CHECK_FALSE(fs::exists(set));
}

TEST_CASE("draw: a project overrides a property of its style, not of one on the command line") {
  const TrialFolder trial;
  const std::string set = trial.path + "/set", project = trial.path + "/job.xml";
  std::string text = read_file(DECKQUIRE_SOURCE "/projects/quickstart.xml");
  const std::size_t end = text.rfind("</project>");
  REQUIRE(text.find("<set") == std::string::npos);
  const auto with = [&](const std::string& value) {
    write_file(project, text.substr(0, end) +
                            "<set>\n<override element=\"pen\" of=\"outline\" property=\"width\" "
                            "value=\"" +
                            value + "\"/></set>\n</project>\n");
  };
  const auto says = [&](const std::string& what) {
    return read_file(set + "/sheets/P01.svg").find(what) != std::string::npos;
  };
  with("0.35");
  REQUIRE(run("draw " + project + " --out " + set).status == 0);
  CHECK(says("path.outline{fill:none;stroke:#000000;stroke-width:35;"));
  REQUIRE(run("draw " + project + " --style a1 --out " + set).status == 0);
  CHECK(says("path.outline{fill:none;stroke:#000000;stroke-width:50;"));
  with("thick");
  const Outcome o = run("draw " + project + " --out " + set);
  CHECK(o.status == 1);
  CHECK(o.err.find("error [not-a-number]: width=\"thick\" is not a number") != std::string::npos);
}
