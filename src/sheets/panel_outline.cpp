// The true outline of a panel: its corners, what it is called, and the table it is set out from.
#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "sheets/panel_parts.h"

namespace deckquire::sheets {

Corners corners_of(const PanelShape& s) {
  return {{s.back_x(s.right_back), s.right_back},
          {s.ahead_x(s.right_ahead), s.right_ahead},
          {s.ahead_x(s.left_ahead), s.left_ahead},
          {s.back_x(s.left_back), s.left_back}};
}

namespace {

constexpr double prints_alike = datum_prints_alike;

}  // namespace

Ring<PanelFrame> between_faces(const PanelShape& s, const Ring<PanelFrame>& ring) {
  if (s.square()) return ring;  // features are placed within square ends
  // Inside: back_slope * y - x <= 0 and x - ahead_slope * y <= length.
  return clip<PanelFrame>(clip<PanelFrame>(ring, {-1, s.back_slope}, 0), {1, -s.ahead_slope},
                          s.length);
}

std::vector<PanelPoint> inner_foot(const CurbRun& run) {
  // A curb begins with the line that has the lower y, its stations rising (see deck/outline.cpp).
  const auto half = static_cast<std::ptrdiff_t>(run.plan.size() / 2);
  if (run.side == Side::left) return {run.plan.begin(), run.plan.begin() + half};
  return {run.plan.rbegin(), run.plan.rbegin() + half};
}

namespace {

/// True for a corner of the width law in one edge: no corner of the panel, of a notch or of an end
/// face.
bool in_edge(const PanelShape& s, PanelPoint p) {
  if (std::abs(p.x - s.back_x(p.y)) < prints_alike || std::abs(p.x - s.ahead_x(p.y)) < prints_alike)
    return false;
  return std::none_of(s.features.begin(), s.features.end(), [&](const Feature& f) {
    return f.kind == FeatureKind::notch && f.box().grown(prints_alike).contains(p);
  });
}

/// An edge from its back to its ahead corner.
std::vector<PanelPoint> edge_line(const PanelShape& s, Side side) {
  const Corners c = corners_of(s);
  const bool left = side == Side::left;
  std::vector<PanelPoint> out{left ? c.back_left : c.back_right};
  const double middle = (s.left_back + s.right_back + s.left_ahead + s.right_ahead) / 4;
  for (const PanelPoint& p : s.outline)
    if ((p.y > middle) == left && in_edge(s, p)) out.push_back(p);
  out.push_back(left ? c.ahead_left : c.ahead_right);
  std::sort(out.begin() + 1, out.end() - 1, [](auto a, auto b) { return a.x < b.x; });
  return out;
}

struct Vertex {
  std::string name;
  PanelPoint at;
};

/// Round the panel from the datum corner, along its own edge first.
std::vector<Vertex> vertices(const PanelShape& s) {
  const Side first = datum_on_left(s) ? Side::left : Side::right;
  const Side second = first == Side::left ? Side::right : Side::left;
  std::vector<Vertex> out;
  const auto add = [&](Side side, bool ahead) {
    const std::string name = side == Side::left ? "left" : "right";
    std::vector<PanelPoint> line = edge_line(s, side);
    if (!ahead) std::reverse(line.begin(), line.end());
    for (std::size_t i = 0; i < line.size(); ++i) {
      const bool end = i == 0 || i + 1 == line.size();
      const bool back = (i == 0) == ahead;
      out.push_back({(end ? back ? "back " : "ahead " : "in edge ") + name, line[i]});
    }
  };
  add(first, true);
  add(second, false);
  return out;
}

double inside_angle(PanelPoint before, PanelPoint at, PanelPoint after) {
  const PanelPoint a = before - at, b = after - at;
  return std::abs(std::atan2(a.x * b.y - a.y * b.x, a.x * b.x + a.y * b.y));
}

/// "15°"; of a slope dx/dy, without its sign.
std::string degrees_of(double slope) {
  return shortest_decimal(std::abs(std::atan(slope)) * 180 / pi, 2) + "\u00b0";
}

std::string ends_form(const PanelJob& job) {
  const PanelShape& s = job.shape();
  const std::string back = degrees_of(s.back_slope), ahead = degrees_of(s.ahead_slope);
  if (std::abs(s.back_slope - s.ahead_slope) < 1e-6)
    return fmt::format("parallelogram, skewed {} at both ends", back);
  if (s.ahead_slope == 0) return fmt::format("back end skewed {}, ahead end square", back);
  if (s.back_slope == 0) return fmt::format("ahead end skewed {}, back end square", ahead);
  const Corners c = corners_of(s);
  const double left = c.ahead_left.x - c.back_left.x, right = c.ahead_right.x - c.back_right.x;
  if (std::abs(s.back_slope + s.ahead_slope) < 0.002)
    return fmt::format("wedge, its {} edge {} longer", left > right ? "left" : "right",
                       job.print(std::abs(left - right)));
  return fmt::format("ends not parallel, back {} and ahead {} from square", back, ahead);
}

}  // namespace

std::pair<double, double> face_widths(const PanelShape& s) {
  return {(s.left_back - s.right_back) * std::hypot(1, s.back_slope),
          (s.left_ahead - s.right_ahead) * std::hypot(1, s.ahead_slope)};
}

bool outline_by_table(const PanelShape& shape) {
  return !shape.square();
}

std::string form_words(const PanelJob& job) {
  std::vector<std::string> out;
  if (!job.shape().square()) out.push_back(ends_form(job));
  for (Side side : {Side::left, Side::right}) {
    const std::string name = row_joint_name(job, side);
    if (name.empty()) continue;
    out.push_back(
        fmt::format("{} edge at row joint {}", side == Side::left ? "left" : "right", name));
  }
  return join(out, "; ");
}

std::string end_words(const PanelJob& job, bool back) {
  const PanelShape& s = job.shape();
  const EdgeEnd end = back ? s.back : s.ahead;
  const double slope = back ? s.back_slope : s.ahead_slope;
  std::string out = end_name(end);
  if (s.square()) return out;
  if (slope == 0) return out + ", square to the chord";
  return out + fmt::format(", {} from square, its {} corner ahead", degrees_of(slope),
                           slope > 0 ? "left" : "right");
}

std::string row_joint_name(const PanelJob& job, Side side) {
  const PanelShape& s = job.shape();
  if (!(side == Side::left ? s.left_joint : s.right_joint)) return "";
  std::vector<std::string> names;
  for (int i : job.mark.positions) {
    const Panel& p = job.input.deck.panels[static_cast<std::size_t>(i)];
    const bool left = (side == Side::left) != p.turned;  // as it lies
    const Corners c = corners_of(p.shape);
    const PanelPoint middle =
        left ? (c.back_left + c.ahead_left) * 0.5 : (c.back_right + c.ahead_right) * 0.5;
    const double offset = p.frame.bridge(job.input.bridge.alignment, middle).y;
    const RowJoint* nearest = nullptr;
    for (const RowJoint& r : job.input.deck.row_joints)
      if (r.from < p.end && r.to > p.start &&
          (!nearest ||
           std::abs(r.offset.in_mm() - offset) < std::abs(nearest->offset.in_mm() - offset)))
        nearest = &r;
    if (nearest && std::find(names.begin(), names.end(), nearest->name) == names.end())
      names.push_back(nearest->name);
  }
  return join(names, ", ");
}

std::pair<double, double> chord_offsets(const PanelJob& job) {
  std::pair<double, double> most{0, 0};
  for (int i : job.mark.positions) {
    const Panel& p = job.input.deck.panels[static_cast<std::size_t>(i)];
    most.first = std::max(most.first, p.turned ? p.chord_right : p.chord_left);
    most.second = std::max(most.second, p.turned ? p.chord_left : p.chord_right);
  }
  return most;
}

paper::TableData outline_table(const PanelJob& job) {
  using paper::Align;
  paper::TableData t;
  t.title = "OUTLINE, FROM DATUM CORNER 0,0";
  t.columns = {{"Corner", "", Align::left, 0},
               {"x", "", Align::right, 0},
               {"y", "", Align::right, 0},
               {"Straight to the next", "", Align::right, 0},
               {"Angle inside", "", Align::right, 0}};
  const std::vector<Vertex> list = vertices(job.shape());
  const std::size_t n = list.size();
  for (std::size_t i = 0; i < n; ++i) {
    const PanelPoint at = list[i].at, next = list[(i + 1) % n].at,
                     before = list[(i + n - 1) % n].at;
    const double angle = inside_angle(before, at, next) * 180 / pi;
    t.rows.push_back({list[i].name, job.print(job.along(at.x)), job.print(job.aside(at.y)),
                      job.print(std::hypot(next.x - at.x, next.y - at.y)),
                      decimal(angle, 2) + "\u00b0"});
  }
  return t;
}

std::vector<PanelPoint> drawn_surface(const PanelJob& job) {
  const PanelShape& s = job.shape();
  if (s.surface < 0) return {};
  if (!s.square()) return surface_ring(s, job.deck);
  const double stop = job.deck.surfaces[static_cast<std::size_t>(s.surface)].stop.in_mm();
  std::vector<double> xs{stop, s.length - stop};
  for (const PanelPoint& p : s.outline)
    for (double x : {p.x - 0.01, p.x + 0.01})
      if (x > stop && x < s.length - stop) xs.push_back(x);
  std::sort(xs.begin(), xs.end());
  std::vector<PanelPoint> lower, upper;
  for (double x : xs) {
    const auto spans = across(s.outline, x);
    if (spans.empty()) continue;
    double low = spans.front().first, high = spans.back().second;
    for (const CurbCut& c : curbs_at(s, job.deck, x)) (c.side == Side::left ? high : low) = c.inner;
    lower.push_back({x, low + stop});
    upper.push_back({x, high - stop});
  }
  lower.insert(lower.end(), upper.rbegin(), upper.rend());
  return lower;
}

}  // namespace deckquire::sheets
