// Whatever the project says, the deck is built or refused; it never fails in between.
#include "deck/trial.h"
#include "support/thorough.h"

using namespace deckquire;

namespace {

Length anywhere(trial::Dice& dice) {
  return mm(dice.upto(110000) - 8000);
}
Length size(trial::Dice& dice) {
  return mm(dice.upto(5000));
}

/// One thing of the project moved or resized.
void disturb(Project& p, trial::Dice& dice) {
  DeckData& d = p.deck;
  switch (dice.upto(14)) {
    case 0:
      d.hatches[0].station = anywhere(dice);
      break;
    case 1:
      d.hatches[0].offset = size(dice) - mm(2500);
      break;
    case 2:
      d.sleeves[0].station = anywhere(dice);
      break;
    case 3:
      d.scuppers->scuppers[0].station = anywhere(dice);
      break;
    case 4:
      p.bridge.splices[0].station = anywhere(dice);
      break;
    case 5:
      p.bridge.obstructions[0].station = anywhere(dice);
      break;
    case 6:
      p.bridge.obstructions[0].offset = size(dice) - mm(2500);
      break;
    case 7:
      d.edges[static_cast<std::size_t>(dice.upto(9))].left = size(dice);
      break;
    case 8:
      d.edges[static_cast<std::size_t>(dice.upto(9))].station = anywhere(dice);
      break;
    case 9:
      d.posts->greatest = size(dice) + mm(100);
      break;
    case 10:
      d.spans[1].rule = PanelsRule{dice.upto(60), std::nullopt, {}};
      break;
    case 11:
      d.hold_downs->each = dice.upto(9);
      break;
    case 12:
      d.section.curb.sides = CurbSides::left;
      break;
    case 13:
      d.section.fall = dice.upto(2) == 0 ? Fall::left : Fall::right;
      break;
  }
}

}  // namespace

TEST_CASE("deck: of projects in disorder, each is built whole or has an error") {
  const Project good = trial::example("saltmarsh");
  trial::Dice dice{417};
  int refused = 0;
  for (int i = 0; i < (thorough ? 150 : 40); ++i) {
    Project p = good;
    for (int k = dice.upto(4); k >= 0; --k) disturb(p, dice);
    const auto b = trial::build(p);
    refused += b.findings.has_errors() ? 1 : 0;
    if (b.findings.has_errors()) continue;
    CAPTURE(i);
    int quantity = 0;
    for (const Mark& m : b.deck.marks) quantity += m.quantity;
    CHECK(quantity == static_cast<int>(b.deck.panels.size()));
    for (const Mark& m : b.deck.marks) {
      CHECK(m.masses.total.in_si() > 0);
      CHECK(area(m.shape.outline) > 0);
      for (const MassPart& part : m.masses.parts) CHECK(part.mass.in_si() > 0);
    }
  }
  CHECK(refused > 20);
  CHECK(refused < (thorough ? 150 : 40));
}
