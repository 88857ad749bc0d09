// Layers: which part of a drawing an item belongs to, found from what it was drawn with.
#pragma once

#include <string>
#include <vector>

#include "paper/style.h"

namespace deckquire::paper {

/// A layer and what lies on it. Every purpose of pens and of letters stands in exactly one row.
struct LayerRow {
  Layer layer;
  const char* name;
  std::vector<PenUse> pens;
  std::vector<LetterUse> letters;
  std::vector<const char*> groups;  // kinds of groups that lie on it whole
  const char* meaning;
};
const std::vector<LayerRow>& layer_rows();  // by Layer

const char* name_of(Layer layer);
Layer layer_of(PenUse use);
Layer layer_of(LetterUse use);

/// The layer of every item of the sheet, one an item. Clouds of revisions are on theirs wherever
/// they are drawn. All else lies on the layer of the innermost group of a kind in the table;
/// outside such groups strokes go by their pen, letters by their use, a white fill with what is
/// drawn next and any other fill with what was drawn before it. A group that is on a layer whole
/// has it in its GroupStart and GroupEnd too; `whole` tells those groups from others, one an item.
struct SheetLayers {
  std::vector<Layer> of;
  std::vector<bool> whole;
};
SheetLayers layers_of(const Sheet& sheet);

/// The sheet without what names its revision (Sheet::revision_items) and without what lies on the
/// layer of revisions (clouds, deltas, redlines): two of these differ just where a revision changed
/// what is drawn. Its dump() is what a fingerprint is taken of.
Sheet without_revision(const Sheet& sheet);

}  // namespace deckquire::paper
