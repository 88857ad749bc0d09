#include "sheets/panel_solid.h"

#include <algorithm>
#include <cmath>

#include "deck/site.h"
#include "sheets/panel_drawing.h"

namespace deckquire::sheets {
namespace {

using Loop = std::vector<Spot>;
using Plan = Ring<PanelFrame>;

constexpr int round_sides = 24;
constexpr double on_edge = 1e-3;  // mm

enum Part { body, pipe, cavity, pad };  // from cavity on: fine

Plan turned_ring(const Feature& f, double length, double width) {
  Feature g = f;
  g.round = false, g.length = length, g.width = width;
  return g.ring();
}

double distance_to_line(PanelPoint p, PanelPoint a, PanelPoint b) {
  const PanelPoint d = b - a;
  return std::abs((p.x - a.x) * d.y - (p.y - a.y) * d.x) / std::hypot(d.x, d.y);
}

bool is_at(const Plan& ring, PanelPoint p) {
  const PanelPoint c = bounds(ring).centre();
  return std::hypot(c.x - p.x, c.y - p.y) < 1;
}

/// A recess or pad as far as it lies in the panel: up to the end faces and the faces at row joints.
Plan inside(const PanelShape& s, Plan ring) {
  ring = clip<PanelFrame>(ring, {-1, s.back_slope}, 0);
  ring = clip<PanelFrame>(ring, {1, -s.ahead_slope}, s.length);
  const auto up_to = [&](PanelPoint a, PanelPoint b, double side) {
    const PanelPoint n = PanelPoint{a.y - b.y, b.x - a.x} * side;
    ring = clip<PanelFrame>(ring, n, n.x * a.x + n.y * a.y);
  };
  const Corners c = corners_of(s);
  if (s.left_joint) up_to(c.back_left, c.ahead_left, 1);
  if (s.right_joint) up_to(c.back_right, c.ahead_right, -1);
  return ring;
}

/// y of the foot of a curb's inner face on the side of an edge, and the level of the curb's top.
double curb_top(const PanelShape& s, const DeckData& deck, double foot_y) {
  return s.top(foot_y) + deck.section.curb.height.in_mm();
}

class Builder {
 public:
  Builder(const PanelShape& shape, const DeckData& deck, double least)
      : shape_(shape), deck_(deck), least_(least) {}

  Solid make() {
    top_.push_back(shape_.outline);
    soffit_.push_back(shape_.outline);
    for (std::size_t i = 0; i < shape_.outline.size(); ++i)
      sides_.push_back(wall(shape_.outline[i], next(shape_.outline, i), 0, on_top()));
    for (const Plan& opening : shape_.openings) add_opening(opening);
    for (const Feature& f : shape_.features) add_feature(f);
    for (const CurbRun& run : shape_.curbs) add_curb(run);
    for (Face& f : sides_) out_.faces.push_back(std::move(f));
    add_top();
    level_face(soffit_, 0, false, body);
    return std::move(out_);
  }

 private:
  using Height = double (*)(const PanelShape&, double y);
  static PanelPoint next(const Plan& r, std::size_t i) { return r[(i + 1) % r.size()]; }
  static Height on_top() {
    return [](const PanelShape& s, double y) { return s.top(y); };
  }

  /// The upright face from a to b, its outside on the right, from a level up to the panel's top.
  Face wall(PanelPoint a, PanelPoint b, double low, Height high, int smooth = 0) const {
    Loop l{{a.x, a.y, low}, {b.x, b.y, low}, {b.x, b.y, high(shape_, b.y)}};
    const double crown = shape_.high_line;
    if (shape_.fall == Fall::crown && (a.y - crown) * (b.y - crown) < 0) {
      const double t = (crown - a.y) / (b.y - a.y);
      l.push_back({a.x + (b.x - a.x) * t, crown, high(shape_, crown)});
    }
    l.push_back({a.x, a.y, high(shape_, a.y)});
    return {{l}, smooth, body, false};
  }
  static Face wall(PanelPoint a, PanelPoint b, double low, double high, int smooth, int part) {
    return {{{{a.x, a.y, low}, {b.x, b.y, low}, {b.x, b.y, high}, {a.x, a.y, high}}},
            smooth,
            part,
            part >= cavity};
  }
  int smooth_of(const Plan& ring) { return ring.size() > 8 ? ++smooth_ : 0; }

  /// Walls round a hollow, up to the panel's top.
  void hollow_to_top(const Plan& ring, double low) {
    const int smooth = smooth_of(ring);
    for (std::size_t i = 0; i < ring.size(); ++i)
      out_.faces.push_back(wall(next(ring, i), ring[i], low, on_top(), smooth));
  }
  /// Walls round a hollow (or round a body) between two levels.
  void walls(const Plan& ring, double low, double high, bool hollow, int part) {
    const int smooth = smooth_of(ring);
    for (std::size_t i = 0; i < ring.size(); ++i) {
      const PanelPoint a = ring[i], b = next(ring, i);
      out_.faces.push_back(hollow ? wall(b, a, low, high, smooth, part)
                                  : wall(a, b, low, high, smooth, part));
    }
  }
  void level_face(const std::vector<Plan>& rings, double z, bool upwards, int part) {
    Face f;
    f.part = part;
    f.fine = part >= cavity;
    for (const Plan& ring : rings) {
      Loop l;
      for (PanelPoint p : ring) l.push_back({p.x, p.y, z});
      if (!upwards) std::reverse(l.begin(), l.end());
      f.loops.push_back(std::move(l));
    }
    out_.faces.push_back(std::move(f));
  }

  /// The top, on either side of the crown.
  void add_top() {
    for (const double side : {1.0, -1.0}) {
      if (shape_.fall != Fall::crown && side < 0) break;
      Face f;
      f.part = body;
      for (const Plan& ring : top_) {
        const Plan half = shape_.fall == Fall::crown
                              ? clip<PanelFrame>(ring, {0, side}, side * shape_.high_line)
                              : ring;
        if (half.size() < 3) {
          if (f.loops.empty()) break;  // nothing of the panel on this side
          continue;
        }
        Loop l;
        for (PanelPoint p : half) l.push_back({p.x, p.y, shape_.top(p.y)});
        f.loops.push_back(std::move(l));
      }
      if (!f.loops.empty()) out_.faces.push_back(std::move(f));
    }
  }

  /// Straight through: what is no scupper's outlet and no hatch's clear opening.
  void add_opening(const Plan& opening) {
    for (const Feature& f : shape_.features)
      if ((f.kind == FeatureKind::scupper || f.kind == FeatureKind::hatch) && is_at(opening, f.at))
        return;
    const Box<PanelFrame> b = bounds(opening);
    const Plan ring =
        opening.size() > 8 ? circle_ring(b.centre(), b.width(), round_sides) : opening;
    top_.push_back(ring);
    soffit_.push_back(ring);
    hollow_to_top(ring, 0);
  }

  void add_feature(const Feature& f) {
    switch (f.kind) {
      case FeatureKind::recess:
        return add_recess(f);
      case FeatureKind::post_plate:
        return add_plate(f);
      case FeatureKind::scupper:
        return add_scupper(f);
      case FeatureKind::hatch:
        return add_hatch(f);
      case FeatureKind::hold_down:
        return trace_circle(f.at, f.length, [](PanelPoint) { return 0.0; });
      case FeatureKind::lifting_insert:
        return trace_circle(f.at, f.length, [&](PanelPoint p) { return shape_.top(p.y); });
      case FeatureKind::pad:
        return add_pad(f);
      case FeatureKind::tag:
        return trace(f.ring(), LineKind::trace, [](PanelPoint) { return 0.0; });
      case FeatureKind::sleeve:
      case FeatureKind::notch:
        return;  // openings, or in the outline
    }
  }

  /// Open towards the panel's own faces that it reaches.
  void add_recess(const Feature& f) {
    const Plan ring = inside(shape_, f.ring());
    if (ring.size() < 3) return;
    soffit_.push_back(ring);
    level_face({ring}, f.depth, false, body);
    for (std::size_t i = 0; i < ring.size(); ++i) {
      const PanelPoint a = ring[i], b = next(ring, i);
      if (std::hypot(b.x - a.x, b.y - a.y) < on_edge) continue;
      Face w = wall(b, a, 0, f.depth, 0, body);
      if (Face* side = side_at(a, b))
        side->loops.push_back(std::move(w.loops.front()));
      else
        out_.faces.push_back(std::move(w));
    }
  }
  /// The face of the panel that a line of its plan lies in.
  Face* side_at(PanelPoint a, PanelPoint b) {
    const Plan& o = shape_.outline;
    for (std::size_t i = 0; i < o.size(); ++i) {
      const PanelPoint p = o[i], q = next(o, i), d = q - p;
      const double l = std::hypot(d.x, d.y);
      if (l < on_edge || distance_to_line(a, p, q) > on_edge || distance_to_line(b, p, q) > on_edge)
        continue;
      const PanelPoint m = (a + b) * 0.5 - p;
      if (const double t = (m.x * d.x + m.y * d.y) / l; t > 0 && t < l) return &sides_[i];
    }
    return nullptr;
  }

  void add_hatch(const Feature& f) {
    const HatchData& h = deck_.hatches[static_cast<std::size_t>(f.variant)];
    const double seat = 2 * h.rebate.in_mm(), z = shape_.top(f.at.y) - h.rebate_depth.in_mm();
    const Plan clear = turned_ring(f, h.length.in_mm(), h.width.in_mm());
    const Plan outer = turned_ring(f, h.length.in_mm() + seat, h.width.in_mm() + seat);
    top_.push_back(outer);
    soffit_.push_back(clear);
    hollow_to_top(outer, z);
    level_face({outer, reversed(clear)}, z, true, body);
    walls(clear, 0, z, true, body);
  }

  static Plan reversed(Plan ring) {
    std::reverse(ring.begin(), ring.end());
    return ring;
  }

  /// Seat of the grate, cavity, outlet and the pipe under it.
  void add_scupper(const Feature& f) {
    if (!deck_.scuppers) return;
    const ScuppersData& s = *deck_.scuppers;
    const double level = shape_.top(f.at.y), seat = level - s.grate.in_mm();
    const double floor = level - s.cavity.in_mm(), end = -s.outlet_below.in_mm();
    const double ledge = 2 * (s.grate_width - s.bolt_width_pitch).in_mm();
    const double a = s.grate_length.in_mm(), b = s.grate_width.in_mm();
    const Plan grate = turned_ring(f, a, b), hollow = turned_ring(f, a - ledge, b - ledge);
    const Plan outside = circle_ring(f.at, s.outlet.in_mm(), round_sides);
    const Plan bore =
        circle_ring(f.at, (s.outlet - s.outlet_wall - s.outlet_wall).in_mm(), round_sides);
    top_.push_back(grate);
    hollow_to_top(grate, seat);
    level_face({grate, reversed(hollow)}, seat, true, body);
    walls(hollow, floor, seat, true, cavity);
    level_face({hollow, reversed(bore)}, floor, true, cavity);
    walls(bore, end, floor, true, cavity);
    soffit_.push_back(outside);
    walls(outside, end, 0, false, pipe);
    level_face({outside, reversed(bore)}, end, false, pipe);
  }

  void add_pad(const Feature& f) {
    const Plan ring = inside(shape_, f.ring());
    if (ring.size() < 3 || f.depth <= 0) return;
    soffit_.push_back(ring);
    walls(ring, -f.depth, 0, false, pad);
    level_face({ring}, -f.depth, false, pad);
  }

  /// A plate lies under the curb's top; its tapped holes open there.
  void add_plate(const Feature& f) {
    if (!deck_.posts) return;
    const CurbRun* run = nullptr;
    for (const CurbRun& c : shape_.curbs)
      if (c.side == static_cast<Side>(f.variant) && contains(c.plan, f.at)) run = &c;
    if (!run) return;
    const std::vector<PanelPoint> foot = inner_foot(*run);
    const auto height = [&](PanelPoint p) { return curb_top(shape_, deck_, height_at(foot, p.x)); };
    const bool holes = f.width > 1.7 * least_;  // else too small for them, and for dashes
    trace(f.ring(), holes ? LineKind::sunk : LineKind::trace, height);
    if (!holes) return;
    const PostPlateData& p = deck_.posts->plate;
    for (int i = 0; i < p.along; ++i)
      for (int j = 0; j < p.across; ++j) {
        const double u = p.pitch_along.in_mm() * (i - (p.along - 1) / 2.0);
        const double v = p.pitch_across.in_mm() * (j - (p.across - 1) / 2.0);
        const double c = std::cos(f.angle), s = std::sin(f.angle);
        trace_circle({f.at.x + u * c - v * s, f.at.y + u * s + v * c}, thread_diameter(p.thread),
                     height);
      }
  }

  template <class HeightAt>
  void trace(const Plan& ring, LineKind kind, HeightAt height) {
    Trace t;
    t.kind = kind;
    for (PanelPoint p : ring) t.points.push_back({p.x, p.y, height(p)});
    t.points.push_back(t.points.front());
    out_.traces.push_back(std::move(t));
  }
  template <class HeightAt>
  void trace_circle(PanelPoint at, double diameter, HeightAt height) {
    trace(circle_ring(at, std::max(diameter, least_), round_sides), LineKind::trace, height);
  }

  /// Foot on the deck, level top, battered inner face.
  void add_curb(const CurbRun& run) {
    if (run.plan.size() < 4) return;
    top_.push_back(run.plan);
    const bool left = run.side == Side::left;
    const double out = left ? 1 : -1, batter = deck_.section.curb.batter.in_mm() * out;
    const double width = deck_.section.curb.width.in_mm() * out;
    const auto half = static_cast<std::ptrdiff_t>(run.plan.size() / 2);
    const std::vector<PanelPoint> inner = inner_foot(run);
    std::vector<PanelPoint> outer(run.plan.begin(), run.plan.begin() + half);
    if (left) outer.assign(run.plan.rbegin(), run.plan.rbegin() + half);
    Loop in, out_top, in_top, foot;
    for (std::size_t i = 0; i < inner.size(); ++i) {
      const PanelPoint p = inner[i], q = outer[i], r = battered(inner, i, batter);
      in.push_back({p.x, p.y, shape_.top(p.y)});
      foot.push_back({q.x, q.y, shape_.top(q.y)});
      out_top.push_back({q.x, q.y, curb_top(shape_, deck_, q.y - width)});
      in_top.push_back({r.x, r.y, curb_top(shape_, deck_, r.y - batter)});
    }
    const auto quad = [&](Spot a, Spot b, Spot c, Spot d) {
      Loop l{a, b, c, d};
      if (left) std::reverse(l.begin(), l.end());
      out_.faces.push_back({{l}, 0, body, false});
    };
    for (std::size_t i = 0; i + 1 < inner.size(); ++i) {
      quad(out_top[i], out_top[i + 1], in_top[i + 1], in_top[i]);
      quad(foot[i], foot[i + 1], out_top[i + 1], out_top[i]);
      quad(in[i + 1], in[i], in_top[i], in_top[i + 1]);
    }
    quad(in.front(), foot.front(), out_top.front(), in_top.front());
    quad(foot.back(), in.back(), in_top.back(), out_top.back());
  }

  /// The top of the inner face at a corner of its foot; at an end of the panel in the end face.
  PanelPoint battered(const std::vector<PanelPoint>& foot, std::size_t i, double batter) const {
    PanelPoint p = foot[i];
    const bool back = std::abs(p.x - shape_.back_x(p.y)) < on_edge;
    const bool ahead = std::abs(p.x - shape_.ahead_x(p.y)) < on_edge;
    p.y += batter;
    if (back || ahead)
      for (int k = 0; k < 20; ++k) {  // quickly settles: the foot is nearly along x
        p.x = back ? shape_.back_x(p.y) : shape_.ahead_x(p.y);
        p.y = height_at(foot, p.x) + batter;
      }
    return p;
  }

  const PanelShape& shape_;
  const DeckData& deck_;
  double least_;
  int smooth_ = 0;
  std::vector<Plan> top_, soffit_;  // the panel's top and soffit: outline and what is cut out
  std::vector<Face> sides_;         // one a side of the outline
  Solid out_;
};

std::vector<Spot> rim(const Plan& ring, const PanelShape& s, bool on_top) {
  std::vector<Spot> out;
  for (std::size_t i = 0; i < ring.size(); ++i)
    for (const double t : {0.5, 0.25, 0.75}) {
      const PanelPoint p = ring[i] + (ring[(i + 1) % ring.size()] - ring[i]) * t;
      out.push_back({p.x, p.y, on_top ? s.top(p.y) : 0});
    }
  return out;
}

}  // namespace

void add_prism(Solid& solid, const Ring<PanelFrame>& plan, double low, double high, int part) {
  Face top, bottom;
  top.loops.emplace_back(), bottom.loops.emplace_back();
  for (std::size_t i = 0; i < plan.size(); ++i) {
    const PanelPoint a = plan[i], b = plan[(i + 1) % plan.size()];
    solid.faces.push_back(
        {{{{a.x, a.y, low}, {b.x, b.y, low}, {b.x, b.y, high}, {a.x, a.y, high}}}, 0, part});
    top.loops.front().push_back({a.x, a.y, high});
    bottom.loops.front().push_back({a.x, a.y, low});
  }
  std::reverse(bottom.loops.front().begin(), bottom.loops.front().end());
  top.part = bottom.part = part;
  solid.faces.push_back(std::move(top));
  solid.faces.push_back(std::move(bottom));
}

Solid panel_solid(const PanelShape& shape, const DeckData& deck, double least_hole) {
  return Builder(shape, deck, least_hole).make();
}

Solid pads_solid(const PanelShape& shape) {
  Solid out;
  for (const Feature& f : shape.features) {
    if (f.kind != FeatureKind::pad || f.depth <= 0) continue;
    if (const Plan ring = inside(shape, f.ring()); ring.size() >= 3)
      add_prism(out, ring, -f.depth, 0, pad);
  }
  return out;
}

std::vector<Spot> feature_spots(const PanelShape& s, const DeckData& deck, const Feature& f,
                                bool from_above) {
  switch (f.kind) {
    case FeatureKind::post_plate: {
      for (const CurbRun& run : s.curbs)
        if (run.side == static_cast<Side>(f.variant) && contains(run.plan, f.at))
          return {{f.at.x, f.at.y, curb_top(s, deck, height_at(inner_foot(run), f.at.x))}};
      return {};
    }
    case FeatureKind::lifting_insert:
      return {{f.at.x, f.at.y, s.top(f.at.y)}};
    case FeatureKind::hold_down:
    case FeatureKind::tag:
      return {{f.at.x, f.at.y, 0}};
    case FeatureKind::pad: {
      std::vector<Spot> out;  // near its ends, where the leader is short
      const double c = std::cos(f.angle), d = std::sin(f.angle);
      for (const double u : {-0.4, 0.4, 0.0})
        out.push_back({f.at.x + u * f.length * c, f.at.y + u * f.length * d, -f.depth});
      return out;
    }
    case FeatureKind::recess:
      return rim(inside(s, f.ring()), s, false);
    case FeatureKind::scupper: {
      const ScuppersData& d = *deck.scuppers;
      if (from_above)
        return rim(turned_ring(f, d.grate_length.in_mm(), d.grate_width.in_mm()), s, true);
      std::vector<Spot> out;
      for (PanelPoint p : circle_ring(f.at, d.outlet.in_mm(), round_sides))
        out.push_back({p.x, p.y, -d.outlet_below.in_mm() / 2});
      return out;
    }
    case FeatureKind::hatch: {
      const double seat = from_above ? 2 * deck.hatches[std::size_t(f.variant)].rebate.in_mm() : 0;
      return rim(turned_ring(f, f.length + seat, f.width + seat), s, from_above);
    }
    case FeatureKind::sleeve:
      return rim(f.ring(), s, from_above);
    case FeatureKind::notch: {
      for (const Plan& o : s.openings)
        if (is_at(o, f.at)) return rim(o, s, from_above);
      std::vector<Spot> out;  // of the outline's sides, those in the notch
      for (std::size_t i = 0; i < s.outline.size(); ++i) {
        const PanelPoint m = (s.outline[i] + s.outline[(i + 1) % s.outline.size()]) * 0.5;
        if (f.box().grown(1).contains(m)) out.push_back({m.x, m.y, from_above ? s.top(m.y) : 0});
      }
      return out;
    }
  }
  return {};
}

}  // namespace deckquire::sheets
