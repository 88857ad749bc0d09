// A sheet for each mark, or for a few small ones: everything the shop needs to make the panels.
#include <algorithm>
#include <map>
#include <variant>

#include "schedules/schedules.h"
#include "sheets/panel_parts.h"

namespace deckquire::sheets {
namespace {

using paper::Board;
using paper::PaperBox;

/// One bar for each scale on the sheet; true for those that broken views have.
std::map<int, bool> scales_used(const std::vector<PanelLayout>& layouts) {
  std::map<int, bool> out;
  for (const PanelLayout& layout : layouts) {
    for (const PlacedView& v : layout.views)
      if (v.drawn) out.emplace(v.ratio, false);
    if (!layout.breaks.empty() && !layout.parted) out[layout[PanelView::top].ratio] = true;
  }
  return out;
}

/// What the items from `first` on take of the paper.
std::vector<PaperBox> taken_by(const paper::Sheet& sheet, std::size_t first) {
  std::vector<PaperBox> out;
  for (std::size_t i = first; i < sheet.items.size(); ++i) {
    if (const auto* s = std::get_if<paper::Stroke>(&sheet.items[i])) {
      out.push_back(paper::bounds(s->path));
    } else if (const auto* f = std::get_if<paper::Fill>(&sheet.items[i])) {
      out.push_back(paper::bounds(f->path));
    } else if (const auto* t = std::get_if<paper::Text>(&sheet.items[i])) {
      out.push_back(paper::text_box(*t));
    }
  }
  return out;
}

/// The two views in space where the sheet has room beside its items from `first_item` on, else a
/// sentence that says so; true when they are drawn.
bool picture_panel(Board& board, const PanelJob& job, const PaperBox& drawing,
                   std::size_t first_item) {
  const std::vector<PaperBox> taken = taken_by(board.sheet(), first_item);
  const PanelPictures pictures = place_pictures(board, job, drawing, taken);
  pictures.drawn ? draw_pictures(board, job, pictures) : say_no_pictures(board, drawing, taken);
  return pictures.drawn;
}

void draw_pieces(Board& board, const PanelText& text) {
  for (const PanelText::Piece& piece : text.pieces) piece.draw(board, piece.box);
}

/// Tables and notes that a small first sheet has no room for, and beside them the axonometric
/// views.
paper::Sheet draw_second_sheet(const SetInput& input, const SetPlan& plan, std::size_t index,
                               const PanelJob& job) {
  paper::Sheet sheet = blank_sheet(input, job.own);
  Board board(sheet, input.style, input.lettering);
  const Spaces spaces = furnish(board, input, plan, index, "none");
  const std::size_t first_item = sheet.items.size();
  const PanelText text = arrange_second_sheet(board, job, spaces);
  draw_pieces(board, text);
  const bool drawn = picture_panel(board, job, spaces.drawing, first_item);
  const double y = purpose(board, spaces.text, panel_purpose(job));
  const std::string first = job.plan.panel_sheet(job.index());
  {
    const paper::Group link(board, "", "link", "First sheet of this mark", first);
    board.paragraph(paper::LetterUse::heading, {spaces.text.low.x, y}, spaces.text.width(),
                    (drawn ? "FURTHER VIEWS: SHEET " : "VIEWS: SHEET ") + first);
  }
  return sheet;
}

/// Title over a part of a shared sheet, and the line between it and the part before.
void draw_part_title(Board& board, const PanelJob& job, const PaperBox& part,
                     const PaperBox& drawing) {
  const double gap = board.style().gap;
  const double y = drawing.high.y - gap - board.text_height(paper::LetterUse::view_title);
  board.text(paper::LetterUse::view_title, {part.low.x + 2 * gap, y},
             "PANEL " + job.mark.name + ", " + std::to_string(job.mark.quantity) + " REQUIRED");
  if (job.place > 0) board.line(paper::PenUse::table_heavy, part.low, {part.low.x, drawing.high.y});
}

/// Small marks side by side.
void draw_shared(Board& board, const SetInput& input, const SetPlan& plan, std::size_t index) {
  const Spaces spaces = furnish(board, input, plan, index, "as shown");
  const std::size_t first_item = board.sheet().items.size();
  const std::vector<PanelJob> jobs = panel_jobs(input, plan, plan.sheets[index]);
  const SharedSheet shared = arrange_shared_sheet(board, jobs, spaces);
  draw_pieces(board, shared.column);
  std::vector<PanelLayout> layouts;
  for (std::size_t i = 0; i < jobs.size(); ++i) {
    const SharedSheet::Part& part = shared.parts[i];
    draw_part_title(board, jobs[i], part.box, spaces.drawing);
    draw_pieces(board, part.tables);
    draw_views(board, jobs[i], part.layout);
    layouts.push_back(part.layout);
  }
  draw_bars(board, input.project.units, spaces.drawing, layouts);
  for (std::size_t i = 0; i < jobs.size(); ++i)
    picture_panel(board, jobs[i], shared.parts[i].box, first_item);
}

}  // namespace

void draw_bars(Board& board, UnitSystem units, const PaperBox& space,
               const std::vector<PanelLayout>& layouts) {
  const auto used = scales_used(layouts);
  const double step = std::min(90.0, space.width() / static_cast<double>(used.size()));
  double x = space.low.x + 2 * board.style().gap;
  for (auto [ratio, broken] : used) {
    paper::scale_bar(board, {x, space.low.y + 3}, ratio, step * 0.5, units,
                     broken ? "not across a break" : "");
    x += step;
  }
}

void draw_views(Board& board, PanelJob job, const PanelLayout& layout) {
  job.breaks = layout.breaks;
  draw_top_plan(board, job, layout);
  draw_soffit_plan(board, job, layout);
  draw_side_elevation(board, job, layout);
  draw_end_elevation(board, job, layout);
  draw_typical_section(board, job, layout);
  for (PanelView v : {PanelView::curb, PanelView::scupper, PanelView::recess})
    draw_enlarged(board, job, layout, v);
}

Arranged arrange_panel(const Board& board, const PanelJob& job, const Spaces& spaces) {
  PaperBox space = spaces.drawing;
  space.low.y += bar_strip;
  const auto with = [&](double share) {
    Arranged out{arrange_panel_text(board, job, spaces, share), {}};
    const paper::PaperPoint corner = out.text.corner;
    const auto lay_out = job.own.part ? lay_out_part : lay_out_panel;
    out.layout = lay_out(board, job, space, {corner.x, std::max(0.0, corner.y - bar_strip)});
    return out;
  };
  Arranged best = with(1);
  if (!is_long(job.shape()) || best.text.corner.x == 0) return best;
  // A long panel needs the width of the sheet: what the text column leaves over stands lower, in
  // more columns, where that gains scale and costs no more than the end, whose profile the section
  // has too.
  const std::size_t views = drawn_views(best.layout);
  for (double share : {0.5, 0.4, 0.3, 0.2}) {
    Arranged other = with(share);
    // A part has its scale: here it is only whether it fits.
    if (job.own.part && best.layout.fits) return best;
    const bool whole = other.layout.fits && drawn_views(other.layout) + 1 >= views &&
                       other.text.corner.x <= space.width();
    if (whole &&
        (job.own.part || other.layout[PanelView::top].ratio < best.layout[PanelView::top].ratio))
      best = std::move(other);
  }
  return best;
}

paper::Sheet draw_panel(const SetInput& input, const SetPlan& plan, std::size_t index) {
  const SheetPlan& own = plan.sheets[index];
  const std::vector<PanelJob> jobs = panel_jobs(input, plan, own);
  const PanelJob& job = jobs.front();
  if (own.second) return draw_second_sheet(input, plan, index, job);
  paper::Sheet sheet = blank_sheet(input, own);
  Board board(sheet, input.style, input.lettering);
  if (jobs.size() > 1) {
    draw_shared(board, input, plan, index);
    return sheet;
  }
  const Spaces spaces = furnish(board, input, plan, index, "as shown");
  const std::size_t first_item = sheet.items.size();
  if (job.ahead_part()) {
    draw_ahead_part(board, job, spaces);
    if (!second_panel_sheet(board.style())) picture_panel(board, job, spaces.drawing, first_item);
    return sheet;
  }
  const auto [text, layout] = arrange_panel(board, job, spaces);
  draw_pieces(board, text);
  draw_views(board, job, layout);
  PaperBox bars = spaces.drawing;
  bars.high.x -= text.corner.x;
  draw_bars(board, input.project.units, bars, {layout});
  // On small paper the second one has them, of a parted mark that of the ahead part.
  if (second_panel_sheet(board.style()) || job.own.part) return sheet;
  picture_panel(board, job, spaces.drawing, first_item);
  return sheet;
}

}  // namespace deckquire::sheets
