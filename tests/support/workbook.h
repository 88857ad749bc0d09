// A workbook unpacked with zlib and read with an XML reader: the layout of its parts is that of
// ISO/IEC 29500-1 (SpreadsheetML) in a ZIP archive (APPNOTE 6.3, from memory).
#pragma once

#include <map>
#include <string>
#include <vector>

namespace deckquire {

/// Files of a ZIP archive by name, found through its central directory.
std::map<std::string, std::string> unpacked(const std::string& zip);

/// Cells of the worksheet of that number by their references: "s:" before texts, "n:" before numbers.
std::map<std::string, std::string> cells(const std::map<std::string, std::string>& files, int sheet);

/// Names of the worksheets, in order.
std::vector<std::string> worksheets(const std::map<std::string, std::string>& files);

/// "A", "B" ... "AA" of the column of that index.
std::string column_letters(std::size_t index);

}  // namespace deckquire
