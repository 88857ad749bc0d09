#include "sheets/revision_sheet.h"

#include <fmt/format.h>

#include <algorithm>
#include <memory>
#include <set>

#include "paper/view.h"
#include "sheets/furniture.h"
#include "sheets/overlay.h"
#include "sheets/table_sheet.h"

namespace deckquire::sheets {

/// What stands on the R sheets, and where.
struct RevisionPages {
  struct Picture {
    std::size_t view = 0;
    paper::PaperPoint at;
  };
  struct Page {
    std::vector<TablePart> parts;
    std::vector<Picture> pictures;
  };
  RevisionReport report;
  std::vector<paper::TableData> tables;
  std::vector<Page> pages;
  int first = 0;  // subject of the first of them
};

namespace {

using paper::Align;
using paper::Board;
using paper::LetterUse;
using paper::PaperBox;
using paper::PaperPoint;

std::string cell(const std::string& text) {
  return text.empty() ? "–" : text;
}

paper::TableData change_table(const RevisionReport& report) {
  paper::TableData t;
  t.title = "CHANGES";
  for (const char* head :
       {"No", "What", "Before", "Now", "Lines", "Panels", "Marks", "Sheets, deltas"})
    t.columns.push_back({head, "", Align::left, 0});
  int number = 0;
  for (const ChangeLine& c : report.changes)
    t.rows.push_back({std::to_string(++number), c.what, cell(c.before), cell(c.now), cell(c.lines),
                      cell(c.panels), cell(c.marks), cell(c.sheets)});
  if (t.rows.empty()) t.rows.push_back({"–", "nothing", "–", "–", "–", "–", "–", "–"});
  return t;
}

/// Fills pages from the top: tables, then pictures in rows.
class Filler {
 public:
  Filler(RevisionPages& out, const SetInput& input)
      : out_(out),
        style_(reading_style(input.style)),
        board_(scratch_, style_, input.lettering),
        space_(table_space(input.style)) {
    next();
  }

  void tables() {
    for (std::size_t i = 0; i < out_.tables.size(); ++i) table(static_cast<int>(i));
  }

  /// In rows, the highest first, each in the first row with room for it.
  void pictures() {
    const std::vector<ViewChange>& views = out_.report.views;
    std::vector<std::size_t> order(views.size());
    for (std::size_t i = 0; i < order.size(); ++i) order[i] = i;
    std::stable_sort(order.begin(), order.end(), [&](std::size_t a, std::size_t b) {
      return views[a].box.height() > views[b].box.height();
    });
    for (std::size_t i : order) picture(i);
  }

 private:
  RevisionPages& out_;
  paper::Sheet scratch_;
  paper::Style style_;
  Board board_;
  PaperBox space_;
  std::vector<double> free_;  // y of every page below what is on it
  bool fresh_ = true;
  struct Shelf {
    std::size_t page = 0;
    double top = 0, height = 0, x = 0;
  };
  std::vector<Shelf> shelves_;

  void picture(std::size_t index) {
    const PaperBox& b = out_.report.views[index].box;
    const double height = b.height() + overlay_title_room(style_) + style_.gap;
    const double width = std::max(b.width(), least_width(index));
    auto shelf = std::find_if(shelves_.begin(), shelves_.end(), [&](const Shelf& s) {
      return s.height >= height && s.x + width <= space_.high.x;
    });
    if (shelf == shelves_.end()) {
      // A new row on the first page that has the room.
      std::size_t page = 0;
      while (page < free_.size() && free_[page] - height < space_.low.y) ++page;
      if (page == free_.size() && !fresh_) next();
      page = std::min(page, out_.pages.size() - 1);
      shelves_.push_back({page, free_[page], height, space_.low.x});
      shelf = shelves_.end() - 1;
      free_[page] -= height;
      fresh_ = false;
    }
    out_.pages[shelf->page].pictures.push_back({index, {shelf->x, shelf->top - b.height()}});
    shelf->x += width + 2 * style_.gap;
  }

  void next() {
    out_.pages.emplace_back();
    free_.push_back(space_.high.y);
    fresh_ = true;
  }

  double least_width(std::size_t view) const {
    const ViewChange& v = out_.report.views[view];
    return board_.text_width(LetterUse::heading, v.sheet + "  " + v.title + "  " + v.scale);
  }

  void table(int index) {
    paper::TableData& t = out_.tables[static_cast<std::size_t>(index)];
    const std::string heading = t.title;
    t.title.clear();
    const double head = 1.4 * board_.text_height(LetterUse::view_title) + 2.5 +
                        (index == 0 ? board_.pitch(LetterUse::note) : 0);
    for (std::size_t first = 0; first < t.rows.size();) {
      const std::size_t fits =
          rows_that_fit(board_, t, space_.width(), free_.back() - head - space_.low.y,
                        style_.row_height, LetterUse::table, first);
      if (fits == 0 && !fresh_) {
        next();
        continue;
      }
      const std::size_t count = std::max<std::size_t>(1, fits);
      TablePart part;
      part.table = index, part.first = first, part.count = count;
      part.at = {space_.low.x, free_.back()};
      part.width = part.heading_width = space_.width();
      part.heading = first == 0 ? heading : heading + ", CONTINUED";
      if (index == 0 && first == 0)
        part.intro = fmt::format("From {} to {}.", out_.report.before, out_.report.now);
      free_.back() = draw_part(board_, t, part) - 2 * style_.gap;
      out_.pages.back().parts.push_back(part);
      fresh_ = false;
      first += count;
      if (first < t.rows.size()) next();
    }
  }
};

/// The ratio of a scale as the style prints it; 0: none of its own.
int ratio_of(const std::string& scale, const paper::Style& style) {
  for (int ratio : style.scales)
    if (style.scale_name(ratio) == scale) return ratio;
  return 0;
}

/// A bar for each scale of the pictures; returns the y below.
double scale_bars(Board& board, const SetInput& input, const RevisionPages& pages,
                  const RevisionPages::Page& page, const PaperBox& space, double top) {
  std::set<int> ratios;
  for (const RevisionPages::Picture& p : page.pictures)
    ratios.insert(ratio_of(pages.report.views[p.view].scale, input.style));
  ratios.erase(0);
  if (ratios.empty()) return top;
  const double pitch = 2.4 * board.text_height(LetterUse::note);
  double y = top - pitch / 2;
  for (int ratio : ratios) {
    scale_bar(board, {space.low.x, y}, ratio, space.width() / 2, input.project.units);
    y -= pitch;
  }
  y = board.paragraph(LetterUse::note, {space.low.x, y + pitch / 2}, space.width(),
                      "Check the bars before use; figures govern.");
  return y - board.style().gap / 2;
}

std::vector<std::string> reading_notes(const RevisionReport& report) {
  std::vector<std::string> out = {
      "Lines are those of the two project files, the older first.",
      "A change is traced by building the older project with that change alone: panels, marks and "
      "sheets are what then comes out otherwise.",
      "Deltas count the clouds on their sheet from the top. A triangle on a sheet reads revision "
      "and "
      "number.",
      "Pictures are at the scale of the sheet that they are cut from. Views without a scale and "
      "tables "
      "are not shown here."};
  out.insert(out.end(), report.remarks.begin(), report.remarks.end());
  return out;
}

}  // namespace

PaperPoint room_for_view(const paper::Style& style) {
  const PaperBox space = table_space(style);
  return {space.width(), space.height() - overlay_title_room(reading_style(style)) - style.gap};
}

void plan_revision_sheets(SetPlan& plan, const SetInput& input, RevisionReport report, int first) {
  auto pages = std::make_shared<RevisionPages>();
  pages->tables.push_back(change_table(report));
  for (paper::TableData& t : report.tables)
    if (!t.rows.empty()) pages->tables.push_back(std::move(t));
  pages->report = std::move(report);
  pages->first = first - 1;
  Filler filler(*pages, input);
  filler.tables();
  filler.pictures();
  for (std::size_t i = 0; i < pages->pages.size(); ++i) {
    SheetPlan sheet;
    sheet.series = 'R';
    sheet.subject = pages->first + static_cast<int>(i);
    sheet.number = "R" + padded(sheet.subject + 1, 2);
    const bool words = !pages->pages[i].parts.empty(), views = !pages->pages[i].pictures.empty();
    sheet.title = words ? views ? "CHANGES; CHANGED VIEWS" : "CHANGES" : "CHANGED VIEWS";
    plan.sheets.push_back(std::move(sheet));
  }
  plan.revision = std::move(pages);
}

bool is_revision_sheet(const SetPlan& plan, std::size_t index) {
  const SheetPlan& s = plan.sheets[index];
  return s.series == 'R' && plan.revision && s.subject >= plan.revision->first;
}

paper::Sheet draw_revision(const SetInput& input, const SetPlan& plan, std::size_t index) {
  const RevisionPages& pages = *plan.revision;
  const int number = plan.sheets[index].subject - pages.first;
  const RevisionPages::Page& page = pages.pages.at(static_cast<std::size_t>(number));
  paper::Sheet sheet = blank_sheet(input, plan.sheets[index]);
  Board plain(sheet, input.style, input.lettering);
  const Spaces spaces =
      furnish(plain, input, plan, index, page.pictures.empty() ? "none" : "as shown");
  const paper::Style larger = reading_style(input.style);
  Board board(sheet, larger, input.lettering);
  for (const TablePart& part : page.parts)
    draw_part(board, pages.tables[static_cast<std::size_t>(part.table)], part);
  for (const RevisionPages::Picture& p : page.pictures)
    draw_overlay(board, pages.report.views[p.view], p.at);
  double y = purpose(
      board, spaces.text,
      fmt::format("What {} changes against {}, and why", pages.report.now, pages.report.before));
  if (!page.pictures.empty()) {
    y = overlay_legend(board, spaces.text, y);
    y = scale_bars(board, input, pages, page, spaces.text, y);
  }
  if (number == 0) notes(board, spaces.text, y, "HOW TO READ THIS", reading_notes(pages.report));
  return sheet;
}

}  // namespace deckquire::sheets
