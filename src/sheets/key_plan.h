// The whole bridge in plan at a small scale: what key plan and cover share.
#pragma once

#include <vector>

#include "paper/board.h"
#include "sheets/set.h"

namespace deckquire::sheets {

/// Deck outline in the bridge frame from one station to another, counter-clockwise.
Ring<BridgeFrame> deck_outline(const Bridge& bridge, Length from, Length to);

/// Greatest distances of the edges from the alignment, mm.
struct Reach {
  double left = 0, right = 0;
};
Reach deck_reach(const Bridge& bridge);

/// Bridge to paper with a scale along and another across; drawn as "not to scale" when they differ.
struct PlanFrame {
  double x = 0, y = 0;           // paper point of station `from` on the alignment
  double from = 0;               // mm
  double along = 1, across = 1;  // paper mm by model mm
  paper::PaperPoint operator()(BridgePoint p) const {
    return {x + (p.x - from) * along, y + p.y * across};
  }
  std::vector<paper::PaperPoint> operator()(const Ring<BridgeFrame>& ring) const;
};

/// Direction of north on paper when stations run to the right, radians from +x.
double north_on_paper(const Bridge& bridge);

/// Names at given x in one or two rows below y, so that none overlap; returns the y below.
struct PlacedName {
  double x = 0;
  std::string text;
};
double names_below(paper::Board& board, paper::LetterUse use, double y,
                   const std::vector<PlacedName>& names, const paper::PaperBox& within);

}  // namespace deckquire::sheets
