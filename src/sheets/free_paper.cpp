#include "sheets/free_paper.h"

#include <algorithm>
#include <cmath>
#include <string_view>

#include "paper/leaders.h"

namespace deckquire::sheets {
namespace {

using paper::PaperBox;
using paper::PaperPoint;

/// Leaders, and what they do not cross.
bool is_leader_kind(std::string_view kind) {
  for (const char* k : {"callout", "note", "redline", "chain", "running", "dimensions"})
    if (kind == k) return true;
  return false;
}

bool is_kept_free(std::string_view kind) {
  return kind == "stamp" || kind == "title-block";
}

bool runs_through(PaperPoint a, PaperPoint b, const PaperBox& box) {
  return box.contains(a) || box.contains(b) ||
         paper::segments_cross(a, b, box.low, box.high) ||
         paper::segments_cross(a, b, {box.low.x, box.high.y}, {box.high.x, box.low.y});
}

}  // namespace

FreePaper::FreePaper(const paper::Sheet& sheet, const PaperBox& frame)
    : frame_(frame),
      across_(static_cast<int>(std::ceil(sheet.width)) + 1),
      up_(static_cast<int>(std::ceil(sheet.height)) + 1),
      taken_(static_cast<std::size_t>(across_) * static_cast<std::size_t>(up_)) {
  std::vector<std::string_view> kinds;
  PaperBox kept{{1e9, 1e9}, {-1e9, -1e9}};
  const auto within = [&](auto is) { return std::any_of(kinds.begin(), kinds.end(), is); };
  const auto note = [&](const PaperBox& b) {
    if (!within(is_kept_free)) return;
    kept = {{std::min(kept.low.x, b.low.x), std::min(kept.low.y, b.low.y)},
            {std::max(kept.high.x, b.high.x), std::max(kept.high.y, b.high.y)}};
  };
  for (const paper::Item& item : sheet.items) {
    if (const auto* g = std::get_if<paper::GroupStart>(&item)) {
      kinds.push_back(g->kind);
      if (is_kept_free(g->kind)) kept = {{1e9, 1e9}, {-1e9, -1e9}};
    } else if (std::holds_alternative<paper::GroupEnd>(item) && !kinds.empty()) {
      if (is_kept_free(kinds.back()) && kept.low.x < kept.high.x) take(kept);
      kinds.pop_back();
    } else if (const auto* t = std::get_if<paper::Text>(&item)) {
      letters_.push_back(paper::text_box(*t));
      take(letters_.back());
      note(letters_.back());
    } else if (const auto* s = std::get_if<paper::Stroke>(&item)) {
      take_path(s->path, within(is_leader_kind));
      note(paper::bounds(s->path));
    } else if (const auto* f = std::get_if<paper::Fill>(&item)) {
      if (f->ink != paper::Ink::white) take(paper::bounds(f->path));
    }
  }
  for (const paper::RevisionItems& r : sheet.revision_items) take(r.box);
  for (int y = 0; y < up_; ++y)
    for (int x = 0; x < across_; ++x) {
      const auto at = [&](int i, int k) {
        return i < 0 || k < 0 ? 0 : taken_[static_cast<std::size_t>(k * across_ + i)];
      };
      taken_[static_cast<std::size_t>(y * across_ + x)] +=
          at(x - 1, y) + at(x, y - 1) - at(x - 1, y - 1);
    }
}

void FreePaper::take(const PaperBox& box) {
  const auto cell = [](double v, int most) { return std::clamp(static_cast<int>(v), 0, most - 1); };
  for (int y = cell(box.low.y, up_); y <= cell(box.high.y, up_); ++y)
    for (int x = cell(box.low.x, across_); x <= cell(box.high.x, across_); ++x)
      taken_[static_cast<std::size_t>(y * across_ + x)] = 1;
}

void FreePaper::take(PaperPoint a, PaperPoint b) {
  const int steps = std::max(1, static_cast<int>(2 * std::hypot(b.x - a.x, b.y - a.y)));
  for (int i = 0; i <= steps; ++i) {
    const PaperPoint p = a + (b - a) * (static_cast<double>(i) / steps);
    take(PaperBox{p, p});
  }
}

void FreePaper::take_path(const paper::Path& path, bool leader) {
  std::size_t at = 0;
  PaperPoint first{}, last{};
  const auto line = [&](PaperPoint to) {
    take(last, to);
    if (leader) leaders_.push_back({last, to});
    last = to;
  };
  for (paper::Op op : path.ops) {
    switch (op) {
      case paper::Op::move:
        first = last = path.points[at++];
        break;
      case paper::Op::line:
        line(path.points[at++]);
        break;
      case paper::Op::curve:
        for (int i = 0; i < 3; ++i) line(path.points[at++]);  // its control points: never too little
        break;
      case paper::Op::close:
        line(first);
        break;
    }
  }
}

bool FreePaper::free(int left, int low, int right, int high) const {
  const auto sum = [&](int x, int y) {
    return x < 0 || y < 0 ? 0 : taken_[static_cast<std::size_t>(y * across_ + x)];
  };
  return sum(right, high) - sum(left - 1, high) - sum(right, low - 1) + sum(left - 1, low - 1) == 0;
}

std::optional<PaperBox> FreePaper::nearest(PaperPoint size, PaperPoint to,
                                           const std::function<bool(const PaperBox&)>& good) const {
  struct Place {
    double far;
    int x, y;
  };
  std::vector<Place> places;
  const int width = static_cast<int>(std::ceil(size.x)), height = static_cast<int>(std::ceil(size.y));
  for (int y = static_cast<int>(frame_.low.y) + 2; y + height < frame_.high.y - 1; y += 2)
    for (int x = static_cast<int>(frame_.low.x) + 2; x + width < frame_.high.x - 1; x += 2)
      if (free(x, y, x + width, y + height))
        places.push_back({std::hypot(x + width / 2.0 - to.x, y + height / 2.0 - to.y), x, y});
  std::stable_sort(places.begin(), places.end(),
                   [](const Place& a, const Place& b) { return a.far < b.far; });
  for (const Place& p : places) {
    const PaperBox box{{double(p.x), double(p.y)}, {p.x + size.x, p.y + size.y}};
    if (good(box)) return box;
  }
  return std::nullopt;
}

bool FreePaper::clear_line(PaperPoint a, PaperPoint b) const {
  for (const PaperBox& l : letters_)
    if (runs_through(a, b, l.grown(0.4))) return false;
  return std::none_of(leaders_.begin(), leaders_.end(), [&](const auto& s) {
    return paper::segments_cross(a, b, s.first, s.second);
  });
}

}  // namespace deckquire::sheets
