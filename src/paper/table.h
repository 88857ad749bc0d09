// Tables on paper.
#pragma once

#include <string>
#include <vector>

#include "paper/board.h"

namespace deckquire::paper {

struct TableColumn {
  std::string head;  // may hold '\n' for two lines
  std::string unit;  // second line of the head, may be empty
  Align align = Align::left;
  double width = 0;  // mm; 0: as wide as its widest cell
};

/// What a column needs, over all rows of its table; mm.
struct ColumnMeasure {
  double natural = 0;   // width of its widest cell, padding included
  double least = 0;     // width at which no word and no figure is broken
  double fraction = 0;  // of the widest fraction, where figures stand on the decimal
};

struct TableData {
  std::string title;  // heading above, may be empty
  std::vector<TableColumn> columns;
  std::vector<std::vector<std::string>> rows;
  std::vector<std::string> total;  // empty: none
  std::vector<std::string> targets;  // per row: where a click leads, may be empty
  std::vector<ColumnMeasure> measured = {};  // by measure(); empty: measured anew at every call
};

/// Measures all columns once, for a long table that is drawn in many parts. To be called again when
/// the table changes; it holds for that board's style and those letters only.
void measure(const Board& board, TableData& table, LetterUse letters);

/// Natural widths of the columns, cell padding included.
std::vector<double> column_widths(const Board& board, const TableData& table, LetterUse letters);

/// The least widths at which no word and no figure is broken.
std::vector<double> least_widths(const Board& board, const TableData& table, LetterUse letters);

/// Draws rows [first, first + count) with head (always) and total (when the last row is drawn), its
/// top left corner at `at`, stretched or squeezed to `width` (0: natural). Cells that do not fit are
/// broken into lines within the cell (the row grows). Returns the y of its lower end.
double draw_table(Board& board, const TableData& table, PaperPoint at, double width,
                  double row_height, LetterUse letters, std::size_t first, std::size_t count);

/// How many rows from `first` fit in `height` (head and, if it is the end, total included).
std::size_t rows_that_fit(const Board& board, const TableData& table, double width, double height,
                          double row_height, LetterUse letters, std::size_t first);

}  // namespace deckquire::paper
