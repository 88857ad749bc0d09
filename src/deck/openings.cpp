// Scuppers, hatches and sleeves: what goes through a panel.
#include <fmt/format.h>

#include <algorithm>

#include "deck/features.h"
#include "deck/scuppers.h"

namespace deckquire {
namespace {

/// What every thing through the deck has: its words and place for messages.
struct Thing {
  const char* kind;
  const std::string& name;
  Length station;
  const Place& place;
};

/// False, and an error that names the joint, where the box does not lie between the panel's faces.
bool between_faces(const PanelSite& site, const Thing& t, const Box<PanelFrame>& b) {
  const auto least = [&](auto room) { return std::min(room(b.low.y), room(b.high.y)); };
  const double back = least([&](double y) { return b.low.x - site.back_x(y); });
  const double ahead = least([&](double y) { return site.ahead_x(y) - b.high.x; });
  if (back < 0 || ahead < 0) {
    const Joint& joint = nearest_joint(site.division, t.station);
    const double over = back < 0 ? -back : -ahead;
    const bool beside = over > b.width();
    site.findings.error(
        t.place, fmt::format("{}-across-joint", t.kind),
        fmt::format("{} {} at {} {} joint {} at {}", t.kind, t.name,
                    site.printed_station(t.station), beside ? "is beyond" : "crosses", joint.name,
                    site.printed_station(joint.station)),
        fmt::format("move it by at least {} {}", site.printed(mm(over)),
                    back < 0 ? "ahead" : "back"));
    return false;
  }
  return true;
}

/// False, and an error, where the box does not lie within the panel and between its curbs.
bool within_panel(const PanelSite& site, const Thing& t, const Box<PanelFrame>& b) {
  if (!between_faces(site, t, b)) return false;
  for (double x : {b.low.x, b.high.x})
    for (Side side : {Side::left, Side::right}) {
      const double reach = side == Side::left ? b.high.y : -b.low.y;
      const double room = sign(side) * site.inner_foot(side, x);
      if (reach <= room + 1e-6) continue;
      const char* of = !site.deck_edge(side) ? "row joint" : site.has_curb(side) ? "curb" : "edge";
      site.findings.error(
          t.place, fmt::format("{}-outside-deck", t.kind),
          fmt::format("{} {} at {} reaches {} beyond the {} of the {} side", t.kind, t.name,
                      site.printed_station(t.station), site.printed(mm(reach - room)), of,
                      side == Side::left ? "left" : "right"),
          site.deck_edge(side) ? "move it towards the middle of the deck"
                               : "move it into one row of panels");
      return false;
    }
  return true;
}

/// The body of a scupper, some of which may lie under the curb: false, and an error, where it does
/// not lie within the panel.
bool body_within_panel(const PanelSite& site, const Thing& t, const Feature& f) {
  if (!between_faces(site, t, f.box())) return false;
  const double over = body_beyond_edge(site, f);
  if (over <= 1e-6) return true;
  site.findings.error(t.place, "scupper-outside-deck",
                      fmt::format("the body of scupper {} at {} reaches {} beyond the edge", t.name,
                                  site.printed_station(t.station), site.printed(mm(over))),
                      "give <scuppers> a greater inset, or a narrower <body>");
  return false;
}

/// The first of `all` that is the same part as all[i], so that equal parts share a mark.
template <class Data, class Same>
int variant_of(const std::vector<Data>& all, std::size_t i, Same same) {
  for (std::size_t k = 0; k < i; ++k)
    if (same(all[k], all[i])) return static_cast<int>(k);
  return static_cast<int>(i);
}

bool same_hatch(const HatchData& a, const HatchData& b) {
  return a.length == b.length && a.width == b.width && a.rebate == b.rebate &&
         a.rebate_depth == b.rebate_depth && a.cover == b.cover && a.bolt == b.bolt &&
         a.bolts == b.bolts && a.lift == b.lift;
}

bool same_sleeve(const SleeveData& a, const SleeveData& b) {
  return a.diameter == b.diameter && a.wall == b.wall;
}

/// Signed y of the grate's middle, its nearer corner `inset` from the foot of the curb.
double grate_middle(const PanelSite& site, Side side, double x) {
  const ScuppersData& s = *site.deck().scuppers;
  const double half = s.grate_length.in_mm() / 2;
  const Chain& edge = site.edge(side);
  double room = 1e300;
  for (double at : {x - half, x + half})
    room = std::min(
        room, sign(side) * site.inner_foot(side, std::clamp(at, edge.front().x, edge.back().x)));
  return sign(side) * (room - (s.inset + s.grate_width / 2).in_mm());
}

}  // namespace

Feature scupper_at(const PanelSite& site, Side side, Length station) {
  const ScuppersData& data = *site.deck().scuppers;
  const double x = site.edge_point(side, station).x;
  Feature f;
  f.kind = FeatureKind::scupper;
  f.at = {x, grate_middle(site, side, x)};
  f.length = data.body_length.in_mm();
  f.width = data.body_width.in_mm();
  f.depth = (data.cavity + data.wall).in_mm();
  f.variant = static_cast<int>(side);
  return f;
}

Box<PanelFrame> scupper_reach(const Feature& f, const ScuppersData& data) {
  const double l = data.grate_length.in_mm() / 2, w = data.grate_width.in_mm() / 2;
  Box<PanelFrame> reach{{f.box().low.x, f.at.y - w}, {f.box().high.x, f.at.y + w}};
  reach.low.x = std::min(reach.low.x, f.at.x - l);
  reach.high.x = std::max(reach.high.x, f.at.x + l);
  return reach;
}

double body_beyond_edge(const PanelSite& site, const Feature& f) {
  const Side side = static_cast<Side>(f.variant);
  const Box<PanelFrame> b = f.box();
  double most = -1e300;
  for (double x : {b.low.x, b.high.x})
    most = std::max(
        most, side == Side::left ? b.high.y - site.edge(side, x) : site.edge(side, x) - b.low.y);
  return most;
}

void add_scuppers(const PanelSite& site, PanelShape& shape) {
  for (int n : site.here().scuppers) {
    const PlacedScupper& s = site.division.scuppers[static_cast<std::size_t>(n)];
    Feature f = scupper_at(site, s.side, s.station);
    f.place = s.place;
    f.source = s.name;
    const ScuppersData& data = *site.deck().scuppers;
    const Thing thing{"scupper", f.source, s.station, s.place};
    if (!within_panel(site, thing, scupper_reach(f, data)) || !body_within_panel(site, thing, f))
      continue;
    shape.features.push_back(f);
    shape.openings.push_back(circle_ring(f.at, data.outlet.in_mm()));
  }
}

void add_hatches(const PanelSite& site, PanelShape& shape) {
  const auto& hatches = site.deck().hatches;
  for (int n : site.here().hatches) {
    const auto i = static_cast<std::size_t>(n);
    const HatchData& h = hatches[i];
    Feature f;
    f.kind = FeatureKind::hatch;
    f.at = site.at(h.station, h.offset);
    f.place = h.place;
    f.length = h.length.in_mm();
    f.width = h.width.in_mm();
    f.depth = h.rebate_depth.in_mm();
    f.variant = variant_of(hatches, i, same_hatch);
    f.source = h.name;
    if (!within_panel(site, {"hatch", h.name, h.station, h.place}, f.box().grown(h.rebate.in_mm())))
      continue;
    shape.features.push_back(f);
    shape.openings.push_back(box_ring(f.box()));
  }
}

void add_sleeves(const PanelSite& site, PanelShape& shape) {
  const auto& sleeves = site.deck().sleeves;
  for (int n : site.here().sleeves) {
    const auto i = static_cast<std::size_t>(n);
    const SleeveData& s = sleeves[i];
    Feature f;
    f.kind = FeatureKind::sleeve;
    f.at = site.at(s.station, s.offset);
    f.place = s.place;
    f.length = f.width = s.diameter.in_mm();
    f.round = true;
    f.variant = variant_of(sleeves, i, same_sleeve);
    f.source = s.name;
    if (!within_panel(site, {"sleeve", s.name, s.station, s.place}, f.box().grown(s.wall.in_mm())))
      continue;
    shape.features.push_back(f);
    shape.openings.push_back(circle_ring(f.at, f.length));
  }
}

}  // namespace deckquire
