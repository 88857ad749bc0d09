// Labels and travellers: what goes with one physical panel through shop, yard and site.
#pragma once

#include <string>
#include <vector>

#include "sheets/set.h"
#include "sheets/shop_paper.h"

namespace deckquire::sheets {

/// Everything that a label says of a panel, in words.
struct TagWords {
  std::string serial, mark, position, mass, sheet, revision, turned;
};
TagWords tag_words(const SetInput& input, const SetPlan& plan, int panel);

/// What the code on a tag reads: the serial alone, so that it is found in every list.
std::string tag_code(const Panel& panel);

/// Labels of all panels in the order of setting, eight on a page: A7 on A4 (ISO 216), an eighth of the
/// page on others.
std::vector<paper::Sheet> tag_sheets(const SetInput& input, const SetPlan& plan, const ShopPage& page);

/// One label by itself, as large as one of those.
paper::Sheet tag_sheet(const SetInput& input, const SetPlan& plan, int panel, const ShopPage& page);

}  // namespace deckquire::sheets
