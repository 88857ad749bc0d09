// How the erection plan is cut into strips and how a strip is stacked, before anything is drawn.
#pragma once

#include <vector>

#include "sheets/plan.h"

namespace deckquire::sheets {

/// The rows of one strip as distances below its top, and what it needs beside its panels; paper mm.
struct StripFrame {
  double left = 0;      // left of the first joint: captions, offsets, part of the neighbour
  double right = 0;     // right of the last joint
  double tail = 0;      // how much of the neighbouring panel is repeated
  double skew = 0;      // how far joint lines reach beyond their own stations
  bool upright = true;  // joint labels and levels are not turned
  double profile_top = 0, profile_bottom = 0;
  double deck_level = 0, girder_level = 0;  // lower ends of the two rows of levels
  double joint_top = 0, joint_bar = 0;      // joint labels: top, and the bar under them
  double deck_top = 0, deck_bottom = 0;     // greatest left and right edges
  double supports = 0;                      // base line of the support labels
  double edge_rows = 0;                     // top of the three rows of edge offsets
  double panels = 0, gaps = 0;              // chain of panels, base line of the gaps under it
  double spans = 0, overall = 0;            // the next two chains
  double elements = 0;                      // line of the alignment's elements; overall: none
  double title = 0;                         // base line of the strip's title
  double height = 0;
};

/// Air between the right end of a strip and the typical section, paper mm.
constexpr double beside_strip = 6;

/// Stack of a strip at that scale. `profile` is the height of the level grid.
/// `strip`: with the edges of that strip; none: with the greatest edges of the deck.
StripFrame strip_frame(const SetInput& input, int ratio, double profile,
                       const Strip* strip = nullptr);

/// "L1, 1100 left": its offset from the alignment.
std::string row_joint_label(const RowJoint& joint, UnitSystem units);

LevelRange level_range(const SetInput& input, Length from, Length to);

/// Strips, their scale and the height kept for each.
struct ErectionLayout {
  int ratio = 50;
  int rows = 1;  // strips on a full sheet
  double strip_height = 0;
  std::vector<Strip> strips;
};

/// The largest scale that needs no more sheets than the trade's 1:50 (or the next smaller that lets
/// two strips on a sheet); the project's own scale if it states one. Fewest strips, cut at joints
/// only; the last strip leaves room for the typical section at its right unless a row is free.
ErectionLayout lay_out_erection(const SetInput& input);

/// Width and height that the typical section needs at `ratio`, dimensions included.
paper::PaperPoint section_room(const SetInput& input, int ratio);

/// Scale of the typical section on the E sheets.
int section_ratio(const SetInput& input, double room);

}  // namespace deckquire::sheets
