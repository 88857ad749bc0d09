// The workbook read back by its parts.
#include "writers/workbook.h"

#include <doctest/doctest.h>

#include "support/workbook.h"

namespace deckquire {
namespace {

Table sample() {
  Table t;
  t.name = "panels";
  t.title = "Panels in position";
  t.columns = {{"serial", "Serial", Measure::text},
               {"length_mm", "Length", Measure::length},
               {"mass_kg", "Mass", Measure::mass}};
  t.rows = {{std::string("0417-001"), mm(2480.5), 412.25}, {std::string("12"), std::monostate{}, 1.0 / 3}};
  t.total = {std::string("total"), std::monostate{}, 412.5833};
  return t;
}

}  // namespace

TEST_CASE("workbook: every cell where CSV has it, numbers as numbers and texts as texts") {
  writers::DocumentInfo info;
  info.title = "Saltmarsh & sons";
  info.date = "2026-10-02";
  const std::string bytes = writers::write_workbook({sample()}, info);
  const auto files = unpacked(bytes);
  const auto first = cells(files, 1), panels = cells(files, 2);
  CHECK(first.at("A2") == "s:panels");
  CHECK(first.at("C2") == "n:2");
  CHECK(panels.at("A1") == "s:serial");
  CHECK(panels.at("B1") == "s:length_mm");
  CHECK(panels.at("A2") == "s:0417-001");
  CHECK(panels.at("A3") == "s:12");  // looks like a number, and is none
  CHECK(panels.at("B2") == "n:2480.5");
  CHECK(panels.at("C2") == "n:412.25");
  CHECK(panels.count("B3") == 0);
  CHECK(panels.at("C4") == "n:412.5833");
  CHECK(files.at("docProps/core.xml").find("2026-10-02T00:00:00Z") != std::string::npos);
  CHECK(files.at("docProps/core.xml").find("Saltmarsh &amp; sons") != std::string::npos);
  CHECK(files.at("xl/workbook.xml").find("name=\"panels\"") != std::string::npos);
}

TEST_CASE("workbook: the same tables, the same bytes; a name that a worksheet cannot have is refused") {
  writers::DocumentInfo info;
  CHECK(writers::write_workbook({sample()}, info) == writers::write_workbook({sample()}, info));
  Table bad = sample();
  bad.name = "what is/this";
  CHECK_THROWS(writers::write_workbook({bad}, info));
  CHECK_THROWS(writers::write_workbook({sample(), sample()}, info));
}

}  // namespace deckquire
