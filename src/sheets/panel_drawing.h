// How a panel is drawn: shared by erection plans, panel sheets and details.
#pragma once

#include <string>
#include <utility>
#include <vector>

#include "deck/datum.h"
#include "paper/view.h"

namespace deckquire::sheets {

/// The cut faces of a panel across the deck at x, looking ahead: section x = -y (left is left on
/// paper), section y = z above the soffit, mm. Recesses, scupper cavities, hatch seats, drip
/// grooves and openings at that x are cut out, so there may be several pieces. Rings are
/// counter-clockwise; skins and core together cover the body exactly.
struct PanelSection {
  std::vector<Ring<SectionFrame>> body;   // the panel without its curbs
  std::vector<Ring<SectionFrame>> skins;  // top, bottom, edge laminate and linings of hollows
  std::vector<Ring<SectionFrame>> core;
  std::vector<Ring<SectionFrame>> curbs;
  std::vector<Ring<SectionFrame>> surface;  // wearing surface between the curbs
  std::vector<Ring<SectionFrame>> steel;    // post plates and inserts that x meets
  std::vector<Ring<SectionFrame>> pads;     // bearing pads under the soffit
};
PanelSection cut_across(const PanelShape& shape, const DeckData& deck, double x);

/// The corners of a panel before notches: where its end faces meet its edges.
struct Corners {
  PanelPoint back_right, ahead_right, ahead_left, back_left;
};
Corners corners_of(const PanelShape& shape);

/// The foot of a curb's inner face from back to ahead.
std::vector<PanelPoint> inner_foot(const CurbRun& run);

/// The part of a ring between the panel's end faces.
Ring<PanelFrame> between_faces(const PanelShape& shape, const Ring<PanelFrame>& ring);

/// x of the typical section: clear of features, near the middle.
double typical_cut(const PanelShape& shape);

/// Level of a curb's top above the soffit at x; the curb's foot is [inner, outer] across.
struct CurbCut {
  Side side{};
  double inner = 0, outer = 0;  // y of the inner and outer face at the foot
  double top = 0;               // above the soffit
  double lean = 0;              // y of the inner face at the top less y at the foot
};
std::vector<CurbCut> curbs_at(const PanelShape& shape, const DeckData& deck, double x);

/// The cut along the back or ahead end face, seen square to it: as cut_across, widths true along
/// the face.
PanelSection cut_along_face(const PanelShape& shape, const DeckData& deck, bool back);

/// Intervals of y inside a ring on the line x = const, rising.
std::vector<std::pair<double, double>> across(const Ring<PanelFrame>& ring, double x);

/// Draws a section with hatches by material and cut outlines.
void draw_section(paper::Board& board, const paper::View<SectionFrame>& view,
                  const PanelSection& section);

/// How much of a feature is drawn.
enum class Detailing { symbol, full };

/// A feature in plan, seen from above (features of the soffit hidden) or from below. `view` maps
/// the panel frame. `within`: a hollow that an end face cuts is drawn up to the face. Opens a group
/// of kind "feature" with the given id (none when empty) and the feature's name as its title. Pads
/// and tags show from below only, lifting inserts from above only.
void draw_feature(paper::Board& board, const paper::View<PanelFrame>& view, const Feature& feature,
                  const DeckData& deck, bool from_above, Detailing detailing, const std::string& id,
                  const PanelShape* within = nullptr);

/// A quartered circle.
void gravity_symbol(paper::Board& board, paper::PaperPoint centre, double radius);

/// Outline, curbs, crown line of a panel in plan.
void draw_outline(paper::Board& board, const paper::View<PanelFrame>& view, const PanelShape& shape,
                  bool from_above);

}  // namespace deckquire::sheets
