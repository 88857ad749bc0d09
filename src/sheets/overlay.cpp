#include "sheets/overlay.h"

#include <algorithm>
#include <cmath>
#include <iterator>
#include <optional>

#include "paper/overlaps.h"

namespace deckquire::sheets {
namespace {

using paper::Board;
using paper::Ink;
using paper::Item;
using paper::LetterUse;
using paper::PaperBox;
using paper::PaperPoint;
using paper::Pen;
using paper::PenUse;
using paper::Stroke;
using paper::Text;

constexpr double overhang = 0.8;  // mm of the line through old letters

enum class Age { same, gone, come };

/// Heavier than the line was, but hatches stay quiet.
double heavy(double width) {
  return width < 0.15 ? 0.25 : width < 0.3 ? 0.5 : 0.7;
}

Pen pen_of(Age age, const Pen& of) {
  switch (age) {
    case Age::same:
      return {0.18, of.dash, Ink::grey, "unchanged", paper::Layer::outlines};
    case Age::gone:
      return {of.width < 0.15 ? 0.18 : 0.35, {1.5, 1}, Ink::black, "old", paper::Layer::outlines};
    default:
      return {heavy(of.width), of.dash, Ink::black, "new", paper::Layer::outlines};
  }
}

/// That pen on the sheet, added where it is not there yet. One name for each dash.
paper::PenIndex index_of(paper::Sheet& sheet, Pen pen) {
  int alike = 0;
  const std::string name = pen.name;
  for (std::size_t i = 0; i < sheet.pens.size(); ++i) {
    if (!sheet.pens[i].name.starts_with(name + "-")) continue;
    ++alike;
    if (sheet.pens[i].dash == pen.dash && sheet.pens[i].width == pen.width)
      return static_cast<paper::PenIndex>(i);
  }
  pen.name = name + "-" + std::to_string(alike + 1);
  sheet.pens.push_back(std::move(pen));
  return static_cast<paper::PenIndex>(sheet.pens.size() - 1);
}

/// A picture while it is drawn: what stands in it already.
class Picture {
 public:
  Picture(Board& board, const ViewChange& view, PaperPoint at)
      : board_(board),
        view_(view),
        by_(at - view.box.low),
        frame_({at, at + (view.box.high - view.box.low)}) {}

  void draw() {
    lines(view_.same, Age::same);
    lines(view_.gone, Age::gone);
    lines(view_.come, Age::come);
    board_.box(PenUse::thin, frame_);
    letters(view_.same, Ink::grey);
    letters(view_.come, Ink::black);
    struck();
  }

 private:
  Board& board_;
  const ViewChange& view_;
  PaperPoint by_;
  PaperBox frame_;
  std::vector<std::pair<paper::Path, double>> drawn_;
  std::vector<PaperBox> taken_;

  void lines(const std::vector<Item>& items, Age age) {
    paper::Sheet& sheet = board_.sheet();
    for (const Item& item : items) {
      if (const auto* s = std::get_if<Stroke>(&item)) {
        const Pen of = s->pen < sheet.pens.size() ? sheet.pens[s->pen] : Pen{};
        Stroke copy{index_of(sheet, pen_of(age, of)), s->path};
        for (PaperPoint& p : copy.path.points) p = p + by_;
        drawn_.push_back({copy.path, sheet.pens[copy.pen].width});
        sheet.items.push_back(std::move(copy));
      } else if (const auto* f = std::get_if<paper::Fill>(&item)) {
        if (f->ink == Ink::white || f->ink == Ink::pale || age == Age::gone) continue;
        paper::Fill copy{age == Age::same ? Ink::grey : Ink::black, f->path};
        for (PaperPoint& p : copy.path.points) p = p + by_;
        sheet.items.push_back(std::move(copy));
      }
    }
  }

  /// White under them where a line runs through.
  void put(Text t, Ink ink) {
    t.ink = ink;
    t.masked = true;
    std::vector<paper::PlacedLine> placed;
    for (const auto& [path, width] : drawn_) placed.push_back({&path, width, 1});
    t.masked = !paper::line_clashes({{&t, text_box(t), 0}}, placed).empty();
    taken_.push_back(text_box(t));
    board_.sheet().items.push_back(std::move(t));
  }

  /// Its own line through it sticks out at both ends.
  bool is_free(const Text& t) const {
    const PaperBox box = text_box(t).grown(overhang + 0.2);
    return frame_.contains(box.low) && frame_.contains(box.high) &&
           std::none_of(taken_.begin(), taken_.end(),
                        [&](const PaperBox& b) { return b.overlaps(box); });
  }

  void letters(const std::vector<Item>& items, Ink ink) {
    for (const Item& item : items)
      if (const auto* text = std::get_if<Text>(&item)) {
        Text t = *text;
        t.at = t.at + by_;
        // Unchanged words that the picture's edge would cut say nothing.
        const PaperBox box = text_box(t).grown(0.6);
        const bool whole = frame_.contains(box.low) && frame_.contains(box.high);
        if (whole || ink != Ink::grey) put(std::move(t), ink);
      }
  }

  /// Old letters at their place, else at the nearest one where none stand.
  void struck() {
    for (const Item& item : view_.gone) {
      const auto* text = std::get_if<Text>(&item);
      if (text == nullptr) continue;
      Text t = *text;
      t.at = t.at + by_;
      const PaperPoint home = t.at;
      bool found = is_free(t);
      for (double r = 1; !found && r < 40; r += 1)
        for (int i = 0; !found && i < 24; ++i) {
          const double angle = pi / 2 + 2 * pi * i / 24;
          t.at = home + PaperPoint{std::cos(angle) * r, std::sin(angle) * r};
          found = is_free(t);
        }
      if (!found) continue;  // as full as can be: the table of changes has it
      const paper::Group group(board_, "", "struck");
      const PaperBox box = text_box(t);
      const bool level = std::abs(t.angle) < 1e-6;
      put(std::move(t), Ink::black);
      taken_.back() = box.grown(overhang);
      const PaperPoint c = box.centre();
      if (level)
        board_.line(PenUse::thin, {box.low.x - overhang, c.y}, {box.high.x + overhang, c.y});
      else
        board_.line(PenUse::thin, {c.x, box.low.y - overhang}, {c.x, box.high.y + overhang});
    }
  }
};

}  // namespace

double overlay_title_room(const paper::Style& style) {
  return 2.2 * style.letters_of(LetterUse::heading) + 3;
}

void draw_overlay(Board& board, const ViewChange& view, PaperPoint at) {
  const paper::Group group(board, "", "overlay", view.title);
  Picture(board, view, at).draw();
  board.text(LetterUse::heading, {at.x, at.y - 2},
             view.sheet + "  " + view.title + "  " + view.scale, paper::Align::left,
             paper::Stand::top);
}

double overlay_legend(Board& board, const PaperBox& space, double top) {
  board.text(LetterUse::heading, {space.low.x, top}, "OLD AND NEW LAID OVER ONE ANOTHER",
             paper::Align::left, paper::Stand::top);
  double y = top - board.pitch(LetterUse::heading) - 0.5;
  const double sample = 18, x = space.low.x;
  const std::pair<Age, const char*> rows[] = {
      {Age::same, "unchanged: thin and grey"},
      {Age::gone, "only before: dashed, letters struck through"},
      {Age::come, "only now: heavy"}};
  for (const auto& [age, words] : rows) {
    const double middle = y - board.text_height(LetterUse::note) / 2;
    Stroke line{
        index_of(board.sheet(), pen_of(age, Pen{0.5, {}, Ink::black, "", paper::Layer::outlines})),
        {}};
    line.path.segment({x, middle}, {x + sample, middle});
    board.sheet().items.push_back(std::move(line));
    y = board.paragraph(LetterUse::note, {x + sample + 3, y}, space.width() - sample - 3, words);
  }
  return y - board.style().gap / 2;
}

}  // namespace deckquire::sheets
