// The workbook unpacked with zlib and read with an XML reader: the layout of its parts is that of
// ISO/IEC 29500-1 (SpreadsheetML) in a ZIP archive (APPNOTE 6.3, from memory).
#include "writers/workbook.h"

#include <doctest/doctest.h>
#include <zlib.h>

#include <map>
#include <pugixml.hpp>

namespace deckquire {
namespace {

unsigned little(const std::string& s, std::size_t at, int bytes) {
  unsigned v = 0;
  for (int i = bytes - 1; i >= 0; --i)
    v = v * 256 + static_cast<unsigned char>(s[at + static_cast<std::size_t>(i)]);
  return v;
}

std::string inflated(const std::string& packed, unsigned size) {
  std::string out(size, '\0');
  z_stream z{};
  z.next_in = reinterpret_cast<Bytef*>(const_cast<char*>(packed.data()));
  z.avail_in = static_cast<uInt>(packed.size());
  z.next_out = reinterpret_cast<Bytef*>(out.data());
  z.avail_out = size;
  REQUIRE(inflateInit2(&z, -MAX_WBITS) == Z_OK);
  const int end = inflate(&z, Z_FINISH);
  inflateEnd(&z);
  REQUIRE(end == Z_STREAM_END);
  return out;
}

/// Files of an archive by name, found through its central directory.
std::map<std::string, std::string> unpacked(const std::string& zip) {
  std::map<std::string, std::string> files;
  const std::size_t end = zip.rfind("PK\x05\x06");
  REQUIRE(end != std::string::npos);
  std::size_t at = little(zip, end + 16, 4);
  for (unsigned n = little(zip, end + 10, 2); n > 0; --n) {
    REQUIRE(zip.compare(at, 4, "PK\x01\x02") == 0);
    const unsigned method = little(zip, at + 10, 2), packed = little(zip, at + 20, 4);
    const unsigned size = little(zip, at + 24, 4), name = little(zip, at + 28, 2);
    const unsigned more = little(zip, at + 30, 2) + little(zip, at + 32, 2);
    const std::size_t local = little(zip, at + 42, 4);
    const std::size_t data = local + 30 + little(zip, local + 26, 2) + little(zip, local + 28, 2);
    const std::string bytes = zip.substr(data, packed);
    files[zip.substr(at + 46, name)] = method == 8 ? inflated(bytes, size) : bytes;
    at += 46 + name + more;
  }
  return files;
}

/// Cells of a worksheet by their references: "s:" before texts, "n:" before numbers.
std::map<std::string, std::string> cells(const std::map<std::string, std::string>& files, int sheet) {
  pugi::xml_document strings, doc;
  REQUIRE(strings.load_string(files.at("xl/sharedStrings.xml").c_str()));
  std::vector<std::string> shared;
  for (pugi::xml_node si : strings.child("sst").children("si")) shared.push_back(si.child("t").text().get());
  REQUIRE(doc.load_string(files.at("xl/worksheets/sheet" + std::to_string(sheet) + ".xml").c_str()));
  std::map<std::string, std::string> out;
  for (pugi::xml_node row : doc.child("worksheet").child("sheetData").children("row"))
    for (pugi::xml_node c : row.children("c")) {
      const std::string value = c.child("v").text().get();
      const bool text = std::string(c.attribute("t").value()) == "s";
      out[c.attribute("r").value()] = text ? "s:" + shared[std::stoul(value)] : "n:" + value;
    }
  return out;
}

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
