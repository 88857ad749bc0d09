#include <doctest/doctest.h>

#include "base/text.h"
#include "commands/sheet_list.h"

using namespace deckquire;
using namespace deckquire::commands;

namespace {

std::string chosen(const std::string& list) {
  const std::vector<std::string> set{"G01", "E01", "E02", "P01", "P02", "P03", "P10", "T01"};
  const SheetChoice choice = choose_sheets(list, set);
  std::vector<std::string> out;
  for (std::size_t i = 0; i < set.size(); ++i)
    if (choice.wanted[i]) out.push_back(set[i]);
  for (const std::string& s : choice.strange) out.push_back("?" + s);
  return join(out, " ");
}

}  // namespace

TEST_CASE("sheet list: series, numbers and ranges in any case and order; in the order of the set") {
  CHECK(chosen("") == "G01 E01 E02 P01 P02 P03 P10 T01");
  CHECK(chosen("E") == "E01 E02");
  CHECK(chosen("t, g01") == "G01 T01");
  CHECK(chosen("P02-P10") == "P02 P03 P10");
  CHECK(chosen("P3") == "P03");
  CHECK(chosen("P01,P01-p02,P") == "P01 P02 P03 P10");
}

TEST_CASE("sheet list: further sheets of a mark go with its first, or are named alone") {
  const std::vector<std::string> set{"P01", "P01-2", "P02", "P02-2", "P03"};
  const auto of = [&](const std::string& list) { return choose_sheets(list, set).wanted; };
  CHECK(of("P01") == std::vector<bool>{true, true, false, false, false});
  CHECK(of("p02-2") == std::vector<bool>{false, false, false, true, false});
  CHECK(of("P02-P03") == std::vector<bool>{false, false, true, true, true});
}

TEST_CASE("sheet list: what names no sheet is told") {
  CHECK(chosen("Q") == "?Q");
  CHECK(chosen("P09") == "?P09");
  CHECK(chosen("P01-E02") == "?P01-E02");
  CHECK(chosen("P03-P01") == "?P03-P01");
  CHECK(chosen("E01,,") == "E01 ? ?");
  CHECK(chosen("P01-,-P02,P1x,P99999999999") == "?P01- ?-P02 ?P1X ?P99999999999");
}
