// The tables of the style as a page to read.
#include <fmt/format.h>

#include "paper/layer.h"
#include "paper/style.h"
#include "paper/style_table.h"

namespace deckquire::paper {

namespace {

std::string number(double v) {
  return shortest_decimal(v, 2);
}

std::string dash_text(const Pen& pen) {
  std::string out;
  for (double d : pen.dash) out += (out.empty() ? "" : " ") + number(d);
  return out.empty() ? "solid" : out;
}

std::string hatch_text(const Hatch& h) {
  if (h.solid) return "solid";
  if (h.dots) return "grains every " + number(h.pitch) + " mm";
  return fmt::format("lines every {} mm at {} degrees{}", number(h.pitch), number(h.angle),
                     h.second > 0 ? ", crossed" : "");
}

std::string head(const char* title, const char* columns) {
  std::string rule = "|";
  for (const char* c = columns; *c; ++c)
    if (*c == '|') rule += " --- |";
  return fmt::format("\n## {}\n\n| {} |\n{} --- |\n", title, columns, rule);
}

std::string properties(const Style& plain) {
  std::string out = head("Properties", "element | property | type | default | meaning");
  const auto row = [&](const char* element, const char* name, const std::string& type,
                       const std::string& value, const char* meaning) {
    out += fmt::format("| {} | {} | {} | {} | {} |\n", element, name, type, value, meaning);
  };
  for (const NumberRow& r : number_rows())
    row(r.element, r.name, fmt::format("{} to {} mm", number(r.least), number(r.greatest)),
        number(plain.*r.value), r.meaning);
  for (const WholeRow& r : whole_rows())
    row(r.element, r.name, fmt::format("whole, {} to {}", r.least, r.greatest),
        std::to_string(plain.*r.value), r.meaning);
  for (const WordRow& r : word_rows()) {
    std::string words;
    for (const char* w : r.words) words += (words.empty() ? "" : ", ") + std::string(w);
    row(r.element, r.name, words, r.words[r.get(plain)], r.meaning);
  }
  out += head("Properties of the items of lists", "element | property | type | meaning");
  for (const ItemRow& r : item_rows())
    out += fmt::format("| {} | {} | {} | {} |\n", r.item, r.name, r.type, r.meaning);
  return out;
}

std::string pens_and_letters(const Style& plain) {
  std::string out = head("Pens", "pen | width | dash | ink | layer | what for");
  for (const PenRow& p : pen_rows())
    out += fmt::format("| {} | {} | {} | {} | {} | {} |\n", p.name, number(p.width),
                       dash_text(plain.pen(p.use)), name_of(p.ink), name_of(layer_of(p.use)),
                       p.meaning);
  out += head("Letters", "letter | height | layer | what for");
  for (const LetterRow& l : letter_rows())
    out += fmt::format("| {} | {} | {} | {} |\n", l.name, number(l.height),
                       name_of(layer_of(l.use)), l.meaning);
  return out;
}

}  // namespace

std::string style_reference() {
  const Style plain = default_style();
  std::string out = properties(plain) + pens_and_letters(plain);
  out += head("Inks", "ink | colour | contrast to the paper | what for");
  for (const InkRow& i : ink_rows())
    out += fmt::format("| {} | {} | {} | {} |\n", i.name, i.colour,
                       i.for_text ? "4.5:1 or more" : "any", i.meaning);
  out += head("Layers", "layer | what lies on it");
  for (const LayerRow& l : layer_rows()) out += fmt::format("| {} | {} |\n", l.name, l.meaning);
  out += head("Hatches", "material | default");
  for (const Hatch& h : plain.hatches)
    out += fmt::format("| {} | {} |\n", h.material, hatch_text(h));
  out += head("Title block", "row | caption | value | width");
  for (const TitleField& f : plain.title_fields)
    out += fmt::format("| {} | {} | {} | {}{} |\n", f.row, f.caption, f.value, number(f.width),
                       f.large ? ", large" : "");
  return out;
}

}  // namespace deckquire::paper
