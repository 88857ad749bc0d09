// The workings of the lifting group that have files of their own.
#pragma once

#include "workings/reckoner.h"

namespace deckquire::workings {

constexpr double standard_gravity = 9.80665;  // m/s2

WorkingKind panel_mass_kind();
WorkingKind plan_centroid_kind();

}  // namespace deckquire::workings
