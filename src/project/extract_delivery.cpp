#include <algorithm>

#include "project/extract.h"

namespace deckquire {
namespace {

std::optional<Mass> optional_mass(const Fields& f, const char* name) {
  const auto si = f.optional_si(name);
  return si ? std::optional(Mass::si(*si)) : std::nullopt;
}

Mass mass_of(const Fields& f, const char* name) {
  return optional_mass(f, name).value_or(Mass{});
}

AxlesData extract_axles(const Fields& f) {
  AxlesData a;
  a.steer = mass_of(f, "steer");
  a.drive = mass_of(f, "drive");
  a.trailer = mass_of(f, "trailer");
  a.wheelbase = f.length("wheelbase");
  a.fifth_wheel = f.length("fifth-wheel");
  a.kingpin = f.length("kingpin");
  a.bed_ahead = f.length("bed-ahead");
  a.steer_limit = optional_mass(f, "steer-limit");
  a.drive_limit = optional_mass(f, "drive-limit");
  a.trailer_limit = optional_mass(f, "trailer-limit");
  a.gross_limit = optional_mass(f, "gross-limit");
  a.place = f.place();
  return a;
}

TruckData extract_truck(const Fields& f) {
  TruckData t;
  t.name = f.text("name");
  t.length = f.length("length");
  t.width = f.length("width");
  t.height = f.optional_length("height");
  t.payload = optional_mass(f, "payload");
  t.panels = f.optional_integer("panels");
  t.dunnage = f.length("dunnage");
  t.between = f.length("between");
  t.overhang = f.length("overhang");
  t.source = f.text("source");
  f.each("axles", [&](const Fields& e) { t.axles = extract_axles(e); });
  t.place = f.place();
  return t;
}

CraneData extract_crane(const Fields& f) {
  CraneData c;
  c.name = f.text("name");
  c.station = f.length("at");
  c.offset = f.length("offset");
  c.tackle = mass_of(f, "tackle");
  c.source = f.text("source");
  f.each("reach", [&](const Fields& e) {
    c.chart.push_back({e.length("radius"), mass_of(e, "mass"), e.place()});
  });
  std::stable_sort(c.chart.begin(), c.chart.end(),
                   [](const ReachData& a, const ReachData& b) { return a.radius < b.radius; });
  c.place = f.place();
  return c;
}

ErectionData extract_erection(const Fields& f) {
  ErectionData d;
  const std::string order = f.text("order");
  d.way = order == "both-ends"  ? ErectionWay::both_ends
          : order == "from-end" ? ErectionWay::from_end
          : order == "given"    ? ErectionWay::given
                                : ErectionWay::from_start;
  f.each("next", [&](const Fields& e) {
    d.nexts.push_back({e.optional_integer("panel"), e.text("span"), e.place()});
  });
  f.each("wait", [&](const Fields& e) {
    d.waits.push_back({e.integer("panel"), e.integer("for"), e.place()});
  });
  f.each("blocked", [&](const Fields& e) {
    d.blocked.push_back({e.integer("panel"), e.text("why"), e.place()});
  });
  f.each("crane", [&](const Fields& e) { d.cranes.push_back(extract_crane(e)); });
  d.place = f.place();
  return d;
}

}  // namespace

void extract_delivery(const Fields& conditions, Conditions& into) {
  conditions.each("truck", [&](const Fields& e) { into.truck = extract_truck(e); });
  conditions.each("erection", [&](const Fields& e) { into.erection = extract_erection(e); });
  conditions.each("torque", [&](const Fields& e) {
    const std::string of = e.text("of");
    const Fastener fastener = of == "hold-downs"     ? Fastener::hold_down
                              : of == "grates"       ? Fastener::grate
                              : of == "hatch-covers" ? Fastener::hatch_cover
                                                     : Fastener::rail_post;
    into.torques.push_back({fastener, e.si("value"), e.text("source"), e.place()});
  });
}

}  // namespace deckquire
