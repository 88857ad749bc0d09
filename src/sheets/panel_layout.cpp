// Which scale each view of a panel sheet has and where it stands: rows of views in projection.
#include <algorithm>
#include <cmath>
#include <optional>

#include "sheets/layout_hints.h"
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

/// A part's plans are short: cuts stand beside the soffit as far as they fit, the rest below.
bool part_fits(Packing& p, const std::vector<PanelView>& below) {
  if (!p.add_row({PanelView::top})) return false;
  std::vector<PanelView> row{PanelView::soffit}, rest;
  for (PanelView v : below) {
    std::vector<PanelView> longer = row;
    longer.push_back(v);
    const RowShape r = p.shape(longer);
    const double down = p.height() + r.below + r.above + p.board.style().gap;
    const bool beside = v != PanelView::side && r.width <= p.width_at(down);
    (beside ? row : rest).push_back(v);
  }
  return p.add_row(row) && add_sections(p, rest) && p.height() <= p.space.height();
}

/// Plans first, side by side or one under the other; the rest flows below them.
bool fits(Packing& p, const std::vector<PanelView>& below) {
  p.rows.clear();
  if (p.stacked && p.job.own.part) return part_fits(p, below);
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
  // What the sheet of the back part has, that of the ahead part does without; and the other way.
  if (job.ahead_part())
    std::erase_if(all, [&](PanelView v) { return v != PanelView::side && on_other_sheet(job, v); });
  const std::size_t least = job.own.part ? 1 : 2;
  std::vector<std::vector<PanelView>> out{all};
  while (all.size() > least) {
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

namespace {

PanelLayout lay_out_at(const Board& board, const PanelJob& job, const PaperBox& space,
                       PaperPoint corner, const std::vector<int>& ratios) {
  Packing p(board, job, space, corner);
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

}  // namespace

PanelLayout lay_out_panel(const Board& board, const PanelJob& job, const PaperBox& space,
                          PaperPoint corner) {
  PanelLayout best = lay_out_at(board, job, space, corner, plan_ratios(board, job));
  const int kept = kept_ratio(job.input, job.mark.name);
  if (kept == 0 || kept == best[PanelView::top].ratio || wanted_ratio(job, "panel") != 0)
    return best;
  // As it was issued, so that a small change stays small, but not for fewer views.
  const PanelLayout as_before = lay_out_at(board, job, space, corner, {kept});
  return as_before.fits && drawn_views(as_before) >= drawn_views(best) ? as_before : best;
}

PanelLayout lay_out_part(const Board& board, const PanelJob& whole, const PaperBox& space,
                         PaperPoint corner) {
  PanelJob job = whole;
  const int ratio = job.own.part->ratio;
  job.breaks = {other_part(board, job, ratio)};
  Packing p(board, job, space, corner);
  PanelLayout out;
  for (const bool stacked : {false, true}) {
    p.stacked = stacked;
    out.fits = pack(p, ratio, 1);
    if (out.fits) break;
  }
  if (out.fits) out = stand_all(p);
  out.breaks = job.breaks;
  out.parted = true;
  return out;
}

}  // namespace deckquire::sheets
