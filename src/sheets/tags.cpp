#include "sheets/tags.h"

#include <fmt/format.h>

#include "base/text.h"
#include "paper/board.h"
#include "paper/qr_code.h"
#include "sheets/plan.h"

namespace deckquire::sheets {
namespace {

using paper::Align;
using paper::Board;
using paper::LetterUse;
using paper::PaperBox;
using paper::PaperPoint;
using paper::PenUse;
using paper::Stand;

constexpr int columns = 2, rows = 4;
constexpr double inset = 9;     // of the words from the label's edge: more than a printer loses
constexpr double code_side = 25;  // of the code without its quiet zone

const Panel& panel_of(const SetInput& in, int panel) {
  return in.deck.panels[static_cast<std::size_t>(panel)];
}

/// The words of a label in its box.
class Label {
 public:
  Label(Board& board, const SetInput& input, const SetPlan& plan, int panel, const PaperBox& box)
      : board_(board),
        in_(input),
        panel_(panel_of(input, panel)),
        words_(tag_words(input, plan, panel)),
        box_(box.grown(-inset)) {}

  void draw() {
    const paper::Group group(board_, "tag-" + words_.serial, "tag", words_.serial);
    code();
    big();
    small();
    ahead();
  }

 private:
  Board& board_;
  const SetInput& in_;
  const Panel& panel_;
  TagWords words_;
  PaperBox box_;

  void code() {
    const paper::QrCode qr = paper::qr_code(tag_code(panel_));
    const double side = std::min(code_side, 3 * big_pitch() - 4);  // above the small lines
    const double quiet = side / qr.size * paper::qr_quiet;
    const PaperPoint low{box_.high.x - side, box_.high.y - side};
    paper::Path white;
    white.box(PaperBox{low, box_.high}.grown(quiet));
    board_.fill(paper::Ink::white, std::move(white));
    board_.fill(paper::Ink::black, paper::qr_path(qr, low, side));
  }

  /// Of the three large lines: what the small ones leave, on a short label less.
  double big_pitch() const { return std::min(10.5, (box_.height() - 27) / 3); }

  void big() {
    const double top = box_.high.y;
    board_.text(LetterUse::sheet_number, {box_.low.x, top}, words_.serial, Align::left, Stand::top);
    board_.text(LetterUse::sheet_number, {box_.low.x, top - big_pitch()}, words_.mark, Align::left, Stand::top);
    board_.text(LetterUse::sheet_number, {box_.low.x, top - 2 * big_pitch()}, words_.mass, Align::left, Stand::top);
  }

  void small() {
    double y = box_.high.y - 3 * big_pitch();
    const auto say = [&](const std::string& text) {
      y = board_.paragraph(LetterUse::note, {box_.low.x, y}, box_.width(), text);
    };
    say(fmt::format("{}, {}; sheet {}, revision {}", words_.position, words_.turned, words_.sheet,
                    words_.revision));
    say(fmt::format("Job {}: {}", in_.project.number, in_.project.title));
  }

  /// The way the panel must look in the bridge; the label lies on it, read from the right side.
  void ahead() {
    const double y = box_.low.y + 3.5;
    const std::string word = "AHEAD";
    paper::arrow(board_, PenUse::mark, {box_.high.x - 26, y}, {box_.high.x, y}, 5);
    board_.text(LetterUse::heading, {box_.high.x - 29, y}, word, Align::right, Stand::middle);
    board_.text(LetterUse::note, {box_.low.x, y}, "Made on", Align::left, Stand::middle);
    const double from = box_.low.x + board_.text_width(LetterUse::note, "Made on") + 2;
    board_.line(PenUse::table, {from, y - 1.5}, {from + 20, y - 1.5});
  }
};

}  // namespace

std::string tag_code(const Panel& panel) {
  return panel.serial;
}

TagWords tag_words(const SetInput& in, const SetPlan& plan, int panel) {
  const Panel& p = panel_of(in, panel);
  const Mark& m = in.deck.marks[static_cast<std::size_t>(p.mark)];
  TagWords w;
  w.serial = p.serial;
  w.mark = m.name;
  w.position = fmt::format("position {}", p.position);
  w.mass = print_mass(m.masses.total, in.project.units) +
           (in.project.units == UnitSystem::metric ? " kg" : " lb");
  w.sheet = plan.panel_sheet(p.mark);
  w.revision = in.project.revisions.empty() ? "-" : in.project.revisions.back().id;
  w.turned = p.turned ? "lies turned end for end" : "lies as drawn";
  return w;
}

std::vector<paper::Sheet> tag_sheets(const SetInput& in, const SetPlan& plan, const ShopPage& page) {
  const paper::Style style = shop_style(in.style, page, false);
  const double w = page.width / columns, h = page.height / rows;
  std::vector<paper::Sheet> sheets;
  const int all = static_cast<int>(in.deck.panels.size());
  for (int first = 0; first < all; first += columns * rows) {
    paper::Sheet sheet = shop_sheet(style, fmt::format("TAGS-{}", sheets.size() + 1), "PANEL TAGS", "");
    Board board(sheet, style, in.lettering);
    for (int i = first; i < std::min(all, first + columns * rows); ++i) {
      const int place = i - first, row = place / columns, column = place % columns;
      const PaperPoint low{column * w, page.height - (row + 1) * h};
      Label(board, in, plan, i, {low, low + PaperPoint{w, h}}).draw();
    }
    sheets.push_back(std::move(sheet));
  }
  return sheets;
}

paper::Sheet tag_sheet(const SetInput& in, const SetPlan& plan, int panel, const ShopPage& page) {
  paper::Style style = shop_style(in.style, page, false);
  style.width = page.width / columns, style.height = page.height / rows;
  const Panel& p = panel_of(in, panel);
  paper::Sheet sheet = shop_sheet(style, p.serial, "TAG " + p.serial, "");
  Board board(sheet, style, in.lettering);
  Label(board, in, plan, panel, {{0, 0}, {style.width, style.height}}).draw();
  return sheet;
}

}  // namespace deckquire::sheets
