// Scales, titles, bars. The ratios are those of ISO 5455; the case of the slot was worked by hand:
// 2480 / 25 + 50 = 149.2, 3000 / 25 + 40 = 160.
#include "paper/view.h"

#include <algorithm>

#include <doctest/doctest.h>

#include "paper/trial_board.h"

using namespace deckquire;
using namespace deckquire::paper;

namespace {

std::vector<std::string> texts(const Sheet& sheet) {
  std::vector<std::string> out;
  for (const Item& i : sheet.items) {
    if (const auto* t = std::get_if<Text>(&i)) out.push_back(t->text);
  }
  return out;
}

bool has(const Sheet& sheet, const std::string& text) {
  const std::vector<std::string> all = texts(sheet);
  return std::find(all.begin(), all.end(), text) != all.end();
}

/// Horizontal extent of the filled blocks of a bar.
PaperBox filled(const Sheet& sheet) {
  PaperBox b{{1e9, 1e9}, {-1e9, -1e9}};
  for (const Item& i : sheet.items) {
    const auto* f = std::get_if<Fill>(&i);
    if (f == nullptr) continue;
    for (PaperPoint p : f->path.points) {
      b.low = {std::min(b.low.x, p.x), std::min(b.low.y, p.y)};
      b.high = {std::max(b.high.x, p.x), std::max(b.high.y, p.y)};
    }
  }
  return b;
}

}  // namespace

TEST_CASE("view: model points land where the scale says, mirrored when asked") {
  View<PanelFrame> v{{100, 50}, {1000, -500}, 20};
  CHECK(v(1000, -500) == PaperPoint{100, 50});
  CHECK(v(1200, -400) == PaperPoint{110, 55});
  v.flip_x = true;
  CHECK(v(1200, -400) == PaperPoint{90, 55});
}

TEST_CASE("scale: the largest that leaves room for the dimensions is chosen") {
  Style s = default_style();
  CHECK(choose_scale(s, 2480, 3000, 260, 180, 50, 40) == 25);
  s.scales = {1, 2, 5, 10, 20, 50, 100};
  CHECK(choose_scale(s, 2480, 3000, 260, 180, 50, 40) == 50);
  CHECK(choose_scale(s, 1e7, 1e7, 260, 180, 50, 40) == 100);
}

TEST_CASE("scale bar: a round length, true to 0.01 mm, within its room") {
  TrialBoard t;
  scale_bar(t.board, {50, 50}, 5, 60, UnitSystem::metric);  // 300 mm of model at most
  CHECK(has(t.sheet, "200"));
  CHECK(has(t.sheet, "mm"));
  // Four blocks of 10 mm; the third is the last filled one.
  CHECK(filled(t.sheet).low.x == doctest::Approx(50));
  CHECK(filled(t.sheet).high.x == doctest::Approx(80).epsilon(1e-4));
}

TEST_CASE("scale bar: feet and inches for an imperial project") {
  TrialBoard t;
  scale_bar(t.board, {50, 50}, 4, 60, UnitSystem::imperial);  // 240 mm: 9 in
  CHECK(has(t.sheet, "9"));
  CHECK(has(t.sheet, "in"));
  CHECK(filled(t.sheet).high.x == doctest::Approx(50 + 9 * 25.4 / 4).epsilon(1e-6));
}

TEST_CASE("view title: letter, title, scale and the sheets it is called from stand clear") {
  TrialBoard t;
  view_title(t.board, {100, 100}, "SCUPPER", 5, "C", "E01, P02");
  CHECK(has(t.sheet, "C"));
  CHECK(has(t.sheet, "1:5"));
  CHECK(has(t.sheet, "Called from E01, P02"));
  CHECK(faults(t.sheet, 2.5, {{0, 0}, {841, 594}}).empty());
}

TEST_CASE("north arrow: N stands where north is") {
  TrialBoard t;
  north_arrow(t.board, {100, 100}, 10, pi / 2);
  for (const Item& i : t.sheet.items) {
    if (const auto* n = std::get_if<Text>(&i)) {
      CHECK(text_box(*n).centre().x == doctest::Approx(100));
      CHECK(text_box(*n).low.y > 109);
    }
  }
}
