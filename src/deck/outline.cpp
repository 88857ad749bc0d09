#include "deck/outline.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

namespace deckquire {
namespace {

/// What an obstruction takes away from one panel, clipped to the panel's length.
struct Cut {
  const Obstruction* from = nullptr;
  Box<PanelFrame> box;
  bool round = false;
  double diameter = 0;
  bool left = false, right = false, back = false, ahead = false;  // boundaries it crosses
  bool inner() const { return !left && !right && !back && !ahead; }
};

double height_at(const Chain& c, double x) {
  for (std::size_t i = 1; i < c.size(); ++i) {
    if (x > c[i].x) continue;
    const PanelPoint &a = c[i - 1], &b = c[i];
    return a.x == b.x ? b.y : a.y + (b.y - a.y) * (x - a.x) / (b.x - a.x);
  }
  return c.back().y;
}

/// The least distance of an edge from the alignment between two x, on its own side.
double least_reach(const PanelSite& site, Side side, double x0, double x1) {
  double least = 1e300;
  for (const PanelPoint& p : edge_chain(site, side, x0, x1))
    least = std::min(least, sign(side) * p.y);
  return least;
}

Cut cut_of(const PanelSite& site, const Obstruction& o) {
  Cut cut;
  cut.from = &o;
  const Box<BridgeFrame> b = bounds(o.kept_free);
  const double start = site.start().in_mm();
  cut.box = {{b.low.x - start, b.low.y}, {b.high.x - start, b.high.y}};
  cut.round = o.kept_free.size() > 4;
  if (cut.round) {  // the ring has the circle's area, so its box is a trifle larger
    cut.diameter = std::sqrt(4 * area(o.kept_free) / pi);
    const PanelPoint c = cut.box.centre();
    const double r = cut.diameter / 2;
    cut.box = {{c.x - r, c.y - r}, {c.x + r, c.y + r}};
  }
  return cut;
}

std::vector<Cut> find_cuts(const PanelSite& site) {
  std::vector<Cut> cuts;
  const double length = site.length();
  for (const Obstruction& o : site.bridge.obstructions) {
    Cut cut = cut_of(site, o);
    if (cut.box.high.x <= 0 || cut.box.low.x >= length) continue;
    cut.back = cut.box.low.x <= 0;
    cut.ahead = cut.box.high.x >= length;
    cut.box.low.x = std::max(0.0, cut.box.low.x);
    cut.box.high.x = std::min(length, cut.box.high.x);
    const double left = least_reach(site, Side::left, cut.box.low.x, cut.box.high.x);
    const double right = least_reach(site, Side::right, cut.box.low.x, cut.box.high.x);
    if (cut.box.low.y >= left || cut.box.high.y <= -right) continue;  // beside the deck
    cut.left = cut.box.high.y >= left;
    cut.right = cut.box.low.y <= -right;
    if (cut.left && cut.right) {
      site.findings.error(o.place, "obstruction-across-deck",
                          fmt::format("{} {} leaves no deck between the edges", o.kind, o.name),
                          "widen the deck there, or end the span before it");
      continue;
    }
    cuts.push_back(cut);
  }
  return cuts;
}

Chain notched(const Chain& c, const Cut& cut, double y, double length) {
  const double x0 = cut.box.low.x, x1 = cut.box.high.x;
  Chain out;
  for (const PanelPoint& p : c)
    if (p.x < x0) out.push_back(p);
  if (x0 > 0) out.push_back({x0, height_at(c, x0)});
  out.push_back({x0, y});
  out.push_back({x1, y});
  if (x1 < length) out.push_back({x1, height_at(c, x1)});
  for (const PanelPoint& p : c)
    if (p.x > x1) out.push_back(p);
  return out;
}

/// Corners of the notches in one end of the panel, from the right edge to the left.
Chain end_notches(const std::vector<Cut>& cuts, bool back, double length) {
  std::vector<const Cut*> in_end;
  for (const Cut& c : cuts)
    if (!c.left && !c.right && (back ? c.back : c.ahead)) in_end.push_back(&c);
  std::sort(in_end.begin(), in_end.end(),
            [](const Cut* a, const Cut* b) { return a->box.low.y < b->box.low.y; });
  Chain out;
  for (const Cut* c : in_end) {
    const double end = back ? 0 : length, inner = back ? c->box.high.x : c->box.low.x;
    for (const PanelPoint& p : {PanelPoint{end, c->box.low.y},
                                {inner, c->box.low.y},
                                {inner, c->box.high.y},
                                {end, c->box.high.y}})
      out.push_back(p);
  }
  return out;
}

void close_outline(const PanelSite& site, const std::vector<Cut>& cuts, PanelShape& shape) {
  const double length = shape.length;
  Chain left = edge_chain(site, Side::left, 0, length);
  Chain right = edge_chain(site, Side::right, 0, length);
  for (const Cut& c : cuts) {
    if (c.left) left = notched(left, c, c.box.low.y, length);
    if (c.right) right = notched(right, c, c.box.high.y, length);
  }
  const Chain ahead = end_notches(cuts, false, length);
  const Chain back = end_notches(cuts, true, length);
  shape.outline = right;
  shape.outline.insert(shape.outline.end(), ahead.begin(), ahead.end());
  shape.outline.insert(shape.outline.end(), left.rbegin(), left.rend());
  shape.outline.insert(shape.outline.end(), back.rbegin(), back.rend());
}

void add_notch_feature(const PanelSite& site, const Cut& cut, PanelShape& shape) {
  Feature f;
  f.kind = FeatureKind::notch;
  Box<PanelFrame> b = cut.box;
  const double mid = b.centre().x;
  if (cut.left) b.high.y = site.edge(Side::left, mid);
  if (cut.right) b.low.y = site.edge(Side::right, mid);
  f.at = b.centre();
  f.length = b.width();
  f.width = b.height();
  f.round = cut.inner() && cut.round;
  f.source = cut.from->name;
  shape.features.push_back(f);
  if (!cut.inner()) return;
  shape.openings.push_back(cut.round ? circle_ring(f.at, cut.diameter) : box_ring(b));
}

CurbRun curb_between(const PanelSite& site, Side side, double from, double to) {
  const double width = site.deck().section.curb.width.in_mm();
  const Chain edge = edge_chain(site, side, from, to);
  Chain foot = edge;
  for (PanelPoint& p : foot) p.y -= sign(side) * width;
  CurbRun run{side, side == Side::left ? foot : edge};
  const Chain& back = side == Side::left ? edge : foot;
  run.plan.insert(run.plan.end(), back.rbegin(), back.rend());
  return run;
}

void add_curbs(const PanelSite& site, const std::vector<Cut>& cuts, Side side, PanelShape& shape) {
  if (!site.has_curb(side)) return;
  std::vector<std::pair<double, double>> breaks;
  for (const Cut& c : cuts) {
    const double reach = side == Side::left ? c.box.high.y : -c.box.low.y;
    const double foot =
        least_reach(site, side, c.box.low.x, c.box.high.x) - site.deck().section.curb.width.in_mm();
    if (reach > foot) breaks.push_back({c.box.low.x, c.box.high.x});
  }
  std::sort(breaks.begin(), breaks.end());
  breaks.push_back({shape.length, shape.length});
  double at = 0;
  for (const auto& [from, to] : breaks) {
    if (from > at) shape.curbs.push_back(curb_between(site, side, at, from));
    at = std::max(at, to);
  }
}

void refuse_steps(const PanelSite& site) {
  const auto& e = site.bridge.edges.data();
  for (std::size_t i = 1; i < e.size(); ++i) {
    const Length s = e[i].station;
    if (s != e[i - 1].station || s <= site.start() || s >= site.end()) continue;
    const Joint& joint = nearest_joint(site.division, s);
    site.findings.error(e[i].place, "step-inside-panel",
                        fmt::format("the deck's width steps at {}, inside panel {}",
                                    site.printed_station(s), site.piece + 1),
                        fmt::format("put the step on a joint; the nearest is {} at {}", joint.name,
                                    site.printed_station(joint.station)));
  }
}

}  // namespace

Chain edge_chain(const PanelSite& site, Side side, double from, double to) {
  Chain all{{from, site.edge(side, from)}};
  for (Length s : site.bridge.edges.breaks()) {
    const double x = site.x(s);
    if (x > from + 1e-6 && x < to - 1e-6) all.push_back({x, site.edge(side, x)});
  }
  all.push_back({to, site.edge(side, to)});
  Chain c{all.front()};  // a break of the other side only is no corner here
  for (std::size_t i = 1; i + 1 < all.size(); ++i) {
    const PanelPoint a = all[i] - c.back(), b = all[i + 1] - all[i];
    if (std::abs(a.x * b.y - a.y * b.x) > 1e-9 * a.x * b.x) c.push_back(all[i]);
  }
  c.push_back(all.back());
  return c;
}

void shape_plan(const PanelSite& site, PanelShape& shape) {
  refuse_steps(site);
  shape.left_back = site.edge(Side::left, 0.0);
  shape.left_ahead = site.edge(Side::left, shape.length);
  shape.right_back = site.edge(Side::right, 0.0);
  shape.right_ahead = site.edge(Side::right, shape.length);
  const std::vector<Cut> cuts = find_cuts(site);
  close_outline(site, cuts, shape);
  for (const Cut& c : cuts) add_notch_feature(site, c, shape);
  for (Side side : {Side::left, Side::right}) add_curbs(site, cuts, side, shape);
}

}  // namespace deckquire
