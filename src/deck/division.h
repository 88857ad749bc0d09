// What the division of one span begins with. Used inside deck/ only.
#pragma once

#include <vector>

#include "deck/deck.h"

namespace deckquire {

/// Lengths along the alignment; skews in rad.
struct SpanFrame {
  Length gap;                          // between two panels
  Length end_gap_back, end_gap_ahead;  // the part of the end gaps inside the span
  Length whole_back, whole_ahead;      // the end gaps themselves
  double skew_from = 0, skew_to = 0;   // of the end joints
};

/// Of every span; empty where the spans contradict the bridge or one another.
std::vector<SpanFrame> span_frames(const Project& project, Findings& findings);

/// So many equal panels in whole print units, the last one taking what is left; empty where they do
/// not fit. `length`: of the whole span.
std::vector<Length> equal_lengths(const Project& project, const SpanFrame& frame, Length length,
                                  std::int64_t count, std::optional<Length> longest);

}  // namespace deckquire
