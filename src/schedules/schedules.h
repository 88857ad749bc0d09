// Deck -> tables of facts.
#pragma once

#include "deck/deck.h"
#include "history/register.h"
#include "schedules/table.h"

namespace deckquire {

/// Number of the P sheet of a mark: "P01" for the first mark. One sheet a mark.
std::string panel_sheet_number(int mark);

/// Every schedule, in the order of the T sheets: marks, panels, materials, posts, scuppers, recesses,
/// joints, setting-out, check distances, as-built and closure where `issued` has measured sizes, sequence,
/// picks, holes and field-... (CSV only). Columns of `panels` and `marks` begin with those that design.md section 9 fixes.
std::vector<Table> make_schedules(const Project& project, const Bridge& bridge, const Deck& deck,
                                  const history::Register* issued = nullptr);

/// Length of a joint from deck edge to deck edge, along its own line; of a row joint along the
/// straight edges of its panels.
Length joint_length(const Bridge& bridge, const Deck& deck, const Joint& joint);
Length joint_length(const Bridge& bridge, const Deck& deck, const RowJoint& joint);

/// The bill of materials of one mark: item, unit, quantity for one, quantity for all, remark.
Table bill_of_materials(const Project& project, const Deck& deck, int mark);

}  // namespace deckquire
