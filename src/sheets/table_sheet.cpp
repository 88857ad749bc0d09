#include "sheets/table_sheet.h"

#include <algorithm>
#include <numeric>

#include "sheets/furniture.h"

namespace deckquire::sheets {
namespace {

using paper::Align;
using paper::Board;
using paper::LetterUse;
using paper::PaperBox;
using paper::Stand;

double heading(Board& board, const TablePart& part) {
  if (part.heading.empty()) return part.at.y;
  board.text(LetterUse::view_title, part.at, part.heading, Align::left, Stand::top);
  double y = part.at.y - 1.4 * board.text_height(LetterUse::view_title) - 1.5;
  if (!part.intro.empty())
    y = board.paragraph(LetterUse::note, {part.at.x, y}, part.heading_width, part.intro);
  return y - 1;
}

// Broken at the space nearest to its middle.
std::string in_two_lines(std::string head) {
  std::size_t best = std::string::npos;
  const auto off = [&](std::size_t i) {
    return 2 * i > head.size() ? 2 * i - head.size() : head.size() - 2 * i;
  };
  for (std::size_t i = head.find(' '); i != std::string::npos; i = head.find(' ', i + 1))
    if (best == std::string::npos || off(i) < off(best)) best = i;
  if (best != std::string::npos) head[best] = '\n';
  return head;
}

void drop_last_column(paper::TableData& table) {
  const std::size_t left = table.columns.size() - 1;
  table.columns.resize(left);
  for (auto& row : table.rows) row.resize(std::min(row.size(), left));
  table.total.resize(std::min(table.total.size(), left));
}

/// Panels are not set as they stand.
bool order_is_tabled(const SetInput& input) {
  return std::any_of(input.tables.begin(), input.tables.end(),
                     [](const Table& t) { return t.name == "sequence" && t.on_sheet; });
}

std::vector<std::string> reading_notes(const SetInput& input) {
  std::vector<std::string> out = {
      "Left and right, back and ahead are seen looking ahead, the way the stations rise.",
      "Offsets are positive to the left of the alignment.",
      order_is_tabled(input) ? "Positions count ahead; steps of setting have a table."
                             : "Positions count the panels in the order of erection.",
      "\"Turned\" says that the panel lies end for end to its panel sheet.",
      "Masses are computed from the drawn shapes; the erector weighs a panel before the first "
      "lift.",
      "The folder \"tables\" has the same figures in SI units, in full. Tolerances are on G01."};
  if (input.project.units == UnitSystem::imperial)
    out.push_back("Lengths are in feet, inches and sixteenths; levels and coordinates in feet.");
  return out;
}

}  // namespace

PaperBox table_space(const paper::Style& style) {
  const PaperBox f = style.drawing_space();
  return {{f.low.x + 1.6 * style.gap, f.low.y + 1.6 * style.gap},
          {f.high.x - 1.6 * style.gap, f.high.y - 1.6 * style.gap}};
}

paper::TableData sheet_table(const Board& board, const Table& table, UnitSystem units) {
  paper::TableData out = printed(table, units);
  out.title.clear();
  const double room = table_space(board.style()).width();
  const auto total = [](const std::vector<double>& widths) {
    return std::accumulate(widths.begin(), widths.end(), 0.0);
  };
  if (total(column_widths(board, out, LetterUse::table)) > room)
    for (auto& c : out.columns) c.head = in_two_lines(c.head);
  // A figure must not be broken: what is too wide even then loses its last columns.
  while (out.columns.size() > 1 && total(least_widths(board, out, LetterUse::table)) > room)
    drop_last_column(out);
  measure(board, out, LetterUse::table);
  return out;
}

std::vector<paper::TableData> sheet_tables(const SetInput& input) {
  const paper::Style style = reading_style(input.style);
  paper::Sheet scratch;
  const Board board(scratch, style, input.lettering);
  std::vector<paper::TableData> out;
  for (const Table& table : input.tables)
    out.push_back(table.on_sheet && !table.rows.empty()
                      ? sheet_table(board, table, input.project.units)
                      : paper::TableData());
  return out;
}

double draw_part(Board& board, const paper::TableData& table, const TablePart& part) {
  const double y = heading(board, part);
  return draw_table(board, table, {part.at.x, y}, part.width, board.style().row_height,
                    LetterUse::table, part.first, part.count);
}

paper::Sheet draw_table_sheet(const SetInput& input, const SetPlan& plan, std::size_t index) {
  const SheetPlan& own = plan.sheets[index];
  paper::Sheet sheet = blank_sheet(input, own);
  Board plain(sheet, input.style, input.lettering);
  const Spaces spaces = furnish(plain, input, plan, index, "none");
  const paper::Style larger = reading_style(input.style);
  Board board(sheet, larger, input.lettering);
  for (const TablePart& part : own.parts)
    draw_part(board, plan.tables[static_cast<std::size_t>(part.table)], part);
  double y = purpose(board, spaces.text, "Computed figures, the same that every sheet prints");
  y = key_plan(board, spaces.text, y, input, 0, 0);
  notes(board, spaces.text, y, "HOW TO READ THE TABLES", reading_notes(input));
  return sheet;
}

}  // namespace deckquire::sheets
