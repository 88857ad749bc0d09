// The tables of the style as a page to read.
#include <fmt/format.h>

#include "paper/layer.h"
#include "paper/style.h"
#include "paper/style_table.h"

namespace deckquire::paper {

namespace {

std::string reference_row(const char* element, const std::string& name, const std::string& plain,
                          const std::string& range, const std::string& meaning) {
  return fmt::format("| {} | {} | {} | {} | {} |\n", element, name, plain, range, meaning);
}

std::string dash_text(const Pen& pen) {
  std::string out;
  for (double d : pen.dash) out += (out.empty() ? ", dash " : " ") + shortest_decimal(d, 2);
  return out;
}

std::string hatch_text(const Hatch& h) {
  if (h.solid) return "solid";
  const std::string pitch = shortest_decimal(h.pitch, 2) + " mm";
  if (h.dots) return "grains " + pitch;
  return fmt::format("lines {} at {} degrees{}", pitch, shortest_decimal(h.angle, 1),
                     h.second > 0 ? ", crossed" : "");
}

}  // namespace

std::string style_reference() {
  const auto mm_text = [](double v) { return shortest_decimal(v, 2) + " mm"; };
  std::string out =
      "| element | property | default | range | meaning |\n| --- | --- | --- | --- | --- |\n";
  const Style plain = default_style();
  for (const NumberRow& r : number_rows())
    out += reference_row(
        r.element, r.name, mm_text(plain.*r.value),
        fmt::format("{} to {}", shortest_decimal(r.least, 2), shortest_decimal(r.greatest, 2)),
        r.meaning);
  out += reference_row("paper", "units", "metric", "metric, imperial",
                       "of scales and furniture; the project's own rule figures");
  out += reference_row("dimensions", "terminator", "tick", "tick, arrow", "ends of dimensions");
  out += reference_row("tables", "band-every", std::to_string(plain.band_every), "0 to 100",
                       "a faint band every so many rows; 0: none");
  for (const PenRow& p : pen_rows())
    out += reference_row("pen", p.name,
                         mm_text(p.width) + dash_text(plain.pen(p.use)) + ", " + name_of(p.ink),
                         "0.05 to 5", p.meaning);
  for (const LetterRow& l : letter_rows())
    out += reference_row("letter", l.name, mm_text(l.height), "1.8 to 20", l.meaning);
  for (const InkRow& i : ink_rows())
    out += reference_row("ink", i.name, i.colour,
                         i.for_text ? "contrast to paper 4.5:1 or more" : "any", i.meaning);
  for (const LayerRow& l : layer_rows())
    out += reference_row("layer", l.name, "shown", "yes, no", l.meaning);
  for (const Hatch& h : plain.hatches)
    out += reference_row("hatch", h.material, hatch_text(h), "pitch 0.5 to 50", "cut faces");
  return out;
}

}  // namespace deckquire::paper
