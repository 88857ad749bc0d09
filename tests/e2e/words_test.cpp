// The written PDF read back by a general reader: where its words stand, independent of what the
// program knows of its own sheets.
#include <doctest/doctest.h>

#include <algorithm>
#include <cmath>
#include <pugixml.hpp>
#include <set>

#include "base/files.h"
#include "e2e/program.h"

using namespace deckquire;

namespace {

struct Word {
  double x0, y0, x1, y1;  // points, y down
  std::string text;
};

struct Page {
  double width, height;
  std::vector<Word> words;
};

std::vector<Page> pages_of(const std::string& pdf) {
  const TrialFolder trial;
  output_of("pdftotext -bbox " + pdf + " " + trial.path + "/words.html");
  std::string html = read_file(trial.path + "/words.html");
  if (const auto at = html.find("<!DOCTYPE"); at != std::string::npos)
    html.erase(at, html.find('>', at) - at + 1);
  pugi::xml_document doc;
  REQUIRE(doc.load_string(html.c_str()));
  std::vector<Page> out;
  for (const auto& page : doc.select_nodes("//page")) {
    out.push_back({page.node().attribute("width").as_double(),
                   page.node().attribute("height").as_double(),
                   {}});
    for (pugi::xml_node w : page.node().children("word"))
      out.back().words.push_back({w.attribute("xMin").as_double(), w.attribute("yMin").as_double(),
                                  w.attribute("xMax").as_double(), w.attribute("yMax").as_double(),
                                  w.text().as_string()});
  }
  return out;
}

constexpr double point = 25.4 / 72;  // mm

/// The reader's box of a word is as high as the font's ascent and descent: 2.2525 capitals of
/// osifont, whose capitals stand in the middle of it (measured on the font file).
constexpr double box_of_capital = 2.2525;

bool is_plain(const std::string& text) {
  return std::all_of(text.begin(), text.end(), [](char c) { return c > ' ' && c < 127; });
}

/// Where the letters of a word are, as far as its box tells: the box without the air above and
/// below them. A box may fit more than one height and both ways of reading: then what is in all of
/// them.
struct Core {
  double height = 0;  // least that the box fits; 0 for none
  Word word;
};

Core core(const Word& w, const std::set<double>& heights) {
  Core out{0, {w.x0 + 0.3, w.y0 + 0.3, w.x1 - 0.3, w.y1 - 0.3, w.text}};
  for (double h : heights) {
    const double air = (box_of_capital - 0.9) / 2 * h / point;
    const auto fits = [&](double side) {
      return std::abs(side * point / box_of_capital - h) < 0.01;
    };
    const bool upright = fits(w.y1 - w.y0), turned = fits(w.x1 - w.x0);
    if ((upright || turned) && out.height == 0) out.height = h;
    if (upright)
      out.word.y0 = std::max(out.word.y0, w.y0 + air),
      out.word.y1 = std::min(out.word.y1, w.y1 - air);
    if (turned)
      out.word.x0 = std::max(out.word.x0, w.x0 + air),
      out.word.x1 = std::min(out.word.x1, w.x1 - air);
  }
  return out;
}

void check_page(const Page& page, double least, double left, double margin) {
  std::set<double> heights;
  for (double h : {2.5, 3.5, 5.0, 7.0, 10.0})
    if (h >= least) heights.insert(h);
  std::vector<Word> cores;
  for (const Word& w : page.words) {
    if (!is_plain(w.text)) continue;  // letters of the second font have other boxes
    const Core found = core(w, heights);
    CHECK_MESSAGE(found.height >= least, w.text << " at " << w.x0 << ", " << w.y0);
    if (found.height == 0) continue;
    const Word& c = found.word;
    const bool zone = w.text.size() <= 2;  // figures and letters of the fields along the frame
    const bool inside = c.x0 * point > left && c.x1 * point < page.width * point - margin &&
                        c.y0 * point > margin && c.y1 * point < page.height * point - margin;
    CHECK_MESSAGE((inside || zone), w.text << " outside the frame at " << w.x0 << ", " << w.y0);
    cores.push_back(c);
  }
  std::sort(cores.begin(), cores.end(), [](const Word& a, const Word& b) { return a.x0 < b.x0; });
  for (std::size_t i = 0; i < cores.size(); ++i)
    for (std::size_t k = i + 1; k < cores.size() && cores[k].x0 < cores[i].x1; ++k)
      CHECK_MESSAGE((cores[k].y0 >= cores[i].y1 || cores[i].y0 >= cores[k].y1),
                    cores[i].text << " over " << cores[k].text << " at " << cores[i].x0 << ", "
                                  << cores[i].y0);
}

void check_words(const std::string& pdf, double least, double left, double margin) {
  std::size_t words = 0;
  const std::vector<Page> pages = pages_of(pdf);
  CHECK(pages.size() > 3);
  for (std::size_t i = 0; i < pages.size(); ++i) {
    CAPTURE(i + 1);
    check_page(pages[i], least, left, margin);
    words += pages[i].words.size();
  }
  CHECK(words > 1000);
}

}  // namespace

TEST_CASE(
    "words of the PDF: none over another, none outside the frame, none under the least height") {
  for (const std::string& project : example_projects()) {
    CAPTURE(project);
    const std::string name = project.substr(project.rfind('/') + 1);
    if (name == "causeway.xml") continue;  // a hundred sheets of the same
    const bool imperial = name == "orchard.xml";
    check_words(drawn(project).folder + "/set.pdf", 3.5, imperial ? 38.1 : 20,
                imperial ? 19.05 : 10);
  }
  const TrialFolder trial;
  const std::string heron =
      example_projects().front().substr(0, example_projects().front().rfind('/')) + "/heron.xml";
  CHECK(run("draw " + heron + " --style a3 --out " + trial.path + "/a3").status == 0);
  check_words(trial.path + "/a3/set.pdf", 2.5, 20, 10);
}
