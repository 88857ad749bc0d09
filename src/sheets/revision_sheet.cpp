#include "sheets/revision_sheet.h"

#include <fmt/format.h>

#include <algorithm>
#include <memory>

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
  std::size_t first_sheet = 0;  // index into SetPlan::sheets
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

  void pictures() {
    const double title = overlay_title_room(style_), air = 2 * style_.gap;
    double x = space_.low.x, row = 0;  // where the next one goes; height of the row begun
    for (std::size_t i = 0; i < out_.report.views.size(); ++i) {
      const PaperBox& b = out_.report.views[i].box;
      const double height = b.height() + title + style_.gap;
      const double width = std::max(b.width(), least_width(i));
      if (x > space_.low.x && x + width > space_.high.x) x = space_.low.x, y_ -= row, row = 0;
      if (y_ - height < space_.low.y && !fresh_) {
        next();
        x = space_.low.x, row = 0;
      }
      out_.pages.back().pictures.push_back({i, {x, y_ - b.height()}});
      fresh_ = false;
      x += width + air;
      row = std::max(row, height);
    }
  }

 private:
  RevisionPages& out_;
  paper::Sheet scratch_;
  paper::Style style_;
  Board board_;
  PaperBox space_;
  double y_ = 0;
  bool fresh_ = true;

  void next() {
    out_.pages.emplace_back();
    y_ = space_.high.y;
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
      const std::size_t fits = rows_that_fit(board_, t, space_.width(), y_ - head - space_.low.y,
                                             style_.row_height, LetterUse::table, first);
      if (fits == 0 && !fresh_) {
        next();
        continue;
      }
      const std::size_t count = std::max<std::size_t>(1, fits);
      TablePart part;
      part.table = index, part.first = first, part.count = count;
      part.at = {space_.low.x, y_};
      part.width = part.heading_width = space_.width();
      part.heading = first == 0 ? heading : heading + ", CONTINUED";
      if (index == 0 && first == 0)
        part.intro = fmt::format("From {} to {}.", out_.report.before, out_.report.now);
      y_ = draw_part(board_, t, part) - 2 * style_.gap;
      out_.pages.back().parts.push_back(part);
      fresh_ = false;
      first += count;
      if (first < t.rows.size()) next();
    }
  }
};

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
  pages->first_sheet = plan.sheets.size();
  Filler filler(*pages, input);
  filler.tables();
  filler.pictures();
  for (std::size_t i = 0; i < pages->pages.size(); ++i) {
    SheetPlan sheet;
    sheet.series = 'R';
    sheet.subject = first - 1 + static_cast<int>(i);
    sheet.number = "R" + padded(sheet.subject + 1, 2);
    const bool words = !pages->pages[i].parts.empty(), views = !pages->pages[i].pictures.empty();
    sheet.title = words ? views ? "CHANGES; CHANGED VIEWS" : "CHANGES" : "CHANGED VIEWS";
    plan.sheets.push_back(std::move(sheet));
  }
  plan.revision = std::move(pages);
}

paper::Sheet draw_revision(const SetInput& input, const SetPlan& plan, std::size_t index) {
  const RevisionPages& pages = *plan.revision;
  const RevisionPages::Page& page = pages.pages.at(index - pages.first_sheet);
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
  if (!page.pictures.empty()) y = overlay_legend(board, spaces.text, y);
  notes(board, spaces.text, y, "HOW TO READ THIS", reading_notes(pages.report));
  return sheet;
}

}  // namespace deckquire::sheets
