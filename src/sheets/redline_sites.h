// Where on a sheet the things are that redlines are about. Inside this folder only.
#pragma once

#include <vector>

#include "deck/objects.h"
#include "sheets/plan.h"

namespace deckquire::sheets {

/// True where an E or P sheet draws it: panels on both, the mark's own sheet for a mark, joints,
/// girders and supports on E sheets.
bool shows_object(const SetInput& input, const SetPlan& plan, const SheetPlan& sheet,
                  const Object& object);

/// Points that a leader may end at: on a feature, on the outline of a panel, beside its name. None
/// where the sheet has no place for it.
std::vector<paper::PaperPoint> redline_sites(const paper::Sheet& sheet, const SetInput& input,
                                             const SheetPlan& own, const Object& object);

}  // namespace deckquire::sheets
