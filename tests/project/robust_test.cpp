// Whatever is thrown at the reader: an answer or a clear refusal, soon, never a crash.
#include <doctest/doctest.h>

#include <ctime>
#include <random>

#include "project/reader.h"
#include "project/support.h"

using namespace deckquire;
using namespace deckquire::testing;

namespace {

std::string head() {
  const std::string text = read_file(source_path("projects/quickstart.xml"));
  return text.substr(0, text.find("<span name"));
}

std::string tail() {
  const std::string text = read_file(source_path("projects/quickstart.xml"));
  return text.substr(text.find("<posts"));
}

/// The first code found, "project" when there is one. Fails when it takes far longer than the
/// second that a release build needs at most (sanitizers slow it down several times).
std::string answer(const std::string& text) {
  Findings findings;
  const std::clock_t begin = std::clock();
  const auto project = read_project(text, "p.xml", findings);
  CHECK(static_cast<double>(std::clock() - begin) / CLOCKS_PER_SEC < 4.0);
  if (project) return "project";
  REQUIRE(!findings.empty());
  for (const Finding& f : findings.sorted()) CHECK(to_line(f).find('\n') == std::string::npos);
  return findings.sorted().front().code;
}

std::string repeated(const std::string& part, int times) {
  std::string out;
  for (int i = 0; i < times; ++i) out += part;
  return out;
}

}  // namespace

TEST_CASE("reader: elements 200 000 deep, are refused") {
  CHECK(answer(repeated("<a>", 200000) + repeated("</a>", 200000)) == "too-deep");
}

TEST_CASE("reader: an attribute of 100 MB, is refused") {
  CHECK(answer("<project number=\"" + std::string(std::size_t{100} << 20, 'x') + "\"/>") ==
        "too-large");
}

TEST_CASE("reader: an attribute of 20 MB, is refused") {
  CHECK(answer("<project number=\"" + std::string(std::size_t{20} << 20, 'x') + "\"/>") ==
        "too-large");
}

TEST_CASE("reader: 10 000 panels written out, are read") {
  const std::string span = "<span name=\"1\" from=\"0 m\" to=\"20 m\">" +
                           repeated("<panel length=\"2488\"/>\n", 10000) + "</span>";
  CHECK(answer(head() + span + tail()) == "project");
}

TEST_CASE("reader: more edges than there may be, are refused once") {
  std::string text = read_file(source_path("projects/quickstart.xml"));
  const std::string edge = "<edge at=\"0+000.000\" left=\"1200\" right=\"1200\"/>";
  text.replace(text.find(edge), edge.size(), repeated(edge, 2500));
  CHECK(answer(text) == "too-many");
}

TEST_CASE("reader: a hundred thousand faults on one line, are cut short") {
  CHECK(answer(head() + repeated("<x/>", 100000) + tail()) == "unknown-element");
  Findings findings;
  read_project(head() + repeated("<x/>", 100000) + tail(), "p.xml", findings);
  CHECK(findings.sorted().size() == 201);
  CHECK(findings.sorted().back().code == "too-many-errors");
}

TEST_CASE("reader: bytes that are no text, are refused") {
  std::mt19937 random(7);
  for (int i = 0; i < 200; ++i) {
    std::string bytes(1 + random() % 3000, '\0');
    for (char& c : bytes) c = static_cast<char>(random() & 0xFF);
    const std::string code = answer(bytes);
    CHECK((code == "encoding" || code == "xml"));
  }
  CHECK(answer(std::string("\xFF\xFE<\0p\0", 6)) == "encoding");
}

TEST_CASE("reader: the examples, changed at random, give a finding or a project") {
  std::mt19937 random(20261002);  // the engine's numbers are fixed by the standard
  const std::string pieces[] = {"<",   ">",          "\"",   "&",    "/",      "=",
                                " ",   "-1",         "1e9",  "&#0;", "<!--",   "]]>",
                                "NaN", "9999999999", "\xC3", "'",    "<deck>", "%"};
  const std::string files[] = {read_file(source_path("projects/saltmarsh.xml")),
                               read_file(source_path("projects/quickstart.xml")),
                               read_file(source_path("projects/orchard.xml"))};
  int read = 0, refused = 0;
  for (int i = 0; i < 2000; ++i) {
    std::string text = files[random() % 3];
    for (unsigned n = 1 + random() % 4; n > 0; --n) {
      const std::size_t at = random() % text.size();
      const unsigned way = random() % 4;
      if (way == 0) text[at] = static_cast<char>(random() & 0xFF);
      if (way == 1) text.erase(at, 1 + random() % 40);
      if (way == 2) text.insert(at, pieces[random() % std::size(pieces)]);
      if (way == 3) text.insert(at, text.substr(random() % text.size(), random() % 60));
    }
    Findings findings;
    const auto project = read_project(text, "p.xml", findings);
    CHECK(project.has_value() != findings.has_errors());
    (project ? read : refused)++;
  }
  CHECK(read > 20);
  CHECK(refused > 1000);
}
