// A sheet as the fewest runs of items of one layer that look, one drawn after the other, like the
// sheet.
#pragma once

#include <vector>

#include "paper/layer.h"
#include "paper/sheet.h"

namespace deckquire::writers {

struct Pass {
  paper::Layer layer = paper::Layer::outlines;
  std::vector<const paper::Item*> items;  // strokes, fills and texts, in their order
};

/// Every item of the sheet is in one pass. Lines and letters may change places with each other; a
/// fill, or a text with its mask, stays above all that was drawn before it where it lies, and below
/// all that comes after. A pass a layer is usual; a layer comes again where one covers another
/// twice.
std::vector<Pass> passes_of(const paper::Sheet& sheet);

}  // namespace deckquire::writers
