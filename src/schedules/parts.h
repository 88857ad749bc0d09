// The tables one by one, and what they share. Inside this folder and its tests only.
#pragma once

#include "deck/deck.h"
#include "schedules/bill.h"
#include "schedules/table.h"

namespace deckquire {

Table marks_table(const Project& project, const Deck& deck);
Table panels_table(const Bridge& bridge, const Deck& deck);
Table spans_table(const Bridge& bridge, const Deck& deck);
Table materials_table(const Project& project, const Bridge& bridge, const Deck& deck);
/// A row an item, a column a span: on a sheet where its columns have room there.
Table materials_by_span_table(const Project& project, const Bridge& bridge, const Deck& deck);
Table materials_by_mark_table(const Project& project, const Deck& deck);
Table materials_by_panel_table(const Project& project, const Deck& deck);
/// What to order for the whole job: the net quantity and the project's allowances.
Table orders_table(const Project& project, const Bridge& bridge, const Deck& deck);
Table posts_table(const Project& project, const Deck& deck);
Table scuppers_table(const Project& project, const Deck& deck);
Table joints_table(const Project& project, const Bridge& bridge, const Deck& deck);
Table row_joints_table(const Project& project, const Bridge& bridge, const Deck& deck);
Table setting_out_table(const Project& project, const Bridge& bridge, const Deck& deck);
Table corners_table(const Bridge& bridge, const Deck& deck);
Table diagonals_table(const Bridge& bridge, const Deck& deck);
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

}  // namespace deckquire
