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
