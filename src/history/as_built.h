// A panel that is accepted as it was built. Used inside history/ only.
#pragma once

#include "history/issued_marks.h"

namespace deckquire::history {

/// Gives the panel of the design the shape in which it was built, with the design's names where a
/// thing of the design answers to one that is built; `panel.wanted` gets what the design asks for.
/// Returns why that cannot be, or nothing.
std::string put_as_built(Panel& panel, const IssuedPosition& old, const PanelShape& built,
                         const Project& project, const IssuedMarks& marks);

}  // namespace deckquire::history
