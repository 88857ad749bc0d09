#include "schedules/schedules.h"

#include "schedules/as_built.h"
#include "schedules/field.h"
#include "schedules/parts.h"
#include "schedules/picks.h"
#include "schedules/setting_order.h"

namespace deckquire {

std::string panel_sheet_number(int mark) {
  return "P" + padded(mark + 1, 2);
}

std::vector<Table> make_schedules(const Project& project, const Bridge& bridge, const Deck& deck,
                                  const history::Register* issued) {
  std::vector<Table> tables;
  tables.push_back(marks_table(project, deck));
  tables.push_back(panels_table(bridge, deck));
  tables.push_back(spans_table(bridge, deck));
  tables.push_back(materials_table(project, bridge, deck));
  tables.push_back(posts_table(project, bridge, deck));
  tables.push_back(scuppers_table(project, deck));
  if (Table t = recesses_table(project, bridge, deck); !t.rows.empty()) tables.push_back(std::move(t));
  tables.push_back(joints_table(project, bridge, deck));
  if (!deck.row_joints.empty()) tables.push_back(row_joints_table(project, bridge, deck));
  if (!bridge.alignment.straight()) {
    tables.push_back(alignment_table(bridge));
    if (Table t = curves_table(bridge); !t.rows.empty()) tables.push_back(std::move(t));
  }
  if (Table t = vertical_curves_table(bridge); !t.rows.empty()) tables.push_back(std::move(t));
  tables.push_back(setting_out_table(project, bridge, deck));
  tables.push_back(corners_table(bridge, deck));
  tables.push_back(diagonals_table(bridge, deck));
  tables.push_back(ties_table(bridge, deck));
  if (issued != nullptr)
    if (const auto runs = measured_runs(project, deck, *issued); !runs.empty()) {
      tables.push_back(as_built_table(project, deck, runs));
      tables.push_back(closure_table(deck, runs));
    }
  tables.push_back(sequence_table(project, deck));
  tables.push_back(picks_table(project, bridge, deck));
  tables.push_back(holes_table(deck));
  for (FieldTable& f : field_tables(project, bridge, deck)) tables.push_back(std::move(f.table));
  return tables;
}

const char* side_name(Side side) {
  return side == Side::left ? "left" : "right";
}

const char* joint_name(JointKind kind) {
  switch (kind) {
    case JointKind::open:
      return "open";
    case JointKind::sealed:
      return "sealed";
    case JointKind::lapped:
      return "lapped";
  }
  return "";
}

}  // namespace deckquire
