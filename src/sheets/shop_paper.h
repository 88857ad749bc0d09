// Pages that a shop prints itself: sizes, and a style for them.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "paper/sheet.h"
#include "paper/style.h"

namespace deckquire::sheets {

/// A page as common printers take it. ISO 216 (A4, A3); ANSI Y14.1 (letter, ledger, from memory).
struct ShopPage {
  std::string name;  // "a4"
  double width = 0, height = 0;  // upright, mm
  double margin = 8;             // that no printer loses (common practice, no source)
};

/// a4, a3, letter, ledger; nothing for another name.
std::optional<ShopPage> shop_page(const std::string& name);
std::vector<std::string> shop_page_names();

/// The set's pens, letters and fonts on such a page, lying on its side or upright; letters no larger
/// than a page that is held in the hand needs.
paper::Style shop_style(const paper::Style& style, const ShopPage& page, bool lying);

/// An empty page of that style.
paper::Sheet shop_sheet(const paper::Style& style, const std::string& number, const std::string& title,
                        const std::string& revision);

}  // namespace deckquire::sheets
