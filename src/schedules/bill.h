// What a panel and its joints are made of, line by line: the one source of every count and quantity
// that lists, sheets and orders print.
#pragma once

#include <string>
#include <vector>

#include "deck/deck.h"
#include "schedules/table.h"

namespace deckquire {

/// One thing to make or buy. What does not apply is zero.
struct BillLine {
  std::string item;
  std::string size;    // short, for crowded sheets: "M10 × 40"
  std::string detail;  // what more there is to say
  double pieces = 0;   // each
  double length = 0;   // m
  double area = 0;     // m2
  double volume = 0;   // m3
  double mass = 0;     // kg
  std::string rule = {};                // how the quantity was found
  Measure ordered_by = Measure::count;  // count, run, fill, area, volume or mass
  std::string allowance = {};           // word of <allowance on=""> that is for it; empty: none is
  std::string supplier = {};  // who brings it, where the fabricator does not; without a word of an
                              // allowance it comes with what they make, and nobody else orders it
  bool loose = false;                   // goes to site beside the panels, or is fitted there

  /// Size and detail in one.
  std::string description() const;
  /// The quantity that it is ordered by, in the SI unit of that measure (fill: litres).
  double ordered() const;
};

/// The lines of one panel of this mark.
std::vector<BillLine> bill_lines(const Project& project, const Mark& mark);
/// Adds `more`, `times` over, to lines with the same item and description, or beside their like.
void add_lines(std::vector<BillLine>& sum, const std::vector<BillLine>& more, double times);
/// The lines of one panel of every mark.
std::vector<std::vector<BillLine>> mark_bills(const Project& project, const Deck& deck);
/// The sum of these panels, given the bills of the marks.
std::vector<BillLine> panel_lines(const std::vector<std::vector<BillLine>>& bills, const Deck& deck,
                                  int first, int count);
/// Sealant, rod and cover plates of the joints that go with these panels: the joint ahead of each, the
/// first of the deck with its first panel, row joints as far as the panels reach.
std::vector<BillLine> joint_lines(const Project& project, const Bridge& bridge, const Deck& deck,
                                  int first, int count);
/// Panels and joints of the whole deck.
std::vector<BillLine> deck_lines(const Project& project, const Bridge& bridge, const Deck& deck);

/// The project's material for a part, or nullptr.
const MaterialData* material_of(const DeckData& data, const std::string& part);

}  // namespace deckquire
