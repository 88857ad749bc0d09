// A maintenance vehicle across a panel. Used inside checks/ only.
#pragma once

#include "checks/strip_cases.h"

namespace deckquire {

/// Every place of the axle's wheels on the strip that is tried: between the curbs in even steps,
/// and over and beside each girder and in the middle of each span; one wheel alone only where the
/// other stands beyond a row joint. Empty where the axle has no room.
std::vector<std::vector<workings::StripLoad>> axle_places(const PanelStrip& strip,
                                                          const VehicleData& vehicle,
                                                          double factor);

/// The strip with the wheels there: as wide as the vehicle's effective length, but not wider than
/// the panel is long.
StripCase wheel_case(const PanelStrip& strip, Ask ask, const VehicleData& vehicle,
                     double dead_factor, double factor, std::vector<workings::StripLoad> wheels);

}  // namespace deckquire
