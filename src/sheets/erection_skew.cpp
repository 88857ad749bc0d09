// The skew of joints on a strip.
#include <algorithm>
#include <cmath>

#include "sheets/erection_parts.h"

namespace deckquire::sheets {

using paper::LetterUse;
using paper::PenUse;

std::string skew_text(double skew) {
  return shortest_decimal(std::abs(skew) * 180 / pi, 2) + "\u00b0";
}

namespace {

/// The angle between a joint's line and the square, drawn where the line meets the alignment.
void draw_skew(const StripDrawing& s, const Joint& joint) {
  const paper::PaperPoint c = s.view(on_joint(s.input.bridge, joint, 0));
  const double left = s.view.size(s.input.bridge.edges.left(joint.station).in_mm());
  const double way = joint.skew > 0 ? 1 : -1, from = pi / 2;
  const double radius = std::clamp(left - 6, 7.0, 13.0);  // inside the deck
  s.board.line(PenUse::dimension, {c.x, c.y + 2}, {c.x, c.y + radius + 2});
  paper::Path arc;
  const int steps = 8;
  for (int i = 0; i <= steps; ++i) {
    const double turn = from - joint.skew * i / steps;
    const paper::PaperPoint p{c.x + radius * std::cos(turn), c.y + radius * std::sin(turn)};
    arc.empty() ? arc.move(p) : arc.line(p);
  }
  s.board.stroke(PenUse::dimension, std::move(arc));
  const std::string text = skew_text(joint.skew);
  const double w = s.board.text_width(LetterUse::dimension, text);
  const paper::PaperPoint ideal{c.x - way * (w / 2 + 1.5), c.y + radius - 1};
  const paper::PaperBox near{{ideal.x - 9, ideal.y - 9}, {ideal.x + 9, ideal.y + 9}};
  const auto at = s.labels.place({w, s.letters(LetterUse::dimension)}, near, ideal);
  s.labels.text(s.board.masked_text(LetterUse::dimension, at.value_or(ideal), text));
}

/// Each skew once: at the first inner joint that has it.
}  // namespace

void draw_skews(const StripDrawing& s) {
  std::vector<double> shown;
  for (int j = s.first_joint(); j <= s.last_joint(); ++j) {
    const double skew = s.joint(j).skew;
    const auto same = [&](double other) { return std::abs(other - skew) < 1e-6; };
    if (skew == 0 || std::any_of(shown.begin(), shown.end(), same)) continue;
    shown.push_back(skew);
    draw_skew(s, s.joint(j));
  }
}

}  // namespace deckquire::sheets
