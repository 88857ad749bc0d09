#include <doctest/doctest.h>
#include <ft2build.h>
#include FT_FREETYPE_H

#include <cmath>
#include <pugixml.hpp>

#include "base/files.h"
#include "writers/font_subset.h"
#include "writers/markup.h"
#include "writers/svg.h"
#include "writers/trial_set.h"

using namespace deckquire;
using namespace deckquire::writers;

namespace {

std::string trial_svg(std::size_t i = 0) {
  return write_svg(trial_sheets()[i], trial_info(), trial_lettering());
}

struct OpenSvg {
  pugi::xml_document xml;
  explicit OpenSvg(const std::string& bytes) {
    REQUIRE(
        xml.load_buffer(bytes.data(), bytes.size(), pugi::parse_default | pugi::parse_ws_pcdata));
  }
  std::string text(const char* xpath) const { return xml.select_node(xpath).node().text().get(); }
  std::string attribute(const char* xpath) const {
    return xml.select_node(xpath).attribute().value();
  }
  std::size_t count(const char* xpath) const { return xml.select_nodes(xpath).size(); }
};

}  // namespace

TEST_CASE("svg: paper size in millimetres, user units of a hundredth, white paper first") {
  const OpenSvg svg(trial_svg());
  CHECK(svg.attribute("/svg/@width") == "420mm");
  CHECK(svg.attribute("/svg/@height") == "297mm");
  CHECK(svg.attribute("/svg/@viewBox") == "0 0 42000 29700");
  CHECK(svg.attribute("/svg/*[not(self::title or self::style)][1]/@class") == "ink-white");
  CHECK(svg.text("/svg/title") == "E01 Plan & <profile>");
}

TEST_CASE("svg: every item of the sheet is there once, strokes of one pen in a row share a path") {
  const OpenSvg svg(trial_svg());
  CHECK(svg.count("//g[not(starts-with(@class, 'layer-'))]") == 2);
  CHECK(svg.count("//text") == 4);
  CHECK(svg.count("//path[@class='outline']") == 2);
  CHECK(svg.count("//path[@class='hidden']") == 1);
  CHECK(svg.count("//path[@class='outline-2']") == 1);
  CHECK(svg.count("//path[@class='ink-pale']") == 1);
  CHECK(svg.count("//path[@class='ink-white']") == 1);  // under the masked text
  CHECK(svg.attribute("//g[@id='panel-1']/g[@class='layer-outlines']/path[1]/@d") ==
        "M10000 19700L15000 19700L15000 11700L10000 11700Z");
  CHECK(svg.attribute("//path[@class='outline-2']/@d") ==
        "M20000 9700L22000 9700L22000 8700L20000 8700ZM23000 9700L25000 9700L25000 8700L23000 "
        "8700Z");
}

TEST_CASE("svg: groups carry id, class and tooltip; links lead to files of the set only") {
  const OpenSvg plan(trial_svg(0)), panel(trial_svg(1));
  CHECK(plan.attribute("//g[@id='panel-1']/@class") == "panel");
  CHECK(plan.text("//g[@id='panel-1']/*[1][self::title]") == "DP01, \"first\" <panel>");
  CHECK(plan.attribute("//a[g/@id='panel-1']/@href") == "P01.svg");
  CHECK(plan.count("//a") == 1);
  CHECK(panel.attribute("//a/@href") == "E01.svg#panel-1");
}

TEST_CASE("svg: text is text, turned text turns, runs of two fonts stand at their own x") {
  const OpenSvg svg(trial_svg());
  std::string words;
  for (const auto& n : svg.xml.select_nodes("//text[tspan]//text()")) words += n.node().value();
  CHECK(words == special_words);
  CHECK(svg.attribute("//text[@transform]/@transform") == "rotate(-90 5000 23700)");
  double x = 20;
  std::size_t i = 0;
  const auto spans = svg.xml.select_nodes("//tspan");
  for (const paper::Run& run : trial_lettering().runs(special_words)) {
    CHECK(spans[i++].node().attribute("x").as_int() == std::lround(x * 100));
    x += trial_lettering().width(run.text, 5);
  }
  CHECK(i == spans.size());
}

// Oracle: xmllint.
TEST_CASE("svg: well-formed for another reader, the same bytes twice and from a shared writer") {
  TrialFolder folder;
  SvgWriter writer(trial_lettering());
  for (std::size_t i = 0; i < 2; ++i) {
    const std::string svg = trial_svg(i);
    CHECK(svg == trial_svg(i));
    CHECK(svg == writer.write(trial_sheets()[i], trial_info()));
    create_file(folder.path + "/" + std::to_string(i) + ".svg", svg);
  }
  int status = -1;
  const std::string said = output_of("xmllint --noout " + folder.path + "/*.svg 2>&1", &status);
  CHECK(said.empty());
  CHECK(status == 0);
}

// Oracle: FreeType reads WOFF by itself.
TEST_CASE("font subset: WOFF holds the asked characters with the advances of the whole font") {
  const paper::FontFile& file = trial_lettering().fonts()[0];
  FontCutter cutter(file);
  const std::string woff = cutter.woff({'H', '8', 0xd8});
  CHECK(woff == cutter.woff({'H', '8', 0xd8}));
  CHECK(woff.size() < 8000);
  FT_Library library = nullptr;
  REQUIRE(FT_Init_FreeType(&library) == 0);
  FT_Face face = nullptr;
  REQUIRE(FT_New_Memory_Face(library, reinterpret_cast<const FT_Byte*>(woff.data()),
                             static_cast<FT_Long>(woff.size()), 0, &face) == 0);
  for (const char* c : {"H", "8", "Ø"}) {
    const FT_ULong code = c[1] == 0 ? static_cast<FT_ULong>(c[0]) : 0xd8;
    const FT_UInt glyph = FT_Get_Char_Index(face, code);
    REQUIRE(glyph != 0);
    REQUIRE(FT_Load_Glyph(face, glyph, FT_LOAD_NO_SCALE) == 0);
    CHECK(static_cast<double>(face->glyph->metrics.horiAdvance) / face->units_per_EM ==
          doctest::Approx(trial_lettering().runs(c)[0].advances[0]).epsilon(1e-9));
  }
  CHECK(FT_Get_Char_Index(face, 'Q') == 0);
  FT_Done_Face(face);
  FT_Done_FreeType(library);
}

// RFC 4648, section 10.
TEST_CASE("base64: the test vectors of the standard") {
  const std::pair<const char*, const char*> vectors[] = {{"", ""},
                                                         {"f", "Zg=="},
                                                         {"fo", "Zm8="},
                                                         {"foo", "Zm9v"},
                                                         {"foob", "Zm9vYg=="},
                                                         {"fooba", "Zm9vYmE="},
                                                         {"foobar", "Zm9vYmFy"}};
  for (const auto& [plain, coded] : vectors) CHECK(base64(plain) == coded);
}

TEST_CASE("markup: hundredths are rounded away from zero, what XML needs is escaped") {
  std::string out;
  append_hundredths(out, 12.345);
  out += ' ';
  append_hundredths(out, -0.005);
  out += ' ';
  append_hundredths(out, 0.004);
  CHECK(out == "1235 -1 0");
  CHECK(escaped("a<b>&\"c\"\n") == "a&lt;b&gt;&amp;&quot;c&quot;&#10;");
}
