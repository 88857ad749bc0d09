// How long the edge of the deck is between two stations. Used inside deck/ only.
#pragma once

#include "deck/deck.h"

namespace deckquire {

/// The edge of one side; of two sides in line whichever is longer at each place, so that what is
/// measured is enough for both. A step of the width counts for nothing.
class RailLine {
 public:
  RailLine(const Bridge& bridge, const std::vector<Side>& sides, Length from, Length to);
  /// From the beginning to a station, mm; beyond the ends the last rate goes on.
  double distance(Length station) const;
  double length(Length a, Length b) const { return distance(b) - distance(a); }
  Length station(double distance) const;
  /// Greatest length of edge to a length of alignment between two stations; 1 exactly where the
  /// bridge is straight and as wide throughout.
  double stretch(Length a, Length b) const;

 private:
  struct Knot {
    Length station;
    double distance, rate;  // rate: from here to the next one
  };
  std::size_t segment(Length station) const;
  std::vector<Knot> knots_;
};

/// Signed offset of the deck's edge.
Length edge_offset(const Bridge& bridge, Side side, Length station, bool ahead = true);

}  // namespace deckquire
