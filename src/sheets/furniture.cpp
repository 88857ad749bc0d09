#include "sheets/furniture.h"

#include <algorithm>

#include "sheets/frame.h"
#include "sheets/revision_block.h"
#include "sheets/title_block.h"

namespace deckquire::sheets {
namespace {

using paper::Align;
using paper::Board;
using paper::LetterUse;
using paper::PaperBox;
using paper::PenUse;
using paper::Stand;

bool is_text(Measure m) {
  return m == Measure::text;
}

std::size_t column_named(const Table& table, const std::string& name) {
  for (std::size_t i = 0; i < table.columns.size(); ++i)
    if (table.columns[i].name == name) return i;
  return table.columns.size();
}

// One number of decimals down a column, so that the points stand under one another.
void even_decimals(std::vector<std::vector<std::string>>& rows, std::size_t column) {
  const auto has_point = [&](const auto& row) {
    return row[column].find('.') != std::string::npos;
  };
  if (std::none_of(rows.begin(), rows.end(), has_point)) return;
  for (auto& row : rows)
    if (!row[column].empty() && !has_point(row)) row[column] += ".0";
}

// A short word after a number would stand against it: it goes to the middle of its column.
void centre_after_numbers(paper::TableData& t) {
  for (std::size_t i = 1; i < t.columns.size(); ++i) {
    std::size_t longest = 0;
    for (const auto& row : t.rows) longest = std::max(longest, row[i].size());
    const bool follows = t.columns[i - 1].align == Align::right;
    if (follows && t.columns[i].align == Align::left && longest <= 10)
      t.columns[i].align = Align::centre;
  }
}

std::vector<std::string> printed_row(const Table& table, const std::vector<Cell>& row,
                                     UnitSystem units) {
  std::vector<std::string> out;
  for (std::size_t i = 0; i < row.size(); ++i)
    out.push_back(print_cell(row[i], table.columns[i].measure, units));
  return out;
}

}  // namespace

paper::Sheet blank_sheet(const SetInput& input, const SheetPlan& plan) {
  paper::Sheet sheet;
  sheet.number = plan.number;
  sheet.title = plan.title;
  if (const Revision* own = own_revision(input, plan.number)) sheet.revision = own->id;
  sheet.width = input.style.width;
  sheet.height = input.style.height;
  sheet.pens.assign(input.style.pens.begin(), input.style.pens.end());
  if (input.history == nullptr) return sheet;
  const auto& kept = input.history->layout.callouts;
  if (const auto own = kept.find(plan.number); own != kept.end())
    for (const auto& [words, place] : own->second) sheet.kept_callouts[words] = {place.left, place.low};
  return sheet;
}

Spaces furnish(Board& board, const SetInput& input, const SetPlan& plan, std::size_t index,
               const std::string& scale) {
  const auto& style = input.style;
  const BlockContext context{input, plan, index, scale};
  const PaperBox column = style.text_space();
  draw_frame(board);
  board.line(PenUse::table_heavy, column.low, {column.low.x, column.high.y});
  const PaperBox block{column.low,
                       {column.high.x, column.low.y + title_block_height(board, context)}};
  draw_title_block(board, context, block);
  const double top = draw_stamp_and_revisions(board, context, block.high.y);
  return {
      style.drawing_space(),
      {{column.low.x + style.gap, top}, {column.high.x - style.gap, column.high.y - style.gap}}};
}

paper::Style reading_style(const paper::Style& style) {
  paper::Style out = style;
  const double height = style.letters_of(LetterUse::heading);
  for (LetterUse use : {LetterUse::note, LetterUse::table, LetterUse::table_head})
    out.letters[static_cast<std::size_t>(use)] = height;
  out.compact_row_height = std::max(style.compact_row_height, height + 2.5);
  return out;
}

double notes(Board& board, const PaperBox& space, double top, const std::string& heading,
             const std::vector<std::string>& sentences) {
  if (sentences.empty()) return top;
  double y = top;
  if (!heading.empty()) {
    board.text(LetterUse::heading, {space.low.x, y}, heading, Align::left, Stand::top);
    y -= board.pitch(LetterUse::heading) + 0.5;
  }
  const std::string widest = std::to_string(sentences.size());
  const double indent = board.text_width(LetterUse::note, widest) + 2.5;
  for (std::size_t i = 0; i < sentences.size(); ++i) {
    board.text(LetterUse::note, {space.low.x, y}, std::to_string(i + 1), Align::left, Stand::top);
    y = board.paragraph(LetterUse::note, {space.low.x + indent, y}, space.width() - indent,
                        sentences[i]);
  }
  return y - board.style().gap / 2;
}

double purpose(Board& board, const PaperBox& space, const std::string& sentence) {
  const double y =
      board.paragraph(LetterUse::view_title, {space.low.x, space.high.y}, space.width(), sentence);
  board.line(PenUse::table_heavy, {space.low.x, y + 1}, {space.high.x, y + 1});
  return y + 1 - board.style().gap;
}

paper::TableData printed(const Table& table, UnitSystem units) {
  paper::TableData out;
  out.title = table.title;
  for (const Column& c : table.columns)
    out.columns.push_back({c.head, column_unit(c.measure, units),
                           is_text(c.measure) ? Align::left : Align::right, 0});
  const std::size_t sheet = column_named(table, "sheet");
  for (const auto& row : table.rows) {
    out.rows.push_back(printed_row(table, row, units));
    out.targets.push_back(sheet < row.size() ? out.rows.back()[sheet] : "");
  }
  if (!table.total.empty()) out.total = printed_row(table, table.total, units);
  if (units == UnitSystem::metric)
    for (std::size_t i = 0; i < table.columns.size(); ++i)
      if (table.columns[i].measure == Measure::length) even_decimals(out.rows, i);
  centre_after_numbers(out);
  return out;
}

}  // namespace deckquire::sheets
