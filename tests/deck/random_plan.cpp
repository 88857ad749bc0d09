// Where the panels of a random deck lie: on paper arithmetic of the test's own, and by GEOS.
#include <algorithm>
#include <cmath>

#include "deck/random_checks.h"
#include "support/geos.h"

namespace trial {
namespace {

Length along(Length gap, double skew) {
  return skew == 0 ? gap : gap / std::cos(skew);
}

const Panel& panel(const Case& c, int i) {
  return c.deck().panels[static_cast<std::size_t>(i)];
}

std::vector<const Panel*> bays_of(const Case& c, int span) {
  std::vector<const Panel*> out;
  for (const Panel& p : c.deck().panels)
    if (p.span == span && p.row == 0) out.push_back(&p);
  return out;
}

void check_rule(const Case& c, const SpanData& s, const std::vector<const Panel*>& bays) {
  std::vector<Length> written;
  for (const PanelRun& r : s.runs) written.insert(written.end(), r.times, r.length);
  for (std::size_t i = 0; i < bays.size(); ++i) {
    const Length is = bays[i]->end - bays[i]->start;
    if (!s.rule && (i >= written.size() || written[i] != is))
      c.say("panel {} is {} mm long, not as written", bays[i]->position, is.in_mm());
    if (s.rule && s.rule->longest && is > *s.rule->longest)
      c.say("panel {} of {} mm is longer than the longest", bays[i]->position, is.in_mm());
  }
  const std::size_t count =
      !s.rule ? written.size() : static_cast<std::size_t>(s.rule->count.value_or(0));
  if (count > 0 && count != bays.size()) c.say("span {} has {} bays", s.name, bays.size());
}

// ---- the width law, read from the project

/// Signed offset of an edge; at a step the value behind or ahead of it.
double law(const Case& c, Side side, double station, bool ahead) {
  const auto& e = c.project().deck.edges;
  const auto value = [&](const EdgeData& d) {
    return side == Side::left ? d.left.in_mm() : -d.right.in_mm();
  };
  if (station <= e.front().station.in_mm()) return value(e.front());
  for (std::size_t i = 1; i < e.size(); ++i) {
    const double a = e[i - 1].station.in_mm(), b = e[i].station.in_mm();
    if (a == b || station > b || (ahead && station == b && i + 1 < e.size())) continue;
    return value(e[i - 1]) + (value(e[i]) - value(e[i - 1])) * (station - a) / (b - a);
  }
  return value(e.back());
}

/// The same for one panel: a step at its joint does not come before the joint line, however skewed.
double own_law(const Case& c, const Panel& p, Side side, double station, bool ahead) {
  const auto& e = c.project().deck.edges;
  for (std::size_t i = 1; i < e.size(); ++i) {
    const double step = e[i].station.in_mm();
    if (e[i - 1].station != e[i].station) continue;
    if (e[i].station >= p.end && station >= step) return law(c, side, step, false);
    if (e[i].station <= p.start && station <= step) return law(c, side, step, true);
  }
  return law(c, side, station, ahead);
}

std::optional<double> row_limit(const Case& c, const Panel& p, Side side) {
  if (!(side == Side::left ? p.shape.left_joint : p.shape.right_joint)) return std::nullopt;
  const int n = side == Side::left ? p.row - 1 : p.row;
  const RowJointData& r = c.project().deck.row_joints[static_cast<std::size_t>(n)];
  return (r.offset + (side == Side::left ? -1 : 1) * (r.gap / 2)).in_mm();
}

PanelPoint corner(const PanelShape& s, Side side, bool ahead) {
  const double y = side == Side::left ? (ahead ? s.left_ahead : s.left_back)
                                      : (ahead ? s.right_ahead : s.right_back);
  return {ahead ? s.ahead_x(y) : s.back_x(y), y};
}

BridgePoint located(const Case& c, const Panel& p, PanelPoint at) {
  const auto b = c.alignment().locate(p.frame.ground(at), p.start.in_mm() + at.x);
  if (b) return *b;
  c.say("panel {}: ({}, {}) is not found on the bridge", p.position, at.x, at.y);
  return {};
}

void check_corners(const Case& c, const Panel& p) {
  for (Side side : {Side::left, Side::right})
    for (bool ahead : {false, true}) {
      const BridgePoint b = located(c, p, corner(p.shape, side, ahead));
      const auto limit = row_limit(c, p, side);
      const double is = limit ? *limit : own_law(c, p, side, b.x, !ahead);
      if (std::abs(is - b.y) > 1e-4)
        c.say("panel {}: a corner lies at offset {}, the edge at {}", p.position, b.y, is);
    }
}

/// Unit vector along a face, from right to left.
GroundPoint face_direction(const Panel& p, double slope) {
  const GroundPoint d = p.frame.ground({slope, 1}) - p.frame.ground({0, 0});
  return d * (1 / std::hypot(d.x, d.y));
}

void check_joint_between(const Case& c, const Panel& p, const Panel& q) {
  const Joint& j = c.deck().joints[static_cast<std::size_t>(p.joint_ahead)];
  const GroundPoint a = face_direction(p, p.shape.ahead_slope);
  const GroundPoint b = face_direction(q, q.shape.back_slope);
  const double line = c.alignment().heading(j.station.in_mm()) + pi / 2 - j.skew;
  const GroundPoint joint{std::cos(line), std::sin(line)};
  for (const GroundPoint& face : {a, b})
    if (std::abs(face.x * joint.y - face.y * joint.x) > 1e-9)
      c.say("a face at joint {} is not parallel to its line", j.name);
  const GroundPoint d = q.frame.ground({0, 0}) - p.frame.ground({p.shape.length, 0});
  const double gap = d.y * -joint.x + d.x * joint.y;
  double allowed = 2e-6;
  if (!p.frame.straight || !q.frame.straight) {  // on an arc the gap is a chord, aslant at a skew
    double bend = 0;
    for (double beside : {-100.0, 0.0, 100.0})
      bend = std::max(bend, std::abs(c.alignment().curvature(j.station.in_mm() + beside)));
    allowed = 1e-4 + bend * j.gap.in_mm() * j.gap.in_mm() / 8 * std::abs(std::tan(j.skew));
  }
  if (std::abs(gap - j.gap.in_mm()) > allowed)
    c.say("joint {} is {} mm wide, not {}", j.name, gap, j.gap.in_mm());
  const Length wanted = j.end ? c.project().deck.joints.end_gap : c.project().deck.joints.gap;
  if (j.gap != wanted) c.say("joint {} has a gap of {} mm", j.name, j.gap.in_mm());
}

// ---- areas

struct Plan {
  OraclePoint zero;
  OracleArea deck, gaps, panels;
  double slack = 1;  // mm2
};

Ring<GroundFrame> on_ground(const Panel& p, const Ring<PanelFrame>& ring) {
  Ring<GroundFrame> out;
  for (PanelPoint q : ring) out.push_back(p.frame.ground(q));
  return out;
}

/// Points of one edge between two stations: at every 50 mm on a curve, at the corners of the law.
/// `own`: that panel's edge, with the steps that are its own.
std::vector<GroundPoint> edge_line(const Case& c, Side side, double from, double to,
                                   const Panel* own) {
  const auto offset = [&](double s, bool ahead) {
    return own ? own_law(c, *own, side, s, ahead) : law(c, side, s, ahead);
  };
  std::vector<std::pair<double, double>> at;  // station, offset
  at.push_back({from, offset(from, true)});
  for (const EdgeData& e : c.project().deck.edges)
    for (bool ahead : {false, true})
      if (const double s = e.station.in_mm(); s > from && s < to)
        at.push_back({s, offset(s, ahead)});
  if (!c.alignment().straight())
    for (double s = from + 50; s < to; s += 50) at.push_back({s, offset(s, true)});
  std::stable_sort(at.begin() + 1, at.end(),
                   [](const auto& a, const auto& b) { return a.first < b.first; });
  at.push_back({to, offset(to, false)});
  std::vector<GroundPoint> out;
  for (const auto& [s, y] : at) out.push_back(c.alignment().ground(s, y));
  return out;
}

const Panel& outer(const Case& c, int bay, Side side) {
  const auto& all = c.deck().panels;
  const Panel* found = nullptr;
  for (const Panel& p : all)
    if (p.bay == bay && (side == Side::right || !found)) found = &p;
  return *found;
}

OracleArea deck_area(const Case& c, OraclePoint zero, int first_bay, int last_bay, bool own) {
  const auto edge = [&](Side side) {
    const Panel &p = outer(c, first_bay, side), &q = outer(c, last_bay, side);
    return edge_line(c, side, located(c, p, corner(p.shape, side, false)).x,
                     located(c, q, corner(q.shape, side, true)).x, own ? &p : nullptr);
  };
  auto ring = edge(Side::right);
  const auto left = edge(Side::left);
  ring.insert(ring.end(), left.rbegin(), left.rend());
  return OracleArea::of(ring, zero);
}

/// From end to end by the law alone; where a skewed joint line crosses a step, bay by bay.
OracleArea deck_area(const Case& c, OraclePoint zero) {
  const auto& all = c.deck().panels;
  const bool askew =
      std::any_of(all.begin(), all.end(), [](const Panel& p) { return !p.shape.square(); });
  if (!c.has_step() || !askew) return deck_area(c, zero, 0, all.back().bay, false);
  std::vector<OracleArea> bays;
  for (int bay = 0; bay <= all.back().bay; ++bay)
    bays.push_back(deck_area(c, zero, bay, bay, true));
  return OracleArea::together(bays);
}

OracleArea joint_strip(const Case& c, const Joint& j, OraclePoint zero) {
  const double h = c.alignment().heading(j.station.in_mm()), line = h + pi / 2 - j.skew;
  const GroundPoint middle = c.alignment().ground(j.station.in_mm(), 0);
  const GroundPoint along{std::cos(line), std::sin(line)}, across{along.y, -along.x};
  const GroundPoint l = along * 6000, w = across * (j.gap.in_mm() / 2);
  return OracleArea::of(
      std::vector<GroundPoint>{middle - l - w, middle - l + w, middle + l + w, middle + l - w},
      zero);
}

OracleArea row_strip(const Case& c, const RowJointData& r, OraclePoint zero) {
  const double from = r.from.in_mm() - 3000, to = r.to.in_mm() + 3000;
  const double step = c.alignment().straight() ? to - from : 50;
  std::vector<GroundPoint> right, left;
  for (double s = from; s <= to + 1e-6; s += step) {
    right.push_back(c.alignment().ground(s, (r.offset - r.gap / 2).in_mm()));
    left.push_back(c.alignment().ground(s, (r.offset + r.gap / 2).in_mm()));
  }
  right.insert(right.end(), left.rbegin(), left.rend());
  return OracleArea::of(right, zero);
}

bool notch_at(const PanelShape& s, const Ring<PanelFrame>& hole) {
  const PanelPoint middle = bounds(hole).centre();
  return std::any_of(s.features.begin(), s.features.end(), [&](const Feature& f) {
    return f.kind == FeatureKind::notch && std::hypot(f.at.x - middle.x, f.at.y - middle.y) < 0.5;
  });
}

OracleArea panel_area(const Case& c, const Panel& p, OraclePoint zero) {
  OracleArea a = OracleArea::of(on_ground(p, p.shape.outline), zero);
  if (!a.valid()) c.say("the outline of panel {} crosses itself", p.position);
  for (const auto& hole : p.shape.openings)
    if (notch_at(p.shape, hole)) a = a.minus(OracleArea::of(on_ground(p, hole), zero));
  return a;
}

void check_overlaps(const Case& c, const std::vector<OracleArea>& areas) {
  for (std::size_t i = 0; i < areas.size(); ++i)
    for (std::size_t k = i + 1; k < areas.size(); ++k) {
      const Panel &p = c.deck().panels[i], &q = c.deck().panels[k];
      if (q.bay > p.bay + 1) break;
      if (areas[i].common(areas[k]).area() > 0.01)
        c.say("panels {} and {} lie over each other", p.position, q.position);
    }
}

/// What obstructions may take: their boxes, lengthened to a face that lies askew.
OracleArea reach_of(const Case& c, OraclePoint zero) {
  std::vector<OracleArea> boxes;
  double slope = 0;
  for (const Panel& p : c.deck().panels)
    slope = std::max({slope, std::abs(p.shape.back_slope), std::abs(p.shape.ahead_slope)});
  for (const Obstruction& o : c.built.bridge.obstructions) {
    const Box<GroundFrame> b = bounds(kept_free_ring(c.built.bridge, o));
    const double size = std::hypot(b.width(), b.height());
    boxes.push_back(OracleArea::of(box_ring(b.grown(slope * size + 2)), zero));
    if (o.diameter) boxes.back() = boxes.back().grown(size / 4);  // its square may stand askew
  }
  return OracleArea::together(boxes);
}

void check_areas(const Case& c, const Plan& plan) {
  const OracleArea expected = plan.deck.minus(plan.gaps);
  if (const double over = plan.panels.minus(expected).area(); over > plan.slack)
    c.say("panels reach {} mm2 over gaps or edges", over);
  const OracleArea missing = expected.minus(plan.panels).minus(reach_of(c, plan.zero));
  if (missing.area() > plan.slack) c.say("{} mm2 of the deck have no panel", missing.area());
  for (const Obstruction& o : c.built.bridge.obstructions) {
    // A circle is 64 sides as large as it; two turned by half a side differ by 4.6e-4.
    const OracleArea kept = OracleArea::of(kept_free_ring(c.built.bridge, o), plan.zero);
    if (const double in = plan.panels.common(kept).area(); in > 0.5 + 5e-4 * kept.area())
      c.say("{} mm2 of panels lie where {} needs room", in, o.name);
  }
}

}  // namespace

void check_spans(const Case& c) {
  const DeckData& d = c.project().deck;
  const Length gap = along(d.joints.gap, d.joints.skew.in_si());
  Length shared;  // of the end gap before this span, what the span behind has of it
  for (std::size_t i = 0; i < d.spans.size(); ++i) {
    const SpanRun& run = c.deck().spans[i];
    const auto bays = bays_of(c, static_cast<int>(i));
    if (bays.empty()) return c.say("span {} has no panel", run.name);
    Length at = d.spans[i].from + run.end_gap_back;
    for (const Panel* p : bays) {
      if (p->start != at)
        c.say("panel {} begins {} nm off", p->position, (p->start - at).in_nanometres());
      at = p->end + gap;
    }
    if (at - gap + run.end_gap_ahead != d.spans[i].to)
      c.say("span {} does not close by {} nm", run.name,
            (d.spans[i].to - at + gap - run.end_gap_ahead).in_nanometres());
    const Joint& back = c.deck().joints[static_cast<std::size_t>(bays.front()->joint_back)];
    if (run.end_gap_back + shared != along(d.joints.end_gap, back.skew))
      c.say("the end gap before span {} is not as given", run.name);
    shared = run.end_gap_ahead;
    check_rule(c, d.spans[i], bays);
  }
  if (shared != along(d.joints.end_gap, c.deck().joints.back().skew))
    c.say("the last end gap is not as given");
}

void check_faces(const Case& c) {
  for (const Panel& p : c.deck().panels) {
    check_corners(c, p);
    for (const Panel& q : c.deck().panels)
      if (q.bay == p.bay + 1 && q.row == p.row) check_joint_between(c, p, q);
  }
}

void check_tiling(const Case& c) {
  Plan plan;
  const GroundPoint zero = panel(c, 0).frame.origin;
  plan.zero = {zero.x, zero.y};
  std::vector<OracleArea> areas, strips;
  for (const Panel& p : c.deck().panels) {
    areas.push_back(panel_area(c, p, plan.zero));
    if (!p.frame.straight)  // edges are chords; those of row joints too
      plan.slack += (p.chord_left + p.chord_right + 0.01) * p.shape.length;
  }
  check_overlaps(c, areas);
  plan.panels = OracleArea::together(areas);
  plan.deck = deck_area(c, plan.zero);
  for (std::size_t i = 1; i + 1 < c.deck().joints.size(); ++i)
    strips.push_back(joint_strip(c, c.deck().joints[i], plan.zero));
  for (const RowJointData& r : c.project().deck.row_joints)
    strips.push_back(row_strip(c, r, plan.zero));
  plan.gaps = OracleArea::together(strips);
  check_areas(c, plan);
}

}  // namespace trial
