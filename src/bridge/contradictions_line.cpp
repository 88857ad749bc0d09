// What the alignment may say against itself.
#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <tuple>

#include "bridge/contradictions.h"

namespace deckquire {
namespace {

/// A curve or transition as written.
struct Written {
  Length from, to;
  bool transition = false;
  Place place;
  const char* kind() const { return transition ? "transition" : "curve"; }
};

std::vector<Written> written(const AlignmentData& a) {
  std::vector<Written> all;
  for (const PlanCurveData& c : a.curves) all.push_back({c.from, c.to, false, c.place});
  for (const TransitionData& t : a.transitions) all.push_back({t.from, t.to, true, t.place});
  std::stable_sort(all.begin(), all.end(), [](const Written& p, const Written& q) {
    return std::tie(p.place.line, p.place.column) < std::tie(q.place.line, q.place.column);
  });
  return all;
}

bool check_written_order(const Said& said, const std::vector<Written>& all) {
  for (std::size_t i = 1; i < all.size(); ++i)
    if (all[i].from < all[i - 1].from) {
      said.findings.error(all[i].place, "elements-out-of-order",
                          fmt::format("the {} at {} lies before the {} above it", all[i].kind(),
                                      said.station(all[i].from), all[i - 1].kind()),
                          "list curves and transitions in the order of their stations");
      return false;
    }
  return true;
}

bool check_extent(const Said& said, const Written& w) {
  if (!said.outside(w.from) && !said.outside(w.to)) return true;
  const Length from = said.bridge.alignment.from(), to = said.bridge.alignment.to();
  said.findings.error(w.place, "element-outside-alignment",
                      fmt::format("the {} from {} to {} reaches {} beyond the alignment", w.kind(),
                                  said.station(w.from), said.station(w.to),
                                  said.length(std::max(from - w.from, w.to - to))),
                      "the alignment runs from " + said.extent() +
                          "; beyond it the curvature goes on as at its ends");
  return false;
}

bool check_overlap(const Said& said, const Written& back, const Written& ahead) {
  if (back.to <= ahead.from) return true;
  said.findings.error(ahead.place, "elements-overlap",
                      fmt::format("the {} from {} overlaps the {} before it by {}", ahead.kind(),
                                  said.station(ahead.from), back.kind(),
                                  said.length(std::min(back.to, ahead.to) - ahead.from)),
                      fmt::format("begin it at {} or later, or end the {} at {}",
                                  said.station(back.to), back.kind(), said.station(ahead.from)));
  return false;
}

/// Of the curve itself, or of the tighter one that a transition touches; none: 0.
double sharpest(const AlignmentData& a, const Written& w) {
  double most = 0;
  for (const PlanCurveData& c : a.curves)
    if (w.transition ? c.from == w.to || c.to == w.from : c.from == w.from)
      most = std::max(most, 1 / c.radius.in_mm());
  return most;
}

bool check_turn(const Said& said, const Written& w) {
  const double turn =
      sharpest(said.project.bridge.alignment, w) * (w.to - w.from).in_mm() / (2 * pi);
  if (turn * 2 * pi <= most_turn) return true;
  said.findings.error(w.place, "curve-too-long",
                      fmt::format("the {} from {} is {} full circles long", w.kind(),
                                  said.station(w.from), decimal(turn, 1)),
                      fmt::format("check its stations and radius: {} are the most",
                                  decimal(most_turn / (2 * pi), 0)));
  return false;
}

/// The elements where they are good enough to be looked at further.
bool check_row(const Said& said, const std::vector<Written>& all) {
  if (!check_written_order(said, all)) return false;
  bool good = true;
  for (std::size_t i = 0; i < all.size(); ++i) {
    good &= check_extent(said, all[i]);
    good &= check_turn(said, all[i]);
    if (i > 0) good &= check_overlap(said, all[i - 1], all[i]);
  }
  return good;
}

std::string radius_text(const Said& said, double curvature) {
  if (curvature == 0) return "a straight line";
  return fmt::format("a radius of {} to the {}", said.length(mm(1 / std::abs(curvature))),
                     curvature > 0 ? "left" : "right");
}

void check_transition(const Said& said, const Written& w) {
  for (const PlanElement& e : said.bridge.alignment.elements()) {
    if (e.from != w.from.in_mm() || e.curvature_from != e.curvature_to) continue;
    said.findings.error(
        w.place, "transition-between-equals",
        fmt::format("the transition from {} to {} has {} at both its ends", said.station(w.from),
                    said.station(w.to), radius_text(said, e.curvature_from)),
        "let it touch a curve at one end, or leave it out");
  }
}

/// Stations (mm) at which to look at an element: near enough to each other to miss nothing.
std::vector<double> looked_at(const Said& said, const Written& w) {
  auto all = stations_along(said.bridge.alignment, w.from, w.to, {0, 1});
  for (Length s : said.bridge.edges.breaks())
    if (s >= w.from && s <= w.to) all.push_back(s.in_mm());
  std::sort(all.begin(), all.end());
  return all;
}

void check_tightness(const Said& said, const Written& w) {
  const Alignment& line = said.bridge.alignment;
  double worst = 0, at = 0;
  for (double s : looked_at(said, w)) {
    // Just ahead of a joint the curvature is the next element's.
    const double inside = std::min(s, w.to.in_mm() - 1e-3), k = line.curvature(inside);
    const auto law = [&](bool ahead) {
      return k > 0 ? said.bridge.edges.left(mm(s), ahead) : said.bridge.edges.right(mm(s), ahead);
    };
    const double reach = std::abs(k) * std::max(law(false), law(true)).in_mm();
    if (reach <= worst) continue;
    worst = reach;
    at = inside;
  }
  if (worst < 1) return;
  const double k = line.curvature(at);
  said.findings.error(
      w.place, "curve-too-tight",
      fmt::format("at {} the {} edge is {} from the alignment, the centre of its curve {}",
                  said.station(mm(at)), k > 0 ? "left" : "right",
                  said.length(mm(worst / std::abs(k))), said.length(mm(1 / std::abs(k)))),
      fmt::format("the radius must be larger than {}", said.length(mm(worst / std::abs(k)))));
}

// ---- level

bool check_grade_order(const Said& said, const std::vector<GradePointData>& g) {
  bool good = true;
  for (std::size_t i = 1; i < g.size(); ++i)
    if (g[i].station <= g[i - 1].station) {
      good = false;
      said.findings.error(g[i].place, "grades-out-of-order",
                          fmt::format("the grade point at {} is not ahead of the one before it",
                                      said.station(g[i].station)),
                          "list the grade points in the order of their stations");
    }
  return good;
}

/// One without a neighbour on both sides has but one grade.
void check_end_curve(const Said& said, const GradePointData& g, bool last) {
  if (g.curve <= Length()) return;
  said.findings.error(g.place, "vertical-curve-at-end",
                      fmt::format("the {} grade point has a curve, but no change of grade to round",
                                  last ? "last" : "first"),
                      "leave out its curve, or give a grade point beyond it");
}

/// Neighbours inside the profile; the first and last point are no corners.
void check_curves_meet(const Said& said, const GradePointData& back, const GradePointData& ahead) {
  const Length room = ahead.station - back.station;
  const Length over = back.curve / 2 + ahead.curve / 2 - room;
  if (over <= Length()) return;
  if (back.curve > Length() && ahead.curve > Length()) {
    said.findings.error(
        ahead.place, "vertical-curves-overlap",
        fmt::format("the vertical curve about {} overlaps the one before it by {}",
                    said.station(ahead.station), said.length(over)),
        fmt::format("half of each lies between {} and {}: together {} at most",
                    said.station(back.station), said.station(ahead.station), said.length(room)));
    return;
  }
  const bool first = back.curve > Length();
  const GradePointData &curve = first ? back : ahead, &corner = first ? ahead : back;
  said.findings.error(
      curve.place, "vertical-curves-overlap",
      fmt::format("the vertical curve about {} reaches {} beyond the corner at {}",
                  said.station(curve.station), said.length(over), said.station(corner.station)),
      fmt::format("make it {} long at most", said.length(room * 2)));
}

void check_curve_extent(const Said& said, const GradePointData& g) {
  const Length begin = g.station - g.curve / 2, end = begin + g.curve;
  if (g.curve <= Length() || (!said.outside(begin) && !said.outside(end))) return;
  const Length over =
      std::max(said.bridge.alignment.from() - begin, end - said.bridge.alignment.to());
  said.findings.warning(g.place, "vertical-curve-outside",
                        fmt::format("the vertical curve about {} reaches {} beyond the alignment",
                                    said.station(g.station), said.length(over)),
                        "check its length: the deck takes only what lies from " + said.extent());
}

}  // namespace

void check_plan(const Said& said) {
  const auto all = written(said.project.bridge.alignment);
  if (!check_row(said, all)) return;
  for (const Written& w : all) {
    if (w.transition) check_transition(said, w);
    check_tightness(said, w);
  }
}

void check_profile(const Said& said) {
  const auto& g = said.project.bridge.alignment.grades;
  if (!check_grade_order(said, g)) return;
  for (std::size_t i = 0; i < g.size(); ++i) {
    if (i == 0 || i + 1 == g.size()) {
      check_end_curve(said, g[i], i > 0);
      continue;
    }
    check_curve_extent(said, g[i]);
    if (i > 1) check_curves_meet(said, g[i - 1], g[i]);
  }
}

}  // namespace deckquire
