#include "project/extract.h"

namespace deckquire {
namespace {

AlignmentData extract_alignment(const Fields& f) {
  AlignmentData a;
  a.from = f.length("from");
  a.to = f.length("to");
  a.easting = f.length("easting");
  a.northing = f.length("northing");
  a.bearing = Angle::si(f.si("bearing"));
  a.place = f.place();
  f.each("grade", [&](const Fields& e) {
    const Length curve = e.optional_length("curve").value_or(Length());
    a.grades.push_back({e.length("at"), e.length("level"), e.place(), curve});
  });
  f.each("curve", [&](const Fields& e) {
    a.curves.push_back({e.length("from"), e.length("to"), e.length("radius"),
                        e.text("turn") == "left", e.place()});
  });
  f.each("transition", [&](const Fields& e) {
    a.transitions.push_back({e.length("from"), e.length("to"), e.place()});
  });
  return a;
}

SpliceData extract_splice(const Fields& f) {
  SpliceData s;
  s.name = f.text("name");
  s.girder = f.text("girder");
  s.station = f.length("at");
  s.length = f.length("length");
  s.width = f.length("width");
  s.plate = f.length("plate");
  s.projection = f.length("projection");
  s.rows = f.integer("rows");
  s.lines = f.integer("lines");
  s.bolt = f.length("bolt");
  s.place = f.place();
  return s;
}

ObstructionData extract_obstruction(const Fields& f) {
  ObstructionData o;
  o.name = f.text("name");
  o.kind = f.text("kind");
  o.station = f.length("at");
  o.offset = f.length("offset");
  o.diameter = f.optional_length("diameter");
  o.length = f.optional_length("length");
  o.width = f.optional_length("width");
  o.clearance = f.length("clearance");
  o.place = f.place();
  return o;
}

CrossingData extract_crossing(const Fields& f) {
  CrossingData c;
  c.name = f.text("name");
  const std::string kind = f.text("kind");
  c.kind = kind == "road"      ? CrossingKind::road
           : kind == "railway" ? CrossingKind::railway
           : kind == "path"    ? CrossingKind::path
                               : CrossingKind::water;
  c.from = f.length("from");
  c.to = f.length("to");
  c.left = f.optional_length("left");
  c.right = f.optional_length("right");
  c.level = f.optional_length("level");
  c.headroom = f.optional_length("headroom");
  c.outlets_allowed = f.text("outlets") == "allowed";
  c.clear = f.length("clear");
  c.place = f.place();
  return c;
}

MeasuredData extract_measured(const Fields& f) {
  MeasuredData m;
  const std::string of = f.text("of");
  m.of = of == "splice"    ? MeasuredThing::splice
         : of == "girder"  ? MeasuredThing::girder
         : of == "support" ? MeasuredThing::support
                           : MeasuredThing::obstruction;
  m.name = f.text("name");
  m.girder = f.text("girder");
  m.station = f.optional_length("at");
  m.offset = f.optional_length("offset");
  m.level = f.optional_length("level");
  m.length = f.optional_length("length");
  m.width = f.optional_length("width");
  m.projection = f.optional_length("projection");
  m.diameter = f.optional_length("diameter");
  m.by = f.text("by");
  m.date = f.text("date");
  m.place = f.place();
  return m;
}

}  // namespace

BridgeData extract_bridge(const Fields& f, const std::string& title) {
  BridgeData b;
  b.name = f.given("name") ? f.text("name") : title;
  b.structure = f.text("structure");
  b.location = f.text("location");
  b.alignment = extract_alignment(f.child("alignment"));
  b.place = f.place();
  f.each("support", [&](const Fields& e) {
    b.supports.push_back({e.text("name"), e.text("kind"), e.length("at"), e.place(),
                          e.optional_length("top")});
  });
  f.each("girder", [&](const Fields& e) {
    b.girders.push_back({e.text("name"), e.length("offset"), e.length("flange"),
                         e.length("from", b.alignment.from), e.length("to", b.alignment.to),
                         e.place(), e.text("course") == "straight"});
  });
  f.each("splice", [&](const Fields& e) { b.splices.push_back(extract_splice(e)); });
  f.each("obstruction", [&](const Fields& e) { b.obstructions.push_back(extract_obstruction(e)); });
  f.each("crossing", [&](const Fields& e) { b.crossings.push_back(extract_crossing(e)); });
  f.each("measured", [&](const Fields& e) { b.measured.push_back(extract_measured(e)); });
  return b;
}

}  // namespace deckquire
