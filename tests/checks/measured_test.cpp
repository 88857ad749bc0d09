// The steel as measured against what the panels allow; figures by hand beside each.
#include <doctest/doctest.h>

#include "bridge/measured.h"
#include "deck/steel_room.h"
#include "deck/trial.h"
#include "schedules/field.h"

using namespace deckquire;

namespace {

/// quickstart.xml: panels of 2489 at gaps of 12 between end gaps of 32; splice at 8770, plate 620 x 220 x
/// 12 with bolts 28 above it; hollow 20 larger all round, 10 above; pads 120 x 10; setting tolerance 5.
Project trial_bridge() { return trial::example("quickstart"); }

MeasuredData measured(MeasuredThing of, const char* name) {
  MeasuredData m;
  m.of = of, m.name = name, m.by = "survey", m.date = "2026-10-05", m.place = {"quickstart", 77, 5};
  return m;
}

/// What is said of the measured steel, a line each.
std::string said(const Project& p) {
  std::string out;
  for (const Finding& f : trial::build(p).findings.sorted())
    if (f.code.starts_with("measured")) out += f.code + ": " + f.what + "; " + f.remedy + "\n";
  return out;
}

std::string said(const Project& p, const MeasuredData& m) {
  Project with = p;
  with.bridge.measured.push_back(m);
  return said(with);
}

bool has(const std::string& text, const char* words) {
  const bool found = text.find(words) != std::string::npos;
  if (!found) MESSAGE(text);
  return found;
}

}  // namespace

TEST_CASE("measured splice: what is left in its hollow, by hand") {
  const Project p = trial_bridge();
  MeasuredData m = measured(MeasuredThing::splice, "G1-S1");
  m.station = mm(8776), m.length = mm(624), m.projection = mm(44);
  // 6 ahead and 2 longer to each side: 20 + 6 - 2 behind, 20 - 6 - 2 ahead; 40 deep and 10 of pad, less 44.
  CHECK(has(said(p, m), "splice G1-S1 as measured on 2026-10-05 fits panel 4: 24 behind, 12 ahead, 20 left, "
                        "20 right, 6 above; 5 is kept"));
  m.length.reset(), m.projection.reset(), m.station = mm(8785);
  CHECK(has(said(p, m), "measured-fits"));  // 20 - 15: exactly the tolerance
  m.station = mm(8786);
  CHECK(has(said(p, m), "measured-splice: splice G1-S1 as measured on 2026-10-05 leaves 4 ahead of it in its "
                        "recess of panel 4; keep 5, the setting tolerance: 1 short"));
  m.station.reset(), m.offset = mm(740 - 18);
  CHECK(has(said(p, m), "leaves 2 right of it"));
  m.offset = mm(740 - 22);
  CHECK(has(said(p, m), "stands 2 beyond its recess of panel 4, right of it; keep 5, the setting tolerance: 7 short"));
  m.offset.reset(), m.projection = mm(46);
  CHECK(has(said(p, m), "leaves 4 above its bolts"));
  // Under a panel that has no hollow for it: panel 5 begins at 32 + 4 * 2501.
  m.projection.reset(), m.station = mm(10034 - 200);
  CHECK(has(said(p, m), "reaches under panel 5, which has no recess for it"));
}

TEST_CASE("measured girder: until a clip, a panel's edge or an opening ends it, by hand") {
  Project p = trial_bridge();
  MeasuredData m = measured(MeasuredThing::girder, "G1");
  m.station = mm(8770), m.offset = mm(740 + 20);
  // M12 clips 30 beside the outer edge of the flange: 30 - 6 - 20 to the insert.
  CHECK(has(said(p, m), "lies 20 to the left and fits: 4 more to the left (clip of panel 4)"));
  CHECK(has(said(p, m), "clips then stand 10 to 10 from the flange edge, 30 by design"));
  m.offset = mm(740 + 25);
  CHECK(has(said(p, m), "measured-girder: girder G1 at 0+008.770, as measured on 2026-10-05, lies 25 to the "
                        "left: clip of panel 4 is 1 short"));
  // Without clips: the flange's inner edge at 615, the panel's at 1200, 50 to bear on; no pad over a splice.
  p.deck.hold_downs.reset();
  m.offset = mm(740 + 535);
  CHECK(has(said(p, m), "and fits: 0 more to the left (bearing of panel 4)"));
  m.offset = mm(740 + 537);
  CHECK(has(said(p, m), "bearing of panel 4 is 2 short"));
  // A hatch beside the flange, from 200 to 500: 640 - 125 - 500, less the tolerance of 5. Without the splice
  // there is a pad of 120 about 740: its left edge at 800, the flange's right one at 515, 50 to bear on.
  p.deck.hatches = {trial::example("saltmarsh").deck.hatches.front()};
  HatchData& h = p.deck.hatches.front();
  h.station = mm(8000), h.offset = mm(350), h.length = h.width = mm(300);
  p.bridge.splices.clear();
  m.offset = mm(740 - 100);
  CHECK(has(said(p, m), "fits: 235 more to the left (pad of panel 4), 10 more to the right (hatch"));
  m.offset = mm(740 - 112);
  CHECK(has(said(p, m), "hatch"));
  CHECK(has(said(p, m), "is 2 short"));
  // A narrower flange loses half at each edge.
  m.offset = mm(740 - 100), m.width = mm(230);
  CHECK(has(said(p, m), "20 more to the right (hatch"));
}

TEST_CASE("measured level: pad and shim, by hand") {
  Project p = trial_bridge();
  PadsData pads;
  pads.width = mm(120), pads.thickness = mm(10);
  p.deck.pads = pads;
  MeasuredData m = measured(MeasuredThing::girder, "G2");
  m.station = mm(10028);
  // The grade is 201 in 20056; 130 of panel and 10 of pad under it: 48300.5 - 140 in the middle.
  const Length asked = mm(48200 + 201.0 / 2 - 140);
  const auto at = [&](double high) {
    m.level = asked + mm(high);
    return said(p, m);
  };
  CHECK(has(at(-7), "is 7 low; a shim of 7 under the pad"));
  CHECK(has(at(4), "is 4 high; 6 is left of the pad of 10"));
  CHECK(has(at(0), "is in its place; no shim"));
  CHECK(has(at(12), "measured-level: the top of girder G2 at 0+010.028, as measured on 2026-10-05, is 12 high: "
                    "the pad is 10 thick, so the panel would be lifted by 2"));
  // Without pads it depends on what the project allows.
  p.deck.pads.reset();
  m.level = mm(48200 + 201.0 / 2 - 130 + 3);
  CHECK(has(said(p, m), "is 3 high, and the panels lie on it without a pad; whether they may is not checked"));
  p.conditions.tolerances.push_back({"level", mm(2), {}});
  CHECK(has(said(p, m), "measured-level: the top of girder G2 at 0+010.028, as measured on 2026-10-05, is 3 high: "
                        "the panels lie on it without a pad and would be lifted"));
  p.conditions.tolerances.back().value = mm(3);
  CHECK(has(said(p, m), "is 3 high; no shim"));
}

TEST_CASE("measured support: the end gap that is left, by hand") {
  Project p = trial_bridge();
  MeasuredData m = measured(MeasuredThing::support, "A1");
  m.station = mm(20);
  p.conditions.temperature = {};
  CHECK(has(said(p, m), "lies 20 ahead: the end gap at joint J1 becomes 12 instead of 32; whether it is enough is "
                        "not checked: needs the least gap"));
  p.conditions.temperature.place.line = 1;
  p.conditions.temperature.least_gap = mm(5);
  m.station = mm(27);
  CHECK(has(said(p, m), "becomes 5 instead of 32; 0 is left above the least gap of 5"));
  m.name = "A2", m.station = mm(20056 - 28);
  CHECK(has(said(p, m), "measured-support: support A2 as measured on 2026-10-05 lies 28 back: the end gap at joint "
                        "J9 becomes 4 instead of 32; 1 short of 5, the least gap"));
  m.station = mm(20056 - 33);
  CHECK(has(said(p, m), "at joint J9 it would stand 1 in the deck"));
  m.station = mm(20056 + 10);
  CHECK(has(said(p, m), "becomes 42 instead of 32"));
}

TEST_CASE("measured obstruction: its clearance to the panel as it is cast") {
  const Project p = trial::example("saltmarsh");
  MeasuredData m = measured(MeasuredThing::obstruction, "M1");
  // 300 in diameter, 50 clear; the notch is made for just that.
  m.diameter = mm(290);
  CHECK(has(said(p, m), "is 55 from panel 7; its clearance is 50: 5 is left"));
  m.diameter = mm(310);
  CHECK(has(said(p, m), "measured-obstruction: obstruction M1 as measured on 2026-10-05 is 45 from panel 7; its "
                        "clearance is 50: 5 short"));
}

TEST_CASE("measured: each value as it was measured last, whatever the order of the lines") {
  Project p = trial_bridge();
  MeasuredData late = measured(MeasuredThing::splice, "G1-S1"), early = late;
  late.date = "2026-10-09", late.station = mm(8780);
  early.station = mm(8700), early.width = mm(224);
  p.bridge.measured = {late, early};
  Findings findings;
  const Bridge b = build_bridge(p, findings);
  const auto all = measured_steel(p, b, findings);
  REQUIRE(all.size() == 1);
  CHECK(*all[0].station == mm(8780));
  CHECK(*all[0].width == mm(224));
  CHECK(all[0].date == "2026-10-09");
  CHECK(has(said(p), "10 ahead, 18 left, 18 right"));
  CHECK(findings.empty());
  // By the name of its line: on every girder one, so the girder must be said.
  late.name = "S9", late.girder = "G2", late.station = mm(8771);
  Project named = p;
  named.bridge.splices[0].name = "S9";
  named.bridge.measured = {late};
  Findings none;
  const Bridge two = build_bridge(named, none);
  REQUIRE(measured_steel(named, two, none).size() == 1);
  CHECK(measured_name(two, measured_steel(named, two, none)[0]) == "G2-S9");
  CHECK(none.empty());
  // Girders at two stations are two things.
  MeasuredData g = measured(MeasuredThing::girder, "G1");
  g.offset = mm(741);
  for (double s : {1000, 2000}) {
    g.station = mm(s);
    p.bridge.measured.push_back(g);
  }
  CHECK(measured_steel(p, b, findings).size() == 3);
  CHECK(findings.empty());
}

TEST_CASE("field tables: what may be off is where the findings begin") {
  Project p = trial_bridge();
  p.conditions.temperature = {};
  const trial::Built b = trial::build(p);
  const auto tables = field_tables(p, b.bridge, b.deck);
  const auto row = [&](const char* name, const char* what, std::size_t n) -> const Cell& {
    for (const FieldTable& f : tables) {
      if (f.table.name != name) continue;
      for (std::size_t i = 0; i < f.table.columns.size(); ++i)
        if (f.table.columns[i].name == what) return f.table.rows.at(n).at(i);
    }
    FAIL(what);
    return tables.front().table.rows.front().front();
  };
  const auto text = [](const Cell& c) { return std::get<std::string>(c); };
  CHECK(text(row("field-splices", "allows_station", 0)) == "±15");
  CHECK(text(row("field-splices", "allows_length", 0)) == "+30");
  CHECK(text(row("field-splices", "allows_bolts", 0)) == "+5");
  CHECK(std::get<Length>(row("field-splices", "bolts_mm", 0)) == mm(40));
  CHECK(text(row("field-supports", "allows_station", 0)) == "not computed");
  // G1 in the joint before panel 4: 24 to the clip's insert; the edge of the panel is far to the right.
  CHECK(text(row("field-girders", "allows_offset", 3)).ends_with(" +24"));
  for (const char* side : {"+24", "+25"}) {
    MeasuredData m = measured(MeasuredThing::girder, "G1");
    m.station = b.deck.joints[3].station;
    m.offset = mm(740 + std::stod(side + 1));
    CHECK((said(p, m).find("measured-girder") != std::string::npos) == (std::string(side) == "+25"));
  }
}

TEST_CASE("steel room: the hollow's sides as designed, and what may be off of the splice") {
  const Project p = trial_bridge();
  const trial::Built b = trial::build(p);
  for (const Splice& s : b.bridge.splices) {
    const auto rooms = recess_rooms(p, b.bridge, b.deck, s);
    REQUIRE(rooms.size() == 1);
    CHECK(*rooms[0].around() == doctest::Approx(20));
    CHECK(rooms[0].above == doctest::Approx(10));
    CHECK(*splice_room(p, b.bridge, b.deck, s).ahead == doctest::Approx(15));
  }
}
