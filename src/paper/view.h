// A view: the one bridge between model millimetres and paper millimetres.
#pragma once

#include <string>
#include <vector>

#include "paper/board.h"

namespace deckquire::paper {

/// A stretch of model x that a broken view leaves out, and how much model x its gap takes instead.
struct Shortening {
  double from = 0, to = 0, shown = 0;  // mm
  double left_out() const { return to - from - shown; }
};

/// x less what the stretches before it leave out; inside one it runs evenly through its gap.
inline double shortened(const std::vector<Shortening>& stretches, double x) {
  double out = x;
  for (const Shortening& s : stretches)
    if (x > s.from) out -= s.left_out() * (x < s.to ? (x - s.from) / (s.to - s.from) : 1);
  return out;
}

/// Maps a model plane to paper: paper = origin + (model - base) / ratio, x reversed if `seen_from_below`
/// is set (a mirrored plan), turned never.
template <class Frame>
struct View {
  PaperPoint origin;       // where `base` lands
  Point<Frame> base;       // model point
  double ratio = 1;        // 20 for 1:20
  bool flip_x = false;     // x grows to the left on paper
  bool flip_y = false;     // y grows down on paper
  std::vector<Shortening> shortenings{};  // of a broken view: rising, apart from each other

  PaperPoint operator()(Point<Frame> p) const {
    const double dx = (along(p.x) - along(base.x)) / ratio, dy = (p.y - base.y) / ratio;
    return {origin.x + (flip_x ? -dx : dx), origin.y + (flip_y ? -dy : dy)};
  }
  PaperPoint operator()(double x, double y) const { return (*this)(Point<Frame>{x, y}); }
  double along(double x) const { return shortenings.empty() ? x : shortened(shortenings, x); }
  double size(double model_mm) const { return model_mm / ratio; }
  std::vector<PaperPoint> operator()(const Ring<Frame>& ring) const {
    std::vector<PaperPoint> out;
    out.reserve(ring.size());
    for (auto p : ring) out.push_back((*this)(p));
    return out;
  }
};

/// The largest scale (smallest ratio of the style's list) at which width x height model mm fit in
/// `room` after `margin_x`, `margin_y` paper mm in all are kept for dimensions. The largest ratio of
/// the list when none fits.
int choose_scale(const Style& style, double width, double height, double room_x, double room_y,
                 double margin_x, double margin_y);

/// "TITLE   1:20" under a view, left-aligned at `at` (base line), with its rule. For details:
/// `letter` is the reference letter, `from` the sheets it is called from; both may be empty.
/// `ratio` 0: no scale is printed.
void view_title(Board& board, PaperPoint at, const std::string& title, int ratio,
                const std::string& letter = "", const std::string& from = "");

/// A graphic scale bar no longer than `room` mm, its lower left corner at `at`: a round length of the
/// project's units in alternating blocks, the scale's name and the caution (may be empty) after it.
void scale_bar(Board& board, PaperPoint at, int ratio, double room, UnitSystem units,
               const std::string& caution = "");

/// A plain needle with N: `towards` = direction of north on paper, radians from +x.
void north_arrow(Board& board, PaperPoint centre, double radius, double towards);

}  // namespace deckquire::paper
