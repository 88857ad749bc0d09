#include <doctest/doctest.h>

#include <pugixml.hpp>

#include "writers/trial_set.h"

using namespace deckquire;
using namespace deckquire::writers;

namespace {

Table trial_table() {
  Table t;
  t.name = "trial";
  t.title = "Trial & <error>";
  t.columns = {{"mark", "Mark", Measure::text},
               {"quantity", "Quantity", Measure::count},
               {"length_mm", "Length", Measure::length},
               {"mass_kg", "Mass", Measure::mass}};
  t.rows = {{std::string("DP01"), std::int64_t{3}, mm(2440.5), 0.1},
            {std::string("a,b \"c\"\nd"), std::monostate{}, inches(1), 1e-7}};
  return t;
}

}  // namespace

// RFC 4180, section 2, rules 5 to 7.
TEST_CASE("csv: names in the head, quotes only where needed and doubled inside") {
  CHECK(write_csv(trial_table()) ==
        "mark,quantity,length_mm,mass_kg\n"
        "DP01,3,2440.5,0.1\n"
        "\"a,b \"\"c\"\"\nd\",,25.4," +
            machine_number(1e-7) + "\n");
}

// RFC 8259: control characters escaped, numbers bare, nothing for an empty cell is null.
TEST_CASE("json: an array of objects, numbers as numbers") {
  CHECK(
      write_json(trial_table()) ==
      "[\n  {\"mark\": \"DP01\", \"quantity\": 3, \"length_mm\": 2440.5, \"mass_kg\": 0.1},\n"
      "  {\"mark\": \"a,b \\\"c\\\"\\nd\", \"quantity\": null, \"length_mm\": 25.4, \"mass_kg\": " +
          machine_number(1e-7) + "}\n]\n");
  CHECK(write_json({}) == "[]\n");
}

TEST_CASE("index page: well-formed, escaped, links every sheet, table and the PDF") {
  const std::string page = write_index(trial_sheets(), {trial_table()}, trial_info());
  pugi::xml_document html;
  REQUIRE(html.load_string(page.c_str(), pugi::parse_default | pugi::parse_doctype));
  CHECK(std::string(html.select_node("//h1").node().text().get()) == trial_info().title);
  for (const char* link : {"set.pdf", "sheets/E01.svg", "sheets/P01.svg", "tables/trial.csv"}) {
    CAPTURE(link);
    CHECK_FALSE(html.select_nodes(("//a[@href='" + std::string(link) + "']").c_str()).empty());
  }
  CHECK(html.select_nodes("//script").empty());
  CHECK(page.find("http") == std::string::npos);  // loads nothing from elsewhere
  CHECK(html.select_nodes("//img[not(@alt)]").empty());
}

TEST_CASE("index page: a table that is on it stands there whole, filled columns only, void rows marked") {
  Table t;
  t.name = "register";
  t.title = "Register <of> serials";
  t.columns = {{"serial", "Serial"}, {"sheet", "Sheet"}, {"status", "Status"},
               {"length_mm", "Length", Measure::length}, {"reason", "Reason"}};
  t.rows = {{std::string("A & 1"), std::string("E01"), std::string("cast"), mm(2440), {}},
            {std::string("2"), std::string("Q99"), std::string("void"), {}, {}}};
  t.on_page = true;
  DocumentInfo info = trial_info();
  info.sheets = {"E01"};
  info.units = UnitSystem::imperial;
  const std::string page = write_index(trial_sheets(), {t}, info);
  pugi::xml_document html;
  REQUIRE(html.load_string(page.c_str(), pugi::parse_default | pugi::parse_doctype));
  const auto rows = html.select_nodes("//table[@id='register']/tbody/tr");
  REQUIRE(rows.size() == 2);
  CHECK(html.select_nodes("//table[@id='register']/thead/tr/th").size() == 4);  // no reason is given
  CHECK(std::string(rows[0].node().first_child().text().get()) == "A & 1");
  CHECK(std::string(rows[0].node().select_node("td/a").node().attribute("href").value()) ==
        "sheets/E01.svg");
  CHECK(rows[1].node().select_nodes("td/a").empty());  // no such sheet in the set
  CHECK(std::string(rows[1].node().attribute("class").value()) == "void");
  CHECK(page.find(">8'-0 1/16&quot;<") != std::string::npos);
  CHECK(html.select_nodes("//script").size() == 1);
  CHECK(html.select_nodes("//script[@src]").empty());
  CHECK(page.find("http") == std::string::npos);
}
