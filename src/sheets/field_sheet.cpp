#include "sheets/field_sheet.h"

#include <fmt/format.h>

#include <algorithm>
#include <memory>

#include "paper/board.h"
#include "paper/table.h"
#include "sheets/furniture.h"

namespace deckquire::sheets {
namespace {

using paper::Align;
using paper::Board;
using paper::LetterUse;
using paper::PaperBox;
using paper::PenUse;
using paper::Stand;

constexpr double written_row = 8.5, written_column = 25, foot = 8;  // mm

const char* const how =
    "MEASURE BEFORE ANY PANEL IS CAST, on the erected steel with its bolts tight. Left and right are seen "
    "looking ahead, the way the stations rise. What is not measured stays blank. Where a value is further "
    "off than is allowed, or \"not computed\" stands beside it, ask the engineer before casting.";

class FieldPages {
 public:
  FieldPages(const SetInput& input, const ShopPage& page)
      : in_(input), style_(shop_style(input.style, page, true)), frame_(style_.frame()) {}

  std::vector<paper::Sheet> draw(const std::vector<FieldTable>& tables) {
    for (const FieldTable& f : tables) add(f);
    std::vector<paper::Sheet> out;
    for (std::size_t i = 0; i < pages_.size(); ++i) {
      Board board(*pages_[i], style_, in_.lettering);
      board.text(LetterUse::caption, frame_.low,
                 fmt::format("Job {}, {}. Page {} of {}", in_.project.number, revision(), i + 1, pages_.size()),
                 Align::left, Stand::base);
      out.push_back(std::move(*pages_[i]));
    }
    return out;
  }

 private:
  const SetInput& in_;
  paper::Style style_;
  PaperBox frame_;
  std::vector<std::unique_ptr<paper::Sheet>> pages_;
  std::unique_ptr<Board> board_;
  double y_ = 0;

  std::string revision() const {
    return "revision " + (in_.project.revisions.empty() ? "-" : in_.project.revisions.back().id);
  }
  double low() const { return frame_.low.y + foot; }

  void open() {
    const std::string number = fmt::format("FIELD-{}", pages_.size() + 1);
    pages_.push_back(std::make_unique<paper::Sheet>(
        shop_sheet(style_, number, "FIELD MEASUREMENT", in_.project.revisions.empty()
                                                            ? ""
                                                            : in_.project.revisions.back().id)));
    board_ = std::make_unique<Board>(*pages_.back(), style_, in_.lettering);
    y_ = head();
  }

  double head() {
    Board& b = *board_;
    b.text(LetterUse::sheet_number, {frame_.low.x, frame_.high.y}, "FIELD MEASUREMENT OF THE STEEL", Align::left,
           Stand::top);
    double y = frame_.high.y - 11;
    const double half = frame_.low.x + 0.5 * frame_.width();
    const double words = b.paragraph(LetterUse::note, {frame_.low.x, y}, 0.5 * frame_.width() - 6,
                                     fmt::format("Job {}: {}, {}.", in_.project.number, in_.project.title,
                                                 revision()));
    const bool celsius = in_.project.units == UnitSystem::metric;
    const char* captions[] = {"Measured by", "Date", "Instrument", celsius ? "Steel, °C" : "Steel, °F"};
    const double each = 0.25 * 0.5 * frame_.width();
    for (int i = 0; i < 4; ++i) {
      const double x = half + i * each;
      b.line(PenUse::table, {x, frame_.high.y - 11}, {x + each - 4, frame_.high.y - 11});
      b.text(LetterUse::caption, {x, frame_.high.y - 13}, captions[i], Align::left, Stand::top);
    }
    y = std::min(words, frame_.high.y - 19);
    if (pages_.size() == 1) y = b.paragraph(LetterUse::note, {frame_.low.x, y}, frame_.width(), how);
    b.line(PenUse::table_heavy, {frame_.low.x, y}, {frame_.high.x, y});
    return y - 5;
  }

  paper::TableData table_of(const FieldTable& f) const {
    paper::TableData t = printed(f.table, in_.project.units);
    t.title.clear();
    for (std::size_t i = 0; i < f.table.columns.size(); ++i)
      if (f.table.columns[i].name.starts_with("measured_")) {
        t.columns[i].width = written_column;
        t.columns[i].align = Align::right;
      }
    return t;
  }

  /// Lines beside the columns to write in, from the head down.
  void rule_off(const FieldTable& f, const paper::TableData& t, double top) {
    const std::vector<double> widths = column_widths(*board_, t, LetterUse::table);
    double x = frame_.low.x;
    for (std::size_t i = 0; i < widths.size(); ++i, x += widths[i - 1]) {
      if (!f.table.columns[i].name.starts_with("measured_")) continue;
      for (double at : {x, x + widths[i]}) board_->line(PenUse::table, {at, top}, {at, y_});
    }
  }

  double heading(const FieldTable& f, bool goes_on) {
    Board& b = *board_;
    b.text(LetterUse::view_title, {frame_.low.x, y_}, f.table.title + (goes_on ? ", continued" : ""), Align::left,
           Stand::top);
    double y = y_ - 7;
    if (!goes_on) y = b.paragraph(LetterUse::note, {frame_.low.x, y}, frame_.width(), f.table.intro);
    return y - 1;
  }

  /// Head, first rows and the line for the answers stand together, or on the next page.
  void add(const FieldTable& f) {
    const paper::TableData t = table_of(f);
    const double least = 30 + 4 * written_row;
    if (!board_ || y_ - least < low()) open();
    constexpr double answer = 10;
    for (std::size_t first = 0; first < t.rows.size();) {
      if (first > 0) open();
      const double y = heading(f, first > 0);
      const std::size_t n = std::clamp<std::size_t>(
          rows_that_fit(*board_, t, 0, y - low() - answer, written_row, LetterUse::table, first), 1,
          t.rows.size() - first);
      y_ = paper::draw_table(*board_, t, {frame_.low.x, y}, 0, written_row, LetterUse::table, first, n);
      rule_off(f, t, y);
      first += n;
    }
    y_ = board_->paragraph(LetterUse::note, {frame_.low.x, y_ - 2}, frame_.width(),
                           "For the project file, a line for each: " + f.line);
    y_ -= 6;
  }
};

}  // namespace

std::vector<paper::Sheet> field_sheets(const SetInput& input, const std::vector<FieldTable>& tables,
                                       const ShopPage& page) {
  return FieldPages(input, page).draw(tables);
}

}  // namespace deckquire::sheets
