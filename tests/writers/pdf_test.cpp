#include <doctest/doctest.h>

#include <cmath>
#include <qpdf/QPDF.hh>
#include <qpdf/QPDFOutlineDocumentHelper.hh>
#include <qpdf/QPDFPageDocumentHelper.hh>
#include <qpdf/QPDFPageLabelDocumentHelper.hh>

#include "base/files.h"
#include "writers/extents.h"
#include "writers/trial_set.h"

using namespace deckquire;
using namespace deckquire::writers;

namespace {

std::string trial_pdf(int jobs = 1) {
  return write_pdf(trial_sheets(), trial_info(), trial_lettering(), jobs);
}

struct OpenPdf {
  std::string bytes;
  QPDF pdf;
  std::vector<QPDFPageObjectHelper> pages;
  explicit OpenPdf(std::string b) : bytes(std::move(b)) {
    pdf.setSuppressWarnings(true);
    pdf.processMemoryFile("trial", bytes.data(), bytes.size());
    pages = QPDFPageDocumentHelper(pdf).getAllPages();
  }
};

double mm_of(QPDFObjectHandle number) {
  return number.getNumericValue() * 25.4 / 72;
}

}  // namespace

TEST_CASE("pdf: the same bytes twice and with any number of threads") {
  const std::string one = trial_pdf(1);
  CHECK(one == trial_pdf(1));
  CHECK(one == trial_pdf(2));
  CHECK(one == trial_pdf(7));
}

TEST_CASE("pdf: sound to the PDF library, one page a sheet, of its size") {
  OpenPdf open(trial_pdf());
  REQUIRE(open.pages.size() == 2);
  QPDFObjectHandle box = open.pages[0].getMediaBox();
  CHECK(mm_of(box.getArrayItem(2)) == doctest::Approx(420).epsilon(1e-5));
  CHECK(mm_of(box.getArrayItem(3)) == doctest::Approx(297).epsilon(1e-5));
  for (auto& page : open.pages) page.getObjectHandle().getKey("/Contents").getStreamData();
  CHECK(open.pdf.getWarnings().empty());
}

TEST_CASE("pdf: bookmarks by series, page labels are the sheet numbers") {
  OpenPdf open(trial_pdf());
  auto series = QPDFOutlineDocumentHelper(open.pdf).getTopLevelOutlines();
  REQUIRE(series.size() == 2);
  CHECK(series[0].getTitle() == "Erection");
  CHECK(series[1].getTitle() == "Panels");
  auto sheets = series[1].getKids();
  REQUIRE(sheets.size() == 1);
  CHECK(sheets[0].getTitle() == "P01 Panel DP01");
  CHECK(sheets[0].getDestPage().getObjGen() == open.pages[1].getObjectHandle().getObjGen());
  QPDFPageLabelDocumentHelper labels(open.pdf);
  CHECK(labels.getLabelForPage(0).getKey("/P").getUTF8Value() == "E01");
  CHECK(labels.getLabelForPage(1).getKey("/P").getUTF8Value() == "P01");
}

TEST_CASE("pdf: links lie over their group and lead to a page, or to a group's top left corner") {
  OpenPdf open(trial_pdf());
  QPDFObjectHandle on_plan = open.pages[0].getObjectHandle().getKey("/Annots");
  REQUIRE(on_plan.getArrayNItems() == 1);  // the one to a sheet that is not there is left out
  QPDFObjectHandle to_panel = on_plan.getArrayItem(0);
  CHECK(to_panel.getKey("/Dest").getArrayItem(0).getObjGen() ==
        open.pages[1].getObjectHandle().getObjGen());
  CHECK(mm_of(to_panel.getKey("/Rect").getArrayItem(0)) == doctest::Approx(100).epsilon(1e-4));
  CHECK(mm_of(to_panel.getKey("/Rect").getArrayItem(3)) == doctest::Approx(180).epsilon(1e-4));
  QPDFObjectHandle back =
      open.pages[1].getObjectHandle().getKey("/Annots").getArrayItem(0).getKey("/Dest");
  CHECK(back.getArrayItem(0).getObjGen() == open.pages[0].getObjectHandle().getObjGen());
  CHECK(back.getArrayItem(1).getName() == "/XYZ");
  CHECK(mm_of(back.getArrayItem(2)) == doctest::Approx(100).epsilon(1e-4));
  CHECK(mm_of(back.getArrayItem(3)) == doctest::Approx(180).epsilon(1e-4));
}

TEST_CASE("pdf: metadata of the project, no time of day") {
  OpenPdf open(trial_pdf());
  QPDFObjectHandle facts = open.pdf.getTrailer().getKey("/Info");
  CHECK(facts.getKey("/Title").getUTF8Value() == trial_info().title);
  CHECK(facts.getKey("/Author").getUTF8Value() == "Tarn Composites");
  CHECK(facts.getKey("/CreationDate").getStringValue() == "D:20261002000000Z");
  CHECK(open.pdf.getTrailer().getKey("/ID").isArray());
}

// Oracle: poppler's and qpdf's tools.
TEST_CASE("pdf: other readers find every word, all fonts embedded, no pictures") {
  TrialFolder folder;
  const std::string file = folder.path + "/set.pdf";
  create_file(file, trial_pdf());
  // The reader puts the words of turned text on lines of their own.
  const std::string text = output_of("pdftotext -raw " + file + " - | tr '\\n' ' '");
  for (const std::string& word : {special_words, std::string("turned 90°"), std::string("DP01")}) {
    CAPTURE(word);
    CHECK(text.find(word) != std::string::npos);
  }
  const std::string fonts = output_of("pdffonts " + file + " | tail -n +3");
  CHECK(fonts.find("osifont") != std::string::npos);
  CHECK(fonts.find("DejaVuSans") != std::string::npos);
  CHECK(fonts.find("Type 3") == std::string::npos);
  CHECK(fonts.find(" no ") == std::string::npos);  // embedded, subset, with Unicode
  CHECK(output_of("pdfimages -list " + file + " | tail -n +3").empty());
  int status = -1;
  output_of("qpdf --check " + file + " 2>&1", &status);
  CHECK(status == 0);
}

TEST_CASE("pdf: a drawn rectangle is where the sheet says, as poppler renders it") {
  TrialFolder folder;
  create_file(folder.path + "/set.pdf", trial_pdf());
  // 254 dpi: ten pixels a millimetre. Grey map: head, then a byte a pixel.
  output_of("cd " + folder.path + " && pdftoppm -r 254 -gray -f 1 -l 1 set.pdf page");
  const std::string map = output_of("cat " + folder.path + "/page*.pgm");
  REQUIRE(map.substr(0, 2) == "P5");
  REQUIRE(map.size() > 4200u * 2970u);
  const std::size_t pixels = map.size() - 4200u * 2970u;
  auto dark = [&](double x, double y) {
    const auto column = static_cast<std::size_t>(std::lround(x * 10));
    const auto row = static_cast<std::size_t>(std::lround((297 - y) * 10));
    return static_cast<unsigned char>(map.at(pixels + row * 4200 + column)) < 128;
  };
  CHECK(dark(100, 140));
  CHECK(dark(125, 180));
  CHECK_FALSE(dark(101, 140));
  CHECK_FALSE(dark(99, 140));
}

TEST_CASE("group boxes: around all inside, groups within included, empty ones not drawn") {
  paper::Sheet sheet = trial_sheets()[0];
  const auto groups = group_boxes(sheet);
  REQUIRE(groups.size() == 2);
  CHECK(groups[0].box.low == paper::PaperPoint{100, 100});
  CHECK(groups[0].box.high == paper::PaperPoint{150, 180});
  sheet.items = {paper::GroupStart{"outer", "", "", ""}, paper::GroupStart{"inner", "", "", ""},
                 paper::GroupEnd{}, paper::GroupEnd{}};
  for (const GroupBox& g : group_boxes(sheet)) CHECK_FALSE(g.drawn);
}
