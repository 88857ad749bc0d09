#include "checks/bodies.h"

#include <algorithm>
#include <cmath>
#include <map>

#include "deck/features.h"

namespace deckquire {
namespace {

constexpr double through = 1e6;  // far above and below any panel

/// Makes the bodies of one panel after the other.
class Builder {
 public:
  Builder(const Project& project, const Bridge& bridge, const Plan& plan, Bodies& out)
      : project_(project), bridge_(bridge), plan_(plan), out_(out) {
    for (std::size_t i = 0; i < bridge.girders.size(); ++i)
      girders_[bridge.girders[i].name] = static_cast<int>(i);
    for (const Splice& s : bridge.splices) splices_[s.name] = s.girder;
  }

  void add_panel(int index, const Panel& panel) {
    index_ = index;
    panel_ = &panel;
    for (const Feature& f : panel.shape.features) add_feature(f);
    add_edges();
    for (std::size_t g = 0; g < bridge_.girders.size(); ++g) add_flange(static_cast<int>(g));
  }

  void add_splice(int index) {
    const Splice& s = bridge_.splices[static_cast<std::size_t>(index)];
    Thing t;
    t.part = Part::splice;
    t.girder = s.girder;
    t.splice = index;
    begin(t);
    const double base = -pad_thickness(), plate = base + s.plate.in_mm();
    body(splice_plate(bridge_, s, plan_), -through, plate);
    for (PlanShape& bolt : splice_bolts(bridge_, s, plan_))
      body(std::move(bolt), -through, plate + s.projection.in_mm());
  }

 private:
  const DeckData& data() const { return project_.deck; }
  double pad_thickness() const { return data().pads ? data().pads->thickness.in_mm() : 0; }

  void begin(const Thing& t) { out_.things.push_back(t); }
  void begin(Part part, const Feature& f, int girder = -1) {
    Thing t;
    t.part = part;
    t.panel = index_;
    t.feature = &f;
    t.girder = girder;
    begin(t);
  }
  void body(PlanShape shape, double low, double high) {
    out_.bodies.push_back({static_cast<int>(out_.things.size()) - 1, std::move(shape), low, high});
  }
  PlanShape circle(PanelPoint at, double diameter) const {
    return {{plan_.of(*panel_, at)}, diameter / 2};
  }
  /// The top over a box, where it is lowest: its highest line is a ridge.
  double top(const Box<PanelFrame>& b) const {
    return std::min(panel_->shape.top(b.low.y), panel_->shape.top(b.high.y));
  }

  void add_feature(const Feature& f) {
    const auto whole = [&] { return plan_.of(*panel_, f); };
    const double up = top(f.box());
    switch (f.kind) {
      case FeatureKind::recess:
        begin(Part::recess, f, found(splices_, f.source));
        return body(whole(), 0, f.depth);
      case FeatureKind::post_plate:
        return add_post_plate(f);
      case FeatureKind::scupper:
        return add_scupper(f);
      case FeatureKind::hatch:
        return add_hatch(f);
      case FeatureKind::sleeve:
        begin(Part::sleeve, f);
        return body(whole(), -through, through);
      case FeatureKind::hold_down:
        begin(Part::hold_down, f);
        return body(whole(), -through, f.depth);  // its bolt comes from below
      case FeatureKind::lifting_insert:
        begin(Part::lifting_insert, f);
        return body(whole(), up - f.depth, up);
      case FeatureKind::notch:
        begin(Part::opening, f);
        return body(whole(), -through, through);
      case FeatureKind::pad:
        begin(Part::pad, f, found(girders_, f.source));
        return body(whole(), -f.depth, 1);  // it bears on the laminate: none may be missing
      case FeatureKind::tag:
        begin(Part::tag, f);
        return body(whole(), -2, 0);
    }
  }

  void add_post_plate(const Feature& f) {
    const CurbData& curb = data().section.curb;
    const PostPlateData& plate = data().posts->plate;
    const double inward = f.variant == static_cast<int>(Side::left) ? -1 : 1;
    const double foot = f.at.y + inward * ((curb.width + curb.batter) / 2).in_mm();
    const double upper = panel_->shape.top(foot) + (curb.height - plate.cover).in_mm();
    begin(Part::post_plate, f);
    body(plan_.of(*panel_, f), upper - f.depth, upper);
  }

  void add_scupper(const Feature& f) {
    const ScuppersData& s = *data().scuppers;
    const double l = s.grate_length.in_mm() / 2, w = s.grate_width.in_mm() / 2;
    const Box<PanelFrame> grate{f.at - PanelPoint{l, w}, f.at + PanelPoint{l, w}};
    begin(Part::scupper, f);
    body(plan_.of(*panel_, f), top(f.box()) - f.depth, top(f.box()));
    body(plan_.of(*panel_, grate), top(grate) - s.grate.in_mm(), top(grate));
    begin(Part::outlet, f);
    body(circle(f.at, s.outlet.in_mm()), -s.outlet_below.in_mm(), top(f.box()));
  }

  void add_hatch(const Feature& f) {
    const HatchData& h = data().hatches[static_cast<std::size_t>(f.variant)];
    const Box<PanelFrame> seat = footprint(f, data());
    const double seat_level = top(seat) - h.rebate_depth.in_mm();
    begin(Part::hatch, f);
    body(plan_.of(*panel_, f), -through, through);
    body(plan_.of(*panel_, seat), seat_level, top(seat));
    // The cover's bolts, in inserts of twice their thread below the seat (as the hole table has
    // them), stand in the rebate all round.
    const double bolt = thread_diameter(h.bolt);
    if (h.bolts > 0) body(plan_.of(*panel_, bolt_box(f, h)), seat_level - 2 * bolt, seat_level);
  }

  /// Around the bolts of a hatch: a ring of them, and within it the opening anyhow.
  static Box<PanelFrame> bolt_box(const Feature& f, const HatchData& h) {
    return f.box().grown(h.rebate.in_mm() / 2 + thread_diameter(h.bolt) / 2);
  }

  template <class Names>
  static int found(const Names& names, const std::string& name) {
    const auto at = names.find(name);
    return at == names.end() ? -1 : at->second;
  }

  /// Sides of the outline, but for those of notches.
  void add_edges() {
    const PanelShape& s = panel_->shape;
    const Ring<PanelFrame>& ring = s.outline;
    for (std::size_t i = 0; i < ring.size(); ++i) {
      const PanelPoint a = ring[i], b = ring[(i + 1) % ring.size()];
      if (a == b || beside_notch((a + b) * 0.5)) continue;
      add_side(a, b);
    }
  }

  bool beside_notch(PanelPoint p) const {
    return std::any_of(panel_->shape.features.begin(), panel_->shape.features.end(), [&](auto& f) {
      return f.kind == FeatureKind::notch && f.box().grown(0.01).contains(p);
    });
  }

  void add_side(PanelPoint a, PanelPoint b) {
    const PanelShape& s = panel_->shape;
    const auto on = [](double p, double q) { return std::abs(p - q) < 1e-6; };
    const bool back = on(a.x, s.back_x(a.y)) && on(b.x, s.back_x(b.y));
    Thing t;
    t.panel = index_;
    t.ahead = on(a.x, s.ahead_x(a.y)) && on(b.x, s.ahead_x(b.y));
    t.side = b.x < a.x ? Side::left : Side::right;  // the outline runs counter-clockwise
    t.row_joint = !back && !t.ahead && (t.side == Side::left ? s.left_joint : s.right_joint);
    t.part = back || t.ahead || t.row_joint ? Part::joint : Part::edge;
    begin(t);
    body({{plan_.of(*panel_, a), plan_.of(*panel_, b)}, 0}, -through, through);
    if (t.part == Part::edge && data().section.drip) add_drip(a, b, t);
  }

  void add_drip(PanelPoint a, PanelPoint b, Thing t) {
    const DripData& drip = *data().section.drip;
    const PanelPoint d = b - a;
    const PanelPoint inward = PanelPoint{-d.y, d.x} * (1 / std::hypot(d.x, d.y));
    const double from = drip.inset.in_mm(), to = (drip.inset + drip.width).in_mm();
    t.part = Part::drip;
    begin(t);
    PlanShape strip;
    for (PanelPoint p : {a + inward * from, b + inward * from, b + inward * to, a + inward * to})
      strip.core.push_back(plan_.of(*panel_, p));
    body(std::move(strip), 0, drip.depth.in_mm());
  }

  void add_flange(int girder) {
    const Girder& g = bridge_.girders[static_cast<std::size_t>(girder)];
    std::vector<PlanShape> strips = flange_strips(bridge_, g, *panel_, plan_);
    if (strips.empty()) return;
    Thing t;
    t.part = Part::flange;
    t.panel = index_;
    t.girder = girder;
    begin(t);
    for (PlanShape& s : strips) body(std::move(s), -through, -pad_thickness());
  }

  const Project& project_;
  const Bridge& bridge_;
  const Plan& plan_;
  Bodies& out_;
  std::map<std::string, int> girders_, splices_;
  int index_ = 0;
  const Panel* panel_ = nullptr;
};

}  // namespace

Bodies bodies_of(const Project& project, const Bridge& bridge, const Deck& deck, const Plan& plan) {
  Bodies out;
  Builder builder(project, bridge, plan, out);
  for (std::size_t i = 0; i < deck.panels.size(); ++i)
    builder.add_panel(static_cast<int>(i), deck.panels[i]);
  for (std::size_t i = 0; i < bridge.splices.size(); ++i) builder.add_splice(static_cast<int>(i));
  return out;
}

PlanShape splice_plate(const Bridge& bridge, const Splice& splice, const Plan& plan) {
  PlanShape s;
  if (plan.straight())
    for (const BridgePoint& p : box_ring(splice.plan)) s.core.push_back(plan.of(p));
  else
    for (const GroundPoint& p : splice_ring(bridge, splice)) s.core.push_back(plan.of_ground(p));
  return s;
}

std::vector<PlanShape> splice_bolts(const Bridge& bridge, const Splice& splice, const Plan& plan) {
  const Ring<PlanFrame> c = splice_plate(bridge, splice, plan).core;  // along, then across
  std::vector<PlanShape> out;
  for (int i = 0; i < splice.rows; ++i)
    for (int j = 0; j < splice.lines; ++j) {
      const double u = (i + 0.5) / splice.rows, v = (j + 0.5) / splice.lines;
      const PlanPoint at = c[0] + (c[1] - c[0]) * u + (c[3] - c[0]) * v;
      out.push_back({{at}, splice.bolt.in_mm()});
    }
  return out;
}

std::vector<PlanShape> flange_strips(const Bridge& bridge, const Girder& girder, const Panel& panel,
                                     const Plan& plan) {
  constexpr double reach = 1000;  // beyond the ends of the panel on the alignment: skews
  constexpr double step = 1000;   // along a curve
  const double from = std::max(girder.from.in_mm(), panel.start.in_mm() - reach);
  const double to = std::min(girder.to.in_mm(), panel.end.in_mm() + reach);
  std::vector<PlanShape> out;
  if (to <= from) return out;
  const bool curved = !panel.frame.straight;
  const int parts = curved ? static_cast<int>(std::ceil((to - from) / step)) : 1;
  const double half = girder.flange.in_mm() / 2;
  const auto across = [&](int i) {
    const double s = from + (to - from) * i / parts, o = girder_offset(bridge, girder, s);
    return std::pair{plan.of(BridgePoint{s, o - half}), plan.of(BridgePoint{s, o + half})};
  };
  for (int i = 0; i < parts; ++i) {
    const auto [a, d] = across(i);
    const auto [b, c] = across(i + 1);
    out.push_back({{a, b, c, d}, 0});
  }
  return out;
}

}  // namespace deckquire
