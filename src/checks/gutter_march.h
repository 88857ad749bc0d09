// Down a gutter from its high points: flow, spread, and what every scupper catches. SI: metres,
// m3/s.
#pragma once

#include <vector>

#include "deck/gutter_line.h"

namespace deckquire {

/// A scupper of the gutter while it rains.
struct Inlet {
  int place = 0;  // index into Deck::scuppers
  double station = 0;
  double Q = 0;          // arrives
  double caught = 0;     // the rest goes on
  double SL = 0, T = 0;  // grade of the gutter above it, and uniform spread there
  bool sag = false;      // catches what comes to a low point; then
  double rise = 0;       // its gutter above the low point, and
  double depth = 0;      // depth of water at the curb, at the low point
};

/// A place of the gutter between its scuppers.
struct GutterStation {
  double station = 0;
  double Q = 0, T = 0, SL = 0;
  bool uniform = true;  // T is that of uniform flow; else the water's own slope counts
};

/// A low point of the gutter that no scupper empties.
struct BlindSag {
  double station = 0, Q = 0;
};

struct GutterMarch {
  std::vector<GutterStation> stations;  // along the bridge, run by run
  std::vector<Inlet> inlets;            // by station
  std::vector<BlindSag> blind;
  double rain = 0, caught = 0;         // of the whole gutter
  double end_back = 0, end_ahead = 0;  // reaches the ends of the deck
  double standing = 0;                 // at blind low points
  GutterStation worst;                 // greatest spread
  double longest = 0;                  // from a high point to the first scupper or the low end
  double seconds = 0;  // least time from a high point to the first scupper or low end
};

/// One scupper: where it stands, and its index.
struct InletPlace {
  double station = 0;
  int place = 0;
};

/// Uniform flow where the gutter falls by 0.3 % and more, but no lower than a pool that backs up
/// from below; where it is flatter the water's surface is followed upstream (backwater_spread). On
/// a grade a scupper catches what its grate does; those at a low point (within a quarter of the
/// allowed depth, else the nearest below the curb's top) catch all, at one level (weir or orifice).
/// On a level deck each scupper takes the water from half-way to its neighbours. Scuppers need the
/// grate of `water`, those at low points its opening.
GutterMarch march(const GutterLine& gutter, const GutterWater& water, const Alignment& alignment,
                  const std::vector<InletPlace>& scuppers);

/// Length from the high point of a run at which the allowed spread is reached if no scupper stands
/// on it; beyond the run its low end goes on. Needs the allowed spread.
double carrying_length(const GutterLine& gutter, const GutterWater& water, double high, double low);

}  // namespace deckquire
