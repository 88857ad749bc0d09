#include "sheets/view_changes.h"

#include <algorithm>
#include <cmath>
#include <optional>

#include "paper/sheet_difference.h"

namespace deckquire::sheets {
namespace {

using paper::Item;
using paper::Op;
using paper::PaperBox;
using paper::PaperPoint;
using paper::Path;
using paper::Sheet;

constexpr double margin = 12;  // mm of what is unchanged round what changed

/// What one group of kind "view" draws, as a sheet of its own.
struct View {
  std::string id, title, scale;
  Sheet sheet;
  PaperBox box;
};

bool is_scale(const std::string& text, const paper::Style& style) {
  const bool ratio = text.starts_with("1:") && text.size() > 2 &&
                     text.find_first_not_of("0123456789", 2) == std::string::npos;
  return ratio || (!text.empty() && std::find(style.scale_names.begin(), style.scale_names.end(),
                                              text) != style.scale_names.end());
}

PaperBox joined(const PaperBox& a, const PaperBox& b) {
  return {{std::min(a.low.x, b.low.x), std::min(a.low.y, b.low.y)},
          {std::max(a.high.x, b.high.x), std::max(a.high.y, b.high.y)}};
}

PaperBox met(const PaperBox& a, const PaperBox& b) {
  return {{std::max(a.low.x, b.low.x), std::max(a.low.y, b.low.y)},
          {std::min(a.high.x, b.high.x), std::min(a.high.y, b.high.y)}};
}

/// Outermost views with a scale.
std::vector<View> views_of(const Sheet& sheet, const paper::Style& style) {
  std::vector<View> out;
  std::optional<View> open;
  int depth = 0;
  for (const Item& item : sheet.items) {
    const auto* start = std::get_if<paper::GroupStart>(&item);
    if (!open) {
      if (start == nullptr || start->kind != "view") continue;
      open = View{start->id, start->title, "", {}, {}};
      open->sheet.pens = sheet.pens;
      depth = 1;
      continue;
    }
    if (start) {
      ++depth;
    } else if (std::holds_alternative<paper::GroupEnd>(item)) {
      if (--depth > 0) continue;
      if (!open->scale.empty()) out.push_back(std::move(*open));
      open.reset();
    } else {
      const PaperBox box = paper::box_of(item);
      open->box = open->sheet.items.empty() ? box : joined(open->box, box);
      open->sheet.items.push_back(item);
      if (const auto* t = std::get_if<paper::Text>(&item); t && is_scale(t->text, style)) {
        open->scale = t->text;  // the picture's title has it
        open->sheet.items.pop_back();
      }
    }
  }
  return out;
}

Sheet moved(Sheet sheet, PaperPoint by) {
  for (Item& item : sheet.items) {
    if (auto* s = std::get_if<paper::Stroke>(&item))
      for (PaperPoint& p : s->path.points) p = p + by;
    if (auto* f = std::get_if<paper::Fill>(&item))
      for (PaperPoint& p : f->path.points) p = p + by;
    if (auto* t = std::get_if<paper::Text>(&item)) t->at = t->at + by;
  }
  return sheet;
}

/// The part of a segment inside a box.
std::optional<std::pair<PaperPoint, PaperPoint>> clipped(PaperPoint a, PaperPoint b,
                                                         const PaperBox& box) {
  double from = 0, to = 1;
  const auto narrow = [&](double start, double step, double low, double high) {
    if (step == 0) return start >= low && start <= high;
    const double t = (low - start) / step, u = (high - start) / step;
    from = std::max(from, std::min(t, u));
    to = std::min(to, std::max(t, u));
    return from < to;
  };
  if (!narrow(a.x, b.x - a.x, box.low.x, box.high.x) ||
      !narrow(a.y, b.y - a.y, box.low.y, box.high.y))
    return std::nullopt;
  return std::pair(a + (b - a) * from, a + (b - a) * to);
}

bool holds(const PaperBox& outer, const PaperBox& inner) {
  return outer.contains(inner.low) && outer.contains(inner.high);
}

/// difference() makes strokes of one straight piece or one curve each.
void add_clipped(const paper::Stroke& s, const PaperBox& box, std::vector<Item>& out) {
  if (holds(box, bounds(s.path))) return out.push_back(s);
  const std::vector<PaperPoint>& p = s.path.points;
  const bool curve = p.size() == 4;
  const int count = curve ? 8 : 1;
  PaperPoint last = p.front();
  for (int i = 1; i <= count; ++i) {
    const double t = static_cast<double>(i) / count, u = 1 - t;
    const PaperPoint next = curve ? p[0] * (u * u * u) + p[1] * (3 * u * u * t) +
                                        p[2] * (3 * u * t * t) + p[3] * (t * t * t)
                                  : p[1];
    if (const auto part = clipped(last, next, box)) {
      paper::Stroke piece{s.pen, {}};
      piece.path.segment(part->first, part->second);
      out.push_back(piece);
    }
    last = next;
  }
}

std::vector<Item> inside(const std::vector<Item>& items, const PaperBox& box) {
  std::vector<Item> out;
  for (const Item& item : items) {
    if (const auto* s = std::get_if<paper::Stroke>(&item))
      add_clipped(*s, box, out);
    else if (holds(box, paper::box_of(item)))
      out.push_back(item);
  }
  return out;
}

/// Boxes round spots that one picture shows together.
std::vector<PaperBox> far_apart(std::vector<PaperBox> spots) {
  for (std::size_t i = 0; i < spots.size(); ++i)
    for (std::size_t k = i + 1; k < spots.size(); ++k) {
      if (!spots[i].grown(margin).overlaps(spots[k].grown(margin))) continue;
      spots[i] = joined(spots[i], spots[k]);
      spots.erase(spots.begin() + static_cast<std::ptrdiff_t>(k));
      k = i;  // larger now: those passed over may be near
    }
  // What grew late may have come near what was passed early.
  for (std::size_t i = 0; i < spots.size(); ++i)
    for (std::size_t k = i + 1; k < spots.size(); ++k)
      if (spots[i].grown(margin).overlaps(spots[k].grown(margin)))
        return far_apart(std::move(spots));
  return spots;
}

void cut(const paper::SheetDifference& d, const PaperBox& box, const View& fresh,
         const std::string& number, PaperPoint room, std::vector<ViewChange>& out) {
  const int across = std::max(1, static_cast<int>(std::ceil(box.width() / room.x)));
  const int up = std::max(1, static_cast<int>(std::ceil(box.height() / room.y)));
  for (int k = up - 1; k >= 0; --k)
    for (int i = 0; i < across; ++i) {
      const PaperPoint size{box.width() / across, box.height() / up};
      const PaperPoint low = box.low + PaperPoint{i * size.x, k * size.y};
      const PaperBox part{low, low + size};
      ViewChange v{number,
                   fresh.title,
                   fresh.scale,
                   part,
                   inside(d.same, part),
                   inside(d.come, part),
                   inside(d.gone, part)};
      if (!v.come.empty() || !v.gone.empty()) out.push_back(std::move(v));
    }
}

void add(const View& old, const View& fresh, const std::string& number, PaperPoint room,
         std::vector<ViewChange>& out) {
  // Where it stood, or where its lower left corner agrees.
  Sheet before = old.sheet;
  PaperBox before_box = old.box;
  paper::SheetDifference d = paper::difference(before, fresh.sheet);
  const PaperPoint by = fresh.box.low - old.box.low;
  if (std::hypot(by.x, by.y) > 0.01) {
    Sheet other = moved(old.sheet, by);
    paper::SheetDifference e = paper::difference(other, fresh.sheet);
    if (e.same.size() > d.same.size()) {
      d = std::move(e), before = std::move(other);
      before_box = {old.box.low + by, old.box.high + by};
    }
  }
  const PaperBox whole = joined(fresh.box, before_box).grown(2);
  for (const PaperBox& spot : far_apart(paper::changed_spots(before, fresh.sheet)))
    cut(d, met(spot.grown(margin), whole), fresh, number, room, out);
}

}  // namespace

std::vector<ViewChange> changed_views(const Sheet& before, const Sheet& now,
                                      const paper::Style& style, PaperPoint room) {
  const std::vector<View> old = views_of(before, style), fresh = views_of(now, style);
  std::vector<ViewChange> out;
  for (const View& v : fresh)
    for (const View& o : old) {
      const bool pair = v.id.empty() ? v.title == o.title && o.id.empty() : v.id == o.id;
      if (!pair || v.scale != o.scale) continue;
      add(o, v, now.number, room, out);
      break;
    }
  return out;
}

}  // namespace deckquire::sheets
