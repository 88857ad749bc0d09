#include "paper/style.h"

#include <fmt/format.h>

#include "paper/layer.h"
#include "paper/style_table.h"

namespace deckquire::paper {

const char* name_of(PenUse use) {
  return pen_rows()[static_cast<std::size_t>(use)].name;
}

const char* name_of(LetterUse use) {
  return letter_rows()[static_cast<std::size_t>(use)].name;
}

const char* name_of(Ink ink) {
  return ink_rows()[static_cast<std::size_t>(ink)].name;
}

Style default_style() {
  Style s;
  s.name = "base";
  for (const PenRow& row : pen_rows())
    s.pens[static_cast<std::size_t>(row.use)] = {row.width, row.dash, row.ink, row.name,
                                                 layer_of(row.use)};
  for (const LetterRow& row : letter_rows())
    s.letters[static_cast<std::size_t>(row.use)] = row.height;
  for (const InkRow& row : ink_rows()) s.inks[static_cast<std::size_t>(row.ink)] = row.colour;
  s.hatches = default_hatches();
  s.title_fields = default_title_fields();
  s.fonts = {"osifont.ttf", "DejaVuSans.ttf"};
  s.scales = {1, 2, 5, 10, 20, 25, 50, 100, 200, 250, 500, 1000, 2000, 5000, 10000, 20000};
  s.scale_names.assign(s.scales.size(), "");
  return s;
}

const Hatch& Style::hatch(const std::string& material) const {
  for (const Hatch& h : hatches)
    if (h.material == material) return h;
  static const Hatch plain{"", 45, 2, 0, false, false};
  return plain;
}

std::string Style::scale_name(int ratio) const {
  for (std::size_t i = 0; i < scales.size() && i < scale_names.size(); ++i)
    if (scales[i] == ratio && !scale_names[i].empty()) return scale_names[i];
  return fmt::format("1:{}", ratio);
}

}  // namespace deckquire::paper
