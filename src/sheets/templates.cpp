#include "sheets/templates.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <numbers>

#include "paper/board.h"

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

constexpr double head_band = 21, foot_band = check_square + 8;  // mm of the page
constexpr double overlap = 20;                                  // of two tiles, mm
constexpr double cross = 5;                                     // half length of a hole's centre lines
constexpr double air = 8;                                       // round the pattern

/// The part of a segment inside the box, if there is one (Liang and Barsky 1984).
std::optional<std::pair<PaperPoint, PaperPoint>> inside(const PaperBox& box, PaperPoint a, PaperPoint b) {
  double from = 0, to = 1;
  const PaperPoint d = b - a;
  const auto cut = [&](double slope, double room) {
    if (slope == 0) return room >= 0;
    const double t = room / slope;
    if (slope < 0) from = std::max(from, t);
    if (slope > 0) to = std::min(to, t);
    return true;
  };
  const bool hit = cut(-d.x, a.x - box.low.x) && cut(d.x, box.high.x - a.x) &&
                   cut(-d.y, a.y - box.low.y) && cut(d.y, box.high.y - a.y);
  if (!hit || from >= to) return std::nullopt;
  return std::pair(a + d * from, a + d * to);
}

/// Draws at full size through a window of the page.
class Window {
 public:
  /// `shift`: from the pattern's mm to the page's.
  Window(Board& board, const PaperBox& room, PaperPoint shift)
      : board_(board), room_(room), shift_(shift) {}

  PaperPoint at(PanelPoint p) const { return {p.x + shift_.x, p.y + shift_.y}; }
  bool shows(PanelPoint p) const { return room_.contains(at(p)); }

  void line(PenUse pen, PanelPoint a, PanelPoint b) {
    if (const auto part = inside(room_, at(a), at(b))) {
      board_.line(pen, part->first, part->second);
      drawn_ = true;
    }
  }
  bool drawn() const { return drawn_; }
  void ring(PenUse pen, const Ring<PatternFrame>& ring) {
    for (std::size_t i = 0; i < ring.size(); ++i) line(pen, ring[i], ring[(i + 1) % ring.size()]);
  }
  void circle(PenUse pen, PanelPoint centre, double diameter) {
    const PaperBox whole = PaperBox{at(centre), at(centre)}.grown(diameter / 2);
    if (room_.contains(whole.low) && room_.contains(whole.high)) {
      Path path;
      path.circle(at(centre), diameter / 2);
      drawn_ = true;
      return board_.stroke(pen, std::move(path));
    }
    constexpr int sides = 180;
    const auto point = [&](int i) {
      const double a = 2 * std::numbers::pi * i / sides;
      return centre + PanelPoint{std::cos(a), std::sin(a)} * (diameter / 2);
    };
    for (int i = 0; i < sides; ++i) line(pen, point(i), point(i + 1));
  }
  void crossing(PenUse pen, PanelPoint p, double half) {
    line(pen, p - PanelPoint{half, 0}, p + PanelPoint{half, 0});
    line(pen, p - PanelPoint{0, half}, p + PanelPoint{0, half});
  }

 private:
  Board& board_;
  PaperBox room_;
  PaperPoint shift_;
  bool drawn_ = false;
};

Box<PatternFrame> extent(const HolePattern& p) {
  Box<PatternFrame> box = bounds(p.outline);
  for (const Hole& h : p.holes) {
    const double r = std::max(h.diameter / 2, cross);
    box.low = {std::min(box.low.x, h.at.x - r), std::min(box.low.y, h.at.y - r)};
    box.high = {std::max(box.high.x, h.at.x + r), std::max(box.high.y, h.at.y + r)};
  }
  return box.grown(air);
}

/// How a pattern is laid over pages.
struct Tiling {
  bool lying = false;
  int columns = 1, rows = 1;
  PaperBox room;  // of the page, for the pattern
  int pages() const { return columns * rows; }
};

PaperBox room_of(const paper::Style& style) {
  const PaperBox f = style.frame();
  return {{f.low.x, f.low.y + foot_band}, {f.high.x, f.high.y - head_band}};
}

Tiling tiling(const paper::Style& style, const ShopPage& page, const Box<PatternFrame>& pattern) {
  const auto laid = [&](bool lying) {
    Tiling t;
    t.lying = lying;
    t.room = room_of(shop_style(style, page, lying));
    const auto tiles = [](double size, double room) {
      return size <= room ? 1 : static_cast<int>(std::ceil((size - overlap) / (room - overlap)));
    };
    t.columns = tiles(pattern.width(), t.room.width());
    t.rows = tiles(pattern.height(), t.room.height());
    return t;
  };
  const Tiling upright = laid(false), lying = laid(true);
  return lying.pages() < upright.pages() ? lying : upright;
}

std::string hole_words(const Hole& h, UnitSystem units) {
  const std::string size = h.thread.empty() ? "dia. " + print_length(mm(h.diameter), units) : h.thread;
  return h.label + ": " + size + (h.kind == HoleKind::tapped ? " tapped" : h.kind == HoleKind::bolt ? " insert" : "");
}

class TemplatePages {
 public:
  TemplatePages(const SetInput& input, const HolePattern& pattern, const ShopPage& page)
      : in_(input),
        p_(pattern),
        extent_(extent(pattern)),
        tiling_(tiling(input.style, page, extent_)),
        style_(shop_style(input.style, page, tiling_.lying)) {}

  void draw(std::vector<paper::Sheet>& out) const {
    for (int row = 0; row < tiling_.rows; ++row)
      for (int column = 0; column < tiling_.columns; ++column)
        if (auto sheet = tile(row, column)) out.push_back(std::move(*sheet));
  }

 private:
  const SetInput& in_;
  const HolePattern& p_;
  Box<PatternFrame> extent_;
  Tiling tiling_;
  paper::Style style_;

  std::string revision() const {
    return in_.project.revisions.empty() ? "" : in_.project.revisions.back().id;
  }

  /// Where the pattern's middle lies on the page of that tile.
  PaperPoint shift(int row, int column) const {
    const PaperBox& room = tiling_.room;
    const double step_x = room.width() - overlap, step_y = room.height() - overlap;
    const double all_x = tiling_.columns * step_x + overlap, all_y = tiling_.rows * step_y + overlap;
    const PanelPoint middle = extent_.centre();
    // The tiles' whole, centred on the pattern.
    return {room.low.x + all_x / 2 - column * step_x - middle.x,
            room.high.y - all_y / 2 + row * step_y - middle.y};
  }

  /// Nothing where the middle of a large pattern is bare.
  std::optional<paper::Sheet> tile(int row, int column) const {
    const int index = row * tiling_.columns + column;
    const std::string number =
        tiling_.pages() == 1 ? p_.name : fmt::format("{}-{}", p_.name, index + 1);
    paper::Sheet sheet = shop_sheet(style_, number, "TEMPLATE " + p_.name + ", " + upper(p_.what), revision());
    Board board(sheet, style_, in_.lettering);
    Window window(board, tiling_.room, shift(row, column));
    {
      const paper::Group group(board, "pattern", "view");
      pattern(board, window);
      if (!window.drawn()) return std::nullopt;
      registers(board, window);
    }
    head(board, index);
    foot(board);
    return sheet;
  }

  void pattern(Board& board, Window& window) const {
    window.ring(PenUse::outline, p_.outline);
    for (const auto& o : p_.openings) window.ring(PenUse::thin, o);
    const Box<PatternFrame> box = bounds(p_.outline);
    window.line(PenUse::centre, {box.low.x - 4, 0}, {box.high.x + 4, 0});
    window.line(PenUse::centre, {0, box.low.y - 4}, {0, box.high.y + 4});
    for (const Hole& h : p_.holes) {
      window.circle(PenUse::feature, h.at, h.diameter);
      window.crossing(PenUse::thin, h.at, std::max(cross, h.diameter / 2 + 2));
      const double beside = h.diameter / 2 * 0.75 + 1.2;
      const PanelPoint label = h.at + PanelPoint{beside, beside};
      if (!window.shows(label) || !window.shows(label + PanelPoint{6, 4})) continue;
      board.masked_text(LetterUse::callout, window.at(label), h.label, Align::left, Stand::base);
    }
  }

  /// Crosses on the middle of every seam, a quarter and three quarters along it; the same places of the
  /// pattern, and the same numbers, on both tiles.
  void registers(Board& board, Window& window) const {
    const PaperPoint first = shift(0, 0);
    const PaperBox& room = tiling_.room;
    const double step_x = room.width() - overlap, step_y = room.height() - overlap;
    int number = 0;
    const auto mark = [&](double x, double y) {
      const PanelPoint at{x - first.x, y - first.y};
      ++number;
      if (!window.shows(at)) return;
      window.circle(PenUse::thin, at, 4);
      window.crossing(PenUse::thin, at, 6);
      board.masked_text(LetterUse::callout, window.at(at) + PaperPoint{3, 3}, fmt::format("R{}", number),
                        Align::left, Stand::base);
    };
    for (int row = 0; row < tiling_.rows; ++row)
      for (int column = 0; column < tiling_.columns; ++column) {
        const double left = room.low.x + column * step_x, top = room.high.y - row * step_y;
        if (column + 1 < tiling_.columns)
          for (double part : {0.25, 0.75})
            mark(left + step_x + overlap / 2, top - overlap / 2 - part * (step_y - overlap / 2));
        if (row + 1 < tiling_.rows)
          for (double part : {0.25, 0.75})
            mark(left + overlap / 2 + part * (step_x - overlap / 2), top - step_y - overlap / 2);
      }
  }

  static std::string upper(std::string s) {
    for (char& c : s) c = static_cast<char>(std::toupper(static_cast<unsigned char>(c)));
    return s;
  }

  std::string marks() const {
    std::vector<std::string> names;
    for (int m : p_.marks) names.push_back(in_.deck.marks[static_cast<std::size_t>(m)].name);
    return join(names, " ");
  }

  void head(Board& board, int index) const {
    const PaperBox f = style_.frame();
    const double right = f.high.x;
    board.line(PenUse::table_heavy, {f.low.x, f.high.y - head_band + 2}, {right, f.high.y - head_band + 2});
    board.text(LetterUse::sheet_title, {f.low.x, f.high.y - 6}, board.sheet().title);
    std::string of = fmt::format("Job {}   revision {}   {} in all", in_.project.number,
                                 revision().empty() ? "-" : revision(), p_.quantity);
    if (tiling_.pages() > 1)
      of += fmt::format("   page {} of {}, {} across, {} down: lay register crosses of one number on each other",
                        index + 1, tiling_.pages(), tiling_.columns, tiling_.rows);
    board.paragraph(LetterUse::note, {f.low.x, f.high.y - 8.5}, right - f.low.x - 32, of);
    const PaperPoint tip{right - 2, f.high.y - 5};
    paper::arrow(board, PenUse::mark, tip - PaperPoint{22, 0}, tip, 4);
    board.text(LetterUse::note, tip - PaperPoint{1, 4}, "AHEAD, from above", Align::right, Stand::top);
  }

  void foot(Board& board) const {
    const PaperBox f = style_.frame();
    const PaperBox square{f.low, f.low + PaperPoint{check_square, check_square}};
    {
      const paper::Group group(board, "check-square", "check");
      board.box(PenUse::thin, square);
    }
    const double left = square.high.x + 6, width = f.high.x - left;
    double y = square.high.y;
    board.text(LetterUse::note, square.centre() + PaperPoint{0, 2}, fmt::format("{:.0f} x {:.0f} mm", check_square, check_square),
               Align::centre, Stand::middle);
    y = board.paragraph(LetterUse::heading, {left, y}, width, "PRINT AT 100 %, THEN MEASURE THE SQUARE");
    y = board.paragraph(
        LetterUse::note, {left, y - 1}, width,
        fmt::format("Each side {:.0f} mm, no more than {} mm off, or do not use the page. Lay on along the "
                    "centre lines, punch the crosses, then drill.",
                    check_square, check_within));
    std::string holes = "Holes: ";
    for (std::size_t i = 0; i < p_.holes.size(); ++i)
      holes += (i ? "; " : "") + hole_words(p_.holes[i], in_.project.units);
    y = board.paragraph(LetterUse::note, {left, y - 1}, width, holes + ".");
    board.paragraph(LetterUse::note, {left, y - 1}, width, "On marks " + marks() + ".");
  }
};

}  // namespace

std::vector<paper::Sheet> template_sheets(const SetInput& input, const std::vector<HolePattern>& patterns,
                                          const ShopPage& page) {
  std::vector<paper::Sheet> sheets;
  for (const HolePattern& p : patterns) TemplatePages(input, p, page).draw(sheets);
  return sheets;
}

std::vector<paper::Sheet> cutter_outlines(const SetInput& input, const std::vector<HolePattern>& patterns) {
  std::vector<paper::Sheet> sheets;
  for (const HolePattern& p : patterns) {
    const Box<PatternFrame> box = extent(p);
    paper::Style style = input.style;
    style.width = box.width(), style.height = box.height();
    paper::Sheet sheet = shop_sheet(style, p.name, p.name + " " + p.what, "");
    Board board(sheet, style, input.lettering);
    Window window(board, {{0, 0}, {box.width(), box.height()}}, {-box.low.x, -box.low.y});
    window.ring(PenUse::thin, p.outline);
    for (const auto& o : p.openings) window.ring(PenUse::thin, o);
    for (const Hole& h : p.holes) window.circle(PenUse::thin, h.at, h.diameter);
    sheets.push_back(std::move(sheet));
  }
  return sheets;
}

}  // namespace deckquire::sheets
