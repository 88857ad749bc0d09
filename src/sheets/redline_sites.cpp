#include "sheets/redline_sites.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

namespace deckquire::sheets {
namespace {

using paper::PaperBox;
using paper::PaperPoint;
using paper::Sheet;

const Panel& panel(const SetInput& input, int i) {
  return input.deck.panels[static_cast<std::size_t>(i)];
}

/// Items of the group of that id: [first, last). Empty where there is none.
std::pair<std::size_t, std::size_t> group_of(const Sheet& sheet, const std::string& id) {
  for (std::size_t i = 0; i < sheet.items.size(); ++i) {
    const auto* g = std::get_if<paper::GroupStart>(&sheet.items[i]);
    if (g == nullptr || g->id != id) continue;
    int depth = 0;
    for (std::size_t k = i; k < sheet.items.size(); ++k) {
      if (std::holds_alternative<paper::GroupStart>(sheet.items[k])) ++depth;
      if (std::holds_alternative<paper::GroupEnd>(sheet.items[k]) && --depth == 0) return {i, k};
    }
  }
  return {0, 0};
}

/// The stroke that reaches farthest: an outline among what is inside it.
const paper::Path* greatest(const Sheet& sheet, std::pair<std::size_t, std::size_t> range) {
  const paper::Path* out = nullptr;
  double most = -1;
  for (std::size_t i = range.first; i < range.second; ++i) {
    const auto* s = std::get_if<paper::Stroke>(&sheet.items[i]);
    if (s == nullptr || s->path.points.size() < 2) continue;
    const PaperBox b = paper::bounds(s->path);
    if (b.width() + b.height() <= most) continue;
    most = b.width() + b.height();
    out = &s->path;
  }
  return out;
}

/// Points along a path: quarters of its straight pieces.
std::vector<PaperPoint> along(const paper::Path& path) {
  std::vector<PaperPoint> out;
  for (std::size_t i = 1; i < path.points.size(); ++i)
    for (double t : {0.25, 0.5, 0.75})
      out.push_back(path.points[i - 1] + (path.points[i] - path.points[i - 1]) * t);
  return out;
}

/// Points of a panel just inside its outline: its neighbour's outline is the same line.
std::vector<PaperPoint> inside_points(const Sheet& sheet, const std::string& group) {
  const paper::Path* path = greatest(sheet, group_of(sheet, group));
  if (path == nullptr) return {};
  const PaperPoint middle = paper::bounds(*path).centre();
  std::vector<PaperPoint> out = along(*path);
  for (PaperPoint& p : out) p = middle + (p - middle) * 0.8;
  return out;
}

std::vector<PaperPoint> outline_points(const Sheet& sheet, const std::string& group) {
  const paper::Path* path = greatest(sheet, group_of(sheet, group));
  return path ? along(*path) : std::vector<PaperPoint>();
}

/// Points beside the letters that name it.
std::vector<PaperPoint> beside_name(const Sheet& sheet, const std::string& name) {
  const auto part_of_word = [](char c) {
    return (c >= '0' && c <= '9') || ((c | 32) >= 'a' && (c | 32) <= 'z') || c == '-';
  };
  std::vector<PaperPoint> out;
  for (const paper::Item& item : sheet.items) {
    const auto* t = std::get_if<paper::Text>(&item);
    const auto at = t ? t->text.find(name) : std::string::npos;
    if (at == std::string::npos || name.empty()) continue;
    const std::size_t end = at + name.size();
    if ((at > 0 && part_of_word(t->text[at - 1])) ||
        (end < t->text.size() && part_of_word(t->text[end])))
      continue;
    const PaperBox b = paper::text_box(*t).grown(0.8);
    out.push_back({b.low.x, b.centre().y});
    out.push_back({b.high.x, b.centre().y});
  }
  return out;
}

int feature_index(const PanelShape& shape, const Object& o) {
  for (std::size_t i = 0; i < shape.features.size(); ++i)
    if (shape.features[i].kind == o.feature && shape.features[i].source == o.name)
      return static_cast<int>(i);
  return -1;
}

/// A point of a panel on the paper, as its outline lies there; the outline's three corners that span
/// the largest triangle say how.
std::optional<PaperPoint> on_paper(const Sheet& sheet, const Panel& p, PanelPoint at) {
  const auto& ring = p.shape.outline;
  const paper::Path* path =
      greatest(sheet, group_of(sheet, fmt::format("panel-{}", p.position)));
  if (path == nullptr || path->points.size() < ring.size() || ring.size() < 3) return std::nullopt;
  const auto area = [&](std::size_t i, std::size_t k) {
    return std::abs((ring[i].x - ring[0].x) * (ring[k].y - ring[0].y) -
                    (ring[i].y - ring[0].y) * (ring[k].x - ring[0].x));
  };
  std::size_t a = 1, b = 2;
  for (std::size_t i = 1; i < ring.size(); ++i)
    for (std::size_t k = i + 1; k < ring.size(); ++k)
      if (area(i, k) > area(a, b)) a = i, b = k;
  const PanelPoint u = ring[a] - ring[0], v = ring[b] - ring[0], w = at - ring[0];
  const double det = u.x * v.y - u.y * v.x;
  if (std::abs(det) < 1) return std::nullopt;
  const double s = (w.x * v.y - w.y * v.x) / det, t = (u.x * w.y - u.y * w.x) / det;
  const PaperPoint o = path->points[0];
  return o + (path->points[a] - o) * s + (path->points[b] - o) * t;
}

std::vector<PaperPoint> on_erection(const Sheet& sheet, const SetInput& input, const Object& o) {
  std::vector<PaperPoint> out;
  const auto add = [&](const std::vector<PaperPoint>& more) {
    out.insert(out.end(), more.begin(), more.end());
  };
  for (int i : o.panels) {
    const Panel& p = panel(input, i);
    const int f = o.kind == ObjectKind::feature ? feature_index(p.shape, o) : -1;
    if (f < 0) {
      add(inside_points(sheet, fmt::format("panel-{}", p.position)));
    } else if (const auto at =
                   on_paper(sheet, p, p.shape.features[static_cast<std::size_t>(f)].at)) {
      out.push_back(*at);
    }
  }
  for (int strip = 1; strip <= 99; ++strip) {
    const char* kind = o.kind == ObjectKind::joint       ? "joint"
                       : o.kind == ObjectKind::row_joint ? "row-joint"
                       : o.kind == ObjectKind::girder    ? "girder"
                       : o.kind == ObjectKind::support   ? "support"
                                                         : nullptr;
    if (kind) add(outline_points(sheet, fmt::format("{}-{}-{}", kind, strip, o.name)));
  }
  return out;
}

std::vector<PaperPoint> on_panel_sheet(const Sheet& sheet, const SetInput& input,
                                       const SheetPlan& own, const Object& o) {
  for (int i : o.panels) {
    const Panel& p = panel(input, i);
    const auto at = std::find(own.marks.begin(), own.marks.end(), p.mark);
    if (at == own.marks.end()) continue;
    const std::string tail =
        at == own.marks.begin() ? "" : "-" + input.deck.marks[static_cast<std::size_t>(p.mark)].name;
    const int f =
        o.kind == ObjectKind::feature
            ? feature_index(p.turned ? half_turn(p.shape) : p.shape, o)
            : -1;
    const auto callout = group_of(sheet, fmt::format("callout-{}{}", f + 1, tail));
    for (std::size_t k = callout.first; f >= 0 && k < callout.second; ++k)
      if (const auto* s = std::get_if<paper::Stroke>(&sheet.items[k]))
        if (!s->path.points.empty()) return {s->path.points.front()};
    return outline_points(sheet, "view-top" + tail);
  }
  return {};
}

}  // namespace

bool shows_object(const SetInput& input, const SetPlan& plan, const SheetPlan& sheet,
                  const Object& object) {
  if (sheet.second) return false;
  if (sheet.series == 'P')
    return (object.kind == ObjectKind::panel || object.kind == ObjectKind::mark ||
            object.kind == ObjectKind::feature) &&
           std::any_of(object.panels.begin(), object.panels.end(), [&](int i) {
             const auto& m = sheet.marks;
             return std::find(m.begin(), m.end(), panel(input, i).mark) != m.end();
           });
  if (sheet.series != 'E') return false;
  const auto on_strip = [&](auto inside) {
    return std::any_of(plan.strips.begin(), plan.strips.end(), [&](const Strip& s) {
      return s.sheet == sheet.subject && inside(s);
    });
  };
  switch (object.kind) {
    case ObjectKind::panel:
    case ObjectKind::feature:
    case ObjectKind::span:
      return on_strip([&](const Strip& s) {
        return std::any_of(object.panels.begin(), object.panels.end(),
                           [&](int i) { return i >= s.first && i < s.first + s.count; });
      });
    case ObjectKind::joint:
      return on_strip([&](const Strip& s) {
        const Length at = input.deck.joints[static_cast<std::size_t>(object.index)].station;
        return at >= s.from && at <= s.to;
      });
    case ObjectKind::support:
      return on_strip([&](const Strip& s) {
        const Length at = input.bridge.supports[static_cast<std::size_t>(object.index)].station;
        return at >= s.from && at <= s.to;
      });
    case ObjectKind::girder:
    case ObjectKind::row_joint:
      return on_strip([](const Strip&) { return true; });
    case ObjectKind::mark:
    case ObjectKind::set:
      break;
  }
  return false;
}

std::vector<PaperPoint> redline_sites(const Sheet& sheet, const SetInput& input,
                                      const SheetPlan& own, const Object& object) {
  std::vector<PaperPoint> out;
  if (own.series == 'E') out = on_erection(sheet, input, object);
  if (own.series == 'P') out = on_panel_sheet(sheet, input, own, object);
  return out.empty() ? beside_name(sheet, object.name) : out;
}

}  // namespace deckquire::sheets
