// The bill of materials line by line, bolts, and orders; figures by hand from the project files.
#include "schedules/bill.h"

#include <doctest/doctest.h>

#include "schedules/bolt_length.h"
#include "schedules/parts.h"
#include "sheets/trial_set.h"

using namespace deckquire;
using deckquire::sheets::trial_project;
using deckquire::sheets::TrialSet;

namespace {

/// The first row of an item, by the names of its columns, as machines read it.
std::map<std::string, std::string> row_of(const Table& t, const std::string& item) {
  for (const auto& row : t.rows) {
    if (machine_cell(row[0], Measure::text) != item) continue;
    std::map<std::string, std::string> out;
    for (std::size_t i = 0; i < row.size(); ++i)
      out[t.columns[i].name] = machine_cell(row[i], t.columns[i].measure);
    return out;
  }
  FAIL("no row of " << item);
  return {};
}

}  // namespace

// ISO 888:2012 (from memory): ... 35, 40, 45, 50 ...; the rule is common practice, no source.
TEST_CASE("bolt length: nearest to grip and 1.5 diameters, never at the bottom, one diameter at least") {
  CHECK(bolt_length(mm(25), mm(10), mm(20), false) == mm(40));  // 35 to 45, wish 40
  CHECK(bolt_length(mm(28), mm(12), mm(24), false) == mm(45));  // 40 to 52, wish 46
  CHECK(bolt_length(mm(62), mm(8), mm(16), false) == mm(70));   // 70 to 78, wish 74: 80 is too long
  CHECK(bolt_length(mm(73), mm(5), mm(10), false) == mm(80));   // 78 to 83
  CHECK(!bolt_length(mm(81), mm(4), mm(8), false));             // 85 to 89: none between 80 and 90
  CHECK(bolt_length(mm(30), mm(10), mm(20), false) == mm(45));  // wish 45
  CHECK(!bolt_length(mm(300), mm(10), mm(20), false));          // longer than the list
  CHECK(bolt_length(inches(1), inches(0.375), inches(0.75), true) == inches(1.5));  // wish 1.5625
  CHECK(bolt_length(inches(1.125), inches(0.5), inches(1), true) == inches(1.75));  // 1.875: the shorter
}

TEST_CASE("bill: bolts by size and length where the grip is known, and what is not known is said") {
  const TrialSet s("saltmarsh");
  const Table& t = s.table("materials");
  const auto grate = row_of(t, "grate bolt");
  CHECK(grate.at("description") == "M10 × 40; over all, head flush");
  CHECK(grate.at("pieces") == "32");
  CHECK(grate.at("rule") ==
        "4 for each grate; length: grip 25 and thread between 10 and 20, standard length nearest to grip "
        "and 1.5 diameters");
  CHECK(row_of(t, "cover bolt").at("description") == "M12 × 45; over all, head flush");
  CHECK(row_of(t, "hold-down bolt").at("description") ==
        "M12; by the contractor; length: by grip, flange thickness not stated");
  const auto post = row_of(t, "rail post bolt");
  CHECK(post.at("description") ==
        "M16; by the railing supplier; length: by grip, base plate not stated");
  CHECK(post.at("pieces") == std::to_string(4 * s.deck.posts.size()));
  CHECK(row_of(t, "insert cap").at("pieces") == row_of(t, "lifting insert").at("pieces"));
  for (const auto& row : t.rows) CHECK(!machine_cell(row.back(), Measure::text).empty());  // the rule
}

TEST_CASE("bill: no insert, no cap; no length of a bolt where no standard one lies between") {
  Project p = trial_project("saltmarsh");
  p.deck.scuppers->bolt = "M4";
  p.deck.scuppers->grate = mm(81);
  p.deck.scuppers->cavity = mm(95);
  const TrialSet s(std::move(p), "a1");
  CHECK(row_of(s.table("materials"), "grate bolt").at("description") ==
        "M4; length: none of the standard ones lies between 85 and 89");
}

// Allowances of saltmarsh.xml: bolts 5 %, at least 4; clips 3 %, at least 2; inserts 2 %, at least 2;
// grates at least 1; surface 8 %; laminate 6 %; core 10 %; sealant 15 %.
TEST_CASE("orders: pieces rounded up once for the job, amounts by percent, nothing where nothing is stated") {
  const TrialSet s("saltmarsh");
  const Table &t = s.table("orders"), &net = s.table("materials");
  const auto value = [&](const char* item, const char* column) { return std::stod(row_of(t, item).at(column)); };
  CHECK(value("grate bolt", "to_order") == 36);   // 32, 5 % are 1.6: 4 at least
  CHECK(value("cover bolt", "to_order") == 12);   // 8 and 4
  CHECK(value("scupper grate", "to_order") == 9);
  const double clips = value("hold-down clip", "net");
  CHECK(clips == 152);                                     // 38 panels, 2 girders, 2 each
  CHECK(value("hold-down clip", "to_order") == 152 + 5);   // 4.56
  CHECK(value("hold-down bolt", "to_order") == 152 + 8);   // 7.6
  CHECK(value("hold-down insert", "to_order") == 152 + 4);  // 3.04
  CHECK(row_of(t, "hold-down clip").at("rule") == "3 % on clips, 2 at least, rounded up");
  CHECK(row_of(t, "hold-down clip").at("source") == "shop rule 7");
  CHECK(value("laminate", "to_order") == doctest::Approx(1.06 * std::stod(row_of(net, "laminate").at("mass_kg"))));
  CHECK(row_of(t, "laminate").at("unit") == "kg");
  CHECK(value("core", "to_order") == doctest::Approx(1.10 * std::stod(row_of(net, "core").at("volume_m3"))));
  CHECK(value("sealant", "to_order") == doctest::Approx(1.15 * 1000 * std::stod(row_of(net, "sealant").at("volume_m3"))));
  CHECK(row_of(t, "sealant").at("unit") == "L");
  CHECK(value("wearing surface", "to_order") == doctest::Approx(1.08 * value("wearing surface", "net")));
  CHECK(row_of(t, "curb").at("rule") == "none stated");
  CHECK(row_of(t, "curb").at("to_order") == row_of(t, "curb").at("net"));
  const auto post = row_of(t, "rail post bolt");
  CHECK(post.at("to_order") == "");
  CHECK(post.at("rule") == "comes from the railing supplier");
}

TEST_CASE("orders: exact shares are not rounded up by the figures of a computer") {
  Project p = trial_project("saltmarsh");
  p.deck.allowances = {{"grates", 0.125, 0, "by hand", {}}, {"drains", 0.25, 0, "by hand", {}}};
  const TrialSet s(std::move(p), "a1");
  CHECK(row_of(s.table("orders"), "scupper grate").at("to_order") == "9");  // 8 and 1
  CHECK(row_of(s.table("orders"), "scupper body").at("to_order") == "10");
  CHECK(row_of(s.table("orders"), "grate bolt").at("rule") == "none stated");
}

// 1 US gallon = 231 cubic inches, 1 ft = 0.3048 m (NIST Handbook 44, Appendix C).
TEST_CASE("cells of their own unit: litres and gallons, metres and feet, pieces") {
  const Measured seal{3.785411784, Measure::fill}, run{30.48, Measure::run}, count{12, Measure::count};
  CHECK(print_cell(seal, Measure::count, UnitSystem::imperial) == "1.0");
  CHECK(print_cell(seal, Measure::count, UnitSystem::metric) == "3.8");
  CHECK(print_cell(run, Measure::count, UnitSystem::imperial) == "100.0");
  CHECK(print_cell(count, Measure::count, UnitSystem::imperial) == "12");
  CHECK(machine_cell(run, Measure::count) == "30.48");
  CHECK(print_cell(UnitOf{Measure::area}, Measure::text, UnitSystem::imperial) == "sq ft");
  CHECK(machine_cell(UnitOf{Measure::area}, Measure::text) == "m2");
  CHECK(machine_cell(UnitOf{Measure::count}, Measure::text) == "pcs");
}
