// Hatching: computed lines, clipped to the rings in doubles. No clip paths, no patterns: both print
// with seams or slow down viewers.
#include <algorithm>
#include <cmath>
#include <cstdint>
#include <limits>

#include "paper/board.h"

namespace deckquire::paper {

namespace {

using Rings = std::vector<std::vector<PaperPoint>>;

struct Span {
  double from = 0, to = 0;
};

PaperPoint turned(PaperPoint p, double cosine, double sine) {
  return {p.x * cosine - p.y * sine, p.x * sine + p.y * cosine};
}

bool is_drawable(const Rings& rings) {
  bool any = false;
  for (const auto& ring : rings)
    for (PaperPoint p : ring) {
      // Far beyond any sheet the number of lines would run away.
      if (!(std::abs(p.x) < 1e5 && std::abs(p.y) < 1e5)) return false;
      any = true;
    }
  return any;
}

template <class Visit>
void for_edges(const Rings& rings, Visit visit) {
  for (const auto& ring : rings)
    for (std::size_t i = 0; i < ring.size(); ++i) visit(ring[i], ring[(i + 1) % ring.size()]);
}

PaperBox box_of(const Rings& rings) {
  constexpr double far = std::numeric_limits<double>::infinity();
  PaperBox b{{far, far}, {-far, -far}};
  for (const auto& ring : rings)
    for (PaperPoint p : ring) {
      b.low = {std::min(b.low.x, p.x), std::min(b.low.y, p.y)};
      b.high = {std::max(b.high.x, p.x), std::max(b.high.y, p.y)};
    }
  return b;
}

/// Where the level line at y runs inside the rings (even-odd), from left to right.
std::vector<Span> inside(const Rings& rings, double y) {
  std::vector<double> cuts;
  for_edges(rings, [&](PaperPoint a, PaperPoint b) {
    if ((a.y <= y) == (b.y <= y)) return;
    cuts.push_back(a.x + (b.x - a.x) * ((y - a.y) / (b.y - a.y)));
  });
  std::sort(cuts.begin(), cuts.end());
  std::vector<Span> out;
  for (std::size_t i = 0; i + 1 < cuts.size(); i += 2) out.push_back({cuts[i], cuts[i + 1]});
  return out;
}

/// The part of the level line at y no farther than `reach` from the edge a-b: one span, because the
/// points near a segment form a convex set. Empty (from > to) when there is none.
Span near_edge(PaperPoint a, PaperPoint b, double y, double reach) {
  Span s{std::numeric_limits<double>::infinity(), -std::numeric_limits<double>::infinity()};
  const auto widen = [&s](double x) {
    s.from = std::min(s.from, x);
    s.to = std::max(s.to, x);
  };
  for (PaperPoint end : {a, b}) {
    const double h = reach * reach - (y - end.y) * (y - end.y);
    if (h < 0) continue;
    widen(end.x - std::sqrt(h));
    widen(end.x + std::sqrt(h));
  }
  const PaperPoint way = b - a;
  const double length = std::hypot(way.x, way.y);
  if (length == 0) return s;
  const PaperPoint side{-way.y / length * reach, way.x / length * reach};
  for (double sign : {-1.0, 1.0}) {
    const PaperPoint from = a + side * sign;
    if (way.y == 0) continue;  // level edges: their ends say it all
    const double t = (y - from.y) / way.y;
    if (t >= 0 && t <= 1) widen(from.x + t * way.x);
  }
  return s;
}

std::vector<Span> near_edges(const Rings& rings, double y, double reach) {
  std::vector<Span> all, out;
  for_edges(rings, [&](PaperPoint a, PaperPoint b) {
    const Span s = near_edge(a, b, y, reach);
    if (s.from < s.to) all.push_back(s);
  });
  std::sort(all.begin(), all.end(), [](Span p, Span q) { return p.from < q.from; });
  for (Span s : all) {
    if (!out.empty() && s.from <= out.back().to)
      out.back().to = std::max(out.back().to, s.to);
    else
      out.push_back(s);
  }
  return out;
}

std::vector<Span> common(const std::vector<Span>& a, const std::vector<Span>& b) {
  std::vector<Span> out;
  for (Span p : a)
    for (Span q : b)
      if (std::max(p.from, q.from) < std::min(p.to, q.to))
        out.push_back({std::max(p.from, q.from), std::min(p.to, q.to)});
  return out;
}

/// Parallel lines at that angle and pitch. They stand on a grid of the sheet, not of the ring, so
/// that neighbouring faces of one material run on into each other.
void add_lines(Path& path, const Rings& rings, double angle, double pitch, double band) {
  const double radians = angle * pi / 180, c = std::cos(radians), s = std::sin(radians);
  Rings level = rings;
  for (auto& ring : level)
    for (PaperPoint& p : ring) p = turned(p, c, -s);
  const PaperBox box = box_of(level);
  for (double k = std::ceil(box.low.y / pitch); k * pitch < box.high.y; ++k) {
    const double y = k * pitch;
    std::vector<Span> spans = inside(level, y);
    if (band > 0) spans = common(spans, near_edges(level, y, band));
    for (Span span : spans) path.segment(turned({span.from, y}, c, s), turned({span.to, y}, c, s));
  }
}

/// A well-mixed number in [0, 1) for a cell of a grid: the same dots on every machine.
double noise(std::int64_t i, std::int64_t j, std::uint64_t salt) {
  auto x = static_cast<std::uint64_t>(i) * 0x9E3779B97F4A7C15u ^
           static_cast<std::uint64_t>(j) * 0xC2B2AE3D27D4EB4Fu ^ salt * 0x165667B19E3779F9u;
  x = (x ^ x >> 30) * 0xBF58476D1CE4E5B9u;
  x = (x ^ x >> 27) * 0x94D049BB133111EBu;
  return static_cast<double>((x ^ x >> 31) >> 11) * 0x1.0p-53;
}

bool is_inside(const Rings& rings, PaperPoint p) {
  bool in = false;
  for_edges(rings, [&](PaperPoint a, PaperPoint b) {
    if ((a.y <= p.y) != (b.y <= p.y) && p.x < a.x + (b.x - a.x) * ((p.y - a.y) / (b.y - a.y)))
      in = !in;
  });
  return in;
}

double distance_to_edges(const Rings& rings, PaperPoint p) {
  double best = std::numeric_limits<double>::infinity();
  for_edges(rings, [&](PaperPoint a, PaperPoint b) {
    const PaperPoint w = b - a, v = p - a;
    const double square = w.x * w.x + w.y * w.y;
    const double t = square > 0 ? std::clamp((v.x * w.x + v.y * w.y) / square, 0.0, 1.0) : 0.0;
    best = std::min(best, std::hypot(v.x - t * w.x, v.y - t * w.y));
  });
  return best;
}

/// Grains strewn one to a cell of `pitch`: short strokes turned at random.
void add_grains(Path& path, const Rings& rings, double pitch, double band) {
  constexpr double length = 0.3;
  const PaperBox box = box_of(rings);
  const auto from_x = static_cast<std::int64_t>(std::floor(box.low.x / pitch));
  const auto from_y = static_cast<std::int64_t>(std::floor(box.low.y / pitch));
  for (std::int64_t j = from_y; static_cast<double>(j) * pitch < box.high.y; ++j)
    for (std::int64_t i = from_x; static_cast<double>(i) * pitch < box.high.x; ++i) {
      const PaperPoint at{(static_cast<double>(i) + 0.15 + 0.7 * noise(i, j, 1)) * pitch,
                          (static_cast<double>(j) + 0.15 + 0.7 * noise(i, j, 2)) * pitch};
      if (!is_inside(rings, at)) continue;
      const double clear = distance_to_edges(rings, at);
      if (clear < 2 * length || (band > 0 && clear > band)) continue;
      const double turn = pi * noise(i, j, 3);
      const PaperPoint half{length / 2 * std::cos(turn), length / 2 * std::sin(turn)};
      path.segment(at - half, at + half);
    }
}

}  // namespace

void hatch(Board& board, const Rings& rings, const std::string& material, double band) {
  if (!is_drawable(rings)) return;
  const Hatch& h = board.style().hatch(material);
  Path path;
  if (h.solid) {
    for (const auto& ring : rings) path.polygon(ring);
    board.fill(Ink::grey, std::move(path));
    return;
  }
  if (h.dots) {
    add_grains(path, rings, h.pitch, band);
    board.stroke(PenUse::stipple, std::move(path));
    return;
  }
  add_lines(path, rings, h.angle, h.pitch, band);
  if (h.second > 0) add_lines(path, rings, h.angle + 90, h.second, band);
  board.stroke(PenUse::hatch, std::move(path));
}

void stipple(Board& board, const std::vector<PaperPoint>& ring) {
  if (!is_drawable({ring})) return;
  Path path;
  add_grains(path, {ring}, board.style().hatch("surface").pitch, 0);
  board.stroke(PenUse::stipple, std::move(path));
}

}  // namespace deckquire::paper
