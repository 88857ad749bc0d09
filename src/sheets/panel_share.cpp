// Small marks that share a sheet: which, and what stands where.
#include <algorithm>

#include "sheets/panel_parts.h"

namespace deckquire::sheets {
namespace {

using paper::Board;
using paper::PaperBox;

constexpr std::size_t most_on_sheet = 3;
constexpr int smallest_scale = 12;   // 1:10, 1" = 1'-0"
constexpr double small_part = 0.12;  // of the drawing space, by a plan at the largest scale
constexpr double poorly_used = 0.6;  // share of the drawing space that views take

/// Share of the space that views with their dimensions take.
double used_by_views(const Board& board, const PanelJob& job, const PanelLayout& layout,
                     const PaperBox& space, paper::PaperPoint corner) {
  double sum = corner.x * corner.y;
  for (int i = 0; i < panel_view_count; ++i) {
    const PlacedView& place = layout.views[i];
    if (!place.drawn) continue;
    const auto v = static_cast<PanelView>(i);
    const Margins m = view_margins(board, job, v);
    const ViewSize size = view_size(job, v);
    sum += (size.width / place.ratio + m.left + m.right) *
           (size.height / place.ratio + m.bottom + m.top);
  }
  return sum / (space.width() * space.height());
}

SetPlan with_sheet(const SetInput& input, const SetPlan& so_far, const std::vector<int>& marks,
                   const std::optional<PanelPart>& part) {
  SetPlan out = so_far;
  SheetPlan own;
  own.series = 'P';
  own.number = "P00";
  own.title = panel_title(input, marks);
  own.subject = marks.front();
  own.marks = marks;
  own.part = part;
  out.sheets.push_back(std::move(own));
  return out;
}

/// A mark whose own sheet, however large its scale, would be poorly used.
struct Small {
  int mark = 0;
  std::size_t views = 0;  // that its own sheet shows
};

std::optional<Small> small_mark(const SetInput& input, const SetPlan& plan, int mark) {
  const Box<PanelFrame> box =
      bounds(input.deck.marks[static_cast<std::size_t>(mark)].shape.outline);
  const PaperBox space = input.style.drawing_space();
  constexpr double largest = 5;  // 1:5
  if (box.width() * box.height() / (largest * largest) >
      small_part * space.width() * space.height())
    return std::nullopt;
  TrialSheet t(input, plan, {mark});
  const PanelText text = arrange_panel_text(t.board, t.jobs.front(), t.spaces);
  PaperBox room = t.spaces.drawing;
  room.low.y += bar_strip;
  const PanelLayout layout = lay_out_panel(t.board, t.jobs.front(), room, text.corner);
  if (used_by_views(t.board, t.jobs.front(), layout, room, text.corner) > poorly_used)
    return std::nullopt;
  return Small{mark, drawn_views(layout)};
}

bool can_share(const SetInput& input, const SetPlan& plan, const std::vector<Small>& list) {
  std::vector<int> marks;
  for (const Small& s : list) marks.push_back(s.mark);
  TrialSheet t(input, plan, marks);
  const SharedSheet shared = arrange_shared_sheet(t.board, t.jobs, t.spaces);
  if (!shared.fits) return false;
  for (std::size_t i = 0; i < list.size(); ++i) {
    const PanelLayout& layout = shared.parts[i].layout;
    if (layout[PanelView::top].ratio > smallest_scale || drawn_views(layout) < list[i].views)
      return false;
  }
  return true;
}

bool better(const PanelLayout& a, const PanelLayout& b) {
  if (a.fits != b.fits) return a.fits;
  const std::size_t shown = drawn_views(a), other = drawn_views(b);
  const int ratio = a[PanelView::top].ratio, other_ratio = b[PanelView::top].ratio;
  return shown != other ? shown > other : ratio < other_ratio;
}

}  // namespace

TrialSheet::TrialSheet(const SetInput& input, const SetPlan& so_far, const std::vector<int>& marks,
                       const std::optional<PanelPart>& part)
    : plan(with_sheet(input, so_far, marks, part)),
      sheet(blank_sheet(input, plan.sheets.back())),
      board(sheet, input.style, input.lettering),
      spaces(furnish(board, input, plan, plan.sheets.size() - 1, "as shown")),
      jobs(panel_jobs(input, plan, plan.sheets.back())) {}

SharedSheet arrange_shared_sheet(const Board& board, const std::vector<PanelJob>& jobs,
                                 const Spaces& spaces) {
  SharedSheet out;
  SharedColumn column = arrange_shared_column(board, jobs, spaces);
  out.column = std::move(column.text);
  out.fits = column.fits;
  const PaperBox& all = spaces.drawing;
  const double width = all.width() / double(jobs.size());
  const double title = 2.5 * board.text_height(paper::LetterUse::view_title);
  for (std::size_t i = 0; i < jobs.size(); ++i) {
    SharedSheet::Part part;
    const double x = all.low.x + double(i) * width;
    part.box = {{x, all.low.y + bar_strip}, {x + width, all.high.y - title}};
    bool first = true;
    for (PanelText& way : ways_to_stand_tables(board, jobs[i], part.box)) {
      const PanelLayout layout = lay_out_panel(board, jobs[i], part.box, way.corner);
      if (!first && !better(layout, part.layout)) continue;
      part.layout = layout;
      part.tables = std::move(way);
      first = false;
    }
    out.fits = out.fits && !first && part.layout.fits;
    out.parts.push_back(std::move(part));
  }
  return out;
}

std::string panel_title(const SetInput& input, const std::vector<int>& marks) {
  std::vector<std::string> names;
  for (int m : marks) names.push_back(input.deck.marks[static_cast<std::size_t>(m)].name);
  return (names.size() == 1 ? "PANEL " : "PANELS ") + join(names, ", ");
}

std::vector<std::vector<int>> share_panel_sheets(const SetInput& input, const SetPlan& plan,
                                                 const std::vector<int>& marks) {
  std::vector<std::optional<Small>> small(marks.size());
  // On small paper the tables of a mark fill a sheet of their own: nothing to share.
  for (std::size_t i = 0; i < marks.size() && !second_panel_sheet(input.style); ++i)
    small[i] = small_mark(input, plan, marks[i]);
  std::vector<std::vector<int>> out;
  std::vector<bool> done(marks.size());
  for (std::size_t i = 0; i < small.size(); ++i) {
    if (done[i]) continue;
    std::vector<std::size_t> members;
    std::vector<Small> list;
    for (std::size_t k = i; small[i] && k < small.size() && list.size() < most_on_sheet; ++k) {
      if (!small[k] || done[k]) continue;
      list.push_back(*small[k]);
      members.push_back(k);
    }
    while (list.size() > 1 && !can_share(input, plan, list)) list.pop_back();
    members.resize(list.size());
    if (members.empty()) members.push_back(i);
    out.emplace_back();
    for (std::size_t k : members) {
      out.back().push_back(marks[k]);
      done[k] = true;
    }
  }
  return out;
}

}  // namespace deckquire::sheets
