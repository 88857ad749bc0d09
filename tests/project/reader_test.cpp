#include <doctest/doctest.h>

#include "base/files.h"
#include "project/reader.h"

using namespace deckquire;

namespace {

std::optional<Project> read(const std::string& name, Findings& findings) {
  return read_project(read_file(std::string(DECKQUIRE_SOURCE) + "/projects/" + name), name,
                      findings);
}

std::string lines(const Findings& findings) {
  std::string out;
  for (const Finding& f : findings.sorted()) out += to_line(f) + "\n";
  return out;
}

}  // namespace

TEST_CASE("reader: saltmarsh, as shipped, reads without a finding") {
  Findings findings;
  const auto p = read("saltmarsh.xml", findings);
  REQUIRE_MESSAGE(p, lines(findings));
  CHECK(findings.empty());
  CHECK(p->number == "0417");
  CHECK(p->bridge.alignment.to == mm(95092));
  CHECK(p->bridge.alignment.easting == metres(4120.5));
  CHECK(p->bridge.alignment.bearing.in_si() == doctest::Approx(62.5 * pi / 180));
  CHECK(p->bridge.girders[1].offset == mm(-1000));
  CHECK(p->bridge.girders[1].to == mm(95092));
  CHECK(p->bridge.splices.size() == 6);
  CHECK(p->bridge.splices[2].rows == 10);
  CHECK(p->bridge.obstructions[0].diameter == mm(300));
  CHECK(p->deck.section.slope == 0.015);
  CHECK(p->deck.section.drip->inset == mm(20));
  CHECK(p->deck.spans[0].runs[0].times == 12);
  CHECK(*p->deck.spans[1].rule->count == 14);
  CHECK(*p->deck.spans[2].rule->longest == mm(2490));
  CHECK(p->deck.posts->plate.pitch_along == mm(140));
  CHECK(p->deck.scuppers->scuppers.size() == 8);
  CHECK(p->deck.scuppers->scuppers[1].side == CurbSides::right);
  CHECK(p->deck.lifting.capacity_kn == doctest::Approx(12));
  CHECK(p->deck.marks.serial == "0417-");
  CHECK(p->conditions.ship_mass->in_si() == 24000);
  CHECK(p->redlines[0].text == "Confirm clear opening with the cable owner.");
  CHECK(p->deck.hatches[1].place.line == 85);
  CHECK(p->deck.hatches[1].place.column == 5);
}

TEST_CASE("reader: quickstart, which leaves most out, reads with every default filled in") {
  Findings findings;
  const auto p = read("quickstart.xml", findings);
  REQUIRE_MESSAGE(p, lines(findings));
  CHECK(p->deck.materials.size() == 7);
  CHECK(p->deck.joints.gap == mm(12));
  CHECK(p->deck.joints.end_gap == mm(32));
  CHECK(p->deck.section.least_edge == mm(65));
  CHECK(p->deck.surfaces[0].thickness == mm(4));
  CHECK(p->deck.surfaces[0].to == mm(20056));
  CHECK(p->deck.hold_downs->each == 2);
  CHECK(p->deck.pads->thickness == mm(10));
  CHECK(p->deck.posts->plate.thread == "M16");
  CHECK(p->deck.scuppers->outlet == mm(110));
  CHECK(p->deck.lifting.capacity_kn == 0);
  CHECK(p->conditions.tolerances.size() == 7);
}

TEST_CASE("reader: orchard, in feet and inches, reads with imperial defaults") {
  Findings findings;
  const auto p = read("orchard.xml", findings);
  REQUIRE_MESSAGE(p, lines(findings));
  CHECK(p->units == UnitSystem::imperial);
  CHECK(p->bridge.alignment.to == feet(305.25));
  CHECK(p->bridge.girders[1].offset == inches(-39));
  CHECK(p->deck.edges[2].station == inches(2652.5));
  CHECK(p->deck.spans[0].runs[0].length == inches(83.25));
  CHECK(p->deck.joints.rod == inches(0.625));
  CHECK(p->deck.posts->plate.thread == "5/8-11");
  CHECK(p->deck.section.drip->width == inches(0.5));
  CHECK(p->deck.surfaces[0].mass.in_si() == doctest::Approx(1.5 * 4.882428));
  // Worked by hand: 7 x 83 1/4 + 6 x 1/2 + 1 1/2 + 3/4 = 588 in = 49 ft.
  const Length used = p->deck.spans[0].runs[0].length * 7 + p->deck.joints.gap * 6 +
                      p->deck.joints.end_gap + p->deck.joints.end_gap / 2;
  CHECK(used == p->deck.spans[0].to - p->deck.spans[0].from);
}

TEST_CASE("reader: elements in another order, give the same project") {
  std::string text = read_file(std::string(DECKQUIRE_SOURCE) + "/projects/quickstart.xml");
  const std::string title = "  <title>Millrace footbridge, replacement deck</title>\n";
  const std::size_t at = text.find(title);
  REQUIRE(at != std::string::npos);
  text.erase(at, title.size());
  text.insert(text.find("</project>"), title);
  Findings findings;
  const auto p = read_project(text, "p.xml", findings);
  REQUIRE_MESSAGE(p, lines(findings));
  CHECK(p->title == "Millrace footbridge, replacement deck");
}

TEST_CASE("reader: hold-downs and pads switched off, are none") {
  std::string text = read_file(std::string(DECKQUIRE_SOURCE) + "/projects/quickstart.xml");
  text.insert(text.find("    <posts"), "<hold-downs each=\"0\"/><pads thickness=\"0\"/>");
  Findings findings;
  const auto p = read_project(text, "p.xml", findings);
  REQUIRE_MESSAGE(p, lines(findings));
  CHECK(!p->deck.hold_downs);
  CHECK(!p->deck.pads);
}
