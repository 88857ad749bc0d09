// Layers in what is written: PDF as optional content, SVG as classes. Oracles: qpdf reads the
// groups, poppler honours them (ISO 32000-1:2008, 8.11; from memory).
#include <doctest/doctest.h>

#include <cmath>
#include <pugixml.hpp>
#include <qpdf/QPDF.hh>
#include <qpdf/QPDFPageDocumentHelper.hh>

#include "base/files.h"
#include "paper/trial_board.h"
#include "writers/passes.h"
#include "writers/trial_set.h"

using namespace deckquire;
using namespace deckquire::writers;
using paper::Layer;

namespace {

/// A panel with a hole and a mark, a chain over it, steel beneath, a note.
paper::Sheet trial_sheet() {
  paper::TrialBoard t;
  paper::Board& b = t.board;
  b.line(paper::PenUse::steel, {20, 55}, {200, 55});
  b.box(paper::PenUse::outline, {{40, 40}, {160, 70}});
  paper::Path hole;
  hole.circle({60, 60}, 3);
  b.stroke(paper::PenUse::feature, hole);
  b.text(paper::LetterUse::mark, {100, 45}, "DP07");
  {
    const paper::Group chain(b, "", "chain");
    b.line(paper::PenUse::dimension, {40, 80}, {160, 80});
    b.masked_text(paper::LetterUse::dimension, {100, 80}, "2440");
  }
  b.text(paper::LetterUse::note, {200, 100}, "Keep dry");
  return t.sheet;
}

DocumentInfo info_without(std::initializer_list<Layer> hidden) {
  DocumentInfo info = trial_info();
  for (Layer l : hidden) info.hidden[static_cast<std::size_t>(l)] = true;
  return info;
}

std::string pdf_without(std::initializer_list<Layer> hidden) {
  return write_pdf({trial_sheet()}, info_without(hidden), trial_lettering(), 1);
}

std::string text_of(const std::string& pdf) {
  const TrialFolder folder;
  create_file(folder.path + "/set.pdf", pdf);
  return output_of("pdftotext -raw " + folder.path + "/set.pdf -");
}

std::vector<std::string> names(QPDFObjectHandle groups) {
  std::vector<std::string> out;
  for (auto& g : groups.getArrayAsVector()) out.push_back(g.getKey("/Name").getUTF8Value());
  return out;
}

using Names = std::vector<std::string>;

}  // namespace

TEST_CASE("layers, pdf: a group a layer by name, each holding the content that lies on it") {
  const std::string bytes = pdf_without({Layer::dimensions});
  QPDF pdf;
  pdf.setSuppressWarnings(true);
  pdf.processMemoryFile("trial", bytes.data(), bytes.size());
  QPDFObjectHandle properties = pdf.getRoot().getKey("/OCProperties");
  const Names all{"steel", "outlines", "features", "marks", "dimensions", "notes"};
  CHECK(names(properties.getKey("/OCGs")) == all);
  CHECK(names(properties.getKey("/D").getKey("/Order")) == all);
  CHECK(names(properties.getKey("/D").getKey("/OFF")) == Names{"dimensions"});
  QPDFObjectHandle page = QPDFPageDocumentHelper(pdf).getAllPages()[0].getObjectHandle();
  Names on_page;
  for (auto& [key, form] : page.getKey("/Resources").getKey("/XObject").getDictAsMap()) {
    on_page.push_back(form.getDict().getKey("/OC").getKey("/Name").getUTF8Value());
    const auto stream = form.getStreamData(qpdf_dl_generalized);
    const std::string drawn(reinterpret_cast<const char*>(stream->getBuffer()), stream->getSize());
    const bool letters =
        drawn.find("Tj") != std::string::npos || drawn.find("TJ") != std::string::npos;
    CHECK(letters == (on_page.back() == "marks" || on_page.back() == "dimensions" ||
                      on_page.back() == "notes"));
    // The feature's circle alone is drawn in curves.
    CHECK((drawn.find(" c\n") != std::string::npos) == (on_page.back() == "features"));
  }
  CHECK(on_page == all);
  CHECK(pdf.getWarnings().empty());
}

TEST_CASE("layers, pdf: what is hidden is not shown, the rest is; sound, the same bytes twice") {
  const std::string shown = text_of(pdf_without({}));
  for (const char* word : {"DP07", "2440", "Keep dry"})
    CHECK(shown.find(word) != std::string::npos);
  const TrialFolder folder;
  const auto ink_of = [&](const std::string& pdf) {
    create_file(folder.path + "/a.pdf", pdf);
    int status = -1;
    output_of("qpdf --check " + folder.path + "/a.pdf 2>&1", &status);
    CHECK(status == 0);
    output_of("cd " + folder.path + " && rm -f page* && pdftoppm -r 50.8 -gray a.pdf page");
    const std::string map =
        output_of("cat " + folder.path + "/page*.pgm; rm " + folder.path + "/a.pdf");
    // 2 pixels a millimetre; is there ink within a millimetre of the point?
    const std::size_t columns = std::stoul(map.substr(3)),
                      rows = std::stoul(map.substr(map.find(' ') + 1)),
                      head = map.size() - columns * rows;
    return [=](double x, double y) {
      for (int i = -2; i <= 2; ++i)
        for (int j = -2; j <= 2; ++j) {
          const auto column = static_cast<std::size_t>(std::lround(2 * x) + i);
          const auto row = static_cast<std::size_t>(std::lround(2 * (594 - y)) + j);
          if (static_cast<unsigned char>(map.at(head + row * columns + column)) < 200) return true;
        }
      return false;
    };
  };
  const auto all = ink_of(pdf_without({})), some = ink_of(pdf_without({Layer::dimensions}));
  CHECK(all(50, 80));
  CHECK_FALSE(some(50, 80));  // dimension line
  CHECK(all(40, 60));
  CHECK(some(40, 60));  // outline
  CHECK(pdf_without({Layer::notes}) == pdf_without({Layer::notes}));
  CHECK(pdf_without({Layer::notes}) != pdf_without({}));
}

TEST_CASE("layers, svg: groups of a class a layer; what is hidden is not displayed") {
  const std::string plain = write_svg(trial_sheet(), trial_info(), trial_lettering());
  pugi::xml_document svg;
  REQUIRE(svg.load_string(plain.c_str()));
  const auto text_on = [&](const char* layer) {
    const std::string path =
        std::string("//*[contains(concat(' ', @class, ' '), ' layer-") + layer + " ')]/text";
    return std::string(svg.select_node(path.c_str()).node().text().get());
  };
  CHECK(text_on("marks") == "DP07");
  CHECK(text_on("dimensions") == "2440");
  CHECK(text_on("notes") == "Keep dry");
  CHECK(svg.select_nodes("//g[@class='layer-steel']/path[@class='steel']").size() == 1);
  CHECK(svg.select_nodes("//g[@class='layer-outlines']/path[@class='outline']").size() == 1);
  CHECK(svg.select_nodes("//g[@class='layer-features']/path[@class='feature']").size() == 1);
  CHECK(svg.select_nodes("//g[@class='chain layer-dimensions']/path").size() == 2);
  CHECK(plain.find("display:none") == std::string::npos);
  const std::string some =
      write_svg(trial_sheet(), info_without({Layer::dimensions}), trial_lettering());
  CHECK(some.find(".layer-dimensions{display:none}") != std::string::npos);
}

TEST_CASE(
    "passes: every item once; fills stay above what was below them and below what was above") {
  paper::TrialBoard t;
  paper::Board& b = t.board;
  paper::Path white;
  white.box({{0, 0}, {50, 50}});
  b.line(paper::PenUse::dimension, {0, 10}, {50, 10});  // hidden by the fill
  b.fill(paper::Ink::white, white);                     // goes with the outline
  b.box(paper::PenUse::outline, {{0, 0}, {50, 50}});
  b.line(paper::PenUse::steel, {0, 20}, {50, 20});     // over the fill
  b.line(paper::PenUse::steel, {200, 20}, {300, 20});  // clear of it
  const auto passes = passes_of(t.sheet);
  std::vector<std::pair<std::string, std::size_t>> found;
  for (const Pass& p : passes) found.emplace_back(paper::name_of(p.layer), p.items.size());
  CHECK(found == std::vector<std::pair<std::string, std::size_t>>{
                     {"steel", 1}, {"dimensions", 1}, {"outlines", 2}, {"steel", 1}});
}
