// Which scale each view of a panel sheet has and where it stands: rows of views in projection.
#include <algorithm>
#include <cmath>
#include <optional>

#include "sheets/panel_parts.h"

namespace deckquire::sheets {
namespace {

using paper::Board;
using paper::LetterUse;
using paper::PaperBox;
using paper::PaperPoint;

/// Views side by side with their outer sizes on paper.
struct Row {
  std::vector<PanelView> views;
  double height = 0, width = 0;
};

struct Scales {
  int plan = 1, section = 1, enlarged = 1, end = 1;
};

int ratio_of(PanelView v, const Scales& s) {
  switch (v) {
    case PanelView::section:
      return s.section;
    case PanelView::curb:
    case PanelView::scupper:
    case PanelView::recess:
      return s.enlarged;
    default:
      return s.plan;
  }
}

/// The most that stands below and above the objects of a row, so that they share one base line.
struct RowShape {
  double below = 0, above = 0, width = 0;
};

/// What a view needs whatever its scale: found once, asked for at every scale and order tried.
struct ViewNeeds {
  Margins margins;
  ViewSize size;
  double title = 0;  // width of its words
};

struct Packing {
  const Board& board;
  const PanelJob& job;
  PaperBox space;
  PaperPoint corner;  // size of what is taken at the lower right
  Scales scales;
  std::vector<Row> rows;
  bool aligned = false;  // the side elevation stands exactly under its plan
  bool stacked = false;  // and the soffit as well, in a row of its own: long panels
  ViewNeeds needs[panel_view_count];

  Packing(const Board& b, const PanelJob& j, const PaperBox& s, PaperPoint c)
      : board(b), job(j), space(s), corner(c) {
    for (int i = 0; i < panel_view_count; ++i) {
      const auto v = static_cast<PanelView>(i);
      if (i > static_cast<int>(PanelView::section) && !has_view(job, v)) continue;
      needs[i] = {view_margins(board, job, v), view_size(job, v),
                  board.text_width(LetterUse::view_title, title_of(job, v))};
    }
  }
  const ViewNeeds& need(PanelView v) const { return needs[static_cast<int>(v)]; }

  Margins margins(PanelView v) const {
    Margins m = need(v).margins;
    if ((v == PanelView::side && aligned) || (v == PanelView::soffit && stacked))
      m.left = need(PanelView::top).margins.left + first_air();
    return m;
  }
  /// Air left of the plan from above.
  double first_air() const { return 2 * board.style().gap; }
  double outer_width(PanelView v) const {
    const Margins m = margins(v);
    const double object = need(v).size.width / ratio_of(v, scales) + m.right;
    return m.left + std::max(object, title_width(v));
  }
  double title_width(PanelView v) const {
    const std::string scale = board.style().scale_name(ratio_of(v, scales));
    return need(v).title + board.text_width(LetterUse::heading, scale) +
           1.5 * board.text_height(LetterUse::view_title) + 2;
  }
  RowShape shape(const std::vector<PanelView>& views) const {
    RowShape r;
    for (PanelView v : views) {
      const ViewNeeds& n = need(v);
      r.below = std::max(r.below, n.margins.bottom);
      r.above = std::max(r.above, n.size.height / ratio_of(v, scales) + n.margins.top);
      r.width += outer_width(v);
    }
    r.width += board.style().gap * static_cast<double>(views.size() - 1);
    return r;
  }
  /// Width that a row has which ends `below` mm under the top of the space.
  double width_at(double below) const {
    return below <= space.height() - corner.y ? space.width() : space.width() - corner.x;
  }
  bool add_row(std::vector<PanelView> views) {
    if (views.empty()) return true;
    const RowShape r = shape(views);
    rows.push_back({std::move(views), r.below + r.above, r.width});
    return r.width <= width_at(height());
  }
  double height() const {
    double h = 0;
    for (const Row& r : rows) h += r.height;
    return h + board.style().gap * static_cast<double>(rows.size() + 1);
  }
};

/// Rows for the cut views: as many in a row as fit.
bool add_sections(Packing& p, const std::vector<PanelView>& views) {
  std::vector<PanelView> row;
  for (PanelView v : views) {
    std::vector<PanelView> longer = row;
    longer.push_back(v);
    const RowShape r = p.shape(longer);
    const double down = p.height() + r.below + r.above + p.board.style().gap;
    if (!row.empty() && r.width > p.width_at(down)) {
      if (!p.add_row(row)) return false;
      longer = {v};
    }
    row = std::move(longer);
  }
  return p.add_row(row);
}

/// Plans first, side by side or one under the other; the rest flows below them.
bool fits(Packing& p, const std::vector<PanelView>& below) {
  p.rows.clear();
  const bool plans = p.stacked ? p.add_row({PanelView::top}) && p.add_row({PanelView::soffit})
                               : p.add_row({PanelView::top, PanelView::soffit});
  return plans && add_sections(p, below) && p.height() <= p.space.height();
}

/// Stands a row on the base line start.y with even air; the side elevation goes under its plan, in
/// projection, as far as its neighbours leave room.
void stand(const Packing& p, PanelLayout& out, const Row& row, PaperPoint start, double room) {
  double left_over = room;
  for (PanelView v : row.views) left_over -= p.outer_width(v);
  double x = start.x;
  for (std::size_t i = 0; i < row.views.size(); ++i) {
    const PanelView v = row.views[i];
    const double gaps = static_cast<double>(row.views.size() + 1 - i);
    double air = std::clamp(left_over / gaps, 0.0, p.board.style().gap * 8);
    const Margins m = p.margins(v);
    if (v == PanelView::top)
      air = std::min(p.stacked ? std::max(0.0, left_over) : air, p.first_air());
    if (v == PanelView::side || (v == PanelView::soffit && p.stacked))
      air = std::clamp(out[PanelView::top].at.x - x - m.left, 0.0, std::max(0.0, left_over));
    out[v].drawn = true;
    out[v].ratio = ratio_of(v, p.scales);
    out[v].at = {x + air + m.left, start.y};
    x += air + p.outer_width(v);
    left_over -= air;
  }
}

/// How far rows from `first` on, the first of which would end `used` + its height under the top,
/// may still move down before one that needs the full width meets the corner.
double free_fall(const Packing& p, std::size_t first, double used) {
  double least = 1e9;
  for (std::size_t i = first; i < p.rows.size(); ++i) {
    used += p.board.style().gap + p.rows[i].height;
    if (p.rows[i].width > p.space.width() - p.corner.x)
      least = std::min(least, p.space.height() - p.corner.y - used);
  }
  return std::max(0.0, least);
}

/// Rows from the top; spare height goes between them, but a row that needs the full width stays
/// above the corner.
PanelLayout stand_all(const Packing& p) {
  PanelLayout out;
  const double gap = p.board.style().gap;
  double spare = std::max(0.0, p.space.height() - p.height());
  double y = p.space.high.y;
  for (std::size_t i = 0; i < p.rows.size(); ++i) {
    const Row& row = p.rows[i];
    const RowShape r = p.shape(row.views);
    const double used = p.space.high.y - y;
    double air = i == 0 ? 0 : spare / static_cast<double>(p.rows.size() - i);
    air = std::min(air, free_fall(p, i, used));
    const double end = used + gap + row.height;
    spare -= air;
    y -= gap + air + r.above;
    stand(p, out, row, {p.space.low.x, y}, p.width_at(end + air));
    y -= r.below;
  }
  return out;
}

int wanted_ratio(const PanelJob& job, const char* of) {
  for (const ScaleData& s : job.input.project.set.scales)
    if (s.of == of) return s.ratio;
  return 0;
}

/// Plan scales to try: the project's own, or all of the style's from 1:5 down.
std::vector<int> plan_ratios(const Board& board, const PanelJob& job) {
  if (const int own = wanted_ratio(job, "panel")) return {own};
  std::vector<int> out;
  for (int r : board.style().scales)
    if (r >= 4) out.push_back(r);
  return out;
}

/// Scales of the cuts: from 1:4 or 1:5 up to that of the plan; the end may be one step smaller.
std::vector<Scales> scale_sets(const Board& board, int plan) {
  std::vector<Scales> out;
  const std::vector<int>& all = board.style().scales;
  const auto next = std::upper_bound(all.begin(), all.end(), plan);
  std::vector<int> ends{plan};
  if (next != all.end()) ends.push_back(*next);
  for (int section : all)
    for (int enlarged : all)
      for (int end : ends)
        if (enlarged >= 4 && enlarged <= section && enlarged <= 10 && section <= plan)
          out.push_back({plan, section, enlarged, end});
  if (out.empty()) out.push_back({plan, plan, plan, plan});
  return out;
}

/// Everything; then without the end (the section has its profile too); then fewer enlarged cuts.
std::vector<std::vector<PanelView>> section_lists(const PanelJob& job) {
  std::vector<PanelView> all{PanelView::side, PanelView::section};
  for (PanelView v : {PanelView::curb, PanelView::scupper, PanelView::recess, PanelView::end})
    if (has_view(job, v)) all.push_back(v);
  std::vector<std::vector<PanelView>> out{all};
  while (all.size() > 2) {
    all.pop_back();
    out.push_back(all);
  }
  return out;
}

/// The list as it is, and with each of the smaller views moved up beside the side elevation.
std::vector<std::vector<PanelView>> orders(const std::vector<PanelView>& list) {
  std::vector<std::vector<PanelView>> out{list};
  for (std::size_t i = list.size(); i-- > 2;) {
    std::vector<PanelView> moved = list;
    std::rotate(moved.begin() + 1, moved.begin() + static_cast<std::ptrdiff_t>(i),
                moved.begin() + static_cast<std::ptrdiff_t>(i) + 1);
    out.push_back(std::move(moved));
  }
  return out;
}

/// With at least so many views beside the plans.
bool pack(Packing& p, int plan, std::size_t least) {
  for (const auto& list : section_lists(p.job))
    for (const bool aligned : {true, false})
      for (const Scales& s : scale_sets(p.board, plan))
        for (const auto& order : orders(list)) {
          if (list.size() < least) return false;
          p.aligned = aligned;
          p.scales = s;
          if (fits(p, order)) return true;
        }
  return false;
}

/// The largest scale at which the whole panel fits; false where none does.
bool pack_whole(Packing& p, const std::vector<int>& ratios) {
  for (int r : ratios)
    for (const bool stacked : {false, true}) {
      if (stacked && !is_long(p.job.shape())) continue;
      p.stacked = stacked;
      if (pack(p, r, 2)) return true;
    }
  return false;
}

/// The views along x broken so that they are no longer than the room of their rows.
std::vector<paper::Shortening> breaks_for(const Packing& p, double width, int ratio) {
  constexpr double gap = 3, air = 5;  // paper mm: between break lines; beside them
  const Margins &top = p.need(PanelView::top).margins, &soffit = p.need(PanelView::soffit).margins;
  const double right = std::max(top.right, p.need(PanelView::side).margins.right);
  double room = width - p.first_air() - top.left - right - 1;
  if (!p.stacked) room = (room - p.board.style().gap - soffit.left - soffit.right) / 2;
  const PanelShape& s = p.job.shape();
  const bool metric = p.job.units() == UnitSystem::metric;
  const double cut = typical_cut(s), centre = p.job.mark.masses.x, mm_shown = ratio;
  // The section's marks with their bars, the centre of gravity with its letters.
  const std::vector<Stretch> kept{{cut - 6 * mm_shown, cut + 9 * mm_shown},
                                  {centre - 3 * mm_shown, centre + 9 * mm_shown}};
  return choose_breaks(
      uniform_stretches(s, p.job.deck, kept), bounds(s.outline).width(),
      {room * ratio, air * ratio, gap * ratio, metric ? 10.0 : mm(25.4).in_mm(), 3});
}

/// A long panel broken, at the largest scale beyond `whole` that shows no fewer views.
std::optional<PanelLayout> lay_out_broken(const Packing& whole, const std::vector<int>& ratios,
                                          int whole_ratio, std::size_t views) {
  constexpr int large_enough = 10;  // nothing is broken for more than 1:10
  const double width = whole.space.width();
  for (int r : ratios)
    for (const bool stacked : {true, false})
      for (double room : {width, width - whole.corner.x}) {
        if (r < std::min(large_enough, whole_ratio) || r >= whole_ratio) continue;
        Packing p = whole;
        p.stacked = stacked;
        PanelJob job = whole.job;
        job.breaks = breaks_for(p, room, r);
        if (job.breaks.empty()) continue;
        Packing broken(whole.board, job, whole.space, whole.corner);
        broken.stacked = stacked;
        if (!pack(broken, r, views)) continue;
        PanelLayout out = stand_all(broken);
        out.breaks = job.breaks;
        return out;
      }
  return std::nullopt;
}

}  // namespace

PanelLayout lay_out_panel(const Board& board, const PanelJob& job, const PaperBox& space,
                          PaperPoint corner) {
  Packing p(board, job, space, corner);
  const std::vector<int> ratios = plan_ratios(board, job);
  const bool whole = pack_whole(p, ratios);
  if (is_long(job.shape())) {
    std::size_t views = 0;
    for (const Row& row : p.rows) views += row.views.size();
    const auto broken =
        lay_out_broken(p, ratios, whole ? p.scales.plan : ratios.back() + 1, whole ? views - 2 : 2);
    if (broken) return *broken;
  }
  if (whole) return stand_all(p);
  // Too small a sheet for everything: the plans and the section alone at the smallest scale.
  p.stacked = false;
  p.scales = {ratios.back(), ratios.back(), ratios.back(), ratios.back()};
  const bool least = fits(p, {PanelView::side, PanelView::section});
  PanelLayout out = stand_all(p);
  out.fits = least;
  return out;
}

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
  switch (v) {
    case PanelView::top: {
      const double ahead = tapers(job.shape()) ? s.first_dimension + 1.5 * tier + 3
                           : tight(s)          ? 4
                                               : s.first_dimension + 3;
      const double edges = job.shape().square() ? 0 : corner_tier(board);  // of edges' corners
      // The figures of the chains beyond the running ones stand above their lines.
      const double over = std::max(0.0, board.text_height(LetterUse::dimension) + 1.7 - 0.4 * tier);
      return {s.first_dimension + run + 2 * tier + 3 + over, ahead,
              zone + run + tier + edges + title + over, zone + run + tier + edges + over};
    }
    case PanelView::soffit:
      return {s.first_dimension + run, 4, soffit_air(board, job) + run + title,
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
