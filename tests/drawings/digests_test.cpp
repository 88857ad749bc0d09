// Whole sheets of the examples by digest: a change of looks nobody meant is seen, and on which
// sheet.
#include <doctest/doctest.h>
#include <fmt/format.h>

#include <cstdint>
#include <map>
#include <sstream>

#include "base/text.h"
#include "drawings/approval.h"
#include "project/support.h"
#include "sheets/drawn_set.h"
#include "support/thorough.h"

using namespace deckquire;

namespace {

/// FNV-1a, 64 bits (draft-eastlake-fnv, constants from memory).
std::uint64_t hash(const std::string& text) {
  std::uint64_t h = 0xcbf29ce484222325u;
  for (char c : text) h = (h ^ static_cast<unsigned char>(c)) * 0x100000001b3u;
  return h;
}
std::string digest(const std::string& text) {
  return fmt::format("{:016x}", hash(text));
}

/// One sign a cell: of the items whose middle lies in it, whatever their order.
std::string cells(const paper::Sheet& sheet) {
  constexpr const char* signs = "0123456789abcdefghijklmnopqrstuvwxyzABCDEFGHIJKLMNOPQRSTUVWXYZ-_";
  std::vector<std::uint64_t> sums(testing::cell_columns * testing::cell_rows);
  const std::vector<std::string> lines = split_lines(dump(sheet));  // at the end one an item
  const std::size_t count = sheet.items.size(), first = lines.size() - 1 - count;
  for (std::size_t i = 0; i < count; ++i) {
    const paper::Item& item = sheet.items[i];
    paper::PaperBox box;
    if (const auto* s = std::get_if<paper::Stroke>(&item))
      box = bounds(s->path);
    else if (const auto* f = std::get_if<paper::Fill>(&item))
      box = bounds(f->path);
    else if (const auto* t = std::get_if<paper::Text>(&item))
      box = text_box(*t);
    else
      continue;
    sums[testing::cell_of(sheet, box.centre())] += hash(lines[first + i]);
  }
  std::string out;
  for (std::uint64_t sum : sums) out += sum == 0 ? '.' : signs[(sum ^ sum >> 31) % 64];
  return out;
}

using Digests = std::map<std::string, std::string>;  // "quickstart P01" -> digest and cells

Digests read(const std::string& text) {
  Digests out;
  std::istringstream in(text);
  for (std::string line; std::getline(in, line);) {
    if (line.empty() || line[0] == '#') continue;
    const std::size_t space = line.find(' ', line.find(' ') + 1);
    out[line.substr(0, space)] = line.substr(space + 1);
  }
  return out;
}

}  // namespace

// Vectors of the same source: of nothing, and of "a".
TEST_CASE("digest: known values") {
  CHECK(digest("") == "cbf29ce484222325");
  CHECK(digest("a") == "af63dc4c8601ec8c");
}

TEST_CASE("sheets by digest: every sheet of the examples is as it was approved") {
  if (!thorough) return;
  std::string text =
      "# One line a sheet, style a1: project, sheet, digest of all that is drawn, and one sign for "
      "each cell of a grid on it.\n# Renewed by the tests with DECKQUIRE_UPDATE=1; look at the "
      "sheets that differ first.\n";
  std::map<std::string, const paper::Sheet*> drawn;
  for (const char* name : {"quickstart", "saltmarsh", "orchard", "heron", "ropewalk"}) {
    for (const paper::Sheet& sheet : sheets::drawn_set(name).sheets) {
      text += fmt::format("{} {} {} {}\n", name, sheet.number, digest(dump(sheet)), cells(sheet));
      drawn.emplace(fmt::format("{} {}", name, sheet.number), &sheet);
    }
  }
  const Digests now = read(text),
                expected = read(testing::approved("tests/drawings/sheets.txt", text));
  std::string differ, missing, more;
  for (const auto& [sheet, value] : now)
    if (!expected.count(sheet))
      more += sheet + "; ";
    else if (expected.at(sheet) != value)
      differ += testing::cell_picture(sheet, *drawn.at(sheet), value, expected.at(sheet)) + "; ";
  for (const auto& [sheet, value] : expected)
    if (!now.count(sheet)) missing += sheet + "; ";
  const std::string how =
      "draw them before and after and look; if they are right run this test with "
      "DECKQUIRE_UPDATE=1";
  CHECK_MESSAGE(differ.empty(), "drawn otherwise than approved: " << differ << how);
  CHECK_MESSAGE(missing.empty(), "approved, not drawn: " << missing << how);
  CHECK_MESSAGE(more.empty(), "drawn, not approved: " << more << how);
}
