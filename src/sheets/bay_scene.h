// A typical bay in space: panels on their girders, the next ones lifted off, for the erector.
#pragma once

#include <memory>
#include <string>
#include <utility>
#include <vector>

#include "paper/board.h"
#include "sheets/set.h"
#include "sheets/solid.h"

namespace deckquire::sheets {

/// A panel of the picture: the middle of its top.
struct BayPanel {
  std::string position;
  PicturePoint at;
};

/// A girder of the picture: the foot of its cut end.
struct BayGirder {
  std::string name;
  PicturePoint at;
};

/// Seen from above in isometric projection, hidden lines removed; model mm.
struct BayScene {
  std::vector<PictureLine> lines;
  PicturePoint low, high;  // extent of the lines
  std::vector<BayPanel> seated, lifted;
  std::vector<BayGirder> girders;
  std::vector<std::pair<PicturePoint, PicturePoint>> water;  // down the falls of seated panels
  PicturePoint ahead_from, ahead_to;  // along the right edge of what is seated
  std::vector<std::string> left_out;  // of the panels' things, in words
};

/// Of two bays one after the other in one span, both on a straight stretch where there is one, the
/// first with the most frequent marks. nullptr where no two bays follow each other or there are no
/// girders. The panels are those of the deck; girders are drawn as flange and beginning of the web,
/// cut off below: they are by others.
std::shared_ptr<const BayScene> typical_bay(const SetInput& input);

/// Draws it as wide as the column, but not wider than is of use, or as small as it can be read; its
/// title and note under it. Returns the y below.
double draw_bay(paper::Board& board, const paper::PaperBox& column, double top,
                const BayScene& scene, bool small);

}  // namespace deckquire::sheets
