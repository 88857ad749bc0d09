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

/// The part of a chain between two x.
Chain between(const Chain& chain, double from, double to) {
  Chain c{{from, height_at(chain, from)}};
  for (const PanelPoint& p : chain)
    if (p.x > from + 1e-6 && p.x < to - 1e-6) c.push_back(p);
  c.push_back({to, height_at(chain, to)});
  return c;
}

/// The least distance of an edge from the alignment between two x, on its own side.
double least_reach(const PanelSite& site, Side side, double x0, double x1) {
  double least = 1e300;
  for (const PanelPoint& p : between(site.edge(side), x0, x1))
    least = std::min(least, sign(side) * p.y);
  return least;
}

/// A box is kept square to the panel, also where the obstruction stands a trifle askew on a curve.
Cut cut_of(const PanelSite& site, const Obstruction& o) {
  Cut cut;
  cut.from = &o;
  cut.round = o.diameter.has_value();
  if (cut.round) {
    cut.diameter = (*o.diameter + 2 * o.clearance).in_mm();
    const PanelPoint c = site.at(o.station, o.offset);
    const double r = cut.diameter / 2;
    cut.box = {{c.x - r, c.y - r}, {c.x + r, c.y + r}};
    return cut;
  }
  Ring<PanelFrame> ring;
  if (site.frame.straight)
    for (const BridgePoint& p : o.kept_free) ring.push_back(site.at(p));
  else
    for (const GroundPoint& p : kept_free_ring(site.bridge, o)) ring.push_back(site.frame.panel(p));
  cut.box = bounds(ring);
  return cut;
}

std::vector<Cut> find_cuts(const PanelSite& site) {
  std::vector<Cut> cuts;
  for (int n : site.here().obstructions) {
    const Obstruction& o = site.bridge.obstructions[static_cast<std::size_t>(n)];
    Cut cut = cut_of(site, o);
    Box<PanelFrame>& b = cut.box;
    const double back = std::max(site.back_x(b.low.y), site.back_x(b.high.y));
    const double ahead = std::min(site.ahead_x(b.low.y), site.ahead_x(b.high.y));
    const double outermost_back = std::min(site.back_x(b.low.y), site.back_x(b.high.y));
    const double outermost_ahead = std::max(site.ahead_x(b.low.y), site.ahead_x(b.high.y));
    if (b.high.x <= outermost_back || b.low.x >= outermost_ahead) continue;
    cut.back = b.low.x <= back;
    cut.ahead = b.high.x >= ahead;
    b.low.x = std::max(outermost_back, b.low.x);
    b.high.x = std::min(outermost_ahead, b.high.x);
    const double left = least_reach(site, Side::left, b.low.x, b.high.x);
    const double right = least_reach(site, Side::right, b.low.x, b.high.x);
    if (b.low.y >= left || b.high.y <= -right) continue;  // beside the deck
    // Not where only a skewed face reaches as far as the box.
    const auto beside = [&](const Chain& edge) {
      return b.high.x > edge.front().x && b.low.x < edge.back().x;
    };
    cut.left = b.high.y >= left && beside(site.left);
    cut.right = b.low.y <= -right && beside(site.right);
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

/// An edge with a notch down (up) to y; a notch at an end face begins on the face.
Chain notched(const Chain& c, const Cut& cut, double y, const PanelShape& shape) {
  const double x0 = cut.back ? shape.back_x(y) : cut.box.low.x;
  const double x1 = cut.ahead ? shape.ahead_x(y) : cut.box.high.x;
  Chain out;
  for (const PanelPoint& p : c)
    if (p.x < x0 && !cut.back) out.push_back(p);
  if (!cut.back) out.push_back({x0, height_at(c, x0)});
  if (x0 < x1) {
    out.push_back({x0, y});
    out.push_back({x1, y});
  } else {  // a skewed face meets the notch before its depth
    out.push_back(cut.back ? PanelPoint{x1, x1 / shape.back_slope}
                           : PanelPoint{x0, (x0 - shape.length) / shape.ahead_slope});
  }
  if (!cut.ahead) out.push_back({x1, height_at(c, x1)});
  for (const PanelPoint& p : c)
    if (p.x > x1 && !cut.ahead) out.push_back(p);
  return out;
}

/// Corners of the notches in one end of the panel, from the right edge to the left.
Chain end_notches(const std::vector<Cut>& cuts, bool back, const PanelShape& shape) {
  std::vector<const Cut*> in_end;
  for (const Cut& c : cuts)
    if (!c.left && !c.right && (back ? c.back : c.ahead)) in_end.push_back(&c);
  std::sort(in_end.begin(), in_end.end(),
            [](const Cut* a, const Cut* b) { return a->box.low.y < b->box.low.y; });
  Chain out;
  for (const Cut* c : in_end) {
    const double inner = back ? c->box.high.x : c->box.low.x;
    const auto face = [&](double y) { return back ? shape.back_x(y) : shape.ahead_x(y); };
    const auto in = [&](double y) { return back ? inner > face(y) : inner < face(y); };
    // Where a skewed face has left the box, the notch ends on the face before its corner.
    const PanelPoint on_face{
        inner, back ? inner / shape.back_slope : (inner - shape.length) / shape.ahead_slope};
    const double low = c->box.low.y, high = c->box.high.y;
    if (in(low)) out.push_back({face(low), low});
    out.push_back(in(low) ? PanelPoint{inner, low} : on_face);
    out.push_back(in(high) ? PanelPoint{inner, high} : on_face);
    if (in(high)) out.push_back({face(high), high});
  }
  return out;
}

void close_outline(const PanelSite& site, const std::vector<Cut>& cuts, PanelShape& shape) {
  Chain left = site.left, right = site.right;
  for (const Cut& c : cuts) {
    if (c.left) left = notched(left, c, c.box.low.y, shape);
    if (c.right) right = notched(right, c, c.box.high.y, shape);
  }
  const Chain ahead = end_notches(cuts, false, shape);
  const Chain back = end_notches(cuts, true, shape);
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
  f.place = cut.from->place;
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

/// A run of curb; one that reaches an end of the edge ends on the panel's face.
CurbRun curb_between(const PanelSite& site, Side side, double from, double to,
                     const PanelShape& shape) {
  const double width = site.deck().section.curb.width.in_mm();
  const Chain& whole = site.edge(side);
  const Chain edge = between(whole, from, to);
  Chain foot = edge;
  for (PanelPoint& p : foot) p.y -= sign(side) * width;
  const Chain faced = to_faces(shape, foot);
  if (from <= whole.front().x) foot.front() = faced.front();
  if (to >= whole.back().x) foot.back() = faced.back();
  CurbRun run{side, side == Side::left ? foot : edge};
  const Chain& back = side == Side::left ? edge : foot;
  run.plan.insert(run.plan.end(), back.rbegin(), back.rend());
  return run;
}

void add_curbs(const PanelSite& site, const std::vector<Cut>& cuts, Side side, PanelShape& shape) {
  if (!site.has_curb(side)) return;
  const double first = site.edge(side).front().x, last = site.edge(side).back().x;
  std::vector<std::pair<double, double>> breaks;
  for (const Cut& c : cuts) {
    const double reach = side == Side::left ? c.box.high.y : -c.box.low.y;
    const double foot =
        least_reach(site, side, c.box.low.x, c.box.high.x) - site.deck().section.curb.width.in_mm();
    if (reach > foot) breaks.push_back({c.box.low.x, c.box.high.x});
  }
  std::sort(breaks.begin(), breaks.end());
  breaks.push_back({last, last});
  double at = first;
  for (const auto& [from, to] : breaks) {
    if (from > at) shape.curbs.push_back(curb_between(site, side, at, from, shape));
    at = std::max(at, to);
  }
}

void refuse_steps(const PanelSite& site) {
  const auto& e = site.bridge.edges.data();
  const auto inside = std::partition_point(
      e.begin(), e.end(), [&](const EdgeData& p) { return p.station <= site.start(); });
  for (auto i = static_cast<std::size_t>(inside - e.begin()); i < e.size(); ++i) {
    const Length s = e[i].station;
    if (s >= site.end()) break;
    if (i == 0 || s != e[i - 1].station) continue;
    const Joint& joint = nearest_joint(site.division, s);
    site.findings.error(e[i].place, "step-inside-panel",
                        fmt::format("the deck's width steps at {}, inside panel {}",
                                    site.printed_station(s), site.piece + 1),
                        fmt::format("put the step on a joint; the nearest is {} at {}", joint.name,
                                    site.printed_station(joint.station)));
  }
}

}  // namespace

void shape_plan(const PanelSite& site, PanelShape& shape) {
  refuse_steps(site);
  shape.left_back = site.left.front().y;
  shape.left_ahead = site.left.back().y;
  shape.right_back = site.right.front().y;
  shape.right_ahead = site.right.back().y;
  const std::vector<Cut> cuts = find_cuts(site);
  close_outline(site, cuts, shape);
  for (const Cut& c : cuts) add_notch_feature(site, c, shape);
  for (Side side : {Side::left, Side::right}) add_curbs(site, cuts, side, shape);
}

}  // namespace deckquire
