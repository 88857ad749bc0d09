// T sheets: how a part of a table is set; measuring and drawing are the same code.
#pragma once

#include "paper/table.h"
#include "sheets/plan.h"

namespace deckquire::sheets {

/// The table as T sheets print it: its heads in two lines where it would be too wide otherwise, and
/// without its last columns where even that would break figures (the CSV file has them all).
paper::TableData sheet_table(const paper::Board& board, const Table& table, UnitSystem units);

/// All of them, by their index; empty where a table goes on no sheet.
std::vector<paper::TableData> sheet_tables(const SetInput& input);

/// Draws heading, sentence and rows; returns the y of the lower end.
double draw_part(paper::Board& board, const paper::TableData& table, const TablePart& part);

/// Where tables go on a T sheet.
paper::PaperBox table_space(const paper::Style& style);

}  // namespace deckquire::sheets
