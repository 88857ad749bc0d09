#include "paper/overlaps.h"

#include <algorithm>
#include <cmath>
#include <cstdint>
#include <numeric>

namespace deckquire::paper {

namespace {

constexpr double hair = 0.05;  // mm; boxes that share less only touch

std::vector<PaperBox> shrunk(const std::vector<PlacedText>& texts) {
  std::vector<PaperBox> out;
  out.reserve(texts.size());
  for (const PlacedText& t : texts) out.push_back(t.box.grown(-hair));
  return out;
}

/// Calls visit(a, b) for every straight piece; curves in eight pieces.
template <class Visit>
void for_segments(const Path& path, Visit visit) {
  PaperPoint start, last;
  std::size_t at = 0;
  for (Op op : path.ops) {
    const PaperPoint* p = path.points.data() + at;
    if (op == Op::move) {
      start = last = p[0], at += 1;
    } else if (op == Op::line) {
      visit(last, p[0]);
      last = p[0], at += 1;
    } else if (op == Op::close) {
      visit(last, start);
      last = start;
    } else {
      const PaperPoint from = last;
      for (int i = 1; i <= 8; ++i) {
        const double t = i / 8.0, s = 1 - t;
        const PaperPoint next = from * (s * s * s) + p[0] * (3 * s * s * t) +
                                p[1] * (3 * s * t * t) + p[2] * (t * t * t);
        visit(last, next);
        last = next;
      }
      at += 3;
    }
  }
}

/// Boxes by the cells of a coarse grid they touch.
class Grid {
 public:
  explicit Grid(const std::vector<PaperBox>& boxes) {
    for (const PaperBox& b : boxes) {
      width_ = std::max(width_, column(b.high.x) + 1);
      height_ = std::max(height_, column(b.high.y) + 1);
    }
    cells_.resize(static_cast<std::size_t>(width_) * static_cast<std::size_t>(height_));
    for (std::size_t i = 0; i < boxes.size(); ++i) {
      const PaperBox& b = boxes[i];
      for (int y = column(b.low.y); y <= column(b.high.y); ++y)
        for (int x = column(b.low.x); x <= column(b.high.x); ++x) cell(x, y).push_back(i);
    }
  }

  /// Calls visit(i) for the boxes in the cells that the segment, this thick, may touch.
  template <class Visit>
  void along(PaperPoint a, PaperPoint b, double thick, Visit visit) {
    const double low = std::min(a.y, b.y) - thick, high = std::max(a.y, b.y) + thick;
    for (int y = column(low); y <= std::min(column(high), height_ - 1); ++y) {
      const auto [from, to] = reach(a, b, y * size - thick, (y + 1) * size + thick);
      for (int x = column(from - thick); x <= std::min(column(to + thick), width_ - 1); ++x)
        for (std::size_t i : cell(x, y)) visit(i);
    }
  }

 private:
  static constexpr double size = 20;  // mm
  static constexpr int most = 300;    // cells a side, whatever the coordinates
  static int column(double v) {
    return static_cast<int>(std::clamp(std::floor(v / size), 0.0, static_cast<double>(most)));
  }
  std::vector<std::size_t>& cell(int x, int y) {
    return cells_[static_cast<std::size_t>(y) * static_cast<std::size_t>(width_) +
                  static_cast<std::size_t>(x)];
  }
  /// The range of x of the segment between two levels.
  static std::pair<double, double> reach(PaperPoint a, PaperPoint b, double low, double high) {
    double t = 0, u = 1;
    if (a.y != b.y) {
      const double p = (low - a.y) / (b.y - a.y), q = (high - a.y) / (b.y - a.y);
      t = std::clamp(std::min(p, q), 0.0, 1.0);
      u = std::clamp(std::max(p, q), 0.0, 1.0);
    }
    const double x = a.x + (b.x - a.x) * t, z = a.x + (b.x - a.x) * u;
    return std::minmax({x, z});
  }

  int width_ = 1, height_ = 1;
  std::vector<std::vector<std::size_t>> cells_;
};

}  // namespace

bool meets(PaperPoint a, PaperPoint b, const PaperBox& box) {
  double from = 0, to = 1;
  const auto narrow = [&](double start, double step, double low, double high) {
    if (step == 0) return start > low && start < high;
    const double t = (low - start) / step, u = (high - start) / step;
    from = std::max(from, std::min(t, u));
    to = std::min(to, std::max(t, u));
    return from < to;
  };
  return narrow(a.x, b.x - a.x, box.low.x, box.high.x) &&
         narrow(a.y, b.y - a.y, box.low.y, box.high.y);
}

double heavy_line(const Sheet& sheet) {
  double width = 0.5;
  for (const Pen& p : sheet.pens)
    if (p.name == "outline") width = std::min(width, p.width);
  return width;
}

std::vector<Clash> text_clashes(const std::vector<PlacedText>& texts) {
  const std::vector<PaperBox> boxes = shrunk(texts);
  std::vector<std::size_t> by_left(texts.size());
  std::iota(by_left.begin(), by_left.end(), std::size_t{0});
  std::stable_sort(by_left.begin(), by_left.end(),
                   [&](std::size_t i, std::size_t j) { return boxes[i].low.x < boxes[j].low.x; });
  std::vector<Clash> out;
  std::vector<std::size_t> open;  // texts that may still reach to the right of the sweep line
  for (std::size_t i : by_left) {
    std::erase_if(open, [&](std::size_t j) { return boxes[j].high.x <= boxes[i].low.x; });
    for (std::size_t j : open)
      if (boxes[i].overlaps(boxes[j]))
        out.push_back({std::min(i, j), std::max(i, j), texts[std::max(i, j)].text->at});
    open.push_back(i);
  }
  std::sort(out.begin(), out.end(), [](const Clash& a, const Clash& b) {
    return std::pair(a.text, a.other) < std::pair(b.text, b.other);
  });
  return out;
}

std::vector<Clash> line_clashes(const std::vector<PlacedText>& texts,
                                const std::vector<PlacedLine>& lines) {
  const std::vector<PaperBox> boxes = shrunk(texts);
  Grid grid(boxes);
  constexpr std::size_t none = SIZE_MAX;
  std::vector<std::size_t> crossed(texts.size(), none);  // the first line on each text
  for (std::size_t k = 0; k < lines.size(); ++k) {
    const double thick = lines[k].width / 2;
    for_segments(*lines[k].path, [&](PaperPoint a, PaperPoint b) {
      grid.along(a, b, thick, [&](std::size_t i) {
        if (crossed[i] != none) return;
        if (texts[i].text->masked && lines[k].order < texts[i].order) return;
        if (meets(a, b, boxes[i].grown(thick))) crossed[i] = k;
      });
    });
  }
  std::vector<Clash> out;
  for (std::size_t i = 0; i < texts.size(); ++i)
    if (crossed[i] != none) out.push_back({i, crossed[i], texts[i].text->at});
  return out;
}

}  // namespace deckquire::paper
