// Panels on a strip whose alignment bends: unrolled, so that x is the station and y the offset.
#include <algorithm>
#include <cmath>
#include <utility>
#include <variant>

#include "sheets/erection_parts.h"

namespace deckquire::sheets {
namespace {

using paper::PaperBox;
using paper::PaperPoint;
using paper::Path;

constexpr double paper_step = 4;  // mm between the points of a bent line

int pieces(PaperPoint a, PaperPoint b) {
  return std::max(1, static_cast<int>(std::hypot(b.x - a.x, b.y - a.y) / paper_step));
}

}  // namespace

PanelMap::PanelMap(const StripDrawing& s, const Panel& p)
    : s_(s), panel_(p), view_{s.view(p.start.in_mm(), 0), {0, 0}, s.view.ratio, false, false} {}

PaperPoint PanelMap::operator()(PanelPoint p) const {
  return bent() ? s_.view(panel_.frame.bridge(s_.input.bridge.alignment, p)) : view_(p);
}

std::vector<PaperPoint> PanelMap::operator()(const Ring<PanelFrame>& ring) const {
  if (!bent()) return view_(ring);
  std::vector<PaperPoint> out;
  for (std::size_t i = 0; i < ring.size(); ++i) {
    const PanelPoint a = ring[i], b = ring[(i + 1) % ring.size()];
    const int n = pieces(view_(a), view_(b));
    for (int k = 0; k < n; ++k) out.push_back((*this)(a + (b - a) * (static_cast<double>(k) / n)));
  }
  return out;
}

Path PanelMap::bent(const Path& path) const {
  const auto moved = [&](PaperPoint p) {
    const PaperPoint d = (p - view_.origin) * view_.ratio;
    return (*this)(PanelPoint{d.x, d.y});
  };
  Path out;
  PaperPoint start, last;
  const auto line_to = [&](PaperPoint p) {
    const int n = pieces(last, p);
    for (int k = 1; k <= n; ++k) out.line(moved(last + (p - last) * (static_cast<double>(k) / n)));
    last = p;
  };
  std::size_t at = 0;
  for (paper::Op op : path.ops) {
    const PaperPoint* p = path.points.data() + at;
    switch (op) {
      case paper::Op::move:
        out.move(moved(start = last = *p));
        at += 1;
        break;
      case paper::Op::line:
        line_to(*p);
        at += 1;
        break;
      case paper::Op::curve:
        out.curve(moved(p[0]), moved(p[1]), moved(p[2]));
        last = p[2];
        at += 3;
        break;
      case paper::Op::close:
        line_to(start);
        out.close();
        break;
    }
  }
  return out;
}

void PanelMap::draw(
    const std::function<void(paper::Board&, const paper::View<PanelFrame>&)>& draw) const {
  if (!bent()) return draw(s_.board, view_);
  paper::Sheet scratch;
  paper::Board board(scratch, s_.board.style(), s_.board.lettering());
  draw(board, view_);
  for (paper::Item& item : scratch.items) {
    if (auto* stroke = std::get_if<paper::Stroke>(&item)) stroke->path = bent(stroke->path);
    if (auto* fill = std::get_if<paper::Fill>(&item)) fill->path = bent(fill->path);
    s_.board.sheet().items.push_back(std::move(item));
  }
}

Path line_of(const StripDrawing& s, const BridgeLine& line) {
  Path out;
  for (BridgePoint p : line) out.empty() ? out.move(s.view(p)) : out.line(s.view(p));
  return out;
}

std::vector<PaperPoint> joint_on_strip(const StripDrawing& s, const Joint& joint) {
  const Bridge& bridge = s.input.bridge;
  const BridgePoint right = joint_end(bridge, joint, Side::right);
  const BridgePoint left = joint_end(bridge, joint, Side::left);
  std::vector<PaperPoint> out;
  for (BridgePoint p : joint_line(bridge, joint, right.y, left.y)) out.push_back(s.view(p));
  return out;
}

PaperBox around(const std::vector<PaperPoint>& points) {
  PaperBox b{points.front(), points.front()};
  for (PaperPoint p : points) {
    b.low = {std::min(b.low.x, p.x), std::min(b.low.y, p.y)};
    b.high = {std::max(b.high.x, p.x), std::max(b.high.y, p.y)};
  }
  return b;
}

void keep_off(const StripDrawing& s, const std::vector<PaperPoint>& line, double room) {
  for (std::size_t i = 0; i + 1 < line.size(); ++i) {
    const PaperPoint a = line[i], b = line[i + 1];
    const int parts = std::max(1, static_cast<int>(std::abs(b.y - a.y) / 1.5));
    for (int k = 0; k < parts; ++k) {
      const PaperPoint u = a + (b - a) * (static_cast<double>(k) / parts);
      const PaperPoint v = a + (b - a) * (static_cast<double>(k + 1) / parts);
      s.labels.solid(around({u, v}).grown(room));
    }
  }
}

}  // namespace deckquire::sheets
