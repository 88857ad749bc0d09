#include "sheets/shop_paper.h"

#include <algorithm>

namespace deckquire::sheets {
namespace {

const std::vector<ShopPage>& pages() {
  static const std::vector<ShopPage> all{
      {"a4", 210, 297}, {"a3", 297, 420}, {"letter", 215.9, 279.4}, {"ledger", 279.4, 431.8}};
  return all;
}

}  // namespace

std::optional<ShopPage> shop_page(const std::string& name) {
  for (const ShopPage& p : pages())
    if (p.name == name) return p;
  return std::nullopt;
}

std::vector<std::string> shop_page_names() {
  std::vector<std::string> names;
  for (const ShopPage& p : pages()) names.push_back(p.name);
  return names;
}

paper::Style shop_style(const paper::Style& style, const ShopPage& page, bool lying) {
  paper::Style s = style;
  s.width = lying ? page.height : page.width;
  s.height = lying ? page.width : page.height;
  s.margin = s.margin_left = page.margin;
  s.zone = 0, s.text_column = 0, s.gap = 3;
  s.least_height = std::min(s.least_height, 2.5);
  using paper::LetterUse;
  const auto letters = [&](LetterUse use, double height) {
    s.letters[static_cast<std::size_t>(use)] = height;
  };
  letters(LetterUse::cover_title, 10);
  letters(LetterUse::sheet_number, 7);
  letters(LetterUse::sheet_title, 5);
  for (LetterUse use : {LetterUse::view_title, LetterUse::heading, LetterUse::serial}) letters(use, 3.5);
  for (LetterUse use : {LetterUse::note, LetterUse::table}) letters(use, 3);
  for (LetterUse use : {LetterUse::dimension, LetterUse::table_head, LetterUse::callout, LetterUse::caption})
    letters(use, 2.5);
  return s;
}

paper::Sheet shop_sheet(const paper::Style& style, const std::string& number, const std::string& title,
                        const std::string& revision) {
  paper::Sheet sheet;
  sheet.number = number, sheet.title = title, sheet.revision = revision;
  sheet.width = style.width, sheet.height = style.height;
  return sheet;
}

}  // namespace deckquire::sheets
