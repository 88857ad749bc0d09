// The two axonometric views of a panel: where they find room, what they show, their numbers.
#include <algorithm>
#include <cmath>
#include <limits>
#include <map>

#include "paper/callout.h"
#include "paper/leaders.h"
#include "sheets/panel_parts.h"
#include "sheets/panel_solid.h"

namespace deckquire::sheets {
namespace {

using paper::Board;
using paper::Group;
using paper::LetterUse;
using paper::PaperBox;
using paper::PaperPoint;
using paper::Path;
using paper::PenUse;

// Paper mm: widths that one view may have, tried from the largest down.
constexpr double widest_view = 110, narrowest_view = 45, width_step = 5;
constexpr double least_hole = 0.7;  // paper mm: smaller ones would be dots

// ---- room on the sheet

/// Which cells of a part of the sheet are taken; counts sums, so that any box is asked for at once.
class FreeCells {
 public:
  FreeCells(const PaperBox& space, const std::vector<PaperBox>& taken)
      : space_(space),
        across_(static_cast<int>(space.width() / cell)),
        up_(static_cast<int>(space.height() / cell)),
        sums_(static_cast<std::size_t>((across_ + 1) * (up_ + 1))) {
    for (const PaperBox& b : taken) {
      const auto [x0, y0, x1, y1] = cells(b);
      for (int y = y0; y < y1; ++y)
        for (int x = x0; x < x1; ++x) at(x + 1, y + 1) = 1;
    }
    for (int y = 1; y <= up_; ++y)
      for (int x = 1; x <= across_; ++x) at(x, y) += at(x - 1, y) + at(x, y - 1) - at(x - 1, y - 1);
  }
  /// The place for a box of that size with the most air round it, the highest such.
  std::optional<PaperBox> place(PaperPoint size, double least_air, double most_air) {
    std::optional<PaperBox> best;
    double best_air = 0;
    const double step = 2 * cell;
    for (double y = space_.high.y - size.y - least_air; y >= space_.low.y + least_air; y -= step)
      for (double x = space_.low.x + least_air; x + size.x + least_air <= space_.high.x;
           x += step) {
        const PaperBox b{{x, y}, {x + size.x, y + size.y}};
        double air = best ? best_air + 2 : least_air;
        for (; air <= most_air && free(b.grown(air)); air += 2) {
          best = b;
          best_air = air;
        }
      }
    return best;
  }

 private:
  static constexpr double cell = 2;  // mm
  struct Cells {
    int x0, y0, x1, y1;
  };
  int& at(int x, int y) { return sums_[static_cast<std::size_t>(y * (across_ + 1) + x)]; }
  Cells cells(const PaperBox& b) const {
    const auto low = [](double v, int most) {
      return std::clamp(static_cast<int>(std::floor(v / cell)), 0, most);
    };
    const auto high = [](double v, int most) {
      return std::clamp(static_cast<int>(std::ceil(v / cell)), 0, most);
    };
    return {low(b.low.x - space_.low.x, across_), low(b.low.y - space_.low.y, up_),
            high(b.high.x - space_.low.x, across_), high(b.high.y - space_.low.y, up_)};
  }
  bool free(const PaperBox& b) {
    if (!space_.contains(b.low) || !space_.contains(b.high)) return false;
    const auto [x0, y0, x1, y1] = cells(b);
    return at(x1, y1) - at(x0, y1) - at(x1, y0) + at(x0, y0) == 0;
  }

  PaperBox space_;
  int across_, up_;
  std::vector<int> sums_;
};

// ---- one view

struct Extent {
  PicturePoint low, high;
};

Extent extent_of(const std::vector<PictureLine>& lines) {
  constexpr double inf = std::numeric_limits<double>::infinity();
  Extent e{{inf, inf}, {-inf, -inf}};
  for (const PictureLine& l : lines)
    for (const PicturePoint& p : {l.a, l.b}) {
      e.low = {std::min(e.low.x, p.x), std::min(e.low.y, p.y)};
      e.high = {std::max(e.high.x, p.x), std::max(e.high.y, p.y)};
    }
  return e;
}

std::string title_of(bool from_above) {
  return from_above ? "VIEW FROM ABOVE" : "VIEW FROM BELOW";
}

std::string note_under(const PanelJob& job) {
  std::string out = "isometric, not to scale";
  const auto has = [&](FeatureKind kind) {
    return std::any_of(job.shape().features.begin(), job.shape().features.end(),
                       [&](const Feature& f) { return f.kind == kind; });
  };
  const bool grates = has(FeatureKind::scupper), covers = has(FeatureKind::hatch);
  if (grates || covers)
    out += std::string("; ") + (grates ? "grates" : "") + (grates && covers ? " and " : "") +
           (covers ? "covers" : "") + " not drawn";
  return out;
}

/// Air over and under the object for the numbers (beside its outermost corners nothing is
/// numbered), and under it for title and note.
Margins picture_margins(const Board& board) {
  const double pill = paper::pill_size(board, "0").y + 4;
  const double title = 2.2 * board.text_height(LetterUse::view_title) + 2;
  return {2, 2, pill + title + board.pitch(LetterUse::note), pill};
}

PaperPoint outer_size(const Board& board, const PanelJob& job, const Extent& e, double ratio,
                      bool from_above) {
  const Margins m = picture_margins(board);
  const double title = board.text_width(LetterUse::view_title, title_of(from_above)) +
                       board.text_height(LetterUse::view_title);
  const double words = std::max(title, board.text_width(LetterUse::note, note_under(job)));
  return {m.left + m.right + std::max((e.high.x - e.low.x) / ratio, words),
          m.bottom + m.top + (e.high.y - e.low.y) / ratio};
}

// ---- drawing one

struct Picture {
  Board& board;
  const PanelJob& job;
  PaperBox box;
  double ratio;
  bool from_above;
  Solid solid;
  Projection projection;
  Extent extent;
  Room room;
  std::map<int, std::pair<double, double>> rows;  // least and greatest x of the object, by y

  PaperPoint paper(PicturePoint p) const {
    const Margins m = picture_margins(board);
    const PaperPoint low{box.low.x + m.left, box.low.y + m.bottom};
    return {low.x + (p.x - extent.low.x) / ratio, low.y + (p.y - extent.low.y) / ratio};
  }
  PaperPoint paper(Spot s) const { return paper(projection(s)); }
  /// The part of the box above the title.
  PaperBox upper() const {
    const Margins m = picture_margins(board);
    return {{box.low.x, box.low.y + m.bottom - m.top}, box.high};
  }
};

constexpr double row_height = 2;  // paper mm

void draw_lines(Picture& p, const std::vector<PictureLine>& lines) {
  const auto all = [&](LineKind kind, PenUse pen) {
    Path path;
    for (const PictureLine& l : lines)
      if (l.kind == kind) path.segment(p.paper(l.a), p.paper(l.b));
    if (!path.empty()) p.board.stroke(pen, std::move(path));
  };
  all(LineKind::sunk, PenUse::hidden);
  all(LineKind::trace, PenUse::thin);
  all(LineKind::edge, PenUse::thin);
  all(LineKind::outline, PenUse::outline);
}

/// Keeps numbers off the object: its rows from edge to edge.
void take_object(Picture& p, const std::vector<PictureLine>& lines) {
  for (const PictureLine& l : lines) {
    const PaperPoint a = p.paper(l.a), b = p.paper(l.b);
    const int steps = 1 + static_cast<int>(std::hypot(b.x - a.x, b.y - a.y));
    for (int i = 0; i <= steps; ++i) {
      const PaperPoint q = a + (b - a) * (double(i) / steps);
      const auto at = p.rows.try_emplace(static_cast<int>(std::floor(q.y / row_height)), q.x, q.x);
      auto& [low, high] = at.first->second;
      low = std::min(low, q.x), high = std::max(high, q.x);
    }
  }
  for (const auto& [row, x] : p.rows)
    p.room.take(PaperBox{{x.first, row * row_height}, {x.second, (row + 1) * row_height}}.grown(1));
}

/// How far a place of the object is from the air round it.
double from_outside(const Picture& p, PaperPoint at) {
  double least = 1e9;
  for (const auto& [row, x] : p.rows) {
    const double dy = row * row_height - at.y;
    const double dx = std::min(std::abs(at.x - x.first), std::abs(x.second - at.x));
    least = std::min(least, std::hypot(dx, dy));
  }
  least = std::min(least, std::abs(at.y - p.rows.begin()->first * row_height));
  return std::min(least, std::abs(p.rows.rbegin()->first * row_height - at.y));
}

/// Beside the right edge, outside the object.
void draw_ahead_arrow(Picture& p) {
  const PanelShape& s = p.job.shape();
  const Corners c = corners_of(s);
  double z = 0;
  if (!p.from_above) {
    z = s.top(c.back_right.y);
    for (const CurbRun& run : s.curbs)
      if (run.side == Side::right) z += p.job.deck.section.curb.height.in_mm();
  }
  const PaperPoint from = p.paper(Spot{c.back_right.x, c.back_right.y, z});
  const PaperPoint to = p.paper(Spot{c.ahead_right.x, c.ahead_right.y, z});
  const double l = std::hypot(to.x - from.x, to.y - from.y);
  const PaperPoint d = (to - from) * (1 / l);
  const PaperPoint out = p.from_above ? PaperPoint{d.y, -d.x} : PaperPoint{-d.y, d.x};
  const PaperPoint tail = from + d * (0.35 * l) + out * 5, tip = tail + d * 12;
  const Group group(p.board, "", "orientation", "Direction of rising stations");
  paper::arrow(p.board, PenUse::mark, tail, tip, 3);
  const PaperBox word =
      p.board.text(LetterUse::note, tail + PaperPoint{4, p.from_above ? -0.5 : 0.5}, "AHEAD",
                   paper::Align::left, p.from_above ? paper::Stand::top : paper::Stand::base);
  p.room.take(word.grown(1));
  p.room.take_line(tail, tip, 1.5);
}

struct Number {
  int number = 0;
  std::string name;
  PaperPoint site, at;
};

/// For every item that this side shows, the place nearest to the air that is in sight.
std::vector<Number> numbers_of(const Picture& p) {
  std::vector<Number> out;
  for (const PanelItem& item : p.job.items) {
    double best = 1e9;
    Number n;
    n.number = item.number;
    for (std::size_t i : item.features) {
      const Feature& f = p.job.shape().features[i];
      if (!plan_shows(f, p.from_above)) continue;
      for (const Spot& s : feature_spots(p.job.shape(), p.job.deck, f, p.from_above)) {
        if (!in_sight(p.solid, p.projection, s)) continue;
        const double far = from_outside(p, p.paper(s));
        if (far > best - 0.5) continue;
        best = far;
        n.site = p.paper(s);
        n.name = feature_name(f.kind);
      }
    }
    if (best < 1e9) out.push_back(n);
  }
  return out;
}

void draw_numbers(Picture& p) {
  std::vector<Number> numbers = numbers_of(p);
  std::vector<PaperBox> pills;
  for (Number& n : numbers) {
    // A box has no inside beyond its diagonals.
    const auto clear = [&](PaperPoint c) {
      return std::none_of(pills.begin(), pills.end(), [&](const PaperBox& b) {
        return paper::segments_cross(n.site, c, b.low, b.high) ||
               paper::segments_cross(n.site, c, {b.low.x, b.high.y}, {b.high.x, b.low.y});
      });
    };
    const PaperPoint size = paper::pill_size(p.board, std::to_string(n.number));
    const PaperPoint air{size.x + 2, size.y + 2};
    auto place = p.room.place(air, n.site, p.upper(), 80, clear);
    if (!place) place = p.room.place(air, n.site, p.upper(), 80);
    n.at = place.value_or(n.site);
    pills.push_back({n.at - air * 0.5, n.at + air * 0.5});
    p.room.take({n.at - air * 0.5, n.at + air * 0.5});
    p.room.take_line(n.site, n.at, 0.4);
  }
  // Leaders that cross exchange their ends, which shortens them every time.
  for (bool again = true; again;) {
    again = false;
    for (std::size_t i = 0; i < numbers.size(); ++i)
      for (std::size_t j = i + 1; j < numbers.size(); ++j)
        if (paper::segments_cross(numbers[i].site, numbers[i].at, numbers[j].site, numbers[j].at)) {
          std::swap(numbers[i].at, numbers[j].at);
          again = true;
        }
  }
  for (const Number& n : numbers) {
    const Group group(p.board, "", "callout", n.name);
    p.board.line(PenUse::dimension, n.site, n.at);
    Path dot;
    dot.circle(n.site, 0.5);
    p.board.fill(paper::Ink::black, dot);
    paper::pill(p.board, n.at, std::to_string(n.number));
  }
}

void draw_picture(Board& board, const PanelJob& job, const PaperBox& box, double ratio,
                  bool from_above) {
  const Group group(board, job.id(from_above ? "view-above" : "view-below"), "view",
                    from_above ? "View from above" : "View from below");
  Solid solid = panel_solid(job.shape(), job.deck, least_hole * ratio);
  const Projection projection = isometric(from_above);
  const std::vector<PictureLine> lines = visible_lines(solid, projection);
  Picture p{board, job, box, ratio, from_above, std::move(solid), projection, extent_of(lines),
            {},    {}};
  draw_lines(p, lines);
  take_object(p, lines);
  draw_ahead_arrow(p);
  draw_numbers(p);
  const Margins m = picture_margins(board);
  const double note = board.pitch(LetterUse::note);
  const double x = box.low.x + m.left;
  const double y = box.low.y + note + board.text_height(LetterUse::view_title) * 0.8;
  paper::view_title(board, {x, y}, title_of(from_above), 0);
  board.text(LetterUse::note, {x, box.low.y}, note_under(job));
}

}  // namespace

PanelPictures place_pictures(const Board& board, const PanelJob& job, const PaperBox& space,
                             const std::vector<PaperBox>& taken) {
  Solid bare = panel_solid(job.shape(), job.deck, 0);
  bare.traces.clear();
  const Extent above = extent_of(visible_lines(bare, isometric(true)));
  const Extent below = extent_of(visible_lines(bare, isometric(false)));
  const double widest = std::max(above.high.x - above.low.x, below.high.x - below.low.x);
  const double gap = board.style().gap;
  FreeCells cells(space, taken);
  for (double width = widest_view; width >= narrowest_view; width -= width_step) {
    const double ratio = widest / width;
    const PaperPoint a = outer_size(board, job, above, ratio, true);
    const PaperPoint b = outer_size(board, job, below, ratio, false);
    const PaperPoint one_over{std::max(a.x, b.x), a.y + b.y + gap};
    const PaperPoint abreast{a.x + b.x + gap, std::max(a.y, b.y)};
    if (const auto at = cells.place(one_over, gap, 8 * gap))
      return {true,
              ratio,
              {{at->low.x, at->high.y - a.y}, {at->low.x + a.x, at->high.y}},
              {at->low, {at->low.x + b.x, at->low.y + b.y}}};
    if (const auto at = cells.place(abreast, gap, 8 * gap))
      return {true,
              ratio,
              {at->low, {at->low.x + a.x, at->low.y + a.y}},
              {{at->high.x - b.x, at->low.y}, {at->high.x, at->low.y + b.y}}};
    const auto first = cells.place(a, gap, 8 * gap);
    if (!first) continue;
    std::vector<PaperBox> more = taken;
    more.push_back(*first);
    if (const auto second = FreeCells(space, more).place(b, gap, 8 * gap))
      return {true, ratio, *first, *second};
  }
  return {};
}

void draw_pictures(Board& board, const PanelJob& job, const PanelPictures& pictures) {
  draw_picture(board, job, pictures.above, pictures.ratio, true);
  draw_picture(board, job, pictures.below, pictures.ratio, false);
}

void say_no_pictures(Board& board, const PaperBox& space, const std::vector<PaperBox>& taken) {
  const std::string words = "views from above and from below: no room for them on this sheet";
  const PaperPoint size{board.text_width(LetterUse::note, words),
                        board.text_height(LetterUse::note)};
  if (const auto at = FreeCells(space, taken).place(size, 2, 2 * board.style().gap))
    board.text(LetterUse::note, at->low, words);
}

}  // namespace deckquire::sheets
