#include <doctest/doctest.h>
#include <fmt/format.h>

#include <cstdio>
#include <filesystem>

#include "base/files.h"
#include "paper/style.h"
#include "paper/style_table.h"
#include "project/support.h"

using namespace deckquire;
using namespace deckquire::paper;

namespace {

const std::string styles = DECKQUIRE_SOURCE "/styles";

/// A folder of its own for style files written by a test.
struct Folder {
  std::filesystem::path path = std::filesystem::path(DECKQUIRE_BINARY) / "style-test";
  Folder() {
    std::filesystem::remove_all(path);
    std::filesystem::create_directories(path);
  }
  void put(const std::string& name, const std::string& body) const {
    write_file((path / (name + ".xml")).string(), body);
  }
  std::vector<std::string> messages(const std::string& name) const {
    Findings findings;
    read_style(name, path.string(), findings);
    std::vector<std::string> lines;
    for (Finding f : findings.sorted()) {
      f.place.file = std::filesystem::path(f.place.file).filename().string();
      lines.push_back(to_line(f));
    }
    return lines;
  }
};

std::string style(const std::string& body, const std::string& base = "") {
  return "<style xmlns=\"urn:deckquire:style:1\" name=\"t\"" +
         (base.empty() ? "" : " based-on=\"" + base + "\"") + ">\n" + body + "\n</style>\n";
}

using Lines = std::vector<std::string>;

}  // namespace

// Sheet sizes: ISO 216 (A1, A3) and 36 by 24 inches.
TEST_CASE("styles: every style of the program reads without a finding and keeps its least height") {
  struct Size {
    const char* name;
    double width, height;
  };
  for (const Size& s : {Size{"a1", 841, 594}, {"a3", 420, 297}, {"arch-d", 914.4, 609.6}}) {
    CAPTURE(std::string(s.name));
    Findings findings;
    const Style st = read_style(s.name, styles, findings);
    for (const Finding& f : findings.sorted()) FAIL_CHECK(to_line(f));
    CHECK(st.width == s.width);
    CHECK(st.height == s.height);
    CHECK(st.name == s.name);
    for (double h : st.letters) CHECK(h >= st.least_height);
    CHECK(st.drawing_space().high.x == doctest::Approx(st.text_space().low.x));
  }
}

TEST_CASE("styles: what a style does not say comes from what it is based on") {
  const Folder f;
  f.put("base", style("<pens><pen of=\"outline\" width=\"0.7\"/></pens><paper margin=\"12\"/>"));
  f.put("child", style("<paper margin-left=\"25\"/>", "base"));
  Findings findings;
  const Style s = read_style("child", f.path.string(), findings);
  CHECK(findings.empty());
  CHECK(s.pen(PenUse::outline).width == 0.7);
  CHECK(s.margin == 12);
  CHECK(s.margin_left == 25);
  CHECK(s.pen(PenUse::cut).width == default_style().pen(PenUse::cut).width);
}

TEST_CASE("styles: unknown names are errors with the nearest known one") {
  const Folder f;
  f.put("a", style("<papre/>"));
  CHECK(f.messages("a") ==
        Lines{"a.xml:2:1: error [unknown-element]: a style has no 'papre' here; did you mean "
              "'paper'?"});
  f.put("b", style("<paper widht=\"300\"/>"));
  CHECK(f.messages("b") ==
        Lines{"b.xml:2:8: error [unknown-property]: a style has no 'widht' here; did you mean "
              "'width'?"});
  f.put("c", style("<pens><pen of=\"outlin\" width=\"1\"/></pens>"));
  CHECK(f.messages("c") ==
        Lines{"c.xml:2:16: error [unknown-name]: a style has no 'outlin' here; did you mean "
              "'outline'?"});
}

TEST_CASE("styles: values out of range, dashes and inks that would not print are refused") {
  const Folder f;
  f.put("a", style("<paper width=\"nan\" height=\"1e9\"/>"));
  CHECK(
      f.messages("a") ==
      Lines{"a.xml:2:15: error [not-a-number]: width=\"nan\" is not a number; write millimetres "
            "without a unit, for example 2.5",
            "a.xml:2:28: error [out-of-range]: height=\"1e9\" is out of range; give 100 to 5000"});
  f.put("b", style("<pens><pen of=\"hidden\" dash=\"0 0\"/></pens>"));
  CHECK(f.messages("b") ==
        Lines{"b.xml:2:30: error [bad-dash]: dash=\"0 0\" has '0'; give lengths above 0 mm, on and "
              "off in turn, or nothing for a solid line"});
  // Contrast of #aaaaaa to white by the WCAG 2.1 formula: 2.3.
  f.put("c", style("<inks><ink of=\"grey\" colour=\"#aaaaaa\"/></inks>"));
  CHECK(f.messages("c") ==
        Lines{"c.xml:2:30: error [pale-ink]: colour=\"#aaaaaa\" stands out from the paper by 2.3:1 "
              "only; take a darker one: 4.5:1 is the least that survives a black-and-white print"});
}

TEST_CASE("styles: flags, whole numbers, empty names and stray text are not guessed at") {
  const Folder f;
  f.put("a", style("<scales><scale ratio=\"2.5\"/></scales>"));
  CHECK(f.messages("a") == Lines{"a.xml:2:23: error [not-whole]: ratio=\"2.5\" is not a whole "
                                 "number; write it without decimals"});
  f.put("b", style("<hatches><hatch of=\"core\" dots=\"maybe\"/></hatches>"));
  CHECK(f.messages("b") ==
        Lines{"b.xml:2:33: error [not-a-flag]: dots=\"maybe\"; write yes or no"});
  f.put("c", style("<fonts><font file=\"\"/></fonts>"));
  CHECK(f.messages("c") == Lines{"c.xml:2:8: error [missing-property]: <font> names no file; add "
                                 "file=\"osifont.ttf\""});
  f.put("d", style("<pens>thin</pens>"));
  CHECK(f.messages("d") == Lines{"d.xml:2:7: error [stray-text]: there is something in a style "
                                 "where nothing is read; take it out"});
}

TEST_CASE("styles: a row of the title block wider than the block is refused") {
  const Folder f;
  f.put("a", style("<title-block><field caption=\"Job\" value=\"1\" width=\"0.7\" row=\"2\"/>"
                   "<field caption=\"Of\" value=\"2\" width=\"0.4\" row=\"2\"/></title-block>"));
  CHECK(f.messages("a") ==
        Lines{"a.xml:1:1: error [title-row]: the fields in row 2 of the title block are 1.1 of its "
              "width in all; make the widths in each row sum to 1"});
}

TEST_CASE("styles: a loop of bases ends in an error") {
  const Folder f;
  f.put("a", style("", "b"));
  f.put("b", style("", "a"));
  const Lines lines = f.messages("a");
  REQUIRE(lines.size() == 1);
  CHECK(lines[0].find("[style-loop]") != std::string::npos);
}

TEST_CASE("styles: letters below the least height and a sheet without room are refused") {
  const Folder f;
  f.put("a", style("<letters least-height=\"3.5\"><letter of=\"note\" height=\"2.5\"/></letters>"));
  const Lines lines = f.messages("a");
  REQUIRE_FALSE(lines.empty());
  CHECK(lines[0].find("[letters-too-small]: letters of 'note' are 2.5 mm") != std::string::npos);
  f.put("b", style("<paper width=\"200\"/>"));
  REQUIRE_FALSE(f.messages("b").empty());
  CHECK(f.messages("b")[0].find("[no-drawing-space]") != std::string::npos);
}

TEST_CASE("styles: a style that is not there is a file error") {
  Findings findings;
  CHECK_THROWS_AS(read_style("none-such", styles, findings), FileError);
}

TEST_CASE("reference: the page of styles/ ends with what the tables of the reader say") {
  const std::string marker =
      "<!-- Generated from here on (tests with DECKQUIRE_UPDATE=1): do not edit. -->\n";
  const std::string page = read_file(styles + "/README.md");
  const std::size_t at = page.find(marker);
  REQUIRE(at != std::string::npos);
  const std::string actual = page.substr(0, at + marker.size()) + style_reference();
  const bool same = testing::approved("styles/README.md", actual) == actual;
  CHECK_MESSAGE(same, "styles/README.md differs: run tests with DECKQUIRE_UPDATE=1");
}

TEST_CASE("styles, reference: a property written with its own default changes nothing") {
  const Folder f;
  const Style plain = default_style();
  std::string body;
  for (const NumberRow& r : number_rows())
    body += fmt::format("<{} {}=\"{}\"/>", r.element, r.name, plain.*r.value);
  for (const WordRow& r : word_rows())
    body += fmt::format("<{} {}=\"{}\"/>", r.element, r.name, r.words[r.get(plain)]);
  f.put("a", style(body));
  Findings findings;
  const Style read = read_style("a", f.path.string(), findings);
  CHECK(findings.empty());
  for (const NumberRow& r : number_rows()) CHECK(read.*r.value == plain.*r.value);
  for (const WordRow& r : word_rows()) CHECK(r.get(read) == r.get(plain));
}

TEST_CASE("styles, words: every word of the table can be written and is taken") {
  const Folder f;
  for (const WordRow& r : word_rows())
    for (std::size_t i = 0; i < r.words.size(); ++i) {
      f.put("a", style(fmt::format("<{} {}=\"{}\"/>", r.element, r.name, r.words[i])));
      Findings findings;
      CHECK(r.get(read_style("a", f.path.string(), findings)) == i);
      CHECK(findings.empty());
    }
}

TEST_CASE("styles, layers: shown or not, and by default all shown") {
  const Folder f;
  f.put("a", style("<layers><layer of=\"notes\" shown=\"no\"/></layers>"));
  f.put("b", style("<layers><layer of=\"notes\" shown=\"yes\"/></layers>", "a"));
  f.put("c", style("<layers><layer of=\"note\" shown=\"off\"/></layers>"));
  Findings findings;
  const auto notes = static_cast<std::size_t>(Layer::notes);
  CHECK_FALSE(default_style().hidden[notes]);
  CHECK(read_style("a", f.path.string(), findings).hidden[notes]);
  CHECK_FALSE(read_style("b", f.path.string(), findings).hidden[notes]);
  CHECK(findings.empty());
  CHECK(f.messages("c") == Lines{"c.xml:2:20: error [unknown-name]: a style has no 'note' here; "
                                 "did you mean 'notes'?"});
}

TEST_CASE("styles, changes: one property set over a style; errors at the place of the change") {
  Style s = default_style();
  Findings findings;
  const Place here{"bridge.xml", 12, 5};
  change_style(s,
               {{"pen", "outline", "width", "0.35", here}, {"dimensions", "", "first", "12", here}},
               findings);
  CHECK(findings.empty());
  CHECK(s.pen(PenUse::outline).width == 0.35);
  CHECK(s.pen(PenUse::outline).ink == Ink::black);
  CHECK(s.first_dimension == 12);
  CHECK(s.hatches.size() == default_style().hatches.size());
  const auto said = [&](const StyleChange& c) {
    Findings own;
    Style t = default_style();
    change_style(t, {c}, own);
    return own.empty() ? std::string("nothing") : to_line(own.sorted()[0]);
  };
  CHECK(said({"pen", "outlin", "width", "0.35", here}) ==
        "bridge.xml:12:5: error [unknown-name]: a style has no 'outlin' here; did you mean "
        "'outline'?");
  CHECK(said({"pen", "outline", "width", "<&\"", here}) ==
        "bridge.xml:12:5: error [not-a-number]: width=\"<&\"\" is not a number; write millimetres "
        "without a unit, for example 2.5");
  CHECK(said({"font", "", "file", "a.ttf", here}).find("has no 'font' that can be set by itself") !=
        std::string::npos);
  CHECK(said({"letter", "note", "height", "1.9", here})
            .find("bridge.xml:12:5: error "
                  "[letters-too-small]") == 0);
}
