// A machine-readable code on paper (QR code, ISO/IEC 18004).
#pragma once

#include <string>
#include <vector>

#include "paper/sheet.h"

namespace deckquire::paper {

/// Dark modules, row by row from the top; without the quiet zone.
struct QrCode {
  int size = 0;  // modules a side
  std::vector<bool> dark;
  bool at(int row, int column) const {
    return dark[static_cast<std::size_t>(row) * static_cast<std::size_t>(size) +
                static_cast<std::size_t>(column)];
  }
};

/// The smallest code that holds the text at level M (15 % of it may be lost).
/// std::invalid_argument for an empty text or one that no code holds (2331 bytes).
QrCode qr_code(const std::string& text);

/// Modules that must stay white all round (ISO/IEC 18004, 6.3.8, from memory).
constexpr int qr_quiet = 4;

/// The dark modules in a square with its lower left corner there, that many mm a side without the
/// quiet zone: one rectangle for each run of a row, to be filled.
Path qr_path(const QrCode& code, PaperPoint low, double side);

}  // namespace deckquire::paper
