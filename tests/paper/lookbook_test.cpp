// The lookbook: every pen, letter and hatch of a style on one sheet, written to the build folder to
// be looked at, and held to the rules of every other sheet.
#include <doctest/doctest.h>

#include "base/files.h"
#include "paper/board.h"
#include "paper/trial_board.h"
#include "writers/writers.h"

using namespace deckquire;
using namespace deckquire::paper;

namespace {

void pens(Board& board, PaperPoint at) {
  for (std::size_t i = 0; i < static_cast<std::size_t>(PenUse::count_); ++i) {
    const auto use = static_cast<PenUse>(i);
    const double y = at.y - 8.0 * static_cast<double>(i);
    board.text(LetterUse::note, {at.x, y}, name_of(use), Align::left, Stand::middle);
    board.line(use, {at.x + 40, y}, {at.x + 130, y});
  }
}

void letters(Board& board, PaperPoint at) {
  double y = at.y;
  for (std::size_t i = 0; i < static_cast<std::size_t>(LetterUse::count_); ++i) {
    const auto use = static_cast<LetterUse>(i);
    y -= board.text_height(use);
    board.text(use, {at.x, y}, "DP03 0+012.400 Ø24 R1500 ½ ≥ 1.5 %");
    y -= 6;
  }
}

void hatches(Board& board, PaperPoint at) {
  double x = at.x;
  for (const Hatch& h : board.style().hatches) {
    const PaperBox whole{{x, at.y - 40}, {x + 45, at.y}}, skin{{x, at.y - 62}, {x + 45, at.y - 60}};
    hatch(board, {box_ring(whole)}, h.material);
    board.box(PenUse::cut, whole);
    hatch(board, {box_ring(skin)}, h.material);
    board.box(PenUse::outline, skin);
    board.text(LetterUse::note, {x, at.y - 50}, h.material);
    x += 52;
  }
}

/// A panel's cut at 1:5 as the shop sheets draw it: skins, core, curb.
void section(Board& board, PaperPoint at) {
  const auto box = [at](double x, double y, double w, double h) {
    return box_ring(PaperBox{{at.x + x, at.y + y}, {at.x + x + w, at.y + y + h}});
  };
  hatch(board, {box(0, 0, 200, 30), box(1.6, 1.6, 196.8, 26.8)}, "laminate");
  hatch(board, {box(1.6, 1.6, 196.8, 26.8)}, "core", 8);
  hatch(board, {box(0, 30, 30, 20)}, "curb");
  Path inner;
  inner.polygon(box(1.6, 1.6, 196.8, 26.8));
  board.stroke(PenUse::thin, inner);
  Path outer;
  outer.polygon(box(0, 0, 200, 30));
  outer.polygon(box(0, 30, 30, 20));
  board.stroke(PenUse::cut, outer);
  stipple(board, box(40, 60, 120, 40));
  Path plan;
  plan.polygon(box(40, 60, 120, 40));
  board.stroke(PenUse::outline, plan);
  arrow(board, PenUse::water, {at.x + 60, at.y + 80}, {at.x + 80, at.y + 80});
  break_line(board, {at.x + 200, at.y - 6}, {at.x + 200, at.y + 36});
}

}  // namespace

TEST_CASE("lookbook: every pen, letter and hatch on one sheet without a fault, same bytes twice") {
  const auto drawn = [] {
    TrialBoard t;
    pens(t.board, {40, 560});
    letters(t.board, {200, 565});
    hatches(t.board, {200, 380});
    section(t.board, {200, 160});
    t.board.paragraph(LetterUse::note, {450, 280}, 150,
                      "The erector checks the seat of each panel before the next one is set, and "
                      "tells the designer when a seat is out by more than the tolerance.");
    return std::pair(t.sheet, dump(t.sheet));
  };
  const auto [sheet, text] = drawn();
  const Style style = default_style();
  CHECK(faults(sheet, style.least_height, style.frame()) == std::vector<std::string>{});
  CHECK(drawn().second == text);
  writers::DocumentInfo info;
  info.title = "Lookbook";
  info.date = "2026-01-01";
  info.inks = {style.inks.begin(), style.inks.end()};
  const std::string pdf = writers::write_pdf({sheet}, info, Lettering(style.fonts), 1);
  CHECK(pdf.starts_with("%PDF"));
  write_file(DECKQUIRE_BINARY "/lookbook.pdf", pdf);
}
