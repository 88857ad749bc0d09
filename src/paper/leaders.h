// Placing of labels beside a view: least squares along a line, leaders that do not cross. Pure
// arithmetic, nothing is drawn here.
#pragma once

#include <vector>

#include "paper/callout.h"

namespace deckquire::paper {

/// A column of labels: leaders end at `x`, labels lie between low and high.
struct LabelColumn {
  double x = 0, low = 0, high = 0;
};

/// Centre along the column of each site's label (in the order of the sites), so that no labels
/// overlap and no two straight leaders from site to (x, centre) cross. Starts from spread() in the
/// order of the sites; crossing pairs exchange places, which shortens the leaders every time, so it
/// ends (Bekos et al. 2007 for the boundary labelling; exchange argument: triangle inequality).
std::vector<double> place_along(const std::vector<PaperPoint>& sites,
                                const std::vector<double>& sizes, const LabelColumn& column);

/// True where two segments share an inner point of both.
bool segments_cross(PaperPoint a, PaperPoint b, PaperPoint c, PaperPoint d);

/// How many labels, from the front of a list ordered across the view, go to its first side so that
/// the sum of squared moves on both sides is least within the room there is.
struct SideSplit {
  std::size_t count = 0;
  double cost = 0;
};
SideSplit split_sides(const std::vector<double>& ideals, const std::vector<double>& sizes,
                      double low, double high);

}  // namespace deckquire::paper
