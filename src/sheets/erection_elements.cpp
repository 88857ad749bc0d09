// What the alignment does along a strip: tangents, arcs and transitions between their stations.
#include <algorithm>
#include <cmath>

#include <fmt/format.h>

#include "bridge/curve_data.h"
#include "sheets/erection_parts.h"

namespace deckquire::sheets {
namespace {

using paper::Align;
using paper::LetterUse;
using paper::PenUse;

void end_mark(const StripDrawing& s, double station, double& used) {
  const double x = s.x(mm(station)), y = s.y(s.frame.elements);
  s.board.line(PenUse::dimension, {x, y - 1.5}, {x, y + 1.5});
  const std::string text = print_station(mm(station), s.input.project.units);
  const double half = s.board.text_width(LetterUse::dimension, text) / 2;
  if (x - half < used) return;
  used = x + half + 1;
  const double below = y - 1.5 - s.letters(LetterUse::dimension) - 0.6;
  s.board.text(LetterUse::dimension, {x, below}, text, Align::centre);
}

}  // namespace

std::string element_text(const ElementData& e, UnitSystem units) {
  const auto size = [&](double length) { return print_length(mm(length), units); };
  const std::string length = size(e.to - e.from);
  if (e.kind == ElementKind::tangent) return "tangent, L " + length;
  const bool left = e.curvature_from + e.curvature_to > 0;
  const std::string side = left ? "left" : "right";
  if (e.kind == ElementKind::curve)
    return fmt::format("arc R {} {}, L {}", size(1 / std::abs(e.curvature_from)), side, length);
  return fmt::format("transition {}, A {}, L {}", side, size(e.parameter), length);
}

void draw_elements(const StripDrawing& s) {
  if (s.input.bridge.alignment.straight()) return;
  const paper::Group group(s.board, fmt::format("elements-{}", s.number + 1), "elements",
                           "elements of the alignment");
  const double y = s.y(s.frame.elements);
  const double low = s.strip().from.in_mm(), high = s.strip().to.in_mm();
  s.board.text(LetterUse::dimension, {s.from() - s.frame.left, y}, "Alignment");
  s.board.line(PenUse::centre, {s.from(), y}, {s.to(), y});
  double used = -1e9;
  for (const ElementData& e : element_data(s.input.bridge.alignment)) {
    const double a = std::max(e.from, low), b = std::min(e.to, high);
    if (b - a < 1) continue;
    end_mark(s, a, used);
    const double x = (s.x(mm(a)) + s.x(mm(b))) / 2;
    const std::string text = element_text(e, s.input.project.units);
    if (s.board.text_width(LetterUse::dimension, text) < s.view.size(b - a) - 2)
      s.board.text(LetterUse::dimension, {x, y + 1}, text, Align::centre);
    if (e.to >= high || b == s.input.bridge.alignment.to().in_mm()) end_mark(s, b, used);
  }
}

}  // namespace deckquire::sheets
