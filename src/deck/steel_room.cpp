#include "deck/steel_room.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "base/convex.h"
#include "deck/site.h"

namespace deckquire {
namespace {

constexpr double panel_reach = 60000;  // no panel is so long, whatever skews and curves add

/// Panels that may reach a station; they stand in the order of their stations.
struct PanelsAbout {
  std::vector<Panel>::const_iterator first, last;
  PanelsAbout(const Deck& deck, Length station) {
    const auto& all = deck.panels;
    first = std::partition_point(all.begin(), all.end(), [&](const Panel& p) {
      return p.start < station - mm(panel_reach);
    });
    last = std::partition_point(first, all.end(), [&](const Panel& p) {
      return p.start < station + mm(panel_reach);
    });
  }
  auto begin() const { return first; }
  auto end() const { return last; }
};

double pad_of(const Project& project) {
  return project.deck.pads ? project.deck.pads->thickness.in_mm() : 0;
}

/// What stands up of a splice, in a panel's frame: its plate with the bolt heads. A head is taken as
/// wide as its washer, twice the bolt's diameter.
Box<PanelFrame> steel_box(const Bridge& bridge, const Splice& s, const Panel& p) {
  Ring<PanelFrame> c;  // along, then across
  if (bridge.alignment.straight())
    for (const BridgePoint& b : box_ring(s.plan)) c.push_back(p.frame.panel(bridge.alignment, b));
  else
    for (const GroundPoint& g : splice_ring(bridge, s)) c.push_back(p.frame.panel(g));
  Box<PanelFrame> all = bounds(c);
  const double radius = s.bolt.in_mm();
  for (int i = 0; i < s.rows; ++i)
    for (int j = 0; j < s.lines; ++j) {
      const double u = (i + 0.5) / s.rows, v = (j + 0.5) / s.lines;
      const PanelPoint at = c[0] + (c[1] - c[0]) * u + (c[3] - c[0]) * v;
      all.low = {std::min(all.low.x, at.x - radius), std::min(all.low.y, at.y - radius)};
      all.high = {std::max(all.high.x, at.x + radius), std::max(all.high.y, at.y + radius)};
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

void lower(std::optional<double>& least, const std::optional<double>& room, double kept) {
  if (!room) return;
  least = std::min(least.value_or(1e300), *room - kept);
}

// ---- girders

/// Narrows one side of a flange's room.
void end_at(double room, std::string by, double& side, std::string& end) {
  if (room >= side - 1e-9) return;
  side = room;
  end = std::move(by);
}

/// Where the panel's outline lies on a line across it, at a share of its length; the stretch that has
/// the most of the flange.
std::optional<std::pair<double, double>> stretch_over(const PanelShape& s, double share, double low,
                                                      double high) {
  const double slope = s.back_slope + (s.ahead_slope - s.back_slope) * share, x0 = s.length * share;
  std::vector<double> ys;
  for (std::size_t i = 0; i < s.outline.size(); ++i) {
    const PanelPoint p = s.outline[i], q = s.outline[(i + 1) % s.outline.size()];
    const double a = p.x - x0 - slope * p.y, b = q.x - x0 - slope * q.y;
    if ((a < 0) != (b < 0)) ys.push_back(p.y + (q.y - p.y) * a / (a - b));
  }
  std::sort(ys.begin(), ys.end());
  std::optional<std::pair<double, double>> best;
  double most = -1e300;
  for (std::size_t i = 0; i + 1 < ys.size(); i += 2) {
    const double shared = std::min(ys[i + 1], high) - std::max(ys[i], low);
    if (shared <= most) continue;
    most = shared;
    best = {ys[i], ys[i + 1]};
  }
  return best;
}

class Flanges {
 public:
  Flanges(const Project& project, const Bridge& bridge, const Girder& girder, double shift,
          double flange)
      : project_(project),
        bridge_(bridge),
        girder_(girder),
        shift_(shift),
        half_(flange / 2),
        least_(project.deck.section.least_bearing.in_mm()),
        tolerance_(setting_tolerance(project)) {}

  /// False where the panel does not lie over the girder at that station.
  bool add(const Panel& p, BridgePoint place, double joint, FlangeRoom& room) const {
    const PanelShape& s = p.shape;
    const PanelPoint at = p.frame.panel(bridge_.alignment, place);
    const double back = s.back_x(at.y), ahead = s.ahead_x(at.y);
    if (at.x < back - joint || at.x > ahead + joint) return false;
    const double share = std::clamp((at.x - back) / (ahead - back), 0.001, 0.999);
    const auto over = stretch_over(s, share, at.y - half_, at.y + half_);
    // Beside a panel of another row.
    if (!over || over->first > at.y + half_ || over->second < at.y - half_) return false;
    const std::string name = fmt::format(" of panel {}", p.position);
    bear(at.y, over->first, over->second, "bearing" + name, room);
    for (const Feature& f : s.features) add(p, f, at.x, name, room);
    return true;
  }

 private:
  /// A flange about `middle` under what reaches from `low` to `high`.
  void bear(double middle, double low, double high, const std::string& name, FlangeRoom& room) const {
    end_at(high - (middle - half_) - least_, name, room.left, room.left_end);
    end_at(middle + half_ - low - least_, name, room.right, room.right_end);
    const double edges = std::min(high - middle, middle - low) + half_ - least_;
    room.narrower = std::min(room.narrower, 2 * std::min(half_ - least_ / 2, edges));
  }

  void add(const Panel& p, const Feature& f, double x, const std::string& name, FlangeRoom& room) const {
    const bool own = f.source == girder_.name;
    if (f.kind == FeatureKind::pad && own) {
      constexpr double near = 300;  // of its end: pads stop before joints and recesses
      if (std::abs(x - f.at.x) > f.length / 2 + near) return;
      const double middle = f.at.y + std::tan(f.angle) * (x - f.at.x), half = f.width / 2;
      bear(middle_at(p, {x, middle}), middle - half, middle + half, "pad" + name, room);
    }
    if (f.kind == FeatureKind::hold_down && own) clip(p, f, name, room);
    if (f.kind == FeatureKind::hatch || f.kind == FeatureKind::sleeve) opening(p, f, f.box(), name, room);
    if (f.kind == FeatureKind::scupper) {
      const double r = project_.deck.scuppers->outlet.in_mm() / 2;
      opening(p, f, Box<PanelFrame>{f.at, f.at}.grown(r), name, room);
    }
  }

  /// y of the flange's middle beside a point of the panel.
  double middle_at(const Panel& p, PanelPoint at) const {
    const BridgePoint b = p.frame.bridge(bridge_.alignment, at);
    return p.frame.panel(bridge_.alignment, {b.x, girder_offset(bridge_, girder_, b.x) + shift_}).y;
  }

  void opening(const Panel& p, const Feature& f, const Box<PanelFrame>& box, const std::string& name,
               FlangeRoom& room) const {
    const double middle = middle_at(p, f.at);
    const std::string what = fmt::format("{} {}{}", feature_name(f.kind), f.source, name);
    if (box.centre().y > middle)
      end_at(box.low.y - (middle + half_) - tolerance_, what, room.left, room.left_end);
    else
      end_at(middle - half_ - box.high.y - tolerance_, what, room.right, room.right_end);
    const double beside = std::max(box.low.y - middle, middle - box.high.y) - half_ - tolerance_;
    room.wider = std::min(room.wider, 2 * beside);
  }

  /// An insert beside the flange; one over it goes through a hole of the flange, drilled from below.
  void clip(const Panel& p, const Feature& f, const std::string& name, FlangeRoom& room) const {
    const double middle = middle_at(p, f.at);
    const double beside = std::abs(f.at.y - middle) - half_;
    if (beside <= 0) return;
    room.clip_least = std::min(room.clip_least.value_or(1e300), beside);
    room.clip_most = std::max(room.clip_most.value_or(0), beside);
    const double free = beside - thread_diameter(project_.deck.hold_downs->bolt) / 2;
    room.wider = std::min(room.wider, 2 * free);
    if (f.at.y > middle)
      end_at(free, "clip" + name, room.left, room.left_end);
    else
      end_at(free, "clip" + name, room.right, room.right_end);
  }

  const Project& project_;
  const Bridge& bridge_;
  const Girder& girder_;
  double shift_, half_, least_, tolerance_;
};

// ---- obstructions

using PanelShapeOf = Convex<PanelFrame>;

PanelShapeOf shape_in(const Bridge& bridge, const Panel& p, const Obstruction& o) {
  const Alignment& line = bridge.alignment;
  if (o.diameter)
    return {{p.frame.panel(line, {o.station.in_mm(), o.offset.in_mm()})}, o.diameter->in_mm() / 2};
  PanelShapeOf s;
  if (line.straight())
    for (const BridgePoint& b : o.outline) s.core.push_back(p.frame.panel(line, b));
  else
    for (const GroundPoint& g : obstruction_ring(bridge, o)) s.core.push_back(p.frame.panel(g));
  return s;
}

/// From an obstruction to the sides of a ring; nearer sides only.
void offer_ring(const Ring<PanelFrame>& ring, const PanelShapeOf& shape, ObstructionRoom& best) {
  for (std::size_t i = 0; i < ring.size(); ++i) {
    const PanelShapeOf side{{ring[i], ring[(i + 1) % ring.size()]}, 0};
    const Separation<PanelFrame> s = separation(shape, side);
    if (s.distance < best.distance) best.distance = s.distance, best.at = s.at;
  }
}

/// A round opening about a round obstruction: the openings are kept as rings of many sides, which
/// are a trifle nearer than the circle.
std::optional<double> in_round_opening(const Panel& p, const Obstruction& o, PanelPoint centre) {
  if (!o.diameter) return std::nullopt;
  for (const Feature& f : p.shape.features)
    if (f.kind == FeatureKind::notch && f.round && f.source == o.name)
      return (f.length - o.diameter->in_mm()) / 2 - std::hypot(f.at.x - centre.x, f.at.y - centre.y);
  return std::nullopt;
}

}  // namespace

RecessRoom::Least RecessRoom::least() const {
  Least l{above, "above its bolts"};
  const auto side = [&](const std::optional<double>& room, const char* name) {
    if (room && *room < l.room - 1e-6) l = {*room, name};
  };
  side(behind, "behind it");
  side(ahead, "ahead of it");
  side(left, "left of it");
  side(right, "right of it");
  return l;
}

std::optional<double> RecessRoom::around() const {
  std::optional<double> least;
  for (const auto& side : {behind, ahead, left, right}) lower(least, side, 0);
  return least;
}

RecessRoom recess_room(const Project& project, const Bridge& bridge, const Panel& p,
                       const Feature& recess, const Splice& splice) {
  const Box<PanelFrame> hollow = recess.box(), steel = steel_box(bridge, splice, p);
  RecessRoom r{&p, &recess, recess.depth - (splice.plate + splice.projection).in_mm() + pad_of(project),
               {}, {}, {}, {}};
  const PanelShape& s = p.shape;
  if (!open_along(s, hollow.low.x, hollow, false)) r.behind = steel.low.x - hollow.low.x;
  if (!open_along(s, hollow.high.x, hollow, true)) r.ahead = hollow.high.x - steel.high.x;
  if (!open_across(p, hollow, true)) r.left = hollow.high.y - steel.high.y;
  if (!open_across(p, hollow, false)) r.right = steel.low.y - hollow.low.y;
  return r;
}

std::vector<RecessRoom> recess_rooms(const Project& project, const Bridge& bridge, const Deck& deck,
                                     const Splice& splice) {
  std::vector<RecessRoom> out;
  for (const Panel& p : PanelsAbout(deck, splice.station))
    for (const Feature& f : p.shape.features)
      if (f.kind == FeatureKind::recess && f.source == splice.name)
        out.push_back(recess_room(project, bridge, p, f, splice));
  return out;
}

bool stands_under(const Bridge& bridge, const Panel& p, const Splice& splice) {
  if (abs(p.start - splice.station) > mm(panel_reach)) return false;
  const Ring<PanelFrame> steel = box_ring(steel_box(bridge, splice, p));
  return distance(steel, p.shape.outline) <= 0;
}

SpliceRoom splice_room(const Project& project, const Bridge& bridge, const Deck& deck,
                       const Splice& splice) {
  const double kept = setting_tolerance(project);
  SpliceRoom all;
  for (const RecessRoom& r : recess_rooms(project, bridge, deck, splice)) {
    lower(all.back, r.behind, kept);
    lower(all.ahead, r.ahead, kept);
    lower(all.left, r.left, kept);
    lower(all.right, r.right, kept);
    lower(all.up, r.above, kept);
  }
  // One that is lower than the pads needs no hollow.
  if (!all.up) all.up = pad_of(project) - (splice.plate + splice.projection).in_mm() - kept;
  return all;
}

std::optional<FlangeRoom> flange_room(const Project& project, const Bridge& bridge, const Deck& deck,
                                      const Girder& girder, Length station, double offset,
                                      double flange) {
  const double shift = offset - girder_offset(bridge, girder, station.in_mm());
  const Flanges flanges(project, bridge, girder, shift, flange);
  const BridgePoint place{station.in_mm(), offset};
  FlangeRoom room;
  bool any = false;
  for (const Panel& p : PanelsAbout(deck, station)) {
    const double reach = p.shape.length + 2000;  // skewed ends
    if (p.start.in_mm() - reach > place.x || p.end.in_mm() + reach < place.x) continue;
    const auto gap = [&](int j) { return deck.joints[static_cast<std::size_t>(j)].gap.in_mm(); };
    any = flanges.add(p, place, std::max(gap(p.joint_back), gap(p.joint_ahead)), room) || any;
  }
  if (!any) return std::nullopt;
  return room;
}

Length steel_top(const Project& project, const Bridge& bridge, const Deck& deck, Length station) {
  Length top = bridge.alignment.level(station);
  for (const Panel& p : PanelsAbout(deck, station))
    if (p.start <= station && station <= p.end) {
      const Length back = bridge.alignment.level(p.start);
      const double share = (station - p.start).in_mm() / (p.end - p.start).in_mm();
      top = back + (bridge.alignment.level(p.end) - back) * share;
      break;
    }
  return top - project.deck.section.depth - mm(pad_of(project));
}

ObstructionRoom obstruction_room(const Bridge& bridge, const Panel& p, const Obstruction& o) {
  const PanelShapeOf shape = shape_in(bridge, p, o);
  PanelPoint centre;
  for (const PanelPoint& v : shape.core)
    centre = centre + v * (1.0 / static_cast<double>(shape.core.size()));
  ObstructionRoom best{&p, 1e300, {}};
  if (!contains(p.shape.outline, centre)) {
    offer_ring(p.shape.outline, shape, best);
    return best;
  }
  if (const auto room = in_round_opening(p, o, centre)) return {&p, *room, centre};
  for (const Ring<PanelFrame>& ring : p.shape.openings) {
    if (!contains(ring, centre)) continue;
    offer_ring(ring, shape, best);
    return best;
  }
  return {&p, 0, centre};  // no room is left for it at all
}

ObstructionRoom obstruction_room(const Bridge& bridge, const Deck& deck, const Obstruction& o) {
  ObstructionRoom best;
  for (const Panel& p : PanelsAbout(deck, o.station)) {
    const ObstructionRoom room = obstruction_room(bridge, p, o);
    if (room.distance < best.distance) best = room;
  }
  return best;
}

const Joint* outer_joint_at(const Bridge& bridge, const Deck& deck, const Support& support) {
  if (!support.abutment || bridge.supports.empty() || deck.joints.empty()) return nullptr;
  if (support.name == bridge.supports.front().name) return &deck.joints.front();
  if (support.name == bridge.supports.back().name) return &deck.joints.back();
  return nullptr;
}

}  // namespace deckquire
