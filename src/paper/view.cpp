#include "paper/view.h"

#include <algorithm>
#include <cmath>

#include <fmt/format.h>

namespace deckquire::paper {

int choose_scale(const Style& style, double width, double height, double room_x, double room_y,
                 double margin_x, double margin_y) {
  for (int ratio : style.scales) {
    if (width / ratio + margin_x <= room_x && height / ratio + margin_y <= room_y) return ratio;
  }
  return style.scales.empty() ? 1 : style.scales.back();
}

void view_title(Board& board, PaperPoint at, const std::string& title, int ratio,
                const std::string& letter, const std::string& from) {
  const double h = board.text_height(LetterUse::view_title);
  const double rule = at.y - 0.4 * h;
  double x = at.x;
  if (!letter.empty()) {
    const PaperBox b = board.text(LetterUse::view_title, {x + 0.5 * h, at.y}, letter);
    Path bar;
    bar.box({{x, rule}, {b.high.x + 0.5 * h, at.y + 1.4 * h}});
    board.stroke(PenUse::mark, bar);
    x = b.high.x + 1.3 * h;
  }
  x = std::max(x, board.text(LetterUse::view_title, {x, at.y}, title).high.x);
  if (ratio > 0) {
    const std::string scale = board.style().scale_name(ratio);
    x = board.text(LetterUse::heading, {x + 1.2 * h, at.y}, scale).high.x;
  }
  board.line(PenUse::outline, {at.x, rule}, {x, rule});
  if (!from.empty()) {
    board.text(LetterUse::caption, {at.x, rule - 1.2}, "Called from " + from, Align::left,
               Stand::top);
  }
}

namespace {

struct BarUnit {
  double mm = 1;  // of one unit
  const char* name = "";
};

/// The length that a bar shows: `units` of a unit in `blocks` parts.
struct BarLength {
  double units = 1;
  int blocks = 5;
};

/// Largest of 1, 2, 5 times a power of ten that is no more than `most`.
BarLength decimal_bar(double most) {
  const double power = std::pow(10.0, std::floor(std::log10(most)));
  for (double lead : {5.0, 2.0}) {
    if (lead * power <= most * (1 + 1e-9)) return {lead * power, lead == 2.0 ? 4 : 5};
  }
  return {power, 5};
}

BarLength inch_bar(double most) {
  for (double n : {9.0, 6.0, 3.0, 2.0, 1.0, 0.5}) {
    if (n <= most * (1 + 1e-9)) return {n, n >= 3 ? 3 : 2};
  }
  return {0.25, 2};
}

std::string bar_label(double value) {
  return shortest_decimal(value, 4);
}

}  // namespace

void scale_bar(Board& board, PaperPoint at, int ratio, double room, UnitSystem units,
               const std::string& caution) {
  const double model = room * ratio;
  BarUnit unit{1, "mm"};
  BarLength length;
  if (units == UnitSystem::metric) {
    if (model >= 1000) unit = {1000, "m"};
    length = decimal_bar(model / unit.mm);
  } else if (model >= 304.8) {
    unit = {304.8, "ft"};
    length = decimal_bar(model / unit.mm);
  } else {
    unit = {25.4, "in"};
    length = inch_bar(model / unit.mm);
  }
  const double block = length.units * unit.mm / ratio / length.blocks;
  const double thick = 1.2, label = at.y + thick + 0.8;
  const Group group(board, "", "scale-bar");
  for (int i = 0; i < length.blocks; ++i) {
    const PaperBox b{{at.x + i * block, at.y}, {at.x + (i + 1) * block, at.y + thick}};
    if (i % 2 == 0) {
      Path p;
      p.box(b);
      board.fill(Ink::black, p);
    }
    board.box(PenUse::dimension, b);
  }
  board.text(LetterUse::caption, {at.x, label}, "0", Align::centre);
  const double end = at.x + length.blocks * block;
  const std::string last = bar_label(length.units);
  const PaperBox b = board.text(LetterUse::caption, {end, label}, last, Align::centre);
  double x = board.text(LetterUse::caption, {b.high.x + 1, label}, unit.name).high.x;
  x = board.text(LetterUse::caption, {x + 4, at.y}, board.style().scale_name(ratio)).high.x;
  if (!caution.empty()) board.text(LetterUse::caption, {x + 4, at.y}, caution);
}

void north_arrow(Board& board, PaperPoint centre, double radius, double towards) {
  const PaperPoint d{std::cos(towards), std::sin(towards)}, n{-d.y, d.x};
  const PaperPoint tip = centre + d * radius, tail = centre - d * radius;
  const PaperPoint waist = centre + d * (0.35 * radius);
  const Group group(board, "", "north", "North");
  board.line(PenUse::outline, tail, waist);
  Path needle;
  needle.polygon({tip, waist + n * (0.12 * radius), waist - n * (0.12 * radius)});
  board.fill(Ink::black, needle);
  const double h = board.text_height(LetterUse::heading);
  board.text(LetterUse::heading, tip + d * (1.1 * h), "N", Align::centre, Stand::middle);
}

}  // namespace deckquire::paper
