// Every mark in the slings: pull at its inserts, tipping, bending between them.
#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "checks/section_values.h"

namespace deckquire {
namespace {


struct Lift {
  const CalculationJob& job;
  const LiftingData& data = job.project.deck.lifting;
  SandwichStrips sections{job, Topic::lifting};
  std::vector<Bundle> bundles = {};
};

std::vector<PanelPoint> inserts_of(const PanelShape& shape) {
  std::vector<PanelPoint> at;
  for (const Feature& f : shape.features)
    if (f.kind == FeatureKind::lifting_insert) at.push_back(f.at);
  return at;
}

Inputs weight(const Lift& l, const Mark& m) {
  Inputs in;
  in.computed("W", m.masses.total.in_si() * gravity, "mass of the mark × standard gravity")
      .project("phi", *l.data.handling, l.data.place);
  if (l.data.capacity_kn > 0)
    in.project("F_i", l.data.capacity_kn * 1e3, l.data.place, l.data.source);
  return in;
}

void slings(Lift& l, const Mark& m, std::size_t inserts, const Subject& of) {
  Inputs in = weight(l, m);
  in.computed("n", static_cast<double>(inserts), "inserts of the mark")
      .project("n_e", l.data.carrying, l.data.place)
      .project("beta", l.data.angle.in_si(), l.data.place);
  if (const auto i = add_working(l.job, Topic::lifting, "sling", in, of)) l.bundles.push_back({*i});
}

void pulls(Lift& l, const Mark& m, const std::vector<PanelPoint>& at, const Subject& of) {
  Inputs in = weight(l, m);
  std::string points;
  for (PanelPoint p : at)
    points += fmt::format("{}{}, {} mm", points.empty() ? "" : "; ", in_list(p.x), in_list(p.y));
  in.computed_text("points", points, "inserts of the mark, from its back face and the alignment")
      .computed("x_g", m.masses.x / 1e3, "centre of gravity of the mark")
      .computed("y_g", m.masses.y / 1e3, "centre of gravity of the mark");
  if (const auto i = add_working(l.job, Topic::lifting, "pick-points", in, of)) l.bundles.push_back({*i});
}

/// Distances from the left edge of the lines on which the inserts lie.
std::string lines_of(const std::vector<PanelPoint>& at, double left) {
  std::vector<double> lines;
  for (PanelPoint p : at) lines.push_back(left - p.y);
  std::sort(lines.begin(), lines.end());
  lines.erase(std::unique(lines.begin(), lines.end(),
                          [](double a, double b) { return b - a < 1; }),
              lines.end());
  std::string text;
  for (double x : lines) text += (text.empty() ? "" : ", ") + in_list(x);
  return text + " mm";
}

void bending(Lift& l, const Mark& m, const std::vector<PanelPoint>& at, const Subject& of) {
  const PanelShape& s = m.shape;
  const Box<PanelFrame> box = bounds(s.outline);
  double length = s.length;  // the shortest line along the panel carries it all
  for (double y : {box.low.y, box.high.y}) length = std::min(length, s.ahead_x(y) - s.back_x(y));
  const double depth = std::min(s.top(box.low.y), s.top(box.high.y));
  const auto strip = l.sections.of(length, depth, of.marks);
  if (!strip)
    return l.job.not_checked(Topic::lifting, "bending of " + m.name + " in the lift", "skins that leave a core");
  Inputs in;
  in.computed("m", m.masses.total.in_si(), "of the mark")
      .project("phi", *l.data.handling, l.data.place)
      .computed("L", box.height() / 1e3, "width of the mark, across the bridge")
      .computed_text("inserts", lines_of(at, box.high.y), "inserts of the mark, from its left edge")
      .computed("D", strip->D, "sandwich-stiffness of the whole mark")
      .computed("S", strip->S, "sandwich-stiffness of the whole mark");
  if (strip->M_R) {
    in.computed("M_sag", *strip->M_R, "sandwich-strength of the whole mark");
    in.computed("M_hog", *strip->M_R, "sandwich-strength of the whole mark");
  }
  Bundle b = strip->bundle;
  if (const auto i = add_working(l.job, Topic::lifting, "lift-bending", in, of)) b.push_back(*i);
  l.bundles.push_back(b);
}

}  // namespace

void calculate_lifting(const CalculationJob& job) {
  Lift l{job};
  if (!l.data.handling)
    return job.not_checked(Topic::lifting, "lifting of the panels",
                           "a factor for handling (lifting handling=)");
  if (l.data.capacity_kn <= 0)
    job.not_checked(Topic::lifting, "pull at the inserts against their strength",
                    "the capacity of one insert (lifting capacity=)");
  const auto& strength = job.project.deck.strength;
  if (!strength)
    job.not_checked(Topic::lifting, "bending of the panels in the lift", needs_stiffness);
  else if (!strength->face_strength)
    job.not_checked(Topic::lifting, "bending of the panels in the lift, against a strength",
                    "strength of the skins (panel-strength face-strength=)");
  job.not_checked(Topic::lifting, "bending in the lift along the bridge",
                  "stiffness and strength of the panel along the bridge");
  for (std::size_t k = 0; k < job.deck.marks.size(); ++k) {
    const Mark& m = job.deck.marks[k];
    const std::vector<PanelPoint> at = inserts_of(m.shape);
    if (at.size() < 3) {
      job.not_checked(Topic::lifting, "lifting of " + m.name, "three inserts or more");
      continue;
    }
    const Subject of{m.name, {static_cast<int>(k)}, l.data.place};
    slings(l, m, at.size(), of);
    pulls(l, m, at, of);
    if (strength) bending(l, m, at, of);
  }
  print_governing(job, Topic::lifting, l.bundles);
}

}  // namespace deckquire
