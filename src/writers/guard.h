// The last gate before a sheet leaves: what would make a broken or silently wrong file is refused.
#pragma once

#include "paper/sheet.h"
#include "writers/writers.h"

namespace deckquire::writers {

/// Throws std::runtime_error, naming sheet and item, for a coordinate that is not finite or far off
/// the paper, a pen out of range or unusable, unclean text, or groups that do not close; and for a
/// document without six inks "#rrggbb". A sheet without paper::faults() passes.
void guard(const paper::Sheet& sheet, const DocumentInfo& info);

}  // namespace deckquire::writers
