// Hollows over splices: room for plate and bolts where the panel lies off its place.
#include <fmt/format.h>

#include <map>
#include <optional>

#include "checks/parts.h"
#include "deck/site.h"
#include "deck/steel_room.h"

namespace deckquire {
namespace {

/// The tightest side of a hollow.
struct Room {
  RecessRoom of;
  const Splice* splice = nullptr;
  double room = 0;
  const char* side = "";
};

void say(const FitCheck& c, const Room& r, int more, double tolerance) {
  const Place place = c.data().section.place;
  c.findings.error(
      place, "recess-clearance",
      fmt::format("recess {} in panel {} at {} leaves {} to the splice{} {}{}", r.splice->name,
                  r.of.panel->position, c.position(*r.of.panel, r.of.recess->at), c.length(r.room),
                  FitCheck::also_at(r.splice->place, place), r.side, and_more(more)),
      fmt::format("keep {}, the setting tolerance: {} short; give <recess> more around or over",
                  c.length(tolerance), c.length(tolerance - r.room)));
}

/// A splice that is lower than the pads needs no hollow; then the soffit must clear its bolts.
void check_under_soffit(const FitCheck& c, double tolerance) {
  const double pad = c.data().pads ? c.data().pads->thickness.in_mm() : 0;
  for (const Splice& s : c.bridge.splices) {
    const double room = pad - (s.plate + s.projection).in_mm();
    if (recess_depth(s, c.data()) > 0 || room + 1e-4 >= tolerance) continue;
    const Place place = c.data().section.place;
    c.findings.error(
        place, "recess-clearance",
        fmt::format("the soffit is {} above the bolts of splice {}{} at {}", c.length(room), s.name,
                    FitCheck::also_at(s.place, place), print_station(s.station, c.project.units)),
        fmt::format("keep {}, the setting tolerance: give <recess> more over",
                    c.length(tolerance)));
    return;
  }
}

}  // namespace

void check_splices(const FitCheck& c) {
  const double tolerance = setting_tolerance(c.project);
  std::map<std::string, const Splice*> splices;
  for (const Splice& s : c.bridge.splices) splices[s.name] = &s;
  std::optional<Room> worst;
  int more = -1;
  for (const Panel& p : c.deck.panels)
    for (const Feature& f : p.shape.features) {
      if (f.kind != FeatureKind::recess || !splices.count(f.source)) continue;
      const Splice& splice = *splices[f.source];
      const RecessRoom of = recess_room(c.project, c.bridge, p, f, splice);
      const Room r{of, &splice, of.least().room, of.least().side};
      if (r.room + 1e-4 >= tolerance) continue;
      if (!worst || r.room < worst->room - 1e-6) worst = r;
      ++more;
    }
  if (worst) say(c, *worst, more, tolerance);
  check_under_soffit(c, tolerance);
}

}  // namespace deckquire
