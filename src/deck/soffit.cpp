// Recesses, pads, hold-downs and the tag: what is under a panel.
#include <algorithm>
#include <cmath>

#include "base/text.h"
#include "deck/features.h"
#include "deck/spread.h"

namespace deckquire {
namespace {

using Interval = std::pair<double, double>;
constexpr double between_inserts = 40;  // least of their skins, mm (common practice, no source)

/// A girder under a panel: its centre line from face to face, and the part of its flange that the
/// panel covers (beside a row joint about half of it).
struct Bearing {
  const Girder& girder;
  PanelPoint back, ahead;    // of the centre line
  double low = 0, high = 0;  // from the centre line to the covered part's sides
  double y(double x) const {
    return back.x == ahead.x ? back.y
                             : back.y + (ahead.y - back.y) * (x - back.x) / (ahead.x - back.x);
  }
  double angle() const { return std::atan2(ahead.y - back.y, ahead.x - back.x); }
};

std::vector<Bearing> bearings_of(const PanelSite& site) {
  std::vector<Bearing> out;
  for (const Girder& g : site.bridge.girders) {
    const auto line = site.girder_line(g);
    if (!line) continue;
    const PanelPoint middle = (line->first + line->second) * 0.5;
    const double half = g.flange.in_mm() / 2;
    const double low = std::max(-half, site.edge(Side::right, middle.x) - middle.y);
    const double high = std::min(half, site.edge(Side::left, middle.x) - middle.y);
    if (high > low) out.push_back({g, line->first, line->second, low, high});
  }
  return out;
}

/// Intervals along x that a hold-down of one girder at y must keep out of (their ends are allowed).
std::vector<Interval> kept_out(const PanelSite& site, const PanelShape& shape, double girder_y,
                               PanelPoint insert) {
  const double radius = thread_diameter(site.deck().hold_downs->bolt);
  const double clear = radius + site.deck().hold_downs->clear.in_mm();
  const double back = shape.back_x(insert.y) + clear * std::hypot(1, shape.back_slope);
  const double ahead = shape.ahead_x(insert.y) - clear * std::hypot(1, shape.ahead_slope);
  std::vector<Interval> out{{-1e9, back}, {ahead, 1e9}};
  for (const Feature& f : shape.features) {
    const bool recess = f.kind == FeatureKind::recess;
    const bool through = f.kind == FeatureKind::hatch || f.kind == FeatureKind::scupper ||
                         f.kind == FeatureKind::sleeve || f.kind == FeatureKind::notch;
    if (!recess && !through) continue;
    const Box<PanelFrame> b = footprint(f, site.deck()).grown(clear);
    // A splice keeps the clip off its girder over its whole length, wherever the flange edge is.
    const bool same_girder = recess && std::abs(f.at.y - girder_y) < f.width / 2;
    if (same_girder || (b.low.y < insert.y && insert.y < b.high.y))
      out.push_back({b.low.x, b.high.x});
  }
  return out;
}

/// Side of the flange for the nth insert of a girder: away from the alignment; beside a row joint
/// the side that the panel covers.
double flange_side(const Bearing& b, int n) {
  const Girder& g = b.girder;
  const double half = g.flange.in_mm() / 2;
  if (b.high < half - 1e-6) return -1;
  if (b.low > -half + 1e-6) return 1;
  if (g.left() > Length() && g.right() < Length()) return n % 2 == 0 ? 1 : -1;
  return g.offset < Length() ? -1 : 1;
}

/// The clips of one girder under one panel, while they are being placed. Places count in print
/// units from the first clip's place.
struct ClipRow {
  const PanelSite& site;
  const Bearing& bearing;
  const PanelShape& shape;
  double unit;         // mm
  double first, last;  // x of the outer clips

  ClipRow(const PanelSite& s, const Bearing& b, const PanelShape& p)
      : site(s), bearing(b), shape(p), unit(print_unit(s.project.units).in_mm()) {
    const double y = b.y(p.length / 2) + aside(0), from_joint = data().from_joint.in_mm();
    first = p.back_x(y) + from_joint;
    last = p.ahead_x(y) - from_joint;
    if (last < first) std::swap(first, last);  // a short panel
  }
  const HoldDownData& data() const { return *site.deck().hold_downs; }
  double aside(int n) const {
    return flange_side(bearing, n) * (bearing.girder.flange / 2 + data().gauge).in_mm();
  }
  PanelPoint at(double x, int n) const { return {x, bearing.y(x) + aside(n)}; }
  double x(std::int64_t place) const { return first + static_cast<double>(place) * unit; }
  Stretch ends() const { return {0, std::llround((last - first) / unit)}; }
  std::int64_t units(Length a) const { return std::llround(a.in_mm() / unit); }

  std::vector<Stretch> allowed(std::int64_t ideal, int n) const {
    const double there = x(ideal);
    const auto out = kept_out(site, shape, bearing.y(there), at(there, n));
    std::vector<Stretch> forbidden;
    for (const Interval& i : out)
      forbidden.push_back({static_cast<std::int64_t>(std::floor((i.first - first) / unit + 1e-6)),
                           static_cast<std::int64_t>(std::ceil((i.second - first) / unit - 1e-6))});
    const std::int64_t beyond = std::llround(shape.length / unit);
    return allowed_between({-beyond, 2 * beyond}, forbidden);
  }

  std::optional<std::vector<std::int64_t>> placed(int count, std::optional<Length> greatest,
                                                  double least = between_inserts) const {
    Spreading t;
    t.ideals = even_places(ends(), count);
    for (int n = 0; n < count; ++n)
      t.own.push_back(allowed(t.ideals[static_cast<std::size_t>(n)], n));
    t.step = std::llround(shift_step(site.project.units) / unit);
    t.whole_steps = true;
    t.least =
        least < 0 ? -units(mm(shape.length)) : units(mm(least + 2 * thread_diameter(data().bolt)));
    if (greatest) {
      t.greatest = units(*greatest);
      // The outer ones may give way by half a bay: not all clips to one side of an obstacle.
      t.before = -t.greatest / 2;
      t.after = ends().to + t.greatest / 2;
    }
    t.middle = ends().to / 2;
    return spread_evenly(t);
  }

  /// Where they find no room side by side, each by itself: the clearance check says so.
  std::optional<std::vector<std::int64_t>> as_many_as_asked(int count) const {
    const auto found = placed(count, std::nullopt);
    return found ? found : placed(count, std::nullopt, -1);
  }

  /// As many as `each` says; or the fewest not farther apart than `spacing`, a few more where they
  /// have to give way, and wider apart where even that does not do (the check says so).
  std::optional<std::vector<std::int64_t>> places() const {
    if (!data().spacing) return as_many_as_asked(data().each);
    const int least = last - first < unit ? 1 : count_for(ends(), units(*data().spacing));
    constexpr int more = 3;
    for (int n = least; n <= least + more; ++n)
      if (auto found = placed(n, data().spacing)) return found;
    return as_many_as_asked(least);
  }
};

void add_girder_hold_downs(const PanelSite& site, const Bearing& b, PanelShape& shape) {
  const HoldDownData& data = *site.deck().hold_downs;
  const Girder& g = b.girder;
  const ClipRow row(site, b, shape);
  const auto places = row.places();
  if (!places) {
    if (shape.no_clips.empty()) shape.no_clips = g.name;
    return;
  }
  std::vector<Feature> clips;
  for (std::size_t n = 0; n < places->size(); ++n) {
    Feature f;
    f.kind = FeatureKind::hold_down;
    f.round = true;
    f.length = f.width = 2 * thread_diameter(data.bolt);
    f.depth = data.insert_depth.in_mm();
    f.source = g.name;
    f.place = data.place;
    f.at = row.at(row.x((*places)[n]), static_cast<int>(n));
    const Length s = site.station(f.at);
    if (s >= g.from && s <= g.to) clips.push_back(f);
  }
  shape.features.insert(shape.features.end(), clips.begin(), clips.end());
}

/// Middle of the strip of a pad across its girder, and its width.
std::pair<double, double> pad_strip(const PanelSite& site, const Bearing& b) {
  return {(b.low + b.high) / 2, std::min(site.deck().pads->width.in_mm(), b.high - b.low)};
}

void add_pad(const PanelSite& site, const Bearing& b, Interval run, PanelShape& shape) {
  if (run.second - run.first < 1) return;
  const PadsData& data = *site.deck().pads;
  const auto [aside, width] = pad_strip(site, b);
  const double x = (run.first + run.second) / 2, angle = b.angle();
  Feature f;
  f.kind = FeatureKind::pad;
  f.angle = angle;
  f.at = {x, b.y(x) + aside / std::cos(angle)};
  f.length = (run.second - run.first) / std::cos(angle);
  f.width = width;
  f.depth = data.thickness.in_mm();
  f.source = b.girder.name;
  f.place = data.place;
  shape.features.push_back(f);
}

/// From where to where a pad's middle line may run, in x, for its square ends to stay inside the
/// panel's faces.
Interval between_faces(const PanelShape& shape, const Bearing& b, double aside, double width) {
  const double sin = std::sin(b.angle()), cos = std::cos(b.angle());
  const double y0 = b.y(0) + aside / cos, rise = sin / cos;
  const auto meet = [&](double x0, double slope, double inwards) {
    const double corner = std::abs(sin + slope * cos) * width / 2;
    return (x0 + inwards * corner + slope * y0) / (1 - slope * rise);
  };
  return {std::max(b.back.x, meet(0, shape.back_slope, 1)),
          std::min(b.ahead.x, meet(shape.length, shape.ahead_slope, -1))};
}

void add_girder_pads(const PanelSite& site, const Bearing& b, PanelShape& shape) {
  const auto [aside, width] = pad_strip(site, b);
  constexpr double least_width = 10;  // a sliver beside a row joint is no bearing
  if (width < least_width) return;
  const auto [from, to] = between_faces(shape, b, aside, width);
  const double y = b.y(shape.length / 2) + aside;
  const double askew = std::abs(std::sin(b.angle())) * width / 2;
  std::vector<Interval> hollows;
  for (const Feature& f : shape.features)
    if (f.kind == FeatureKind::recess && f.box().low.y < y && y < f.box().high.y)
      hollows.push_back({f.box().low.x - askew, f.box().high.x + askew});
  std::sort(hollows.begin(), hollows.end());
  double at = from;
  for (const Interval& h : hollows) {
    add_pad(site, b, {at, std::min(h.first, to)}, shape);
    at = std::max(at, h.second);
  }
  add_pad(site, b, {at, to}, shape);
}

/// The hollow over a splice, square to the panel and large enough for a plate that lies a trifle
/// askew under it on a curve.
Box<PanelFrame> hollow_over(const PanelSite& site, const Splice& s) {
  const double around = site.deck().section.recess_around.in_mm();
  if (site.frame.straight) {
    const Box<BridgeFrame> b = s.plan.grown(around);
    return {site.at(b.low), site.at(b.high)};
  }
  Ring<PanelFrame> plate;
  for (const GroundPoint& p : splice_ring(site.bridge, s)) plate.push_back(site.frame.panel(p));
  return bounds(plate).grown(around);
}

/// A hollow that meets a joint is cut off where the last of its sides leaves the panel.
void run_out_at_faces(const PanelShape& shape, Box<PanelFrame>& b) {
  b.low.x = std::max(b.low.x, std::min(shape.back_x(b.low.y), shape.back_x(b.high.y)));
  b.high.x = std::min(b.high.x, std::max(shape.ahead_x(b.low.y), shape.ahead_x(b.high.y)));
}

void run_out_at_row_joints(const PanelSite& site, Box<PanelFrame>& b) {
  const auto ends = [&](Side s) {
    return std::minmax({site.edge(s, b.low.x), site.edge(s, b.high.x)});
  };
  if (!site.deck_edge(Side::left)) b.high.y = std::min(b.high.y, ends(Side::left).second);
  if (!site.deck_edge(Side::right)) b.low.y = std::max(b.low.y, ends(Side::right).first);
}

}  // namespace

void add_recesses(const PanelSite& site, PanelShape& shape) {
  const Length beyond = metres(5);  // longer than any splice plate
  for (int n : splices_between(site.bridge, site.start() - beyond, site.end() + beyond)) {
    const Splice& s = site.bridge.splices[static_cast<std::size_t>(n)];
    Box<PanelFrame> b = hollow_over(site, s);
    const double depth = recess_depth(s, site.deck());
    for (int twice = 0; twice < 2; ++twice) {  // a narrower one reaches less far over a skewed face
      run_out_at_faces(shape, b);
      run_out_at_row_joints(site, b);
    }
    if (depth <= 0 || b.width() <= 0 || b.height() <= 0) continue;
    Feature f;
    f.kind = FeatureKind::recess;
    f.at = b.centre();
    f.length = b.width();
    f.width = b.height();
    f.depth = depth;
    f.source = s.name;
    f.place = s.place;
    shape.features.push_back(f);
  }
}

void add_pads(const PanelSite& site, PanelShape& shape) {
  if (!site.deck().pads) return;
  for (const Bearing& b : bearings_of(site)) add_girder_pads(site, b, shape);
}

std::vector<Feature> bare_flanges(const PanelSite& site) {
  std::vector<Feature> out;
  if (site.deck().pads) return out;
  for (const Bearing& b : bearings_of(site)) {
    const double angle = b.angle(), aside = (b.low + b.high) / 2;
    const PanelPoint middle = (b.back + b.ahead) * 0.5;
    Feature f;
    f.kind = FeatureKind::pad;
    f.at = {middle.x, middle.y + aside / std::cos(angle)};
    f.length = (b.ahead.x - b.back.x) / std::cos(angle);
    f.width = b.high - b.low;
    f.angle = angle;
    out.push_back(f);
  }
  return out;
}

void add_hold_downs(const PanelSite& site, PanelShape& shape) {
  if (!site.deck().hold_downs) return;
  for (const Bearing& b : bearings_of(site)) add_girder_hold_downs(site, b, shape);
}

}  // namespace deckquire
