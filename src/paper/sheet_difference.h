// What differs between two issues of one sheet, as it is drawn.
#pragma once

#include <string>
#include <vector>

#include "paper/sheet.h"

namespace deckquire::paper {

/// Kind of the groups that name the revision (fields of the title block, revision block, how many
/// sheets there are): they are never compared, nor is the layer of revisions.
inline constexpr const char* revision_group = "revision";

/// dump() less what is never compared and the sheet's own revision letter. Sheets with the same
/// text are drawn the same, so a fingerprint is made of it.
std::string compared_text(const Sheet& sheet);

/// Two sheets laid over one another. Strokes are taken apart into their straight pieces and curves;
/// of level and upright lines drawn with one pen just the parts that only one sheet has are counted
/// as changed. Rounded to 0.01 mm, as dump() does; the order of drawing and groups do not matter.
struct SheetDifference {
  std::vector<Item> same, come;  // pens: those of the sheet now
  std::vector<Item> gone;        // pens: those of the sheet before
};
SheetDifference difference(const Sheet& before, const Sheet& now);

/// The box of a stroke, a fill or a text; of anything else one at the origin.
PaperBox box_of(const Item& item);

/// Boxes around everything that one of the sheets draws and the other does not: near ones joined,
/// parted again where a single box would ring mostly what is unchanged. From the top, then from the
/// left. Empty when the two are drawn the same; never empty when a stroke, fill or letter differs.
std::vector<PaperBox> changed_spots(const Sheet& before, const Sheet& now);

}  // namespace deckquire::paper
