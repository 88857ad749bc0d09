// All tables of a set as one workbook (Office Open XML, ISO/IEC 29500-1), for those who go on with the
// numbers in a spreadsheet.
#pragma once

#include <string>
#include <vector>

#include "writers/writers.h"

namespace deckquire::writers {

/// One worksheet a table, named as the table, behind a first one that lists them; heads as in CSV, the
/// numbers SI as in CSV but as numbers, texts as texts (a serial never becomes a number), the head row
/// stays in sight and can be filtered. A table's totals stand in its last row, bold. The same tables
/// give the same bytes. std::runtime_error with the library's words when it refuses.
std::string write_workbook(const std::vector<Table>& tables, const DocumentInfo& info);

}  // namespace deckquire::writers
