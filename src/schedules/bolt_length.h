// How long a bolt is that holds a plate down in a threaded insert with a bottom.
#pragma once

#include <optional>

#include "base/units.h"

namespace deckquire {

/// Over all, its head flush with the plate: the standard length nearest to grip + 1.5 diameters that has
/// at least one diameter of thread in the insert and does not reach its bottom ("full thread at least 1 d,
/// never bottoming in a blind hole": common practice, no source). Of two as near the shorter; nothing
/// where no standard length lies between. Lengths: ISO 888:2012 (from memory) 10, 12, 16, 20 mm, by 5 to
/// 70, by 10 to 200; inch bolts by quarters of an inch (common practice, no source).
std::optional<Length> bolt_length(Length grip, Length diameter, Length insert_depth, bool inch);

}  // namespace deckquire
