// Which way the water runs on a strip: across to the curbs, along to the scuppers.
#include <algorithm>
#include <cmath>

#include <fmt/format.h>

#include "sheets/erection_parts.h"

namespace deckquire::sheets {
namespace {

using paper::LetterUse;
using paper::PaperBox;
using paper::PaperPoint;
using paper::PenUse;

std::string per_cent(double slope) {
  return shortest_decimal(std::abs(slope) * 100, 2) + " %";
}

/// Arrow of that run centred as near `ideal` as there is room, its figure beside it.
void flow(const StripDrawing& s, PaperPoint ideal, PaperPoint run, const std::string& text,
          const PaperBox& region) {
  const double w = s.board.text_width(LetterUse::dimension, text);
  const double h = s.letters(LetterUse::dimension);
  const bool along = std::abs(run.x) > std::abs(run.y);
  const PaperPoint size = along ? PaperPoint{std::max(w, std::abs(run.x)), h + 2.6}
                                : PaperPoint{w + 3.4, std::max(h, std::abs(run.y))};
  const auto c = s.labels.clear_place(size, region, ideal);
  if (!c) return;
  const paper::Group group(s.board, "", "water", "fall of the deck " + text);
  const PaperPoint middle =
      along ? PaperPoint{c->x, c->y - size.y / 2 + 0.8} : PaperPoint{c->x - size.x / 2 + 0.8, c->y};
  paper::arrow(s.board, PenUse::water, middle - run * 0.5, middle + run * 0.5, 2.5);
  const PaperPoint at = along ? PaperPoint{c->x, c->y + 1.2} : PaperPoint{c->x + 1.4, c->y};
  s.board.masked_text(LetterUse::dimension, at, text);
  s.labels.text({*c - size * 0.5, *c + size * 0.5});
}

/// Falls across of one panel, on the sides of the high line where it lies.
void draw_falls(const StripDrawing& s, const Panel& p) {
  if (p.shape.slope == 0 || p.shape.fall == Fall::none) return;
  const PanelMap map(s, p);
  const double x1 = p.shape.length;
  const PaperBox room{map(0, p.shape.right_back), map(x1, p.shape.left_back)};
  const double high = std::clamp(p.shape.high_line, p.shape.right_back, p.shape.left_back);
  const double middle = map(0, high).y;
  const PaperPoint c{room.low.x + room.width() * 0.25, room.centre().y};
  const auto half = [&](bool left) {
    const PaperBox region = left ? PaperBox{{room.low.x + 1, middle}, room.high - PaperPoint{1, 0}}
                                 : PaperBox{room.low + PaperPoint{1, 0}, {room.high.x - 1, middle}};
    if (region.height() < 1) return;
    flow(s, {c.x, region.centre().y}, {0, left ? 8.0 : -8.0}, per_cent(p.shape.slope), region);
  };
  if (p.shape.fall != Fall::right) half(true);
  if (p.shape.fall != Fall::left) half(false);
}

/// Every third bay shows its falls across.
void draw_crossfall(const StripDrawing& s) {
  const std::vector<Bay> bays = s.bays();
  for (std::size_t i = 0; i < bays.size(); i += 3)
    for (int k = 0; k < bays[i].count; ++k) draw_falls(s, s.at(bays[i].first + k));
}

/// From the higher side along the curb into each scupper.
void draw_gutters(const StripDrawing& s) {
  for (const ScupperPlace& place : s.input.deck.scuppers) {
    if (place.panel < s.strip().first || place.panel >= s.strip().first + s.strip().count) continue;
    if (place.grade == 0) continue;
    const double to = place.grade > 0 ? -1 : 1;  // water runs down the grade
    const PaperPoint at = s.view(place.station.in_mm(), place.offset.in_mm());
    const PaperPoint ideal{at.x - to * 12, at.y};
    const PaperBox region{{std::max(s.from() + 1, at.x - 24), at.y - 9},
                          {std::min(s.to() - 1, at.x + 24), at.y + 9}};
    flow(s, ideal, {to * 9, 0}, per_cent(place.grade), region);
  }
}

}  // namespace

void draw_water(const StripDrawing& s) {
  draw_gutters(s);
  draw_crossfall(s);
}

}  // namespace deckquire::sheets
