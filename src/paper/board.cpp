#include "paper/board.h"

#include <algorithm>
#include <cmath>
#include <utility>

#include "base/text.h"
#include "paper/layer.h"
#include "paper/utf8.h"

namespace deckquire::paper {

namespace {

constexpr double shortest = 0.005;  // mm; anything less prints nothing and upsets some writers

bool is_near(PaperPoint a, PaperPoint b) {
  return std::abs(a.x - b.x) < shortest && std::abs(a.y - b.y) < shortest;
}

/// Copies a path without segments that are too short and subpaths that draw nothing.
class Cleaner {
 public:
  Path cleaned(const Path& path) {
    std::size_t at = 0;
    for (Op op : path.ops) {
      switch (op) {
        case Op::move:
          start(path.points[at++]);
          break;
        case Op::line:
          line(path.points[at++]);
          break;
        case Op::curve:
          curve(&path.points[at]), at += 3;
          break;
        case Op::close:
          close();
          break;
      }
    }
    return std::move(out_);
  }

 private:
  void start(PaperPoint p) {
    start_ = last_ = p;
    drawn_ = false;
  }
  void begin() {
    if (!drawn_) out_.move(start_);
    drawn_ = true;
  }
  void line(PaperPoint p) {
    if (is_near(last_, p)) return;
    begin();
    out_.line(last_ = p);
  }
  void curve(const PaperPoint* p) {
    if (is_near(last_, p[0]) && is_near(last_, p[1]) && is_near(last_, p[2])) return;
    begin();
    out_.curve(p[0], p[1], p[2]);
    last_ = p[2];
  }
  void close() {
    if (drawn_) out_.close();
    start(start_);
  }

  Path out_;
  PaperPoint start_, last_;
  bool drawn_ = false;
};

/// One line of clean UTF-8: what is not becomes '?', tabs and line ends become spaces.
std::string one_clean_line(std::string_view text) {
  const auto breaks = [](char c) { return c == '\t' || c == '\n' || c == '\r'; };
  if (std::none_of(text.begin(), text.end(), breaks) && is_clean_utf8(text))
    return std::string(text);
  std::string out;
  for (std::size_t at = 0; at < text.size();) {
    const std::size_t start = at;
    const char32_t c = next_code_point(text, at);
    const std::string_view bytes = text.substr(start, at - start);
    if (c == U'\t' || c == U'\n' || c == U'\r')
      out += ' ';
    else
      out += is_clean_utf8(bytes) ? bytes : "?";
  }
  return out;
}

PaperPoint shift(Align align, Stand stand, double width, double height) {
  const double x = align == Align::left ? 0 : align == Align::centre ? -width / 2 : -width;
  const double y = stand == Stand::base ? 0 : stand == Stand::top ? -height : -height / 2;
  return {x, y};
}

}  // namespace

Board::Board(Sheet& sheet, const Style& style, const Lettering& lettering)
    : sheet_(sheet), style_(style), lettering_(lettering) {
  // A sheet may have pens of its own behind those of the style.
  sheet_.pens.resize(std::max(sheet_.pens.size(), style.pens.size()));
  std::copy(style.pens.begin(), style.pens.end(), sheet_.pens.begin());
}

void Board::stroke(PenUse pen, Path path) {
  Path clean = Cleaner().cleaned(path);
  if (!clean.empty()) sheet_.items.push_back(Stroke{static_cast<PenIndex>(pen), std::move(clean)});
}

void Board::line(PenUse pen, PaperPoint a, PaperPoint b) {
  Path path;
  path.segment(a, b);
  stroke(pen, std::move(path));
}

void Board::box(PenUse pen, const PaperBox& b) {
  Path path;
  path.box(b);
  stroke(pen, std::move(path));
}

void Board::fill(Ink ink, Path path) {
  Path clean = Cleaner().cleaned(path);
  if (!clean.empty()) sheet_.items.push_back(Fill{ink, std::move(clean)});
}

PaperBox Board::text(LetterUse use, PaperPoint at, std::string_view text, Align align, Stand stand,
                     bool upright, Ink ink) {
  if (text.empty()) return {at, at};
  Text t;
  t.text = one_clean_line(text);
  t.height = style_.letters_of(use);
  t.width = lettering_.width(t.text, t.height);
  t.ink = ink;
  t.layer = layer_of(use);
  t.angle = upright ? 0 : pi / 2;
  const PaperPoint d = shift(align, stand, t.width, t.height);
  t.at = upright ? at + d : at + PaperPoint{-d.y, d.x};
  const PaperBox box = text_box(t);
  sheet_.items.push_back(std::move(t));
  return box;
}

PaperBox Board::masked_text(LetterUse use, PaperPoint at, std::string_view text, Align align,
                            Stand stand, bool upright, Ink ink) {
  const PaperBox box = this->text(use, at, text, align, stand, upright, ink);
  if (!text.empty()) std::get<Text>(sheet_.items.back()).masked = true;
  return box;
}

double Board::text_width(LetterUse use, std::string_view text) const {
  return lettering_.width(one_clean_line(text), style_.letters_of(use));
}

double Board::paragraph(LetterUse use, PaperPoint at, double width, std::string_view text) {
  double y = at.y;
  for (const std::string& line : broken(use, width, text)) {
    this->text(use, {at.x, y}, line, Align::left, Stand::top);
    y -= pitch(use);
  }
  return y == at.y ? y : y - text_height(use);
}

Group::Group(Board& board, std::string id, std::string kind, std::string title, std::string target)
    : board_(board) {
  board_.sheet_.items.push_back(
      GroupStart{std::move(id), std::move(kind), std::move(title), std::move(target)});
}

Group::~Group() {
  board_.sheet_.items.push_back(GroupEnd{});
}

void arrow(Board& board, PenUse pen, PaperPoint from, PaperPoint to, double head) {
  const PaperPoint way = to - from;
  const double length = std::hypot(way.x, way.y);
  if (!(length > shortest)) return;
  const PaperPoint along = way * (1 / length), across{-along.y, along.x};
  const double size = std::min(head, length);
  const PaperPoint root = to - along * size;
  board.line(pen, from, root);
  Path tip;
  tip.polygon({to, root + across * (size / 6), root - across * (size / 6)});
  board.fill(board.style().pen(pen).ink, std::move(tip));
}

void break_line(Board& board, PaperPoint a, PaperPoint b) {
  const PaperPoint way = b - a;
  const double length = std::hypot(way.x, way.y);
  if (!(length > shortest)) return;
  const PaperPoint along = way * (1 / length), across{-along.y, along.x};
  const double size = std::min(3.0, length / 4);  // of the zigzag, each way
  const PaperPoint middle = a + way * 0.5;
  Path path;
  path.move(a);
  path.line(middle - along * (size / 2));
  path.line(middle - along * (size / 4) + across * size);
  path.line(middle + along * (size / 4) - across * size);
  path.line(middle + along * (size / 2));
  path.line(b);
  board.stroke(PenUse::thin, std::move(path));
}

}  // namespace deckquire::paper
