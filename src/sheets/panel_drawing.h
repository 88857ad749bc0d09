// How a panel is drawn: shared by erection plans, panel sheets and details.
#pragma once

#include "deck/deck.h"
#include "paper/view.h"

namespace deckquire::sheets {

/// The cut faces of a panel across the deck at x, looking ahead: section x = -y (left is left on
/// paper), section y = z above the soffit, mm. Recesses and openings at that x are cut out.
struct PanelSection {
  Ring<SectionFrame> body;                     // whole structural outline, recesses cut out
  std::vector<Ring<SectionFrame>> skins;       // top, bottom and edge laminate
  std::vector<Ring<SectionFrame>> core;
  std::vector<Ring<SectionFrame>> curbs;
  std::vector<Ring<SectionFrame>> surface;     // wearing surface between the curbs
};
PanelSection cut_across(const PanelShape& shape, const DeckData& deck, double x);

/// Draws a section with hatches by material and cut outlines.
void draw_section(paper::Board& board, const paper::View<SectionFrame>& view,
                  const PanelSection& section);

/// How much of a feature is drawn.
enum class Detailing { symbol, full };

/// A feature in plan, seen from above (features of the soffit hidden) or from below. `view` maps the
/// panel frame. Opens a group of kind "feature" with the given id prefix.
void draw_feature(paper::Board& board, const paper::View<PanelFrame>& view, const Feature& feature,
                  const DeckData& deck, bool from_above, Detailing detailing,
                  const std::string& id);

/// Outline, curbs, crown line of a panel in plan.
void draw_outline(paper::Board& board, const paper::View<PanelFrame>& view,
                  const PanelShape& shape, bool from_above);

}  // namespace deckquire::sheets
