// How long a rail beside the edge of the deck is between two stations. Used inside deck/ only.
#pragma once

#include "deck/deck.h"

namespace deckquire {

/// The rail of one side; of two sides in line whichever is longer at each place, so that what is
/// measured is enough for both. A step of the width counts for nothing.
class RailLine {
 public:
  /// `inset`: how far inside the edge it stands, mm.
  RailLine(const Bridge& bridge, const std::vector<Side>& sides, Length from, Length to,
           double inset = 0);
  /// From the beginning to a station, mm; beyond the ends the last rate goes on.
  double distance(Length station) const;
  double length(Length a, Length b) const { return distance(b) - distance(a); }
  Length station(double distance) const;
  /// Greatest length of rail to a length of alignment between two stations; 1 exactly where the
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

/// From the edge to the middle of a post: it stands in the middle of the curb's top, mm.
double post_inset(const CurbData& curb);

/// Signed offset of the deck's edge.
Length edge_offset(const Bridge& bridge, Side side, Length station, bool ahead = true);

}  // namespace deckquire
