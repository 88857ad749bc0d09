// Dimensions: chains that close, running dimensions, tiers.
#pragma once

#include <string>
#include <vector>

#include "base/text.h"
#include "paper/board.h"

namespace deckquire::paper {

/// One point that a chain stands on: where on paper along the chain, and the exact model distance
/// from the datum that it prints.
struct ChainPoint {
  double paper = 0;       // x for a horizontal chain, y for a vertical one
  Length model;           // cumulative
  double extension = 0;   // paper coordinate (across) where its extension line starts
  bool auxiliary = false;  // of running dimensions: its value in brackets
};

enum class Heading : std::uint8_t { horizontal, vertical };

struct ChainLine {
  Heading heading = Heading::horizontal;
  double across = 0;     // paper coordinate of the dimension line (y if horizontal)
  UnitSystem units = UnitSystem::metric;
  bool merge = true;     // equal neighbours as "6 @ 1500 = 9000"
  bool bracketed = false;  // auxiliary: values in brackets
  std::vector<std::string> labels;  // instead of the values; empty: the values
};

/// Draws a chain: model distances from its first point rounded to the print unit, each value the
/// difference of two of them, so that the values sum exactly to the rounded overall, wherever the
/// datum lies. Values too wide for their space are staggered outside. Figures are masked: lines
/// drawn before them break around them. Returns the printed values as whole print units.
std::vector<std::int64_t> chain(Board& board, const ChainLine& line,
                                const std::vector<ChainPoint>& points);

/// Pitch to the next tier beyond a chain some of whose values stand outside their spaces (such a row
/// does not fit between tiers at the style's common pitch).
double wide_pitch(const Board& board);

/// A single dimension between two points.
std::int64_t dimension(Board& board, const ChainLine& line, const ChainPoint& a,
                       const ChainPoint& b);

/// Running dimensions from the first point (0), values beside their extension lines. `continued`:
/// they go on from another sheet, the first point lies at its own distance and not at 0.
void running(Board& board, const ChainLine& line, const std::vector<ChainPoint>& points,
             bool continued = false);

/// "6 @ 1500 = 9000" groups for a list of values in print units: count, value.
struct EqualRun {
  int count = 1;
  std::int64_t value = 0;
};
std::vector<EqualRun> equal_runs(const std::vector<std::int64_t>& values);

}  // namespace deckquire::paper
