#include <doctest/doctest.h>

#include <algorithm>
#include <filesystem>
#include <vector>

#include "project/fields.h"
#include "project/reader.h"
#include "project/support.h"
#include "project/validate.h"
#include "project/vocabulary_words.h"

using namespace deckquire;
using namespace deckquire::testing;

namespace {

const std::string marker =
    "<!-- Generated from here on (tests with DECKQUIRE_UPDATE=1): do not edit. -->\n\n";

std::vector<std::string> files_in(const std::string& folder, const std::string& extension) {
  std::vector<std::string> names;
  for (const auto& e : std::filesystem::directory_iterator(source_path(folder)))
    if (e.path().extension() == extension) names.push_back(e.path().filename().string());
  std::sort(names.begin(), names.end());
  return names;
}

int validate_by_xmllint(const std::string& relative, std::string& output) {
  return run("xmllint --noout --schema '" + source_path("projects/project.xsd") + "' '" +
                 source_path(relative) + "'",
             output);
}

/// Codes of findings that a schema can find as well.
bool is_for_schema(const std::string& expected) {
  for (const char* code :
       {"[unknown-element]", "[unknown-attribute]", "[missing-attribute]", "[duplicate-attribute]",
        "[duplicate-name]", "[unknown-word]", "[stray-text]", "[not-yet]", "[xml]", "[namespace]",
        "[wrong-unit]", "[bad-revision]", "[empty]", "[not-a-project]"})
    if (expected.find(code) != std::string::npos) return true;
  return false;
}

}  // namespace

TEST_CASE("schema: the file for editors is what the vocabulary says") {
  const std::string actual = project_schema();
  const bool same = approved("projects/project.xsd", actual) == actual;
  CHECK_MESSAGE(same, "projects/project.xsd differs: run tests with DECKQUIRE_UPDATE=1");
}

TEST_CASE("reference: the page of projects/ ends with what the vocabulary says") {
  const std::string page = read_file(source_path("projects/README.md"));
  const std::size_t at = page.find(marker);
  REQUIRE(at != std::string::npos);
  const std::string wanted = page.substr(0, at) + marker + project_reference();
  const bool same = approved("projects/README.md", wanted) == wanted;
  CHECK_MESSAGE(same, "projects/README.md differs: run tests with DECKQUIRE_UPDATE=1");
}

TEST_CASE("schema: xmllint, on every example project, accepts it") {
  const auto names = files_in("projects", ".xml");
  REQUIRE(names.size() >= 3);
  for (const std::string& name : names) {
    std::string output;
    const int status = validate_by_xmllint("projects/" + name, output);
    CHECK_MESSAGE(status == 0, output);
  }
}

TEST_CASE("schema: xmllint, on broken files whose fault a schema can express, refuses them") {
  int seen = 0;
  for (const std::string& name : files_in("tests/broken", ".xml")) {
    const std::string stem = name.substr(0, name.size() - 4);
    if (!is_for_schema(read_file(source_path("tests/broken/" + stem + ".expected")))) continue;
    std::string output;
    const int status = validate_by_xmllint("tests/broken/" + name, output);
    CHECK_MESSAGE(status != 0, name);
    ++seen;
  }
  CHECK(seen >= 20);
}

TEST_CASE(
    "vocabulary: every default and limit, read by the reader, is valid in both unit systems") {
  for (const Element& e : vocabulary())
    for (const Attribute& a : e.attributes) {
      CAPTURE(e.name);
      CAPTURE(a.name);
      CHECK(!a.meaning.empty());
      for (const char* unit : {"mm", "m", "in", "ft"}) {
        const OwnUnit own{unit};
        std::vector<std::string> keys{""};
        if (!a.preset.key.empty()) keys = find_attribute(e, a.preset.key)->words;
        for (const std::string& key : keys) {
          const auto text = preset_text(a.preset, own, key);
          if (text) CHECK_MESSAGE(!refusal(a, *text, own), *text);
          CHECK((text.has_value() || a.preset.metric.empty()));
        }
        if (a.limits.least.empty()) continue;
        CHECK(!refusal(a, a.limits.least, own));
        CHECK(!refusal(a, a.limits.greatest, own));
      }
    }
}

TEST_CASE("vocabulary: every element has one parent and every row a name of its own") {
  for (const Element& e : vocabulary()) {
    int parents = 0;
    for (const Element& p : vocabulary())
      for (const Child& c : p.children) parents += c.name == e.name ? 1 : 0;
    CHECK_MESSAGE(parents == (e.name == "project" ? 0 : 1), e.name);
    for (const Child& c : e.children) CHECK_MESSAGE(find_element(c.name) != nullptr, c.name);
    for (const Attribute& a : e.attributes) CHECK(find_attribute(e, a.name) == &a);
    for (const Choice& c : e.choices)
      for (const auto& way : c.ways)
        for (const auto& name : way) CHECK(find_attribute(e, name) != nullptr);
  }
}
