// The section of the panels: what recesses and falls leave of it; and their grade.
#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>

#include "checks/parts.h"
#include "checks/warp.h"
#include "deck/features.h"

namespace deckquire {
namespace {

/// Least height of the top over a feature.
double local_depth(const PanelShape& s, const Feature& f) {
  const Box<PanelFrame> b = f.box();
  return std::min(s.top(b.low.y), s.top(b.high.y));  // the top is highest on its ridge
}

struct Recess {
  const Panel* panel;
  const Feature* feature;
  double depth;  // of the panel there
  double cover() const { return depth - feature->depth; }
};

std::vector<Recess> recesses_of(const FitCheck& c) {
  std::vector<Recess> all;
  for (const Mark& m : c.deck.marks) {
    const Panel& p = c.first_of(m);
    for (const Feature& f : p.shape.features)
      if (f.kind == FeatureKind::recess) all.push_back({&p, &f, local_depth(p.shape, f)});
  }
  return all;
}

/// The recesses that `bad` names as one finding: where least is left, and how many more there are.
template <class Bad>
std::optional<std::pair<Recess, std::string>> worst(const std::vector<Recess>& all, Bad bad) {
  std::optional<Recess> found;
  int more = -1;
  for (const Recess& r : all) {
    if (!bad(r)) continue;
    if (!found || r.cover() < found->cover() - 1e-6) found = r;
    ++more;
  }
  if (!found) return std::nullopt;
  return std::pair{*found, more > 0 ? fmt::format(", and {} more like it", more) : ""};
}

void check_recess_covers(const FitCheck& c) {
  const double least = c.data().section.recess_cover.in_mm();
  const std::vector<Recess> all = recesses_of(c);
  const auto thin = [&](const Recess& r) { return r.cover() + 1e-6 < least; };
  if (const auto w = worst(all, thin)) {
    const auto& [r, more] = *w;
    const std::string what =
        r.cover() < 0 ? fmt::format("recess {} in panel {} is {} deep, the panel there only {}{}",
                                    r.feature->source, r.panel->position,
                                    c.length(r.feature->depth), c.length(r.depth), more)
                      : fmt::format("recess {} in panel {} is {} deep and leaves {} above it{}",
                                    r.feature->source, r.panel->position,
                                    c.length(r.feature->depth), c.length(r.cover()), more);
    c.findings.error(c.place_of(*r.feature), "recess-cover", what,
                     fmt::format("{} is asked for: a deeper panel, a thinner splice plate or "
                                 "shorter bolt ends",
                                 c.length(least)));
  }
  const auto deep = [&](const Recess& r) { return !thin(r) && r.feature->depth > r.depth / 2; };
  if (const auto w = worst(all, deep)) {
    const auto& [r, more] = *w;
    c.findings.warning(
        c.place_of(*r.feature), "recess-deep",
        fmt::format("recess {} in panel {} is deeper than half the panel ({} of {}){}",
                    r.feature->source, r.panel->position, c.length(r.feature->depth),
                    c.length(r.depth), more),
        "the engineer must accept it (common practice, no source)");
  }
}

/// False, and an error, where an edge is too thin.
bool edge_depth_good(const FitCheck& c, const Panel& p) {
  double least = p.shape.depth;
  for (PanelPoint v : p.shape.outline) least = std::min(least, p.shape.top(v.y));
  const double allowed = c.data().section.least_edge.in_mm();
  if (least + 1e-6 >= allowed) return true;
  c.findings.error(c.data().section.place, "edge-too-thin",
                   fmt::format("panel {} is {} deep at its edge", p.position, c.length(least)),
                   fmt::format("{} is the least allowed: a deeper section or less crossfall",
                               c.length(allowed)));
  return false;
}

void check_crossfall(const FitCheck& c) {
  const SectionData& s = c.data().section;
  constexpr double walking = 1.0 / 48;
  if (s.fall == Fall::none || s.slope <= walking + 1e-9) return;
  c.findings.warning(
      s.place, "crossfall-steep",
      fmt::format("the crossfall is {} %", shortest_decimal(s.slope * 100, 2)),
      "1:48 is the most for an accessible walk (US ADA standards, from memory; local "
      "rules govern)");
}

/// The first panel that ends ahead of a station, or nullptr. Panels lie in the order of stations.
const Panel* first_beyond(const FitCheck& c, Length station) {
  const auto& all = c.deck.panels;
  const auto at = std::partition_point(all.begin(), all.end(),
                                       [&](const Panel& p) { return p.end <= station; });
  return at == all.end() ? nullptr : &*at;
}

/// How far a flat panel lies off a parabola at most: where the parabola runs along its chord.
Length off_parabola(const Alignment& line, const VerticalCurve& v, const Panel& p) {
  const Length from = std::max(p.start, v.begin), to = std::min(p.end, v.end);
  if (from >= to || v.grade_ahead == v.grade_back) return Length();
  const Length rise = line.level(p.end) - line.level(p.start);
  const double slope = rise / (p.end - p.start);
  const double part = (slope - v.grade_back) / (v.grade_ahead - v.grade_back);
  const Length at = std::clamp(v.begin + (v.end - v.begin) * part, from, to);
  const Length chord = line.level(p.start) + (at - p.start) * slope;
  return abs(line.level(at) - chord);
}

/// One finding a parabola, at its worst panel.
void check_vertical_curves(const FitCheck& c, Length allowed) {
  for (const VerticalCurve& v : c.bridge.alignment.vertical_curves()) {
    const Panel* worst = nullptr;
    Length most = allowed;
    const Panel* const end = c.deck.panels.data() + c.deck.panels.size();
    for (const Panel* p = first_beyond(c, v.begin); p && p != end && p->start < v.end; ++p) {
      const Length off = off_parabola(c.bridge.alignment, v, *p);
      if (off <= most) continue;
      worst = p;
      most = off;
    }
    if (!worst) continue;
    Place place;
    for (const GradePointData& g : c.bridge.alignment.grades())
      if (g.station == v.middle) place = g.place;
    c.findings.warning(place, "vertical-curve-off-panel",
                       fmt::format("on the vertical curve the flat panel {} is {} off",
                                   worst->position, c.length(most.in_mm())),
                       "use shorter panels or a longer curve, or shim (common practice, no "
                       "source)");
  }
}

/// Grade points that are not rounded, inside a panel: one finding, at the worst.
void check_kinks(const FitCheck& c, double allowed) {
  const auto& grades = c.project.bridge.alignment.grades;
  const Alignment& line = c.bridge.alignment;
  const GradePointData* worst = nullptr;
  const Panel* panel = nullptr;
  double most = allowed;
  int more = -1;
  for (std::size_t i = 1; i + 1 < grades.size(); ++i) {
    if (grades[i].curve > Length()) continue;  // see check_vertical_curves
    const Length at = grades[i].station;
    const Panel* p = first_beyond(c, at);
    if (!p || at <= p->start) continue;
    const double back = (at - p->start).in_mm(), ahead = (p->end - at).in_mm();
    const double change = std::abs(line.grade(at) - line.grade(p->start));
    const double rise = change * back * ahead / (back + ahead);  // off the chord, at the kink
    if (rise <= allowed) continue;
    ++more;
    if (rise <= most) continue;
    worst = &grades[i];
    panel = p;
    most = rise;
  }
  if (!worst) return;
  c.findings.warning(
      worst->place, "grade-changes-inside-panel",
      fmt::format("the grade changes inside panel {} at {}: the flat panel is {} off{}",
                  panel->position, print_station(worst->station, c.project.units), c.length(most),
                  and_more(more)),
      "put the grade point on a joint, or shim (common practice, no source)");
}

/// The steel under the corners of a panel. It is level across: a skewed end has its corners at
/// other stations, and so on a parabola on another slope; on a curve the ends are not parallel.
std::array<Corner, 4> corners_of(const FitCheck& c, const Panel& p) {
  const PanelShape& s = p.shape;
  const auto at = [&](double x, double y) {
    const Length station = mm(p.frame.bridge(c.bridge.alignment, {x, y}).x);
    return Corner{{x, y}, c.bridge.alignment.level(station).in_mm()};
  };
  return {at(s.back_x(s.right_back), s.right_back), at(s.ahead_x(s.right_ahead), s.right_ahead),
          at(s.ahead_x(s.left_ahead), s.left_ahead), at(s.back_x(s.left_back), s.left_back)};
}

/// A kink of the grade inside the panel on the alignment: check_kinks speaks of it.
bool kink_inside(const FitCheck& c, const Panel& p) {
  const auto& grades = c.bridge.alignment.grades();
  auto g = std::partition_point(grades.begin(), grades.end(),
                                [&](const GradePointData& a) { return a.station <= p.start; });
  for (; g != grades.end() && g->station < p.end; ++g)
    if (g->curve <= Length()) return true;
  return false;
}

/// One finding, at the worst panel.
void check_warp(const FitCheck& c, double allowed) {
  const Panel* worst = nullptr;
  double most = 0;
  int count = 0;
  for (const Panel& p : c.deck.panels) {
    if (p.shape.square() && p.frame.straight) continue;  // both corners of an end at one station
    const double off = off_best_plane(corners_of(c, p));
    if (off <= allowed + 1e-4 || kink_inside(c, p)) continue;
    ++count;
    if (off <= most + 1e-6) continue;
    worst = &p;
    most = off;
  }
  if (!worst) return;
  c.findings.warning(
      c.project.bridge.alignment.place, "panel-warped",
      fmt::format("the steel under the corners of panel {} is twisted: a flat panel is {} off{}",
                  worst->position, c.length(std::round(most * 10) / 10), and_more(count - 1)),
      "shim its corners, make its ends square, or give the vertical curve more length (common "
      "practice, no source)");
}

/// Stations are level; a panel on a grade lies along the slope, and is longer by L (sec - 1).
void check_grade(const FitCheck& c) {
  constexpr double allowed = 1;       // mm a joint
  constexpr double allowed_kink = 2;  // mm over a grade point inside a panel
  for (const Panel& p : c.deck.panels) {
    const double grade = c.bridge.alignment.grade(p.start), length = (p.end - p.start).in_mm();
    const double excess = length * (std::hypot(1, grade) - 1);
    if (excess <= allowed) continue;
    c.findings.warning(c.project.bridge.alignment.place, "slope-excess",
                       fmt::format("on a grade of {} % each panel is {} mm longer along the slope "
                                   "than its stations say",
                                   shortest_decimal(grade * 100, 2), decimal(excess, 1)),
                       "the joints take it up: allow for it in the gaps, or shorten the panels");
    break;
  }
  check_kinks(c, allowed_kink);
  check_vertical_curves(c, mm(allowed_kink));
  check_warp(c, allowed_kink);
}

}  // namespace

void check_section(const FitCheck& c) {
  check_recess_covers(c);
  // One finding: the section is the same everywhere.
  for (const Mark& m : c.deck.marks)
    if (!edge_depth_good(c, c.first_of(m))) break;
  check_crossfall(c);
  check_grade(c);
}

}  // namespace deckquire
