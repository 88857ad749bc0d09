// Drawings approved once and kept as text: compared line by line, and shown side by side when they
// differ.
#pragma once

#include <string>

#include "paper/sheet.h"

namespace deckquire::testing {

/// The text of a drawing that is kept: a sentence that says what is right about it, then its items,
/// and of the pens only those it uses.
std::string drawing_text(const std::string& sentence, const paper::Sheet& sheet);

/// An SVG of three parts: expected, actual, and what differs (red: only expected, blue: only
/// actual, grey: both). Both are texts of drawing_text; `expected` may be anything when there is
/// none yet.
std::string picture(const std::string& expected, const std::string& actual);

/// Compares with tests/drawings/approved/<name>.txt, which DECKQUIRE_UPDATE=1 renews first. Empty
/// when equal; else a sentence that names the picture, which is written to the build folder.
std::string difference(const std::string& name, const std::string& actual);

/// The grid on whole sheets, of which only signs are kept: columns, rows, the cell of a point.
constexpr std::size_t cell_columns = 16, cell_rows = 11;
std::size_t cell_of(const paper::Sheet& sheet, paper::PaperPoint at);

/// Writes a picture of a whole sheet as it is now, with the cells tinted whose signs are not those
/// at the end of `expected`, to the build folder; returns "name (path)".
std::string cell_picture(const std::string& name, const paper::Sheet& sheet, const std::string& now,
                         const std::string& expected);

/// The part of a sheet inside the group of that id, moved so that it lies `margin` mm inside the
/// lower left corner of a sheet of its own size. No items when there is no such group.
paper::Sheet part_of(const paper::Sheet& sheet, const std::string& id, double margin = 5);

}  // namespace deckquire::testing
