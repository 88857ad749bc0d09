// Diagrams of workings: a curve over its axis.
#include <algorithm>
#include <cmath>
#include <optional>

#include <fmt/format.h>

#include "base/text.h"
#include "sheets/calculation_sheet.h"

namespace deckquire::sheets {
namespace {

using paper::Align;
using paper::Board;
using paper::LetterUse;
using paper::PaperBox;
using paper::PaperPoint;
using paper::Path;
using paper::PenUse;
using paper::Stand;

constexpr double height = 32;  // paper mm from the least to the greatest value

std::string with_unit(double si, const workings::Unit& unit) {
  const std::string number = workings::print_in(si, unit, 3);
  return unit.label.empty() ? number : fmt::format("{} {}", number, unit.label);
}

struct Scale {
  double x0, x1, y0, y1;  // of the values; y0 <= 0 <= y1
  PaperBox box;
  bool down = false;
  PaperPoint operator()(double x, double y) const {
    const double up = (y - y0) / (y1 - y0) * box.height();
    return {box.low.x + (x - x0) / (x1 - x0) * box.width(),
            down ? box.high.y - up : box.low.y + up};
  }
};

Scale scale_of(const workings::Curve& c, const PaperBox& box) {
  const auto [x0, x1] = std::minmax_element(c.x.begin(), c.x.end());
  const auto [y0, y1] = std::minmax_element(c.y.begin(), c.y.end());
  Scale s{*x0, *x1, std::min(0.0, *y0), std::max(0.0, *y1), box, c.down};
  if (s.x1 <= s.x0) s.x1 = s.x0 + 1;
  if (s.y1 <= s.y0) s.y1 = s.y0 + 1;
  return s;
}

/// The value at a peak, beside its place, above or below the curve.
void name_peak(Board& board, const Scale& s, const workings::Curve& c, std::size_t i, bool above) {
  const PaperPoint p = s(c.x[i], c.y[i]);
  Path dot;
  dot.circle(p, 0.6);
  board.fill(paper::Ink::black, dot);
  const std::string text =
      fmt::format("{} at {}", with_unit(c.y[i], c.unit), with_unit(c.x[i], c.along));
  const double half = board.text_width(LetterUse::dimension, text) / 2;
  const double x =
      std::clamp(p.x, s.box.low.x + half, std::max(s.box.low.x + half, s.box.high.x - half));
  board.text(LetterUse::dimension, {x, p.y + (above ? 1.5 : -1.5)}, text, Align::centre,
             above ? Stand::base : Stand::top);
}

double draw_curve(Board& board, const PaperBox& column, double top, const workings::Curve& c) {
  const double letters = board.text_height(LetterUse::dimension);
  const bool drawn = c.x.size() >= 2 && c.x.size() == c.y.size();
  std::optional<paper::Group> group;
  if (drawn) group.emplace(board, "", "view", c.title);
  double y = board.paragraph(
      LetterUse::note, {column.low.x, top}, column.width(),
      fmt::format("{}, {}, along {}; not to scale", c.title, c.unit.label, c.along.label));
  if (!drawn) return y;
  const double room = letters + 3;  // for the peaks' values
  const PaperBox box{{column.low.x + 4, y - room - height}, {column.high.x - 4, y - room}};
  const Scale s = scale_of(c, box);
  board.line(PenUse::thin, s(s.x0, 0), s(s.x1, 0));
  for (double at : c.supports) {
    const PaperPoint p = s(at, 0);
    Path triangle;
    triangle.polygon({p, {p.x - 1.5, p.y - 2.6}, {p.x + 1.5, p.y - 2.6}});
    board.stroke(PenUse::thin, std::move(triangle));
  }
  Path path;
  path.move(s(c.x[0], c.y[0]));
  for (std::size_t i = 1; i < c.x.size(); ++i) path.line(s(c.x[i], c.y[i]));
  board.stroke(PenUse::outline, std::move(path));
  const auto [least, greatest] = std::minmax_element(c.y.begin(), c.y.end());
  const auto index = [&](auto it) { return static_cast<std::size_t>(it - c.y.begin()); };
  // What is left of a subtraction is no peak.
  const double noise = 1e-9 * std::max(std::abs(*least), std::abs(*greatest));
  if (*greatest > noise) name_peak(board, s, c, index(greatest), !c.down);
  // The other end of the values too, where the axis leaves room for it.
  if (*least < -noise || (*least > *greatest / 4 && *least < *greatest))
    name_peak(board, s, c, index(least), c.down);
  return box.low.y - room - 2;
}

}  // namespace

Block curve_block(const workings::Curve& curve) {
  return {.draw = [curve](Board& board, const PaperBox& column,
                          double top) { return draw_curve(board, column, top, curve); },
          .starts = true};
}

}  // namespace deckquire::sheets
