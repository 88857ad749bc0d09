#include "sheets/frame.h"

#include <string>

namespace deckquire::sheets {
namespace {

using paper::Align;
using paper::Board;
using paper::Ink;
using paper::LetterUse;
using paper::PaperBox;
using paper::PaperPoint;
using paper::Path;
using paper::PenUse;
using paper::Stand;

constexpr double strip = 5;  // width of the grid strip outside the frame

// Borders of the fields along a side, from its low to its high end.
std::vector<double> borders(double low, double middle, double high, double zone) {
  std::vector<double> out{low};
  const auto back = half_fields(middle - low, zone), ahead = half_fields(high - middle, zone);
  for (auto f = back.rbegin(); f != back.rend(); ++f) out.push_back(out.back() + *f);
  for (double f : ahead) out.push_back(out.back() + f);
  return out;
}

void numerals(Board& board, const PaperBox& f, const std::vector<double>& x) {
  for (std::size_t i = 0; i + 1 < x.size(); ++i) {
    const double middle = (x[i] + x[i + 1]) / 2;
    const std::string name = std::to_string(i + 1);
    for (double y : {f.low.y - strip / 2, f.high.y + strip / 2})
      board.text(LetterUse::caption, {middle, y}, name, Align::centre, Stand::middle);
    if (i == 0) continue;
    board.line(PenUse::table, {x[i], f.low.y - strip}, {x[i], f.low.y});
    board.line(PenUse::table, {x[i], f.high.y}, {x[i], f.high.y + strip});
  }
}

void letters(Board& board, const PaperBox& f, const std::vector<double>& y) {
  const std::size_t count = y.size() - 1;
  for (std::size_t i = 0; i < count; ++i) {
    const double middle = (y[i] + y[i + 1]) / 2;
    const std::string name = zone_letter(static_cast<int>(count - 1 - i));
    for (double x : {f.low.x - strip / 2, f.high.x + strip / 2})
      board.text(LetterUse::caption, {x, middle}, name, Align::centre, Stand::middle);
    if (i == 0) continue;
    board.line(PenUse::table, {f.low.x - strip, y[i]}, {f.low.x, y[i]});
    board.line(PenUse::table, {f.high.x, y[i]}, {f.high.x + strip, y[i]});
  }
}

// From the outside of the grid strip a little into the drawing; shorter than the standard's 10 mm,
// so that the mark at the right does not enter the text column.
void centring_marks(Board& board, const PaperBox& f, PaperPoint middle) {
  const double in = board.style().gap * 0.6;
  board.line(PenUse::frame, {f.low.x - strip, middle.y}, {f.low.x + in, middle.y});
  board.line(PenUse::frame, {f.high.x + strip, middle.y}, {f.high.x - in, middle.y});
  board.line(PenUse::frame, {middle.x, f.low.y - strip}, {middle.x, f.low.y + in});
  board.line(PenUse::frame, {middle.x, f.high.y + strip}, {middle.x, f.high.y - in});
}

// Two overlapping bars of 10 x 5 mm in every corner, as one outline.
void trimming_marks(Board& board) {
  const double w = board.style().width, h = board.style().height;
  for (double sx : {1.0, -1.0})
    for (double sy : {1.0, -1.0}) {
      const PaperPoint c{sx > 0 ? 0 : w, sy > 0 ? 0 : h};
      const auto at = [&](double x, double y) { return PaperPoint{c.x + sx * x, c.y + sy * y}; };
      Path mark;
      mark.polygon({at(0, 0), at(10, 0), at(10, 5), at(5, 5), at(5, 10), at(0, 10)});
      board.fill(Ink::black, mark);
    }
}

}  // namespace

std::vector<double> half_fields(double half, double zone) {
  std::vector<double> fields;
  double left = half;
  for (; left >= zone; left -= zone) fields.push_back(zone);
  if (left >= zone / 2 || fields.empty())
    fields.push_back(left);
  else
    fields.back() += left;
  return fields;
}

std::string zone_letter(int index) {
  static const std::string alphabet = "ABCDEFGHJKLMNPQRSTUVWXYZ";
  const int n = static_cast<int>(alphabet.size());
  const auto letter = [&](int i) { return std::string(1, alphabet[static_cast<std::size_t>(i)]); };
  return index < n ? letter(index) : letter(index / n - 1) + letter(index % n);
}

void draw_frame(Board& board) {
  const auto& style = board.style();
  const PaperBox f = style.frame();
  const PaperPoint middle{style.width / 2, style.height / 2};
  paper::Group group(board, "frame", "furniture");
  board.box(PenUse::frame, f);
  trimming_marks(board);
  if (style.zone <= 0) return;
  board.box(PenUse::table, f.grown(strip));
  numerals(board, f, borders(f.low.x, middle.x, f.high.x, style.zone));
  letters(board, f, borders(f.low.y, middle.y, f.high.y, style.zone));
  centring_marks(board, f, middle);
}

}  // namespace deckquire::sheets
