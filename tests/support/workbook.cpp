#include "support/workbook.h"

#include <doctest/doctest.h>
#include <zlib.h>

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

}  // namespace

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

std::vector<std::string> worksheets(const std::map<std::string, std::string>& files) {
  pugi::xml_document doc;
  REQUIRE(doc.load_string(files.at("xl/workbook.xml").c_str()));
  std::vector<std::string> out;
  for (pugi::xml_node s : doc.child("workbook").child("sheets").children("sheet"))
    out.push_back(s.attribute("name").value());
  return out;
}

std::string column_letters(std::size_t index) {
  const std::string last(1, static_cast<char>('A' + index % 26));
  return index < 26 ? last : column_letters(index / 26 - 1) + last;
}

}  // namespace deckquire
