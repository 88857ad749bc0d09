// The shop's paper measured and read with general tools: poppler for the templates, another decoder for
// the codes, and the totals of all tables against each other.
#include <doctest/doctest.h>

#include <algorithm>
#include <cmath>
#include <filesystem>
#include <pugixml.hpp>
#include <set>
#include <sstream>

#include "base/files.h"
#include "e2e/program.h"

using namespace deckquire;
namespace fs = std::filesystem;

namespace {

struct Spot {
  double x = 0, y = 0, width = 0, height = 0;  // mm, of its middle
  int curves = 0;
};

/// Boxes of everything drawn in one go on a page, in mm, as poppler draws it.
std::vector<Spot> spots_of(const std::string& pdf, int page, const std::string& scratch) {
  const std::string svg = scratch + "/page.svg", n = std::to_string(page);
  output_of("pdftocairo -svg -noshrink -nocenter -f " + n + " -l " + n + " " + pdf + " " + svg);
  pugi::xml_document doc;
  REQUIRE(doc.load_file(svg.c_str()));
  std::vector<Spot> out;
  std::vector<double> xs, ys;
  const auto finish = [&] {
    if (!xs.empty()) {
      const auto [x0, x1] = std::minmax_element(xs.begin(), xs.end());
      const auto [y0, y1] = std::minmax_element(ys.begin(), ys.end());
      Spot& spot = out.back();
      spot.x = (*x0 + *x1) / 2, spot.y = (*y0 + *y1) / 2;
      spot.width = *x1 - *x0, spot.height = *y1 - *y0;
    }
    xs.clear(), ys.clear();
  };
  for (const auto& node : doc.select_nodes("//path[contains(@style, 'fill:none')]")) {
    REQUIRE(node.node().attribute("transform").empty());
    std::istringstream d(node.node().attribute("d").value());
    for (std::string word; d >> word;) {
      if (word == "M") finish(), out.push_back({});
      if (word == "C") ++out.back().curves;
      if (std::isalpha(static_cast<unsigned char>(word.front()))) continue;
      constexpr double point = 25.4 / 72;
      xs.push_back(std::stod(word) * point);
      d >> word;
      ys.push_back(std::stod(word) * point);
    }
    finish();
  }
  return out;
}

/// Saltmarsh with its shop's paper, made once.
struct ShopRun {
  TrialFolder folder;
  std::string out = folder.path + "/shop";
  std::string project = std::string(DECKQUIRE_SOURCE) + "/projects/saltmarsh.xml";
  std::string said;
  ShopRun() { said = run("shop " + project + " --out " + out).out; }
};
const ShopRun& shop_run() {
  static const ShopRun made;
  return made;
}

}  // namespace

TEST_CASE("shop: holes of a template lie where the hole table has them, within 0.05 mm") {
  const ShopRun& r = shop_run();
  CAPTURE(r.said);
  auto spots = spots_of(r.out + "/templates.pdf", 1, r.folder.path);
  std::vector<Spot> holes, squares;
  for (const Spot& s : spots) {
    if (s.curves == 4 && std::abs(s.width - 16) < 0.1) holes.push_back(s);
    if (s.curves == 0 && std::abs(s.width - 50) < 0.5 && std::abs(s.height - 50) < 0.5) squares.push_back(s);
  }
  REQUIRE(squares.size() == 1);
  CHECK(squares.front().width == doctest::Approx(50).epsilon(0.0005));
  CHECK(squares.front().height == doctest::Approx(50).epsilon(0.0005));
  // The first post plate of the first mark, by the table of holes.
  const auto table = rows_of(run("list " + r.project + " holes --csv").out);
  std::vector<std::pair<double, double>> plate;
  for (const auto& row : table)
    if (row.at("kind") == "tapped" && row.at("mark") == table.front().at("mark"))
      plate.emplace_back(std::stod(row.at("x_mm")), std::stod(row.at("y_mm")));
  std::sort(plate.begin(), plate.end());
  REQUIRE(plate.size() >= 4);
  const auto first = plate.front();
  REQUIRE(holes.size() == 4);
  std::sort(holes.begin(), holes.end(), [](const Spot& a, const Spot& b) {
    return std::pair(std::round(a.x), -a.y) < std::pair(std::round(b.x), -b.y);
  });
  int found = 0;
  for (const Spot& h : holes)
    for (const auto& [px, py] : plate)
      found += std::hypot(h.x - holes.front().x - (px - first.first),
                          -(h.y - holes.front().y) - (py - first.second)) < 0.05
                   ? 1
                   : 0;
  CHECK(found == 4);
}

TEST_CASE("shop: the code of every tag reads its serial, all serials once") {
  const ShopRun& r = shop_run();
  output_of("pdftoppm -r 200 -gray -png " + r.out + "/tags.pdf " + r.folder.path + "/tag");
  int status = -1;
  std::istringstream read(output_of("zbarimg -q --nodbus --raw " + r.folder.path + "/tag-*.png", &status));
  REQUIRE(status == 0);
  std::multiset<std::string> codes, serials;
  for (std::string line; std::getline(read, line);) codes.insert(line);
  const auto panels = rows_of(run("list " + r.project + " panels --csv").out);
  for (const auto& panel : panels) {
    serials.insert(panel.at("serial"));
    const bool by_itself = fs::exists(r.out + "/tags/" + panel.at("serial") + ".svg");
    CHECK(by_itself);
  }
  const bool same = codes == serials;
  CHECK(same);
}

TEST_CASE("shop: what is printed on tags and travellers is what the schedules say") {
  const ShopRun& r = shop_run();
  const auto panels = rows_of(run("list " + r.project + " panels --csv").out);
  // A page of travellers holds one panel; on tags the words of one follow each other.
  std::vector<std::string> pages;
  std::istringstream travellers(output_of("pdftotext -raw " + r.out + "/travellers.pdf -"));
  for (std::string page; std::getline(travellers, page, '\f');) pages.push_back(page);
  const std::string tags = output_of("pdftotext -raw " + r.out + "/tags.pdf -");
  REQUIRE(pages.size() >= panels.size());
  for (std::size_t i = 0; i < panels.size(); ++i) {
    const std::string& serial = panels[i].at("serial");
    CAPTURE(serial);
    const std::size_t at = tags.find(serial);
    REQUIRE(at != std::string::npos);
    const std::string mass = std::to_string(std::llround(std::stod(panels[i].at("mass_kg")))) + " kg";
    for (const std::string& text : {tags.substr(at, 100), pages[i]}) {
      CHECK(times(serial, text) >= 1);
      CHECK(times(panels[i].at("mark"), text) >= 1);
      CHECK(text.find(mass) != std::string::npos);
    }
  }
}

TEST_CASE("shop: hand-over has a block a panel in the order of setting, with lines to write on outdoors") {
  const ShopRun& r = shop_run();
  const std::string pdf = r.out + "/handover.pdf";
  const std::string text = output_of("pdftotext -raw " + pdf + " -");
  const auto sequence = rows_of(run("list " + r.project + " sequence --csv").out);
  const auto scuppers = rows_of(run("list " + r.project + " scuppers --csv").out);
  REQUIRE(!sequence.empty());
  std::size_t at = 0, words_at = 0;
  for (const auto& step : sequence) {
    CAPTURE(step.at("serial"));
    at = text.find(step.at("serial"), at);  // each after the one before
    REQUIRE(at != std::string::npos);
    // Poppler gives what stands in one column after the other.
    words_at = text.find("step " + step.at("step") + ",", words_at);
    REQUIRE(words_at != std::string::npos);
    CHECK(text.substr(words_at, 60).find("position " + step.at("position") + ",") != std::string::npos);
    CHECK(text.substr(words_at, 60).find("mark " + step.at("mark")) != std::string::npos);
    CHECK(times(step.at("serial"), text) == 1);
  }
  CHECK(times("clean", text) == static_cast<int>(sequence.size()));
  std::set<std::string> drained;
  for (const auto& s : scuppers) drained.insert(s.at("serial"));
  const int connected = times("connected", text);
  CHECK(connected == static_cast<int>(drained.size()));
  // The rules of the blocks, as poppler draws them: no line to write on is lower than 7 mm.
  std::vector<double> rules;
  for (const Spot& s : spots_of(pdf, 1, r.folder.path))
    if (s.width > 150 && s.height < 0.1) rules.push_back(s.y);
  std::sort(rules.begin(), rules.end());
  REQUIRE(rules.size() >= 9);
  for (std::size_t i = 1; i < rules.size(); ++i) {
    const double apart = rules[i] - rules[i - 1];
    CHECK(apart >= 7);
  }
}

TEST_CASE("shop: a page that there is not is said, and nothing is written") {
  const ShopRun& r = shop_run();
  const auto bad = run("shop " + r.project + " --page b5 --out " + r.folder.path + "/none");
  CHECK(bad.status == 2);
  CHECK(bad.err.find("'b5' is none of a4, a3, letter, ledger") != std::string::npos);
  const bool written = fs::exists(r.folder.path + "/none");
  CHECK_FALSE(written);
}

TEST_CASE("shop: loads carry every panel") {
  const ShopRun& r = shop_run();
  const std::string text = output_of("pdftotext -layout " + r.out + "/loads.pdf -");
  const auto panels = rows_of(run("list " + r.project + " panels --csv").out);
  for (const auto& panel : panels) {
    CAPTURE(panel.at("serial"));
    std::size_t seen = 0;
    for (std::size_t at = text.find(panel.at("serial")); at != std::string::npos;
         at = text.find(panel.at("serial"), at + 1))
      ++seen;
    CHECK(seen >= 1);
  }
}
