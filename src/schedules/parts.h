// The tables one by one, and what they share. Inside this folder and its tests only.
#pragma once

#include "deck/deck.h"
#include "schedules/table.h"

namespace deckquire {

Table marks_table(const Project& project, const Deck& deck);
Table panels_table(const Bridge& bridge, const Deck& deck);
Table spans_table(const Bridge& bridge, const Deck& deck);
Table materials_table(const Project& project, const Bridge& bridge, const Deck& deck);
Table posts_table(const Project& project, const Bridge& bridge, const Deck& deck);
Table scuppers_table(const Project& project, const Deck& deck);
Table recesses_table(const Project& project, const Bridge& bridge, const Deck& deck);
Table joints_table(const Project& project, const Bridge& bridge, const Deck& deck);
Table row_joints_table(const Project& project, const Bridge& bridge, const Deck& deck);
Table setting_out_table(const Project& project, const Bridge& bridge, const Deck& deck);
Table corners_table(const Bridge& bridge, const Deck& deck);
Table diagonals_table(const Bridge& bridge, const Deck& deck);
Table ties_table(const Bridge& bridge, const Deck& deck);
Table alignment_table(const Bridge& bridge);
Table curves_table(const Bridge& bridge);
Table vertical_curves_table(const Bridge& bridge);
Table holes_table(const Deck& deck);

/// Positions from 1 as ranges: "1-3, 7, 9-10".
std::string position_ranges(const Deck& deck, const std::vector<int>& panels);

/// How much longer the deck is along its grades than in plan.
Length slope_excess(const Alignment& alignment, Length from, Length to);

/// In the words of the sheets: "left"; "sealed".
const char* side_name(Side side);
const char* joint_name(JointKind kind);

/// One thing to make or buy. What does not apply is zero.
struct BillLine {
  std::string item, description;
  double pieces = 0;  // each
  double length = 0;  // m
  double area = 0;    // m2
  double volume = 0;  // m3
  double mass = 0;    // kg
  std::string rule;   // how the quantity was found
};
/// The lines of one panel of this mark.
std::vector<BillLine> bill_lines(const Project& project, const Mark& mark);
/// Adds `more`, `times` over, to lines with the same item and description, or at the end.
void add_lines(std::vector<BillLine>& sum, const std::vector<BillLine>& more, double times);
/// Sealant, rod and cover plates of all joints.
std::vector<BillLine> joint_lines(const Project& project, const Bridge& bridge, const Deck& deck);

/// The project's material for a part, or nullptr.
const MaterialData* material_of(const DeckData& data, const std::string& part);

}  // namespace deckquire
