// Hollows over splices: room for plate and bolts where the panel lies off its place.
#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <map>
#include <optional>

#include "checks/parts.h"
#include "deck/site.h"

namespace deckquire {
namespace {

/// Room between the steel and one side of a hollow.
struct Room {
  const Panel* panel = nullptr;
  const Feature* recess = nullptr;
  const Splice* splice = nullptr;
  const char* side = "";
  double room = 0;
};

/// What stands up of a splice in a panel's frame: its plate with the bolt heads.
Box<PanelFrame> steel_in_panel(const FitCheck& c, const Splice& s, const Panel& p) {
  Ring<PanelFrame> ring;
  for (const PlanPoint& v : splice_plate(c.bridge, s, c.plan).core)
    ring.push_back(c.plan.in_panel(p, v));
  Box<PanelFrame> all = bounds(ring);
  for (const PlanShape& bolt : splice_bolts(c.bridge, s, c.plan)) {
    const PanelPoint at = c.plan.in_panel(p, bolt.core.front());
    all.low = {std::min(all.low.x, at.x - bolt.radius), std::min(all.low.y, at.y - bolt.radius)};
    all.high = {std::max(all.high.x, at.x + bolt.radius), std::max(all.high.y, at.y + bolt.radius)};
  }
  return all;
}

/// A side of a hollow is open where it lies on, or beyond, a face of its panel: there the joint is.
bool open_along(const PanelShape& s, double x, const Box<PanelFrame>& hollow, bool ahead) {
  const auto within = [&](double y) {
    return ahead ? x < s.ahead_x(y) - 1e-3 : x > s.back_x(y) + 1e-3;
  };
  return !within(hollow.low.y) && !within(hollow.high.y);
}

bool open_across(const Panel& p, const Box<PanelFrame>& hollow, bool left) {
  if (!(left ? p.shape.left_joint : p.shape.right_joint)) return false;
  const auto within = [&](double x) {
    return left ? hollow.high.y < height_at(p.left_edge, x) - 1e-3
                : hollow.low.y > height_at(p.right_edge, x) + 1e-3;
  };
  return !within(hollow.low.x) && !within(hollow.high.x);
}

/// The tightest of all sides.
Room tightest(const FitCheck& c, const Panel& p, const Feature& f, const Splice& splice) {
  const Box<PanelFrame> hollow = f.box(), steel = steel_in_panel(c, splice, p);
  const double pad = c.data().pads ? c.data().pads->thickness.in_mm() : 0;
  Room r{&p, &f, &splice, "above its bolts",
         f.depth - (splice.plate + splice.projection).in_mm() + pad};
  const auto side = [&](bool open, double room, const char* name) {
    if (!open && room < r.room - 1e-6) {
      r.room = room;
      r.side = name;
    }
  };
  const PanelShape& s = p.shape;
  side(open_along(s, hollow.low.x, hollow, false), steel.low.x - hollow.low.x, "behind it");
  side(open_along(s, hollow.high.x, hollow, true), hollow.high.x - steel.high.x, "ahead of it");
  side(open_across(p, hollow, true), hollow.high.y - steel.high.y, "left of it");
  side(open_across(p, hollow, false), steel.low.y - hollow.low.y, "right of it");
  return r;
}

void say(const FitCheck& c, const Room& r, int more, double tolerance) {
  const Place place = c.data().section.place;
  c.findings.error(
      place, "recess-clearance",
      fmt::format("recess {} in panel {} at {} leaves {} to the splice{} {}{}", r.splice->name,
                  r.panel->position, c.position(*r.panel, r.recess->at), c.length(r.room),
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
      const Room r = tightest(c, p, f, *splices[f.source]);
      if (r.room + 1e-4 >= tolerance) continue;
      if (!worst || r.room < worst->room - 1e-6) worst = r;
      ++more;
    }
  if (worst) say(c, *worst, more, tolerance);
  check_under_soffit(c, tolerance);
}

}  // namespace deckquire
