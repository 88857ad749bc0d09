// What the plan and the profile of the whole bridge share. Internal to overview*.cpp.
#pragma once

#include <string>
#include <vector>

#include "paper/board.h"
#include "sheets/key_plan.h"
#include "sheets/plan.h"

namespace deckquire::sheets {

/// The heights that the two views share, and the horizontal mapping of both.
struct Overview {
  const SetInput& input;
  const SetPlan& plan;
  paper::PaperBox box;
  int ratio = 200;
  PlanFrame frame;
  Reach reach;
  double x(Length station) const { return frame({station.in_mm(), 0}).x; }
};

/// Joints so near to each other on paper that they would run together are left out, but for those
/// at the ends of spans.
std::vector<const Joint*> shown_joints(const Overview& o);

/// One bracket over the plan: a strip, or all strips of a sheet where strips are too short.
struct SheetPart {
  Length from, to;
  std::string sheet;
  const Joint* back = nullptr;  // where it begins
};
std::vector<SheetPart> sheet_parts(const paper::Board& board, const Overview& o);

/// The bar of the overview's scale at the right end of the line of a title that stands at y.
void overview_bar(paper::Board& board, const Overview& o, double y);

/// The plan of a bridge that bends, in its true shape; returns the y below it.
double draw_bent_plan(paper::Board& board, const Overview& o, double top);

}  // namespace deckquire::sheets
