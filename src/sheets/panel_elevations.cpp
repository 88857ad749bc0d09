// Side and end elevation of a panel, in projection with its plans.
#include <algorithm>
#include <cmath>

#include "paper/dimension.h"
#include "sheets/panel_parts.h"

namespace deckquire::sheets {
namespace {

using paper::Align;
using paper::Board;
using paper::ChainLine;
using paper::ChainPoint;
using paper::Group;
using paper::Heading;
using paper::LetterUse;
using paper::PaperPoint;
using paper::Path;
using paper::PenUse;
using CutView = paper::View<SectionFrame>;

constexpr double just_inside = 1.0;  // mm: an end face is seen just behind it

/// Height of the right edge's top, curb included, at x.
double right_top(const PanelJob& job, double x) {
  const auto spans = across(job.shape().outline, x);
  double top = spans.empty() ? 0 : job.shape().top(spans.front().first);
  for (const CurbCut& c : curbs_at(job.shape(), job.deck, x))
    if (c.side == Side::right) top = std::max(top, c.top);
  return top;
}

/// Where the right edge or its curb changes along the panel.
std::vector<double> edge_stations(const PanelShape& s) {
  std::vector<double> xs{just_inside, s.length - just_inside};
  for (const PanelPoint& p : s.outline)
    for (double x : {p.x - 0.01, p.x + 0.01})
      if (x > just_inside && x < s.length - just_inside) xs.push_back(x);
  std::sort(xs.begin(), xs.end());
  return xs;
}

void side_outline(Board& board, const PanelJob& job, const CutView& view) {
  const double length = job.shape().length;
  std::vector<PaperPoint> ring{view(0, 0), view(length, 0)};
  const std::vector<double> xs = edge_stations(job.shape());
  for (std::size_t i = xs.size(); i-- > 0;) {
    const bool last = i + 1 == xs.size(), first = i == 0;
    ring.push_back(view(last ? length : first ? 0 : xs[i], right_top(job, xs[i])));
  }
  Path p;
  p.polygon(ring);
  board.stroke(PenUse::outline, p);
}

void hidden_box(Board& board, const CutView& view, double x0, double x1, double z0, double z1) {
  Path p;
  p.box({view(x0, z0), view(x1, z1)});
  board.stroke(PenUse::hidden, p);
}

void side_feature(Board& board, const PanelJob& job, const CutView& view, const Feature& f) {
  const Box<PanelFrame> b = f.box();
  const PanelShape& s = job.shape();
  const bool right = f.at.y < bounds(s.outline).centre().y;
  switch (f.kind) {
    case FeatureKind::recess:
      return hidden_box(board, view, b.low.x, b.high.x, 0, f.depth);
    case FeatureKind::pad:
      board.box(PenUse::thin, {view(b.low.x, -f.depth), view(b.high.x, 0)});
      return;
    case FeatureKind::scupper:
      if (right) hidden_box(board, view, b.low.x, b.high.x, s.top(f.at.y) - f.depth, s.top(f.at.y));
      return;
    case FeatureKind::post_plate: {
      if (!right || !job.deck.posts) return;
      const double top = right_top(job, f.at.x) - job.deck.posts->plate.cover.in_mm();
      return hidden_box(board, view, b.low.x, b.high.x, top - f.depth, top);
    }
    default:
      return;
  }
}

/// The outlet pipe below the soffit, broken off after a short piece.
void side_pipe(Board& board, const PanelJob& job, const CutView& view, const Feature& f) {
  if (f.kind != FeatureKind::scupper || !job.deck.scuppers) return;
  if (f.at.y > bounds(job.shape().outline).centre().y) return;
  const double r = job.deck.scuppers->outlet.in_mm() / 2;
  const PaperPoint a = view(f.at.x - r, 0), b = view(f.at.x + r, 0);
  const double end = a.y - 4;
  board.line(PenUse::thin, a, {a.x, end});
  board.line(PenUse::thin, b, {b.x, end});
  paper::break_line(board, {a.x - 1, end}, {b.x + 1, end});
}

ChainLine upright(const PanelJob& job, double across, bool bracketed = false) {
  ChainLine l;
  l.heading = Heading::vertical;
  l.across = across;
  l.units = job.units();
  l.merge = false;
  l.bracketed = bracketed;
  return l;
}

/// Soffit to the edge's top, the curb above it.
void edge_heights(Board& board, const PanelJob& job, const CutView& view) {
  const auto spans = across(job.shape().outline, just_inside);
  if (spans.empty()) return;
  const double top = right_top(job, just_inside);
  const PaperPoint foot = view(0, 0);
  const double line = foot.x - board.style().first_dimension;
  const ChainPoint zero{foot.y, Length(), foot.x}, high{view(0, top).y, mm(top), foot.x};
  paper::dimension(board, upright(job, line), zero, high);
}

void end_words(Board& board, const CutView& view, double low, double high, const char* left,
               const char* right) {
  const double y = view(0, high).y + 2;
  board.text(LetterUse::note, {view(0, 0).x, y}, left);
  board.text(LetterUse::note, {view(low, 0).x, y}, right, Align::right);
}

void title_under(Board& board, const PanelJob& job, const PanelLayout& layout, PanelView v) {
  const Margins m = view_margins(board, job, v);
  const double y = layout[v].at.y - m.bottom + board.text_height(LetterUse::view_title) * 0.8;
  paper::view_title(board, {layout[v].at.x, y}, title_of(v), layout[v].ratio);
}

void stroke_all(Board& board, const CutView& view, PenUse pen,
                const std::vector<Ring<SectionFrame>>& rings) {
  for (const auto& r : rings) {
    Path p;
    p.polygon(view(r));
    board.stroke(pen, p);
  }
}

/// Hollows behind the end face, as far as they are not cut open by it.
void end_hidden(Board& board, const PanelJob& job, const CutView& view) {
  for (const Feature& f : job.shape().features) {
    const Box<PanelFrame> b = f.box();
    if (f.kind == FeatureKind::recess && b.low.x > just_inside)
      hidden_box(board, view, -b.high.y, -b.low.y, 0, f.depth);
  }
}

}  // namespace

void draw_side_elevation(Board& board, const PanelJob& job, const PanelLayout& layout) {
  const PlacedView& place = layout[PanelView::side];
  if (!place.drawn) return;
  const Group group(board, "view-side", "view", "Right side elevation");
  const CutView view{place.at, {0, 0}, double(place.ratio), false, false};
  for (const Feature& f : job.shape().features) {
    side_feature(board, job, view, f);
    side_pipe(board, job, view, f);
  }
  side_outline(board, job, view);
  edge_heights(board, job, view);
  const double length = job.shape().length;
  end_words(board, view, length, view_size(job, PanelView::side).height, "BACK", "AHEAD");
  title_under(board, job, layout, PanelView::side);
}

void draw_end_elevation(Board& board, const PanelJob& job, const PanelLayout& layout) {
  const PlacedView& place = layout[PanelView::end];
  if (!place.drawn) return;
  const Group group(board, "view-end", "view", "Back end elevation");
  const Box<PanelFrame> box = bounds(job.shape().outline);
  const CutView view{place.at, {-box.high.y, 0}, double(place.ratio), false, false};
  const PanelSection face = cut_across(job.shape(), job.deck, just_inside);
  const PanelSection far = cut_across(job.shape(), job.deck, job.shape().length - just_inside);
  if (tapers(job.shape())) {  // the wider end stands out behind
    stroke_all(board, view, PenUse::thin, far.body);
    stroke_all(board, view, PenUse::thin, far.curbs);
  }
  end_hidden(board, job, view);
  stroke_all(board, view, PenUse::thin, face.pads);
  stroke_all(board, view, PenUse::outline, face.curbs);
  stroke_all(board, view, PenUse::outline, face.body);
  const double y = view(0, view_size(job, PanelView::end).height).y + 2;
  board.text(LetterUse::note, {view(-box.high.y, 0).x, y}, "LEFT");
  board.text(LetterUse::note, {view(-box.low.y, 0).x, y}, "RIGHT", Align::right);
  title_under(board, job, layout, PanelView::end);
}

}  // namespace deckquire::sheets
