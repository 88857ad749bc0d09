// What was measured on the steel, thing by thing.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "bridge/bridge.h"

namespace deckquire {

/// All measurements of one thing; of a girder: at one station.
struct MeasuredSteel {
  MeasuredThing of = MeasuredThing::splice;
  int index = 0;  // into the bridge's splices, girders, supports or obstructions
  /// Each as it was measured last; none: never.
  std::optional<Length> station, offset, level, length, width, projection, diameter;
  std::string by, date;  // of the last
  Place place;           // of the last
};

/// In the order of the file by their first lines. Errors: a name that the bridge has not
/// (`measured-unknown`) or has more than once (`measured-which`), a girder measured nobody knows where
/// (`measured-where`), the same thing twice on one day (`measured-twice`); such a line is left out.
std::vector<MeasuredSteel> measured_steel(const Project& project, const Bridge& bridge,
                                          Findings& findings);

/// "splice", "girder" ...: the word of the project file.
const char* measured_word(MeasuredThing of);
/// Its name on the drawings.
const std::string& measured_name(const Bridge& bridge, const MeasuredSteel& measured);

}  // namespace deckquire
