#include "paper/sheet_difference.h"

#include <doctest/doctest.h>

#include "paper/trial_board.h"
#include "support/dice.h"

using namespace deckquire;
using namespace deckquire::paper;

namespace {

struct Two {
  TrialBoard before, now;
  std::vector<PaperBox> spots() const { return changed_spots(before.sheet, now.sheet); }
};

bool is_box(const PaperBox& b, PaperPoint low, PaperPoint high) {
  return b.low == low && b.high == high;
}

}  // namespace

TEST_CASE("sheet difference: a sheet and itself, however it is put together") {
  Two two;
  two.before.board.box(PenUse::outline, {{20, 20}, {100, 60}});
  two.before.board.line(PenUse::hidden, {20, 30}, {100, 50});
  {
    const Group group(two.now.board, "x", "panel", "whatever");
    two.now.board.line(PenUse::hidden, {100, 50}, {20, 30});  // the other way round
    two.now.board.line(PenUse::outline, {20, 20}, {60, 20});  // in two pieces
    two.now.board.line(PenUse::outline, {50, 20}, {100, 20});
    two.now.board.line(PenUse::outline, {100, 20}, {100, 60});
    two.now.board.line(PenUse::outline, {100, 60}, {20, 60});
    two.now.board.line(PenUse::outline, {20.001, 60}, {20.001, 20});  // less than 0.01 mm off
  }
  CHECK(two.spots().empty());
  CHECK(compared_text(two.before.sheet) != compared_text(two.now.sheet));  // the group has a title
  CHECK(difference(two.before.sheet, two.now.sheet).same.size() == 5);
}

TEST_CASE("sheet difference: what names the revision is not compared") {
  Two two;
  for (TrialBoard* t : {&two.before, &two.now}) {
    const bool is_now = t == &two.now;
    t->sheet.revision = is_now ? "B" : "A";
    const Group block(t->board, "title-block", "title-block");
    t->board.text(LetterUse::note, {700, 30}, "Saltmarsh");
    {
      const Group names(t->board, "", revision_group);
      const Group table(t->board, "", "table");
      t->board.text(LetterUse::note, {700, 20}, is_now ? "B" : "A");
    }
    if (is_now) t->board.line(PenUse::revision, {100, 100}, {200, 100});
  }
  CHECK(two.spots().empty());
  CHECK(compared_text(two.before.sheet) == compared_text(two.now.sheet));
  two.now.board.text(LetterUse::note, {100, 100}, "after the group");
  CHECK(two.spots().size() == 1);
}

TEST_CASE("sheet difference: just the part of a line that is new, and a changed pen") {
  Two two;
  two.before.board.line(PenUse::outline, {20, 20}, {100, 20});
  two.now.board.line(PenUse::outline, {20, 20}, {120, 20});
  REQUIRE(two.spots().size() == 1);
  CHECK(is_box(two.spots()[0], {100, 20}, {120, 20}));
  two.before.board.line(PenUse::outline, {300, 300}, {320, 300});
  two.now.board.line(PenUse::hidden, {300, 300}, {320, 300});
  REQUIRE(two.spots().size() == 2);
  CHECK(is_box(two.spots()[0], {300, 300}, {320, 300}));
}

TEST_CASE("sheet difference: near spots are one, far ones are not, an L is two") {
  Two two;
  two.now.board.box(PenUse::outline, {{100, 100}, {110, 110}});
  two.now.board.box(PenUse::outline, {{114, 100}, {124, 110}});
  two.now.board.box(PenUse::outline, {{140, 100}, {150, 110}});
  REQUIRE(two.spots().size() == 2);
  CHECK(is_box(two.spots()[0], {100, 100}, {124, 110}));
  Two corner;
  corner.now.board.line(PenUse::outline, {100, 100}, {300, 100});
  corner.now.board.line(PenUse::outline, {100, 100}, {100, 300});
  CHECK(corner.spots().size() == 2);
}

// ISO and agencies want every change inside a cloud (drawing practice, RV1): by dice.
TEST_CASE("sheet difference: every item that only one sheet has lies in a spot, both ways") {
  testing::Dice dice{6};
  const auto real = [&](double from, double to) { return from + (to - from) * dice.next(); };
  for (int round = 0; round < 30; ++round) {
    Two two;
    for (int i = 0; i < 60; ++i) {
      const PaperPoint a{real(30, 600), real(30, 500)};
      const PaperPoint b = a + PaperPoint{real(0, 40), real(0, 40)};
      const int where = dice.upto(10);
      for (TrialBoard* t : {&two.before, &two.now}) {
        if (where == (t == &two.now ? 0 : 1)) continue;
        if (i % 3 == 0) t->board.line(PenUse::thin, a, b);
        if (i % 3 == 1) t->board.text(LetterUse::note, a, std::to_string(i));
        if (i % 3 == 2) t->board.box(PenUse::outline, {a, b});
      }
    }
    const SheetDifference d = difference(two.before.sheet, two.now.sheet);
    const auto spots = two.spots(), back = changed_spots(two.now.sheet, two.before.sheet);
    CHECK(spots.size() == back.size());
    CHECK_FALSE(d.gone.empty());
    for (const auto* list : {&d.gone, &d.come})
      for (const Item& item : *list) {
        bool inside = false;
        for (const PaperBox& s : spots)
          inside = inside || (s.grown(0.02).contains(box_of(item).low) &&
                              s.grown(0.02).contains(box_of(item).high));
        CHECK(inside);
      }
  }
}
