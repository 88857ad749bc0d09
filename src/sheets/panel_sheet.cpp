// One sheet a mark: everything the shop needs to make that panel.
#include <algorithm>
#include <variant>

#include "schedules/schedules.h"
#include "sheets/panel_parts.h"

namespace deckquire::sheets {
namespace {

using paper::Board;
using paper::PaperBox;

constexpr double bar_strip = 9;  // paper mm kept for scale bars

std::vector<int> scales_used(const PanelLayout& layout) {
  std::vector<int> out;
  for (const PlacedView& v : layout.views)
    if (v.drawn) out.push_back(v.ratio);
  std::sort(out.begin(), out.end());
  out.erase(std::unique(out.begin(), out.end()), out.end());
  return out;
}

void draw_bars(Board& board, const PanelJob& job, const PaperBox& space,
               const PanelLayout& layout) {
  const std::vector<int> used = scales_used(layout);
  const double step = std::min(90.0, space.width() / static_cast<double>(used.size()));
  double x = space.low.x + 2 * board.style().gap;
  for (int ratio : used) {
    const bool broken = !job.breaks.empty() && ratio == layout[PanelView::top].ratio;
    paper::scale_bar(board, {x, space.low.y + 3}, ratio, step * 0.5, job.units(),
                     broken ? "not across a break" : "");
    x += step;
  }
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

/// Tables and notes that a small first sheet has no room for, and beside them the axonometric
/// views.
paper::Sheet draw_second_sheet(const SetInput& input, const SetPlan& plan, std::size_t index,
                               const PanelJob& job) {
  paper::Sheet sheet = blank_sheet(input, job.own);
  Board board(sheet, input.style, input.lettering);
  const Spaces spaces = furnish(board, input, plan, index, "none");
  const std::size_t first_item = sheet.items.size();
  const PanelText text = arrange_second_sheet(board, job, spaces);
  for (const PanelText::Piece& piece : text.pieces) piece.draw(board, piece.box);
  const bool drawn = picture_panel(board, job, spaces.drawing, first_item);
  const double y = purpose(board, spaces.text, panel_purpose(job));
  const std::string first = panel_sheet_number(job.own.subject);
  {
    const paper::Group link(board, "", "link", "First sheet of this mark", first);
    board.paragraph(paper::LetterUse::heading, {spaces.text.low.x, y}, spaces.text.width(),
                    (drawn ? "FURTHER VIEWS: SHEET " : "VIEWS: SHEET ") + first);
  }
  return sheet;
}

}  // namespace

paper::Sheet draw_panel(const SetInput& input, const SetPlan& plan, std::size_t index) {
  const SheetPlan& own = plan.sheets[index];
  const Mark& mark = input.deck.marks[static_cast<std::size_t>(own.subject)];
  PanelJob job{input, plan, own, mark, input.project.deck, number_items(mark.shape)};
  if (own.second) return draw_second_sheet(input, plan, index, job);
  paper::Sheet sheet = blank_sheet(input, own);
  Board board(sheet, input.style, input.lettering);
  const Spaces spaces = furnish(board, input, plan, index, "as shown");
  const std::size_t first_item = sheet.items.size();
  const PanelText text = arrange_panel_text(board, job, spaces);
  for (const PanelText::Piece& piece : text.pieces) piece.draw(board, piece.box);
  PaperBox space = spaces.drawing;
  space.low.y += bar_strip;
  const paper::PaperPoint corner{text.corner.x, std::max(0.0, text.corner.y - bar_strip)};
  const PanelLayout layout = lay_out_panel(board, job, space, corner);
  job.breaks = layout.breaks;
  draw_top_plan(board, job, layout);
  draw_soffit_plan(board, job, layout);
  draw_side_elevation(board, job, layout);
  draw_end_elevation(board, job, layout);
  draw_typical_section(board, job, layout);
  for (PanelView v : {PanelView::curb, PanelView::scupper, PanelView::recess})
    draw_enlarged(board, job, layout, v);
  PaperBox bars = spaces.drawing;
  bars.high.x -= text.corner.x;
  draw_bars(board, job, bars, layout);
  if (second_panel_sheet(board.style())) return sheet;  // there the second one has them
  picture_panel(board, job, spaces.drawing, first_item);
  return sheet;
}

}  // namespace deckquire::sheets
