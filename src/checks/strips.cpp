#include "checks/strips.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <map>

#include "checks/reckoning.h"

namespace deckquire {
namespace {

/// A line across a panel: its left end, its direction to the right, its length.
struct Line {
  PanelPoint left, to_right;
  double length = 0;
  PanelPoint at(double s) const { return left + to_right * s; }
};

Line line_across(const PanelShape& s, double along) {
  const auto between = [&](PanelPoint back, PanelPoint ahead) {
    return back + (ahead - back) * along;
  };
  const PanelPoint left = between({s.back_x(s.left_back), s.left_back},
                                  {s.ahead_x(s.left_ahead), s.left_ahead});
  const PanelPoint right = between({s.back_x(s.right_back), s.right_back},
                                   {s.ahead_x(s.right_ahead), s.right_ahead});
  const PanelPoint d = right - left;
  const double length = std::hypot(d.x, d.y);
  return {left, d * (1 / length), length};
}

/// Where a girder carries the line: on its axis, or where that lies beyond the panel's edge, in the
/// middle of what the panel has of its flange. The offsets from the axis are all but straight along
/// the line, so a few secants find it.
std::optional<double> carried(const CalculationJob& job, const Panel& p, const Line& line,
                              const Girder& g) {
  double station = 0;
  const auto off = [&](double s) {
    const BridgePoint b = p.frame.bridge(job.bridge.alignment, line.at(s));
    station = b.x;
    return b.y - girder_offset(job.bridge, g, b.x);
  };
  double a = 0, b = line.length, fa = off(a), fb = off(b);
  if (fa == fb) return std::nullopt;
  for (int i = 0; i < 20 && std::abs(fb) > 1e-6; ++i) {
    const double c = b - fb * (b - a) / (fb - fa);
    a = b, fa = fb;
    b = c, fb = off(c);
    if (fa == fb) break;
  }
  constexpr double at_its_end = 1;
  if (station < g.from.in_mm() - at_its_end || station > g.to.in_mm() + at_its_end)
    return std::nullopt;
  if (b > 0 && b < line.length) return b;
  const double low = std::max(0.0, b - g.flange.in_mm() / 2);
  const double high = std::min(line.length, b + g.flange.in_mm() / 2);
  return high - low > 1 ? std::optional((low + high) / 2) : std::nullopt;
}

double curbs_length(const PanelShape& shape, Side side) {
  double length = 0;
  for (const CurbRun& run : shape.curbs)
    if (run.side == side) length += bounds(run.plan).width();
  return length;
}

/// Mass of the curbs apart, so that it hangs on the edges where it is.
void weigh_strip(const CalculationJob& job, const Mark& m, const PanelShape& shape, PanelStrip& s) {
  double curbs = 0;
  for (const MassPart& part : m.masses.parts)
    if (part.part == "curb") curbs += part.mass.in_si();
  const double left = curbs_length(shape, Side::left), right = curbs_length(shape, Side::right);
  if (left + right == 0) curbs = 0;
  s.most = s.least =
      (m.masses.total.in_si() - curbs) * gravity / std::max(1e-9, m.masses.top_area.in_si());
  const double per_metre = left + right > 0 ? curbs * gravity / ((left + right) / 1e3) : 0;
  s.left_curb = left > 0 ? per_metre : 0;
  s.right_curb = right > 0 ? per_metre : 0;
  s.curb_at = job.project.deck.section.curb.width.in_mm() / 2;
}

/// From the left edge of the panel as it lies, in its middle.
double centre_of(const Mark& m, bool turned, double width) {
  const double left = (m.shape.left_back + m.shape.left_ahead) / 2;
  const double right = (m.shape.right_back + m.shape.right_ahead) / 2;
  return (turned ? m.masses.y - right : left - m.masses.y) * width / (left - right);
}

PanelStrip strip_at(const CalculationJob& job, const Panel& p, double along, const char* where) {
  const PanelShape& shape = p.shape;
  const Mark& m = job.deck.marks[static_cast<std::size_t>(p.mark)];
  const Line line = line_across(shape, along);
  PanelStrip s;
  s.length = line.length;
  std::vector<std::pair<double, int>> on;
  for (const Girder& g : job.bridge.girders)
    if (const auto x = carried(job, p, line, g)) on.emplace_back(*x, clips_on(shape, g.name));
  std::sort(on.begin(), on.end());
  for (const auto& [x, clips] : on) {
    s.supports.push_back(x);
    s.clips.push_back({clips});
  }
  s.depth = std::min(shape.top(line.left.y), shape.top(line.at(line.length).y));
  const double curb = job.project.deck.section.curb.width.in_mm();
  s.from_clear = curbs_length(shape, Side::left) > 0 ? curb : 0;
  s.to_clear = line.length - (curbs_length(shape, Side::right) > 0 ? curb : 0);
  s.left_joint = shape.left_joint, s.right_joint = shape.right_joint;
  s.centre = centre_of(m, p.turned, s.length);
  s.along = shape.length;
  for (double y : {line.left.y, line.at(line.length).y})
    s.along = std::min(s.along, shape.ahead_x(y) - shape.back_x(y));
  weigh_strip(job, m, shape, s);
  s.place = fmt::format("{} of panel {}", where, p.position);
  s.panel = index_of(job.deck, p);
  s.marks = {p.mark};
  return s;
}

std::vector<std::int64_t> key_of(const PanelStrip& s) {
  std::vector<std::int64_t> key;
  const auto add = [&](double v) { key.push_back(static_cast<std::int64_t>(std::floor(v * 10 + 0.5))); };
  for (double v : {s.length, s.depth, s.from_clear, s.to_clear}) add(v);
  key.push_back(s.left_joint * 2 + s.right_joint);
  for (double v : s.supports) add(v);
  return key;
}

void join_into(PanelStrip& all, const PanelStrip& s) {
  all.most = std::max(all.most, s.most);
  all.least = std::min(all.least, s.least);
  all.along = std::min(all.along, s.along);
  all.left_curb = std::max(all.left_curb, s.left_curb);
  all.right_curb = std::max(all.right_curb, s.right_curb);
  if (std::find(all.marks.begin(), all.marks.end(), s.marks.front()) == all.marks.end())
    all.marks.push_back(s.marks.front());
  for (std::size_t i = 0; i < all.clips.size(); ++i) {
    auto& counts = all.clips[i];
    const int n = s.clips[i].front();
    if (!std::binary_search(counts.begin(), counts.end(), n))
      counts.insert(std::lower_bound(counts.begin(), counts.end(), n), n);
  }
}

/// Strips, each once.
struct Gathered {
  std::vector<PanelStrip> strips;
  std::map<std::vector<std::int64_t>, std::size_t> known;
  void add(PanelStrip s, std::vector<std::int64_t> key) {
    const auto [at, fresh] = known.try_emplace(std::move(key), strips.size());
    if (fresh)
      strips.push_back(std::move(s));
    else
      join_into(strips[at->second], s);
  }
};

}  // namespace

int clips_on(const PanelShape& shape, const std::string& girder) {
  return static_cast<int>(std::count_if(
      shape.features.begin(), shape.features.end(), [&](const Feature& f) {
        return f.kind == FeatureKind::hold_down && f.source == girder;
      }));
}

PanelStrip strip_through(const CalculationJob& job, const Panel& panel, double share) {
  return strip_at(job, panel, std::clamp(share, 0.0, 1.0), "strip");
}

std::vector<PanelStrip> strips_of(const CalculationJob& job) {
  Gathered all;
  for (const Panel& p : job.deck.panels)
    for (const auto& [along, where] :
         {std::pair{0.5, "middle"}, {0.0, "back end"}, {1.0, "ahead end"}}) {
      PanelStrip s = strip_at(job, p, along, where);
      auto key = key_of(s);
      all.add(std::move(s), std::move(key));
    }
  return all.strips;
}

std::vector<PanelStrip> middles_of(const CalculationJob& job) {
  Gathered all;
  for (const Panel& p : job.deck.panels) {
    PanelStrip s = strip_at(job, p, 0.5, "middle");
    auto key = key_of(s);
    key.insert(key.end(), {p.mark, static_cast<std::int64_t>(std::floor(s.centre + 0.5))});
    for (const auto& clips : s.clips) key.push_back(clips.front());
    all.add(std::move(s), std::move(key));
  }
  return all.strips;
}

}  // namespace deckquire
