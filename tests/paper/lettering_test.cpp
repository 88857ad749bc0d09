#include "paper/lettering.h"

#include <cstdlib>

#include <doctest/doctest.h>

#include "paper/font_files.h"

using namespace deckquire::paper;

namespace {

const Lettering& house() {
  static const Lettering lettering({"osifont.ttf", "DejaVuSans.ttf"});
  return lettering;
}

}  // namespace

// Measured with FreeType and HarfBuzz, no kerning (reference/rendering.md 1.1, 1.2).
TEST_CASE("lettering: capital heights of the two files are 0.737 and 0.729 em") {
  CHECK(house().fonts()[0].cap_height == doctest::Approx(0.737).epsilon(0.001));
  CHECK(house().fonts()[1].cap_height == doctest::Approx(0.729).epsilon(0.001));
  CHECK(house().fonts()[0].family == "osifont");
  CHECK(house().fonts()[1].units_per_em == 2048);
}

TEST_CASE("lettering: a profile name measures 15.0 cap heights in osifont, 16.1 in DejaVu Sans") {
  const std::string profile = "BEAM HEB 240 L=3450";
  CHECK(house().width(profile, 1) == doctest::Approx(15.0).epsilon(0.005));
  CHECK(house().width(profile, 3.5) == doctest::Approx(3.5 * house().width(profile, 1)));
  CHECK(Lettering({"DejaVuSans.ttf"}).width(profile, 1) == doctest::Approx(16.1).epsilon(0.005));
}

TEST_CASE("lettering: width is the sum of the widths of the runs") {
  const std::string text = "45° → 6 ≤ x, Ёлка";
  double sum = 0;
  for (const Run& run : house().runs(text))
    for (double a : run.advances)
      sum += 2.5 * a / house().fonts()[static_cast<std::size_t>(run.font)].cap_height;
  CHECK(house().width(text, 2.5) == doctest::Approx(sum));
}

TEST_CASE("lettering: characters that osifont lacks come from the second file") {
  const auto runs = house().runs("a→b");
  REQUIRE(runs.size() == 3);
  CHECK(runs[0].font == 0);
  CHECK(runs[1].font == 1);
  CHECK(runs[1].text == "→");
  CHECK(runs[2].font == 0);
}

// osifont 1.0 draws these four as solid blocks (reference/rendering.md 1.2).
TEST_CASE("lettering: letters that osifont draws as solid blocks come from the second file") {
  for (const char* letter : {"Ё", "ё", "Э", "э"}) CHECK(house().runs(letter).at(0).font == 1);
  for (const char* letter : {"Ж", "l", "I", "-", "|", "_", "E", "É", "Ø", "±", "½", "⌀"})
    CHECK(house().runs(letter).at(0).font == 0);
}

TEST_CASE("lettering: a character that no file has is drawn and measured as '?'") {
  CHECK(house().missing("x\U0001F600y漢") == "\U0001F600漢");
  CHECK(house().width("漢", 5) == house().width("?", 5));
  CHECK(house().runs("漢").at(0).text == "?");
  CHECK(house().missing("Ø12 × 3/8″") == "");
}

TEST_CASE("lettering: broken UTF-8 is measured byte by byte as '?' and never runs over the end") {
  for (const std::string bad :
       {"\xff", "\xc3", "\xe2\x82", "\xf0\x9f\x98", "\xc0\xaf", "\xed\xa0\x80"})
    CHECK(house().runs(bad).at(0).text.front() == '?');
  CHECK(house().width("\xe2\x82", 1) == doctest::Approx(2 * house().width("?", 1)));
}

TEST_CASE("lettering: no glyph index is ever 0") {
  for (const Run& run : house().runs("漢 → Ёx\xff\U0001F600"))
    for (auto g : run.glyphs) CHECK(g != 0);
}

TEST_CASE("lettering: a missing file is an error that names file, folders and package") {
  CHECK_THROWS_WITH_AS(
      find_font_file("osifont.ttf", {"/nowhere/a", "/nowhere/b"}),
      "lettering: font file 'osifont.ttf' is not in /nowhere/a, /nowhere/b; install the Debian "
      "package fonts-osifont, or name its folder in DECKQUIRE_FONTS",
      FontError);
  CHECK_THROWS_WITH_AS(
      find_font_file("DejaVuSans.ttf", {"/nowhere"}),
      "lettering: font file 'DejaVuSans.ttf' is not in /nowhere; install the Debian package "
      "fonts-dejavu-core, or name its folder in DECKQUIRE_FONTS",
      FontError);
  CHECK_THROWS_AS(Lettering({"no-such-font.ttf"}), FontError);
  CHECK_THROWS_AS(Lettering({}), FontError);
}

TEST_CASE("lettering: a file that is no font is an error that names it") {
  CHECK_THROWS_WITH_AS(Lettering({DECKQUIRE_SOURCE "/CMakeLists.txt"}),
                       DECKQUIRE_SOURCE "/CMakeLists.txt is not a font file that can be read",
                       FontError);
}

TEST_CASE("lettering: DECKQUIRE_FONTS is searched first") {
  setenv("DECKQUIRE_FONTS", "/first:/second", 1);
  const auto folders = font_folders();
  unsetenv("DECKQUIRE_FONTS");
  REQUIRE(folders.size() >= 4);
  CHECK(folders[0] == "/first");
  CHECK(folders[1] == "/second");
  CHECK(folders[2] == "/usr/share/fonts");
}
