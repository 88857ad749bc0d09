// What the panels of a random deck are: features, types, masses, posts.
#include <algorithm>
#include <cmath>
#include <map>
#include <set>

#include "deck/random_checks.h"
#include "deck/typing.h"

namespace trial {

Ring<PanelFrame> corners_of(const Feature& f, double around) {
  const double l = f.length / 2 + around, w = f.width / 2 + around;
  const double cos = std::cos(f.angle), sin = std::sin(f.angle);
  Ring<PanelFrame> out;
  if (f.round) {
    for (int i = 0; i < 16; ++i)
      out.push_back(f.at + PanelPoint{l * std::cos(i * pi / 8), l * std::sin(i * pi / 8)});
    return out;
  }
  for (const PanelPoint& p : {PanelPoint{-l, -w}, {l, -w}, {l, w}, {-l, w}})
    out.push_back(f.at + PanelPoint{p.x * cos - p.y * sin, p.x * sin + p.y * cos});
  return out;
}

namespace {

double to_segment(PanelPoint p, PanelPoint a, PanelPoint b) {
  const PanelPoint d = b - a, e = p - a;
  const double l2 = d.x * d.x + d.y * d.y;
  const double t = l2 == 0 ? 0 : std::clamp((e.x * d.x + e.y * d.y) / l2, 0.0, 1.0);
  return std::hypot(e.x - d.x * t, e.y - d.y * t);
}

/// Inside a ring, or outside by no more than `slack`: crossings of a ray (even or odd).
bool inside(const Ring<PanelFrame>& ring, PanelPoint p, double slack) {
  bool in = false;
  double nearest = 1e300;
  for (std::size_t i = 0, n = ring.size(); i < n; ++i) {
    const PanelPoint a = ring[i], b = ring[(i + 1) % n];
    if ((a.y > p.y) != (b.y > p.y) && p.x < a.x + (p.y - a.y) / (b.y - a.y) * (b.x - a.x)) in = !in;
    nearest = std::min(nearest, to_segment(p, a, b));
  }
  return in || nearest <= slack;
}

bool all_inside(const Ring<PanelFrame>& ring, const Ring<PanelFrame>& corners, double slack) {
  return std::all_of(corners.begin(), corners.end(),
                     [&](PanelPoint p) { return inside(ring, p, slack); });
}

bool in_its_curb(const PanelShape& s, const Feature& f) {
  return std::any_of(s.curbs.begin(), s.curbs.end(), [&](const CurbRun& run) {
    return static_cast<int>(run.side) == f.variant && all_inside(run.plan, corners_of(f), 0.01);
  });
}

/// A recess may run out over a joint, no further than until all of its side is in the gap; never
/// over the deck's edge.
void check_recess(const Case& c, const Panel& p, const Feature& f) {
  const PanelShape& s = p.shape;
  const auto line = [](const std::vector<PanelPoint>& edge, double x) {
    const PanelPoint a = edge.front(), d = edge.back() - a;
    return a.y + d.y * (x - a.x) / d.x;
  };
  const PanelPoint half{f.length / 2, f.width / 2};
  const Box<PanelFrame> b{f.at - half, f.at + half};
  bool out = b.high.x < std::min(s.back_x(b.low.y), s.back_x(b.high.y));
  for (double y : {b.low.y, b.high.y}) {
    out = out || s.back_x(y) - b.low.x > std::abs(s.back_slope) * f.width + 0.01;
    out = out || b.high.x - s.ahead_x(y) > std::abs(s.ahead_slope) * f.width + 0.01;
  }
  for (double x : {b.low.x, b.high.x}) {
    const auto beyond = [&](const std::vector<PanelPoint>& edge, bool joint, double over) {
      const PanelPoint d = edge.back() - edge.front();
      return over > (joint ? std::abs(d.y / d.x) * f.length : 0) + 0.01;
    };
    out = out || beyond(p.left_edge, s.left_joint, b.high.y - line(p.left_edge, x));
    out = out || beyond(p.right_edge, s.right_joint, line(p.right_edge, x) - b.low.y);
  }
  if (out) c.say("recess {} leaves panel {}", f.source, p.position);
}

void check_feature(const Case& c, const Panel& p, const Feature& f) {
  const char* name = feature_name(f.kind);
  // A pad's width is settled in the middle of its panel.
  const double slack = f.kind == FeatureKind::pad ? 0.2 : 0.01;
  double around = 0;
  if (f.kind == FeatureKind::notch) return;
  if (f.kind == FeatureKind::recess) return check_recess(c, p, f);
  if (f.kind == FeatureKind::hatch)
    around = c.project().deck.hatches[static_cast<std::size_t>(f.variant)].rebate.in_mm();
  if (f.kind == FeatureKind::post_plate && !in_its_curb(p.shape, f))
    c.say("post {} at {} does not stand in the curb of panel {}", f.source, f.at.x, p.position);
  if (!all_inside(p.shape.outline, corners_of(f, around), slack))
    c.say("{} {} is not inside panel {}", name, f.source, p.position);
}

// ---- types

PanelPoint low_of(const PanelShape& s) {
  PanelPoint low{1e300, 1e300};
  for (PanelPoint p : s.outline) low = {std::min(low.x, p.x), std::min(low.y, p.y)};
  return low;
}

PanelPoint high_of(const PanelShape& s) {
  PanelPoint high{-1e300, -1e300};
  for (PanelPoint p : s.outline) high = {std::max(high.x, p.x), std::max(high.y, p.y)};
  return high;
}

/// What a part looks like, from the corner of the box round it: points by what they belong to.
using Likeness = std::map<std::vector<int>, std::vector<std::vector<double>>>;

/// `turned`: end for end, so from the opposite corner, left for right.
Likeness likeness(const PanelShape& s, bool turned) {
  const PanelPoint zero = turned ? high_of(s) : low_of(s);
  const double sign = turned ? -1 : 1;
  const auto at = [&](PanelPoint p) {
    return std::vector<double>{sign * (p.x - zero.x), sign * (p.y - zero.y)};
  };
  const auto side = [&](int v) { return turned ? 1 - v : v; };
  Likeness out;
  for (PanelPoint p : s.outline) out[{0}].push_back(at(p));
  for (const auto& o : s.openings)
    for (PanelPoint p : o) out[{1, static_cast<int>(o.size())}].push_back(at(p));
  for (const CurbRun& run : s.curbs)
    for (PanelPoint p : run.plan) out[{2, side(static_cast<int>(run.side))}].push_back(at(p));
  for (const Feature& f : s.features) {
    if (f.kind == FeatureKind::tag) continue;
    const bool sided = f.kind == FeatureKind::post_plate || f.kind == FeatureKind::scupper;
    const std::vector<int> key{3, static_cast<int>(f.kind), f.round ? 1 : 0,
                               sided ? side(f.variant) : f.variant};
    if (f.round)
      out[key].push_back({at(f.at)[0], at(f.at)[1], f.length, f.depth});
    else
      for (PanelPoint p : corners_of(f)) {
        out[key].push_back(at(p));
        out[key].back().push_back(f.depth);
      }
  }
  Fall fall = s.fall;
  if (turned && fall != Fall::crown && fall != Fall::none)
    fall = fall == Fall::left ? Fall::right : Fall::left;
  out[{4, static_cast<int>(fall), s.surface}].push_back({s.depth, 1000 * s.slope});
  if (fall != Fall::none) out[{5}].push_back({sign * (s.high_line - zero.y)});
  const EdgeEnd back = turned ? s.ahead : s.back, ahead = turned ? s.back : s.ahead;
  const bool left = turned ? s.right_joint : s.left_joint;
  const bool right = turned ? s.left_joint : s.right_joint;
  out[{6, static_cast<int>(back), static_cast<int>(ahead), left, right}].push_back({});
  return out;
}

/// The greatest distance from any value of one to its nearest in the other; 1e300: other kinds.
double apart(const Likeness& a, const Likeness& b) {
  if (a.size() != b.size()) return 1e300;
  double most = 0;
  for (const auto& [key, points] : a) {
    const auto other = b.find(key);
    if (other == b.end() || other->second.size() != points.size()) return 1e300;
    for (const auto& p : points) {
      double least = 1e300;
      for (const auto& q : other->second) {
        double d = 0;
        for (std::size_t i = 0; i < p.size(); ++i) d = std::max(d, std::abs(p[i] - q[i]));
        least = std::min(least, d);
      }
      most = std::max(most, least);
    }
  }
  return most;
}

void check_marks_differ(const Case& c, double tolerance) {
  const auto& marks = c.deck().marks;
  std::vector<Likeness> drawn, turned;
  for (const Mark& m : marks) {
    drawn.push_back(likeness(m.shape, false));
    turned.push_back(likeness(m.shape, true));
  }
  for (std::size_t i = 0; i < marks.size(); ++i)
    for (std::size_t k = i + 1; k < marks.size(); ++k)
      for (const Likeness* l : {&drawn[k], &turned[k]})
        if (std::max(apart(drawn[i], *l), apart(*l, drawn[i])) < 0.9 * tolerance)
          c.say("{} and {} are the same part", marks[i].name, marks[k].name);
}

/// Where equal panels are equal to the micrometre, their order does not matter.
void check_any_order(const Case& c) {
  std::vector<const PanelShape*> shapes;
  for (const Panel& p : c.deck().panels) shapes.push_back(&p.shape);
  Dice dice{c.made.seed};
  for (std::size_t i = shapes.size(); i > 1; --i)
    std::swap(shapes[i - 1], shapes[static_cast<std::size_t>(dice.upto(static_cast<int>(i)))]);
  Typing typing(c.project().deck.marks.tolerance);
  std::size_t marks = 0;
  for (const PanelShape* s : shapes) marks += typing.place(*s).first ? 1 : 0;
  if (marks != c.deck().marks.size())
    c.say("{} marks, in another order {}", c.deck().marks.size(), marks);
}

}  // namespace

void check_features(const Case& c) {
  for (const Panel& p : c.deck().panels)
    for (const Feature& f : p.shape.features) check_feature(c, p, f);
}

void check_types(const Case& c) {
  const double tolerance = c.project().deck.marks.tolerance.in_mm();
  for (const Panel& p : c.deck().panels) {
    const Mark& m = c.deck().marks[static_cast<std::size_t>(p.mark)];
    const Likeness is = likeness(p.shape, p.turned), drawn = likeness(m.shape, false);
    const double d = std::max(apart(is, drawn), apart(drawn, is));
    // Corners of a feature move with its middle and with its size.
    if (d > 2 * tolerance + 1e-5)
      c.say("panel {} is {} mm off the drawing of {}{}", p.position, d, m.name,
            p.turned ? ", turned" : "");
  }
  check_marks_differ(c, tolerance);
  if (c.project().deck.marks.tolerance <= mm(0.001)) check_any_order(c);
}

void check_masses(const Case& c) {
  double sum = 0, plan = 0;
  for (const Panel& p : c.deck().panels) {
    const Mark& m = c.deck().marks[static_cast<std::size_t>(p.mark)];
    sum += m.masses.total.in_si();
    plan += m.masses.top_area.in_si();
  }
  if (std::abs(sum - c.deck().mass.in_si()) > 1e-6 * sum) c.say("the masses do not add up");
  if (std::abs(plan - c.deck().area.in_si()) > 1e-6 * plan) c.say("the areas do not add up");
  for (const Mark& m : c.deck().marks) {
    double parts = 0;
    for (const MassPart& p : m.masses.parts) {
      parts += p.mass.in_si();
      if (!(p.mass.in_si() >= 0)) c.say("{}: {} has a mass of {}", m.name, p.part, p.mass.in_si());
    }
    if (std::abs(parts - m.masses.total.in_si()) > 1e-9 * parts) c.say("{}: parts and sum", m.name);
    const PanelPoint low = low_of(m.shape), high = high_of(m.shape);
    if (!(m.masses.x > low.x && m.masses.x < high.x && m.masses.y > low.y && m.masses.y < high.y))
      c.say("the centre of gravity of {} is outside it", m.name);
  }
}

bool steps_between(const Case& c, const Post& a, const Post& b) {
  const auto& e = c.project().deck.edges;
  for (std::size_t i = 1; i < e.size(); ++i)
    if (e[i].station == e[i - 1].station && a.station < e[i].station + metres(1) &&
        b.station > e[i].station - metres(1))
      return true;  // also where a skewed joint carries the step along
  return false;
}

void check_posts(const Case& c) {
  const auto& posts = c.project().deck.posts;
  if (!posts || !posts->greatest) return;
  if (codes(c.built.findings).find("post-bay-long") != std::string::npos) return;  // it is said
  for (std::size_t i = 1; i < c.deck().posts.size(); ++i) {
    const Post &a = c.deck().posts[i - 1], &b = c.deck().posts[i];
    if (a.side != b.side) continue;
    // A rail is straight from post to post; what it does at a step of the deck is not its length.
    const Length beside = steps_between(c, a, b) ? a.offset : b.offset;
    const GroundPoint d = c.alignment().ground(b.station.in_mm(), beside.in_mm()) -
                          c.alignment().ground(a.station.in_mm(), a.offset.in_mm());
    const double bay = std::hypot(d.x, d.y);
    if (bay > posts->greatest->in_mm() + print_unit(c.project().units).in_mm())
      c.say("posts {} and {} are {} mm apart, {} at most", a.name, b.name, bay,
            posts->greatest->in_mm());
  }
}

}  // namespace trial
