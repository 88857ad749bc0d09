#include "sheets/solid.h"

#include <algorithm>
#include <cmath>
#include <map>
#include <set>
#include <tuple>
#include <utility>

namespace deckquire::sheets {
namespace {

constexpr double same_place = 0.01;  // mm: corners nearer than that are one
constexpr double on_line = 1e-3;     // mm: nearer to a line counts as on its left
constexpr double before = 0.05;      // mm that a face must stand before a line to hide it
constexpr double edge_on = 1e-6;    // sine of the angle to the sight below which a face is not seen
constexpr double one_plane = 1e-6;  // 1 - cosine of the angle between faces of one plane

Spot operator-(Spot a, Spot b) {
  return {a.x - b.x, a.y - b.y, a.z - b.z};
}
Spot along(Spot a, Spot b, double t) {
  return {a.x + (b.x - a.x) * t, a.y + (b.y - a.y) * t, a.z + (b.z - a.z) * t};
}
double dot(Spot a, Spot b) {
  return a.x * b.x + a.y * b.y + a.z * b.z;
}
double length(Spot a) {
  return std::sqrt(dot(a, a));
}
double dot(PicturePoint a, PicturePoint b) {
  return a.x * b.x + a.y * b.y;
}
double cross(PicturePoint a, PicturePoint b) {
  return a.x * b.y - a.y * b.x;
}
bool lower(Spot a, Spot b) {
  return std::tie(a.x, a.y, a.z) < std::tie(b.x, b.y, b.z);
}

/// Outward, of length 1 (Newell's sum over the first loop).
Spot normal_of(const std::vector<Spot>& loop) {
  Spot n;
  for (std::size_t i = 0; i < loop.size(); ++i) {
    const Spot a = loop[i], b = loop[(i + 1) % loop.size()];
    n.x += (a.y - b.y) * (a.z + b.z);
    n.y += (a.z - b.z) * (a.x + b.x);
    n.z += (a.x - b.x) * (a.y + b.y);
  }
  const double l = length(n);
  return l > 0 ? Spot{n.x / l, n.y / l, n.z / l} : n;
}

/// A face as the viewer has it.
struct SeenFace {
  std::vector<std::vector<PicturePoint>> loops;
  Box<PictureFrame> box;
  Spot normal, corner;
  double towards = 0;  // cosine of the angle between the normal and the direction to the viewer
  int smooth = 0, part = 0;
  bool fine = false, others = false;
  bool seen() const { return towards > edge_on; }
  /// How far the face's plane stands before a point, along the sight.
  double before_point(Spot p) const { return dot(normal, corner - p) / towards; }
};

SeenFace seen_face(const Face& f, const Projection& view) {
  SeenFace out;
  const PicturePoint first = view(f.loops.front().front());
  out.box = {first, first};
  for (const auto& loop : f.loops) {
    std::vector<PicturePoint>& flat = out.loops.emplace_back();
    for (Spot s : loop) {
      const PicturePoint p = view(s);
      out.box.low = {std::min(out.box.low.x, p.x), std::min(out.box.low.y, p.y)};
      out.box.high = {std::max(out.box.high.x, p.x), std::max(out.box.high.y, p.y)};
      flat.push_back(p);
    }
  }
  out.normal = normal_of(f.loops.front());
  out.corner = f.loops.front().front();
  out.towards = dot(out.normal, view.viewer);
  out.smooth = f.smooth;
  out.part = f.part;
  out.fine = f.fine;
  out.others = f.others;
  return out;
}

std::vector<SeenFace> seen_faces(const Solid& solid, const Projection& view) {
  std::vector<SeenFace> out;
  for (const Face& f : solid.faces)
    if (!f.loops.empty() && f.loops.front().size() > 2) out.push_back(seen_face(f, view));
  return out;
}

using Stretch = std::pair<double, double>;

/// The stretch of [from, to] where a straight function with these values at 0 and 1 is above 0, if
/// it rises above `before` at all.
void add_hidden(double from, double to, double at0, double at1, std::vector<Stretch>& out) {
  from = std::max(from, 0.0), to = std::min(to, 1.0);
  if (from >= to) return;
  const double a = at0 + (at1 - at0) * from, b = at0 + (at1 - at0) * to;
  if (a <= before && b <= before) return;
  const double turn = from + (to - from) * (a == b ? 0 : a / (a - b));
  if (a < 0) from = turn;
  if (b < 0) to = turn;
  if (from < to) out.emplace_back(from, to);
}

/// Adds the stretches of the line from a to b (0 to 1) that the face hides.
void hide(const SeenFace& face, Spot a, Spot b, PicturePoint pa, PicturePoint pb,
          std::vector<Stretch>& out) {
  const Box<PictureFrame> box{{std::min(pa.x, pb.x), std::min(pa.y, pb.y)},
                              {std::max(pa.x, pb.x), std::max(pa.y, pb.y)}};
  if (!face.seen() || !box.grown(on_line).overlaps(face.box)) return;
  const double at0 = face.before_point(a), at1 = face.before_point(b);
  if (at0 <= before && at1 <= before) return;
  const PicturePoint u = pb - pa;
  const double l = std::sqrt(dot(u, u));
  const auto side = [&](PicturePoint p) {
    const double d = cross(u, p - pa) / l;
    return std::abs(d) < on_line ? 0 : d;
  };
  std::vector<double> crossings;
  for (const auto& loop : face.loops)
    for (std::size_t i = 0; i < loop.size(); ++i) {
      const PicturePoint p = loop[i], q = loop[(i + 1) % loop.size()];
      const double sp = side(p), sq = side(q);
      if ((sp >= 0) == (sq >= 0)) continue;
      crossings.push_back(dot(u, p + (q - p) * (sp / (sp - sq)) - pa) / (l * l));
    }
  std::sort(crossings.begin(), crossings.end());
  for (std::size_t i = 0; i + 1 < crossings.size(); i += 2)
    add_hidden(crossings[i], crossings[i + 1], at0, at1, out);
}

/// What is left of [0, 1].
std::vector<Stretch> left_over(std::vector<Stretch> hidden) {
  std::sort(hidden.begin(), hidden.end());
  std::vector<Stretch> out;
  double from = 0;
  for (const Stretch& h : hidden) {
    if (h.first > from) out.emplace_back(from, h.first);
    from = std::max(from, h.second);
  }
  if (from < 1) out.emplace_back(from, 1);
  return out;
}

/// All corners of a solid, those in one place as one, in the order of their places.
class Corners3 {
 public:
  explicit Corners3(const Solid& solid) {
    std::vector<Spot> all;
    for (const Face& f : solid.faces)
      for (const auto& loop : f.loops) all.insert(all.end(), loop.begin(), loop.end());
    std::sort(all.begin(), all.end(), lower);
    for (Spot p : all)
      if (find(p) < 0) corners_.push_back(p);
  }
  Spot operator[](int i) const { return corners_[static_cast<std::size_t>(i)]; }
  /// -1: none there.
  int find(Spot p) const {
    for (std::size_t i = first(p.x); i < corners_.size(); ++i) {
      if (corners_[i].x > p.x + same_place) break;
      if (length(corners_[i] - p) < same_place) return static_cast<int>(i);
    }
    return -1;
  }
  /// The corners on the line from one to another, both included, in order.
  std::vector<int> between(int from, int to) const {
    const Spot a = (*this)[from], d = (*this)[to] - a;
    const double l = length(d), most = std::max(a.x, a.x + d.x) + same_place;
    std::vector<std::pair<double, int>> on{{0, from}, {1, to}};
    for (std::size_t i = first(std::min(a.x, a.x + d.x)); i < corners_.size(); ++i) {
      const Spot p = corners_[i];
      if (p.x > most) break;
      const double t = dot(p - a, d) / (l * l);
      if (t * l < same_place || (1 - t) * l < same_place) continue;
      if (length(p - along(a, (*this)[to], t)) < same_place)
        on.emplace_back(t, static_cast<int>(i));
    }
    std::sort(on.begin(), on.end());
    std::vector<int> out;
    for (const auto& [t, i] : on) out.push_back(i);
    return out;
  }

 private:
  std::size_t first(double x) const {
    const auto at = std::lower_bound(corners_.begin(), corners_.end(), x - same_place,
                                     [](Spot p, double v) { return p.x < v; });
    return static_cast<std::size_t>(at - corners_.begin());
  }
  std::vector<Spot> corners_;
};

/// Faces at each stretch between two corners. What a face has twice is no edge of it.
using Edges = std::map<std::pair<int, int>, std::set<std::size_t>>;

Edges edges_of(const std::vector<Face>& faces, const Corners3& corners) {
  Edges out;
  for (std::size_t f = 0; f < faces.size(); ++f)
    for (const auto& loop : faces[f].loops)
      for (std::size_t i = 0; i < loop.size(); ++i) {
        const int a = corners.find(loop[i]), b = corners.find(loop[(i + 1) % loop.size()]);
        if (a == b) continue;
        const std::vector<int> on = corners.between(std::min(a, b), std::max(a, b));
        for (std::size_t k = 0; k + 1 < on.size(); ++k) {
          auto& at = out[std::minmax(on[k], on[k + 1])];
          if (!at.insert(f).second) at.erase(f);
        }
      }
  return out;
}

/// How the edge between those faces is drawn; false: not at all.
bool kind_of(const std::vector<SeenFace>& faces, const std::set<std::size_t>& at, LineKind& kind) {
  std::vector<const SeenFace*> seen;
  for (std::size_t f : at)
    if (faces[f].seen()) seen.push_back(&faces[f]);
  if (seen.empty()) return false;
  const bool fine = std::any_of(at.begin(), at.end(), [&](std::size_t f) { return faces[f].fine; });
  const bool all_seen = seen.size() == at.size() && at.size() > 1;
  kind = all_seen || fine ? LineKind::edge : LineKind::outline;
  if (seen.front()->others && seen.back()->others) kind = LineKind::others;
  if (at.size() != 2) return true;
  const SeenFace &a = faces[*at.begin()], &b = faces[*at.rbegin()];
  if (all_seen && a.smooth > 0 && a.smooth == b.smooth) return false;
  return a.part != b.part || dot(a.normal, b.normal) < 1 - one_plane;
}

/// Joins straight edges of one kind that touch or overlap.
bool join_ends(PictureLine& a, const PictureLine& b) {
  if (a.kind != b.kind || a.kind == LineKind::trace || a.kind == LineKind::sunk) return false;
  const PicturePoint d = a.b - a.a;
  const double l = std::sqrt(dot(d, d));
  const auto off = [&](PicturePoint p) { return std::abs(cross(d, p - a.a)) / l; };
  if (off(b.a) > on_line || off(b.b) > on_line) return false;
  double from = dot(d, b.a - a.a) / l, to = dot(d, b.b - a.a) / l;
  if (from > to) std::swap(from, to);
  if (from > l + on_line || to < -on_line) return false;
  const PicturePoint start = a.a, u = d * (1 / l);
  a.a = start + u * std::min(from, 0.0);
  a.b = start + u * std::max(to, l);
  return true;
}

bool left_of(PicturePoint a, PicturePoint b) {
  return std::tie(a.x, a.y) < std::tie(b.x, b.y);
}

std::vector<PictureLine> joined(std::vector<PictureLine> lines) {
  const auto in_order = [](const PictureLine& a, const PictureLine& b) {
    return std::tie(a.kind, a.a.x, a.a.y, a.b.x, a.b.y) <
           std::tie(b.kind, b.a.x, b.a.y, b.b.x, b.b.y);
  };
  for (PictureLine& l : lines)
    if (left_of(l.b, l.a)) std::swap(l.a, l.b);
  std::sort(lines.begin(), lines.end(), in_order);
  for (bool again = true; again;) {
    again = false;
    for (std::size_t i = 0; i < lines.size(); ++i)
      for (std::size_t j = i + 1; j < lines.size();)
        if (join_ends(lines[i], lines[j])) {
          lines.erase(lines.begin() + static_cast<std::ptrdiff_t>(j));
          again = true;
        } else {
          ++j;
        }
  }
  std::sort(lines.begin(), lines.end(), in_order);
  return lines;
}

}  // namespace

Projection isometric(bool from_above) {
  const double c = std::sqrt(3.0) / 2, s = from_above ? 0.5 : -0.5, d = 1 / std::sqrt(3.0);
  return {{c, s}, {-c, s}, {0, 1}, {-d, -d, from_above ? d : -d}};
}

std::vector<PictureLine> visible_lines(const Solid& solid, const Projection& view) {
  std::vector<Face> faces;  // as seen_faces() has them
  for (const Face& f : solid.faces)
    if (!f.loops.empty() && f.loops.front().size() > 2) faces.push_back(f);
  const std::vector<SeenFace> seen = seen_faces(solid, view);
  std::vector<PictureLine> out;
  const auto draw = [&](Spot a, Spot b, LineKind kind, const std::set<std::size_t>& own) {
    const PicturePoint pa = view(a), pb = view(b), d = pb - pa;
    if (std::sqrt(dot(d, d)) < same_place) return;
    std::vector<Stretch> hidden;
    for (std::size_t f = 0; f < seen.size(); ++f)
      if (!own.contains(f)) hide(seen[f], a, b, pa, pb, hidden);
    for (const auto& [from, to] : left_over(std::move(hidden)))
      if ((to - from) * std::sqrt(dot(d, d)) > same_place)
        out.push_back({pa + d * from, pa + d * to, kind});
  };
  const Corners3 corners(solid);
  for (const auto& [ends, at] : edges_of(faces, corners)) {
    LineKind kind{};
    if (kind_of(seen, at, kind)) draw(corners[ends.first], corners[ends.second], kind, at);
  }
  for (const Trace& t : solid.traces)
    for (std::size_t i = 0; i + 1 < t.points.size(); ++i)
      draw(t.points[i], t.points[i + 1], t.kind, {});
  return joined(std::move(out));
}

bool closed(const Solid& solid) {
  const Edges edges = edges_of(solid.faces, Corners3(solid));
  return std::all_of(edges.begin(), edges.end(),
                     [](const auto& edge) { return edge.second.size() % 2 == 0; });
}

bool in_sight(const Solid& solid, const Projection& view, Spot at) {
  const PicturePoint p = view(at);
  for (const SeenFace& f : seen_faces(solid, view)) {
    if (!f.seen() || f.before_point(at) <= before) continue;
    bool inside = false;
    for (const auto& loop : f.loops)
      for (std::size_t i = 0; i < loop.size(); ++i) {
        const PicturePoint a = loop[i], b = loop[(i + 1) % loop.size()];
        if ((a.y <= p.y) == (b.y <= p.y)) continue;
        if (a.x + (b.x - a.x) * (p.y - a.y) / (b.y - a.y) > p.x) inside = !inside;
      }
    if (inside) return false;
  }
  return true;
}

}  // namespace deckquire::sheets
