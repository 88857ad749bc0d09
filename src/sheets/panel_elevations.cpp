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

/// Where the right edge or its curb changes along the panel, between x of its corners.
std::vector<double> edge_stations(const PanelShape& s, double back, double ahead) {
  std::vector<double> xs{back + just_inside, ahead - just_inside};
  for (const PanelPoint& p : s.outline)
    for (double x : {p.x - 0.01, p.x + 0.01})
      if (x > back + just_inside && x < ahead - just_inside) xs.push_back(x);
  std::sort(xs.begin(), xs.end());
  return xs;
}

void stroke_ring(Board& board, PenUse pen, const std::vector<PaperPoint>& ring) {
  Path p;
  p.polygon(ring);
  board.stroke(pen, p);
}

void side_outline(Board& board, const PanelJob& job, const CutView& view) {
  const Corners c = corners_of(job.shape());
  const double back = c.back_right.x, ahead = c.ahead_right.x;
  std::vector<PaperPoint> ring{view(back, 0), view(ahead, 0)};
  const std::vector<double> xs = edge_stations(job.shape(), back, ahead);
  for (std::size_t i = xs.size(); i-- > 0;) {
    const bool last = i + 1 == xs.size(), first = i == 0;
    ring.push_back(view(last ? ahead : first ? back : xs[i], right_top(job, xs[i])));
  }
  stroke_ring(board, PenUse::outline, ring);
}

/// A skewed end face that turns towards the viewer, beyond the right edge.
void seen_face(Board& board, const PanelJob& job, const CutView& view, bool back) {
  const PanelShape& s = job.shape();
  const double slope = back ? s.back_slope : s.ahead_slope, x0 = back ? 0 : s.length;
  const double stretch = std::hypot(1, slope);
  const auto draw = [&](const std::vector<Ring<SectionFrame>>& rings) {
    for (const Ring<SectionFrame>& ring : rings) {
      std::vector<PaperPoint> seen;
      for (const SectionPoint& p : ring) seen.push_back(view(x0 - slope * p.x / stretch, p.y));
      stroke_ring(board, PenUse::outline, seen);
    }
  };
  const PanelSection face = cut_along_face(s, job.deck, back);
  draw(face.body);
  draw(face.curbs);
}

void seen_faces(Board& board, const PanelJob& job, const CutView& view) {
  const Corners c = corners_of(job.shape());
  if (c.back_left.x < c.back_right.x - 0.5) seen_face(board, job, view, true);
  if (c.ahead_left.x > c.ahead_right.x + 0.5) seen_face(board, job, view, false);
}

void hidden_box(Board& board, const CutView& view, double x0, double x1, double z0, double z1) {
  Path p;
  p.box({view(x0, z0), view(x1, z1)});
  board.stroke(PenUse::hidden, p);
}

void side_feature(Board& board, const PanelJob& job, const CutView& view, const Feature& f) {
  const PanelShape& s = job.shape();
  const Ring<PanelFrame> ring = between_faces(s, f.ring());
  if (ring.size() < 3) return;
  const Box<PanelFrame> b = bounds(ring);
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
  const double back = corners_of(job.shape()).back_right.x;
  const auto spans = across(job.shape().outline, back + just_inside);
  if (spans.empty()) return;
  const double top = right_top(job, back + just_inside);
  const PaperPoint foot = view(back, 0);
  const double line = foot.x - board.style().first_dimension;
  const ChainPoint zero{foot.y, Length(), foot.x}, high{view(0, top).y, mm(top), foot.x};
  paper::dimension(board, upright(job, line), zero, high);
}

/// Over both ends of a view; beyond them where they stand too close for both words.
void words_over(Board& board, double x0, double x1, double y, const char* first,
                const char* second) {
  constexpr double air = 3;
  const double need =
      board.text_width(LetterUse::note, first) + board.text_width(LetterUse::note, second) + air;
  const bool apart = x1 - x0 >= need;
  const double middle = (x0 + x1) / 2, half = air / 2;
  board.text(LetterUse::note, {apart ? x0 : middle - half, y}, first,
             apart ? Align::left : Align::right);
  board.text(LetterUse::note, {apart ? x1 : middle + half, y}, second,
             apart ? Align::right : Align::left);
}

void words_above_ends(Board& board, const PanelJob& job, const CutView& view) {
  const Box<PanelFrame> box = bounds(job.shape().outline);
  const double y = view(0, view_size(job, PanelView::side).height).y + 2;
  if (job.own.part) {  // the match line has its words there
    const bool back = job.shows_back();
    const double match = view(job.own.part->at, 0).x;
    board.text(LetterUse::note, {back ? view(box.low.x, 0).x : view(box.high.x, 0).x, y},
               back ? "BACK" : "AHEAD", back ? Align::left : Align::right);
    const Group link(board, "", "match-line", "", job.own.part->other);
    board.text(LetterUse::note, {match + (back ? -2 : 2), y}, match_words(job),
               back ? Align::right : Align::left);
    return;
  }
  words_over(board, view(box.low.x, 0).x, view(box.high.x, 0).x, y, "BACK", "AHEAD");
}

/// `title`: another than the view's own.
void title_under(Board& board, const PanelJob& job, const PanelLayout& layout, PanelView v,
                 const std::string& title = "") {
  const Margins m = view_margins(board, job, v);
  const double y = layout[v].at.y - m.bottom + board.text_height(LetterUse::view_title) * 0.8;
  paper::view_title(board, {layout[v].at.x, y}, title.empty() ? title_of(job, v) : title,
                    layout[v].ratio);
}

void stroke_all(Board& board, const CutView& view, PenUse pen,
                const std::vector<Ring<SectionFrame>>& rings) {
  for (const auto& r : rings) {
    Path p;
    p.polygon(view(r));
    board.stroke(pen, p);
  }
}

/// In the third angle (ISO 5456-2) the view that stands to the right of the side elevation, on its
/// base line, is that from the right: of the ahead end. Elsewhere on the sheet the back end is
/// shown.
bool shows_ahead_end(const PanelJob& job, const PanelLayout& layout) {
  const PlacedView &side = layout[PanelView::side], &end = layout[PanelView::end];
  return job.shape().square() && side.drawn && end.drawn && side.at.y == end.at.y &&
         side.at.x < end.at.x;
}

/// Hollows behind the end face, as far as they are not cut open by it.
void end_hidden(Board& board, const PanelJob& job, const CutView& view, bool back) {
  for (const Feature& f : job.shape().features) {
    const Box<PanelFrame> b = f.box();
    const double behind = back ? b.low.x : job.shape().length - b.high.x;
    if (f.kind == FeatureKind::recess && behind > just_inside)
      hidden_box(board, view, -b.high.y, -b.low.y, 0, f.depth);
  }
}

void width_along_face(Board& board, const PanelJob& job, const CutView& view, double left) {
  const double width = view_size(job, PanelView::end).width;
  const PaperPoint a = view(-left, 0), b = view(width - left, 0);
  ChainLine line = upright(job, a.y - board.style().first_dimension);
  line.heading = Heading::horizontal;
  paper::dimension(board, line, {a.x, Length(), a.y}, {b.x, mm(width), b.y});
}

}  // namespace

void draw_side_elevation(Board& board, const PanelJob& job, const PanelLayout& layout) {
  const PlacedView& place = layout[PanelView::side];
  if (!place.drawn) return;
  const Group group(board, job.id("view-side"), "view", "Right side elevation");
  const double first = job.shape().square() ? 0 : bounds(job.shape().outline).low.x;
  const CutView view{place.at, {first, 0}, double(place.ratio), false, false, job.breaks};
  for (const Feature& f : job.shape().features) {
    if (!job.shows(f)) continue;
    side_feature(board, job, view, f);
    side_pipe(board, job, view, f);
  }
  seen_faces(board, job, view);
  side_outline(board, job, view);
  const double pads = job.deck.pads ? job.deck.pads->thickness.in_mm() : 0;
  const double low = view(0, -pads).y, high = view(0, view_size(job, PanelView::side).height).y;
  for (const paper::Shortening& s : job.breaks) {
    const double x0 = view(s.from, 0).x, x1 = view(s.to, 0).x;
    if (job.own.part)
      draw_match(board, job, s, {{x0, low}, {x1, high}}, false);
    else
      draw_break(board, job, s, x0, x1, low, high);
  }
  if (job.shows_back()) edge_heights(board, job, view);
  words_above_ends(board, job, view);
  title_under(board, job, layout, PanelView::side);
}

void draw_end_elevation(Board& board, const PanelJob& job, const PanelLayout& layout) {
  const PlacedView& place = layout[PanelView::end];
  if (!place.drawn) return;
  const PanelShape& s = job.shape();
  const bool back = !shows_ahead_end(job, layout);
  const Group group(board, job.id("view-end"), "view",
                    back ? "Back end elevation" : "Ahead end elevation");
  const Box<PanelFrame> box = bounds(s.outline);
  const double left = s.square() ? box.high.y : s.left_back * std::hypot(1, s.back_slope);
  // Sections run from left to right, seen looking ahead.
  const CutView view{place.at, {back ? -left : -box.low.y, 0}, double(place.ratio), !back, false};
  const PanelSection face = cut_along_face(s, job.deck, back);
  if (s.square() && tapers(s)) {  // the wider end stands out behind
    const PanelSection far = cut_along_face(s, job.deck, !back);
    stroke_all(board, view, PenUse::thin, far.body);
    stroke_all(board, view, PenUse::thin, far.curbs);
  }
  if (s.square()) end_hidden(board, job, view, back);
  stroke_all(board, view, PenUse::thin, face.pads);
  stroke_all(board, view, PenUse::outline, face.curbs);
  stroke_all(board, view, PenUse::outline, face.body);
  const double y = place.at.y + view.size(view_size(job, PanelView::end).height) + 2;
  const double width = view.size(view_size(job, PanelView::end).width);
  words_over(board, place.at.x, place.at.x + width, y, back ? "LEFT" : "RIGHT",
             back ? "RIGHT" : "LEFT");
  if (s.back_slope != 0) width_along_face(board, job, view, left);
  title_under(board, job, layout, PanelView::end, back ? "" : "AHEAD END, LOOKING BACK");
}

}  // namespace deckquire::sheets
