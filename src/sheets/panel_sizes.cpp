// What each view of a panel sheet needs of the paper, wherever it stands.
#include <algorithm>
#include <cmath>

#include "sheets/panel_parts.h"

namespace deckquire::sheets {

using paper::Board;
using paper::LetterUse;

bool is_long(const PanelShape& s) {
  const Box<PanelFrame> box = bounds(s.outline);
  return box.width() > 3 * box.height();
}

std::size_t drawn_views(const PanelLayout& layout) {
  return static_cast<std::size_t>(std::count_if(std::begin(layout.views), std::end(layout.views),
                                                [](const PlacedView& v) { return v.drawn; }));
}

double mark_zone(const Board& board) {
  return board.text_height(LetterUse::heading) + board.text_height(LetterUse::callout) + 10;
}

double soffit_air(const Board& board, const PanelJob& job) {
  const PanelShape& s = job.shape();
  if (!s.right_joint || !has_view(job, PanelView::recess)) return board.style().first_dimension;
  const bool at_edge =
      section_window(job, PanelView::recess).low < std::min(s.right_back, s.right_ahead) + 1;
  return at_edge ? mark_zone(board) : board.style().first_dimension;
}

double corner_tier(const Board& board) {
  return paper::wide_pitch(board) + 2;  // the overall's ticks stay clear of figures set outside
}

bool tight(const paper::Style& style) {
  return style.drawing_space().width() < 450;
}

bool second_panel_sheet(const paper::Style& style) {
  return tight(style);
}

double value_width(const Board& board, const PanelJob& job) {
  if (job.units() == UnitSystem::imperial)
    return board.text_width(LetterUse::dimension, "00'-00 00/16\"");
  const Box<PanelFrame> box = bounds(job.shape().outline);
  return board.text_width(LetterUse::dimension, job.print(std::max(box.width(), box.height())));
}

bool tapers(const PanelShape& s) {
  return std::abs(s.right_back - s.right_ahead) > 0.5 || std::abs(s.left_back - s.left_ahead) > 0.5;
}

bool has_view(const PanelJob& job, PanelView v) {
  const PanelShape& s = job.shape();
  const auto any = [&](FeatureKind k) {
    return std::any_of(s.features.begin(), s.features.end(),
                       [&](const Feature& f) { return f.kind == k; });
  };
  switch (v) {
    case PanelView::curb:
      return !s.curbs.empty();
    case PanelView::scupper:
      return any(FeatureKind::scupper);
    case PanelView::recess:
      return any(FeatureKind::recess);
    default:
      return true;
  }
}

ViewSize view_size(const PanelJob& job, PanelView v) {
  const PanelShape& s = job.shape();
  const Box<PanelFrame> box = bounds(s.outline);
  double along = box.width(), high = s.depth;
  for (const paper::Shortening& b : job.breaks) along -= b.left_out();
  for (double x : {1.0, s.length / 2, s.length - 1})
    for (const CurbCut& c : curbs_at(s, job.deck, x)) high = std::max(high, c.top);
  if (!s.square())
    for (const CurbRun& run : s.curbs)
      for (const PanelPoint& p : inner_foot(run))
        high = std::max(high, s.top(p.y) + job.deck.section.curb.height.in_mm());
  switch (v) {
    case PanelView::top:
    case PanelView::soffit:
      return {along, box.height()};
    case PanelView::side:
      return {along, high};
    case PanelView::end:
      return {s.square() ? box.height() : face_widths(s).first, high};
    case PanelView::section:
      return {box.height(), high};
    default: {
      const SectionWindow w = section_window(job, v);
      return {w.high - w.low, high};
    }
  }
}

Margins view_margins(const Board& board, const PanelJob& job, PanelView v) {
  const paper::Style& s = board.style();
  const double value = value_width(board, job);
  const double run = s.extension_over + 3.5 + value, zone = mark_zone(board);
  const double title = 2.2 * board.text_height(LetterUse::view_title) + 2;
  const double tier = s.next_dimension;
  const double note = board.text_height(LetterUse::note);
  const bool rows = !job.ahead_part() || !feature_places(job, true, false, {}).empty() ||
                    !feature_places(job, false, false, {}).empty();
  const double left = rows ? s.first_dimension + run : 6;
  switch (v) {
    case PanelView::top: {
      const double ahead = tapers(job.shape()) ? s.first_dimension + 1.5 * tier + 3
                           : tight(s)          ? 4
                                               : s.first_dimension + 3;
      const double edges = job.shape().square() ? 0 : corner_tier(board);  // of edges' corners
      // The figures of the chains beyond the running ones stand above their lines.
      const double over = std::max(0.0, board.text_height(LetterUse::dimension) + 1.7 - 0.4 * tier);
      return {left + (job.ahead_part() ? 0 : 2 * tier + 3 + over), job.shows_ahead() ? ahead : 4,
              zone + run + tier + edges + title + over, zone + run + tier + edges + over};
    }
    case PanelView::soffit:
      return {left, 4, soffit_air(board, job) + run + title,
              has_view(job, PanelView::recess) ? zone : 4};
    case PanelView::side:
      return {s.first_dimension + tier, 6, title + 8, 4 + note * 2};
    case PanelView::end:
      if (job.shape().back_slope != 0) return {6, 6, title + s.first_dimension + 2, 4 + note * 2};
      return {6, 6, title + 6, 4 + note * 2};
    case PanelView::section:
      return {s.first_dimension + tier + 3, s.first_dimension + tier + 3,
              s.first_dimension + title + 4, 9 + note * 5.5};
    case PanelView::curb: {
      const double heights = 22, notes = enlarged_note_width(board, job, v) + 14;
      const auto curbs = curbs_at(job.shape(), job.deck, typical_cut(job.shape()));
      const bool at_right = !curbs.empty() && curbs.front().side == Side::right;
      return {at_right ? notes : heights, at_right ? heights : notes,
              s.first_dimension + tier + title, 14 + note * 2};
    }
    case PanelView::scupper:
      return {6, enlarged_note_width(board, job, v) + 16, 14 + title, 14 + note * 2};
    default:
      return {16, enlarged_note_width(board, job, v) + 16, 14 + title, 10};
  }
}

}  // namespace deckquire::sheets
