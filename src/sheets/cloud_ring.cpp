#include "sheets/cloud_ring.h"

#include <algorithm>
#include <cmath>
#include <map>

#include "paper/overlaps.h"

namespace deckquire::sheets {
namespace {

using paper::meets;
using paper::Op;
using paper::PaperBox;
using paper::PaperPoint;
using paper::Path;

constexpr double air = 0.6;       // mm between letters and the middle of the line
constexpr double least_room = 1;  // from what is ringed to the chords of its arcs
constexpr double most_room = 14;  // that an edge moves out to find its way
constexpr double chord = 10;      // of an arc
constexpr double bulge = 2.6;     // height of an arc over a chord of 10: 110 degrees of a circle
constexpr double flat = 0.7;      // where there is no room for that

/// How far the handles of an arc's curve stand out: its box is taken by them.
double reach_of(double height) {
  return 4.0 / 3.0 * height;
}

/// One side of a box: 0 left, 1 right, 2 bottom, 3 top.
double& side_of(PaperBox& b, int side) {
  return side == 0 ? b.low.x : side == 1 ? b.high.x : side == 2 ? b.low.y : b.high.y;
}

/// What lies within `depth` outside that side of a box.
PaperBox strip(const PaperBox& b, int side, double depth) {
  PaperBox s = b;
  switch (side) {
    case 0:
      s.low.x = b.low.x - depth, s.high.x = b.low.x;
      break;
    case 1:
      s.low.x = b.high.x, s.high.x = b.high.x + depth;
      break;
    case 2:
      s.low.y = b.low.y - depth, s.high.y = b.low.y;
      break;
    default:
      s.low.y = b.high.y, s.high.y = b.high.y + depth;
  }
  return s;
}

/// Moves a side out to where arcs, better high than flat ones, are clear of letters.
void move_out(PaperBox& box, int side, const Obstacles& obstacles, const PaperBox& room) {
  const double out = side % 2 == 0 ? -1 : 1;
  const double start = side_of(box, side);
  PaperBox limit = room;
  const double end = side_of(limit, side);
  for (double height : {bulge, flat})
    for (double d = least_room; d <= most_room; d += 0.25) {
      const double at = start + out * d;
      if (out * (end - at) < reach_of(height)) break;
      side_of(box, side) = at;
      if (!obstacles.letters(strip(box, side, height).grown(air))) return;
    }
  const double most = std::max(0.0, std::min(least_room, out * (end - start) - reach_of(flat)));
  side_of(box, side) = start + out * most;
}

/// Sides that are nearly in line are put in line, so that no ring has tiny steps.
void straighten(std::vector<PaperBox>& boxes) {
  constexpr double step = 7;
  for (int side = 0; side < 4; ++side) {
    const double out = side % 2 == 0 ? -1 : 1;
    std::sort(boxes.begin(), boxes.end(), [&](PaperBox a, PaperBox b) {
      return out * side_of(a, side) > out * side_of(b, side);
    });
    double last = 0;
    for (std::size_t i = 0; i < boxes.size(); ++i) {
      double& at = side_of(boxes[i], side);
      if (i > 0 && std::abs(at - last) < step)
        at = last;
      else
        last = at;
    }
  }
}

/// The outlines of a union of boxes, what is inside at their left; corners only.
std::vector<std::vector<PaperPoint>> outlines(const std::vector<PaperBox>& boxes) {
  std::vector<double> xs, ys;
  for (const PaperBox& b : boxes) {
    xs.insert(xs.end(), {b.low.x, b.high.x});
    ys.insert(ys.end(), {b.low.y, b.high.y});
  }
  for (std::vector<double>* v : {&xs, &ys}) {
    std::sort(v->begin(), v->end());
    v->erase(std::unique(v->begin(), v->end()), v->end());
  }
  const int nx = static_cast<int>(xs.size()) - 1, ny = static_cast<int>(ys.size()) - 1;
  const auto filled = [&](int i, int k) {
    if (i < 0 || k < 0 || i >= nx || k >= ny) return false;
    const auto a = static_cast<std::size_t>(i), c = static_cast<std::size_t>(k);
    const PaperPoint p{(xs[a] + xs[a + 1]) / 2, (ys[c] + ys[c + 1]) / 2};
    return std::any_of(boxes.begin(), boxes.end(),
                       [&](const PaperBox& b) { return b.contains(p); });
  };
  using Corner = std::pair<int, int>;
  std::multimap<Corner, Corner> edges;
  for (int i = 0; i < nx; ++i)
    for (int k = 0; k < ny; ++k) {
      if (!filled(i, k)) continue;
      if (!filled(i, k - 1)) edges.insert({{i, k}, {i + 1, k}});
      if (!filled(i + 1, k)) edges.insert({{i + 1, k}, {i + 1, k + 1}});
      if (!filled(i, k + 1)) edges.insert({{i + 1, k + 1}, {i, k + 1}});
      if (!filled(i - 1, k)) edges.insert({{i, k + 1}, {i, k}});
    }
  std::vector<std::vector<PaperPoint>> out;
  while (!edges.empty()) {
    std::vector<Corner> ring;
    Corner at = edges.begin()->first;
    Corner came = at;
    for (auto next = edges.begin(); next != edges.end(); next = edges.find(at)) {
      // Where two boxes touch by their corners: the turn to the left keeps their rings apart.
      const auto [first, last] = edges.equal_range(at);
      for (auto e = first; e != last; ++e) {
        const int turn = (at.first - came.first) * (e->second.second - at.second) -
                         (at.second - came.second) * (e->second.first - at.first);
        if (turn > 0) next = e;
      }
      ring.push_back(at);
      came = at;
      at = next->second;
      edges.erase(next);
    }
    std::vector<PaperPoint> corners;
    for (std::size_t i = 0; i < ring.size(); ++i) {
      const Corner a = ring[(i + ring.size() - 1) % ring.size()], b = ring[i],
                   c = ring[(i + 1) % ring.size()];
      const bool straight = (a.first == b.first && b.first == c.first) ||
                            (a.second == b.second && b.second == c.second);
      if (!straight)
        corners.push_back(
            {xs[static_cast<std::size_t>(b.first)], ys[static_cast<std::size_t>(b.second)]});
    }
    out.push_back(std::move(corners));
  }
  return out;
}

/// An arc on the right of a to b, and nine points on it.
struct Arc {
  PaperPoint a, p, q, b;
  Arc(PaperPoint from, PaperPoint to, double height) : a(from), b(to) {
    const PaperPoint d = to - from;
    const double length = std::hypot(d.x, d.y);
    const PaperPoint u = d * (1 / length), out{u.y, -u.x};
    const double half = 2 * std::atan(2 * height / length);  // half the angle that it sweeps
    const double radius = length / (2 * std::sin(half));
    const double handle = 4.0 / 3.0 * std::tan(half / 2) * radius;
    p = from + u * (handle * std::cos(half)) + out * (handle * std::sin(half));
    q = to - u * (handle * std::cos(half)) + out * (handle * std::sin(half));
  }
  PaperPoint at(double t) const {
    const double s = 1 - t;
    return a * (s * s * s) + p * (3 * s * s * t) + q * (3 * s * t * t) + b * (t * t * t);
  }
  bool clear(const Obstacles& obstacles, const PaperBox& room) const {
    if (!room.contains(p) || !room.contains(q)) return false;
    for (int i = 0; i < 8; ++i)
      if (obstacles.letters_on(at(i / 8.0), at((i + 1) / 8.0))) return false;
    return true;
  }
};

void add_edge(CloudRing& ring, PaperPoint a, PaperPoint b, const Obstacles& obstacles,
              const PaperBox& room, bool& pen_down) {
  const double length = std::hypot(b.x - a.x, b.y - a.y);
  const int count = std::max(1, static_cast<int>(std::lround(length / chord)));
  for (int i = 0; i < count; ++i) {
    const PaperPoint from = a + (b - a) * (static_cast<double>(i) / count);
    const PaperPoint to = a + (b - a) * (static_cast<double>(i + 1) / count);
    const double high = bulge * std::min(1.0, length / count / chord);
    Arc arc(from, to, high);
    if (!arc.clear(obstacles, room)) arc = Arc(from, to, std::min(high, flat));
    if (!arc.clear(obstacles, room)) arc = Arc(from, to, std::min(high, flat) / 3);
    if (!arc.clear(obstacles, room)) {
      pen_down = false;
      continue;
    }
    if (!pen_down) ring.arcs.move(from);
    pen_down = true;
    ring.arcs.curve(arc.p, arc.q, arc.b);
    for (int k = 0; k < 8; ++k) ring.points.push_back(arc.at(k / 8.0));
  }
}

}  // namespace

Obstacles::Obstacles(const paper::Sheet& sheet) {
  std::vector<std::string> open;
  for (const paper::Item& item : sheet.items) {
    if (const auto* g = std::get_if<paper::GroupStart>(&item)) {
      open.push_back(g->kind);
    } else if (std::holds_alternative<paper::GroupEnd>(item)) {
      if (!open.empty()) open.pop_back();
    } else if (const auto* t = std::get_if<paper::Text>(&item)) {
      boxes_.push_back(text_box(*t));
    } else if (const auto* s = std::get_if<paper::Stroke>(&item)) {
      if (!open.empty() && open.back() == "stamp") boxes_.push_back(bounds(s->path));
      std::size_t at = 0;
      PaperPoint last, start;
      for (Op op : s->path.ops) {
        const PaperPoint* p = s->path.points.data() + at;
        const std::size_t taken = op == Op::close ? 0 : op == Op::curve ? 3 : 1;
        const PaperPoint next = op == Op::close ? start : p[taken - 1];
        if (op == Op::move) start = next;
        if (op != Op::move) lines_.push_back({last, next});
        last = next;
        at += taken;
      }
    }
  }
}

bool Obstacles::letters(const PaperBox& box) const {
  return std::any_of(boxes_.begin(), boxes_.end(),
                     [&](const PaperBox& b) { return b.overlaps(box); });
}

bool Obstacles::letters_on(PaperPoint a, PaperPoint b) const {
  return std::any_of(boxes_.begin(), boxes_.end(),
                     [&](const PaperBox& box) { return meets(a, b, box.grown(air - 0.15)); });
}

std::size_t Obstacles::lines(const PaperBox& box) const {
  return static_cast<std::size_t>(std::count_if(
      lines_.begin(), lines_.end(), [&](const auto& l) { return meets(l.first, l.second, box); }));
}

bool Obstacles::rings(const PaperBox& box) const {
  return std::any_of(rings_.begin(), rings_.end(), [&](const std::vector<PaperPoint>& ring) {
    return std::any_of(ring.begin(), ring.end(), [&](PaperPoint p) { return box.contains(p); });
  });
}

CloudRing ring_around(std::vector<PaperBox> boxes, const Obstacles& obstacles,
                      const PaperBox& frame) {
  const PaperBox room = frame.grown(-0.8);
  straighten(boxes);
  for (PaperBox& box : boxes)
    for (int side : {2, 3, 0, 1}) move_out(box, side, obstacles, room);
  straighten(boxes);
  CloudRing out;
  for (const std::vector<PaperPoint>& ring : outlines(boxes)) {
    bool pen_down = false;
    for (std::size_t i = 0; i < ring.size(); ++i)
      add_edge(out, ring[i], ring[(i + 1) % ring.size()], obstacles, room, pen_down);
  }
  if (out.points.empty())  // letters all round: the delta still needs to know where
    for (const PaperBox& b : boxes) out.points.push_back(b.high);
  return out;
}

}  // namespace deckquire::sheets
