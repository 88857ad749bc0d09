// A page that goes with one panel from the mould to its place: what it must be, room for what it is.
#pragma once

#include <string>
#include <vector>

#include "sheets/set.h"
#include "sheets/shop_paper.h"

namespace deckquire::sheets {

/// A dimension to measure on the finished panel.
struct KeyDimension {
  std::string letter;  // on the small plan
  std::string what;    // "left edge"
  double nominal = 0;  // mm
  std::string tolerance_of;  // whose tolerance of the project counts: "length", "width" ...
};
/// Edges, ends, diagonals of the outline as if no notch were cut, thickness at the high line; of a
/// panel as its mark's sheet draws it.
std::vector<KeyDimension> key_dimensions(const PanelShape& shape);

/// One step of making and inspecting, in order.
struct InspectionStep {
  std::string point;  // "inserts in the mould"
  std::string what;   // "8 post plates, 4 lifting inserts, 4 hold-down inserts"
};
std::vector<InspectionStep> inspection_steps(const SetInput& input, const Mark& mark);

/// One page a serial, in the order of setting.
std::vector<paper::Sheet> traveller_sheets(const SetInput& input, const SetPlan& plan, const ShopPage& page);

}  // namespace deckquire::sheets
