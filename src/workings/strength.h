// The workings of the strength group that have files of their own.
#pragma once

#include "workings/reckoner.h"

namespace deckquire::workings {

WorkingKind panel_strip_kind();
WorkingKind sandwich_stiffness_kind();
WorkingKind sandwich_strength_kind();
WorkingKind hold_down_kind();

}  // namespace deckquire::workings
