#include "paper/sheet.h"

#include <algorithm>
#include <cmath>

#include <fmt/format.h>

#include "base/text.h"
#include "paper/style.h"

namespace deckquire::paper {

void Path::move(PaperPoint p) {
  ops.push_back(Op::move);
  points.push_back(p);
}

void Path::line(PaperPoint p) {
  ops.push_back(Op::line);
  points.push_back(p);
}

void Path::curve(PaperPoint a, PaperPoint b, PaperPoint c) {
  ops.push_back(Op::curve);
  points.insert(points.end(), {a, b, c});
}

void Path::close() {
  ops.push_back(Op::close);
}

void Path::segment(PaperPoint a, PaperPoint b) {
  move(a);
  line(b);
}

void Path::polygon(const std::vector<PaperPoint>& ring) {
  if (ring.size() < 2) return;
  move(ring.front());
  for (std::size_t i = 1; i < ring.size(); ++i) line(ring[i]);
  close();
}

void Path::box(const PaperBox& b) {
  polygon(box_ring(b));
}

void Path::circle(PaperPoint c, double r) {
  // Four cubics; this factor keeps the radius within 0.03 % everywhere.
  const double k = 4.0 / 3.0 * (std::sqrt(2.0) - 1.0) * r;
  move({c.x + r, c.y});
  curve({c.x + r, c.y + k}, {c.x + k, c.y + r}, {c.x, c.y + r});
  curve({c.x - k, c.y + r}, {c.x - r, c.y + k}, {c.x - r, c.y});
  curve({c.x - r, c.y - k}, {c.x - k, c.y - r}, {c.x, c.y - r});
  curve({c.x + k, c.y - r}, {c.x + r, c.y - k}, {c.x + r, c.y});
  close();
}

void Path::append(const Path& other) {
  ops.insert(ops.end(), other.ops.begin(), other.ops.end());
  points.insert(points.end(), other.points.begin(), other.points.end());
}

namespace {

/// Cosine and sine, exact at quarter turns, so that boxes of turned text have clean edges.
PaperPoint direction(double angle) {
  const double quarters = std::round(angle / (pi / 2));
  if (std::abs(angle - quarters * (pi / 2)) > 1e-9) return {std::cos(angle), std::sin(angle)};
  switch (static_cast<int>(std::fmod(quarters, 4) + 4) % 4) {
    case 0:
      return {1, 0};
    case 1:
      return {0, 1};
    case 2:
      return {-1, 0};
    default:
      return {0, -1};
  }
}

}  // namespace

PaperBox text_box(const Text& t) {
  const PaperPoint along = direction(t.angle);
  const PaperPoint up{-along.y, along.x};
  const PaperPoint a = t.at, b = a + along * t.width, c = a + up * t.height;
  const PaperPoint d = b + up * t.height;
  return {{std::min({a.x, b.x, c.x, d.x}), std::min({a.y, b.y, c.y, d.y})},
          {std::max({a.x, b.x, c.x, d.x}), std::max({a.y, b.y, c.y, d.y})}};
}

PaperBox mask_box(const Text& t) {
  return text_box(t).grown(t.height / 5);
}

PaperBox bounds(const Path& path) {
  if (path.points.empty()) return {};
  PaperBox b{path.points.front(), path.points.front()};
  for (PaperPoint p : path.points) {
    b.low = {std::min(b.low.x, p.x), std::min(b.low.y, p.y)};
    b.high = {std::max(b.high.x, p.x), std::max(b.high.y, p.y)};
  }
  return b;
}

namespace {

std::string dumped(PaperPoint p) {
  return decimal(p.x, 2) + " " + decimal(p.y, 2);
}

std::string dumped(const Path& path) {
  static constexpr char letters[] = {'M', 'L', 'C', 'Z'};
  static constexpr std::size_t counts[] = {1, 1, 3, 0};
  std::string out;
  std::size_t at = 0;
  for (Op op : path.ops) {
    const auto kind = static_cast<std::size_t>(op);
    out += ' ';
    out += letters[kind];
    for (std::size_t i = 0; i < counts[kind] && at < path.points.size(); ++i, ++at)
      out += " " + dumped(path.points[at]);
  }
  return out;
}

std::string dumped(const Pen& pen) {
  std::string out = fmt::format("pen {} {} {}", pen.name, decimal(pen.width, 2), name_of(pen.ink));
  for (double d : pen.dash) out += " " + decimal(d, 2);
  return out;
}

struct Dumper {
  const Sheet& sheet;
  std::string operator()(const Stroke& s) const {
    const std::string pen =
        s.pen < sheet.pens.size() ? sheet.pens[s.pen].name : fmt::format("#{}", s.pen);
    return "stroke " + pen + dumped(s.path);
  }
  std::string operator()(const Fill& f) const {
    return std::string("fill ") + name_of(f.ink) + dumped(f.path);
  }
  std::string operator()(const Text& t) const {
    return fmt::format("text {} turned {} height {} width {} {}{} \"{}\"", dumped(t.at),
                       decimal(t.angle * 180 / pi, 2), decimal(t.height, 2), decimal(t.width, 2),
                       name_of(t.ink), t.masked ? " masked" : "", t.text);
  }
  std::string operator()(const GroupStart& g) const {
    return fmt::format("group id=\"{}\" kind=\"{}\" title=\"{}\" target=\"{}\"", g.id, g.kind,
                       g.title, g.target);
  }
  std::string operator()(const GroupEnd&) const { return "end"; }
};

}  // namespace

std::string dump(const Sheet& sheet) {
  std::string out =
      fmt::format("sheet {} revision {} {} x {} \"{}\"\n", sheet.number, sheet.revision,
                  decimal(sheet.width, 2), decimal(sheet.height, 2), sheet.title);
  for (const Pen& pen : sheet.pens) out += dumped(pen) + "\n";
  int depth = 0;
  for (const Item& item : sheet.items) {
    if (std::holds_alternative<GroupEnd>(item)) depth = std::max(0, depth - 1);
    out.append(static_cast<std::size_t>(2 * depth), ' ');
    out += std::visit(Dumper{sheet}, item) + "\n";
    if (std::holds_alternative<GroupStart>(item)) ++depth;
  }
  return out;
}

}  // namespace deckquire::paper
