// Recesses, pads, hold-downs and the tag: what is under a panel.
#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "deck/features.h"

namespace deckquire {
namespace {

constexpr double clear_of_hollows = 50;  // least between an insert and a recess or opening, mm

using Interval = std::pair<double, double>;

bool under_panel(const PanelSite& site, const Girder& g) {
  return g.from < site.end() && g.to > site.start();
}

/// Intervals along x that a hold-down of one girder at y must keep out of (their ends are allowed).
std::vector<Interval> kept_out(const PanelSite& site, const PanelShape& shape, double girder_y,
                               PanelPoint insert) {
  const double radius = thread_diameter(site.deck().hold_downs->bolt);
  const double clear = radius + clear_of_hollows;
  std::vector<Interval> out{{-1e9, clear}, {shape.length - clear, 1e9}};
  for (const Feature& f : shape.features) {
    const bool recess = f.kind == FeatureKind::recess;
    const bool through = f.kind == FeatureKind::hatch || f.kind == FeatureKind::scupper ||
                         f.kind == FeatureKind::sleeve || f.kind == FeatureKind::notch;
    if (!recess && !through) continue;
    const Box<PanelFrame> b = footprint(f, site.deck()).grown(clear);
    // A splice keeps the clip off its girder over its whole length, wherever the flange edge is.
    const bool same_girder = recess && std::abs(f.at.y - girder_y) < 1;
    if (same_girder || (b.low.y < insert.y && insert.y < b.high.y))
      out.push_back({b.low.x, b.high.x});
  }
  return out;
}

/// x moved by the fewest whole steps out of all intervals; of two equal moves the one towards the
/// middle, so that a panel turned end for end comes out the same. Nothing: no room.
std::optional<double> moved_clear(double x, const std::vector<Interval>& out, double length,
                                  double step) {
  const auto free_at = [&](double at) {
    return std::none_of(out.begin(), out.end(), [&](const Interval& i) {
      return at > i.first + 1e-9 && at < i.second - 1e-9;
    });
  };
  const double inwards = x <= length / 2 ? 1 : -1;
  for (int n = 0; n * step <= length; ++n)
    for (double way : {inwards, -inwards})
      if (free_at(x + way * n * step)) return x + way * n * step;
  return std::nullopt;
}

/// Side of the flange for the nth insert of a girder: away from the alignment.
double flange_side(const Girder& g, int n) {
  if (g.left() > Length() && g.right() < Length()) return n % 2 == 0 ? 1 : -1;
  return g.offset < Length() ? -1 : 1;
}

void add_girder_hold_downs(const PanelSite& site, const Girder& g, PanelShape& shape) {
  const HoldDownData& data = *site.deck().hold_downs;
  const double first = data.from_joint.in_mm(), last = shape.length - first;
  for (int n = 0; n < data.each; ++n) {
    Feature f;
    f.kind = FeatureKind::hold_down;
    f.round = true;
    f.length = f.width = 2 * thread_diameter(data.bolt);
    f.depth = data.insert_depth.in_mm();
    f.source = g.name;
    f.at.x = data.each == 1 ? shape.length / 2 : first + (last - first) * n / (data.each - 1);
    f.at.y = g.offset.in_mm() + flange_side(g, n) * (g.flange / 2 + data.gauge).in_mm();
    const auto out = kept_out(site, shape, g.offset.in_mm(), f.at);
    const auto x = moved_clear(f.at.x, out, shape.length, shift_step(site.project.units));
    if (!x) {
      site.findings.error(
          data.place, "hold-down-no-room",
          fmt::format("panel {} has no room for a hold-down on girder {}", site.piece + 1, g.name),
          "make the panel longer, or give fewer hold-downs");
      return;
    }
    f.at.x = *x;
    const Length s = site.station(*x);
    if (s >= g.from && s <= g.to) shape.features.push_back(f);
  }
}

void add_pad(const PanelSite& site, const Girder& g, Interval run, PanelShape& shape) {
  if (run.second - run.first < 1) return;
  const PadsData& data = *site.deck().pads;
  Feature f;
  f.kind = FeatureKind::pad;
  f.at = {(run.first + run.second) / 2, g.offset.in_mm()};
  f.length = run.second - run.first;
  f.width = std::min(data.width, g.flange).in_mm();
  f.depth = data.thickness.in_mm();
  f.source = g.name;
  shape.features.push_back(f);
}

void add_girder_pads(const PanelSite& site, const Girder& g, PanelShape& shape) {
  const double from = std::max(0.0, site.x(g.from)), to = std::min(shape.length, site.x(g.to));
  std::vector<Interval> hollows;
  for (const Feature& f : shape.features)
    if (f.kind == FeatureKind::recess && std::abs(f.at.y - g.offset.in_mm()) < 1)
      hollows.push_back({f.box().low.x, f.box().high.x});
  std::sort(hollows.begin(), hollows.end());
  double at = from;
  for (const Interval& h : hollows) {
    add_pad(site, g, {at, std::min(h.first, to)}, shape);
    at = std::max(at, h.second);
  }
  add_pad(site, g, {at, to}, shape);
}

}  // namespace

void add_recesses(const PanelSite& site, PanelShape& shape) {
  for (const Splice& s : site.bridge.splices) {
    const double depth = recess_depth(s, site.deck());
    const Box<BridgeFrame> plan = recess_plan(s, site.deck());
    const double start = site.start().in_mm();
    const double from = std::max(0.0, plan.low.x - start);
    const double to = std::min(shape.length, plan.high.x - start);
    if (depth <= 0 || to <= from) continue;
    Feature f;
    f.kind = FeatureKind::recess;
    f.at = {(from + to) / 2, plan.centre().y};
    f.length = to - from;
    f.width = plan.height();
    f.depth = depth;
    f.source = s.name;
    shape.features.push_back(f);
  }
}

void add_pads(const PanelSite& site, PanelShape& shape) {
  if (!site.deck().pads) return;
  for (const Girder& g : site.bridge.girders)
    if (under_panel(site, g)) add_girder_pads(site, g, shape);
}

void add_hold_downs(const PanelSite& site, PanelShape& shape) {
  if (!site.deck().hold_downs) return;
  for (const Girder& g : site.bridge.girders)
    if (under_panel(site, g)) add_girder_hold_downs(site, g, shape);
}

void add_tag(PanelShape& shape) {
  constexpr double length = 100, width = 60, from_end = 150, from_edge = 120;
  Feature f;
  f.kind = FeatureKind::tag;
  const double along = std::min(1.0, (from_end + length / 2) / shape.length);
  const double edge =
      std::max(shape.right_back, shape.right_back + (shape.right_ahead - shape.right_back) * along);
  f.at = {std::min(from_end, shape.length / 2), edge + from_edge};
  f.length = length;
  f.width = width;
  shape.features.push_back(f);
}

}  // namespace deckquire
