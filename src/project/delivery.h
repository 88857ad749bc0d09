// How panels travel and in which order they are set. Part of project.h.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "base/findings.h"
#include "base/units.h"

namespace deckquire {

/// Axles of a semitrailer, as its owner states them; what a code allows them is a project value too.
struct AxlesData {
  Mass steer, drive, trailer;  // empty, on each group of axles
  Length wheelbase;            // steer axle to the middle of the drive axles
  Length fifth_wheel;          // ahead of the middle of the drive axles
  Length kingpin;              // kingpin to the middle of the trailer's axles
  Length bed_ahead;            // front end of the bed ahead of the kingpin
  std::optional<Mass> steer_limit, drive_limit, trailer_limit, gross_limit;
  Place place;
};

struct TruckData {
  std::string name;
  Length length, width;               // of the bed
  std::optional<Length> height;       // of the load above the bed
  std::optional<Mass> payload;
  std::optional<int> panels;          // most on one truck
  Length dunnage;                     // height of the bearers under each panel
  Length between;                     // stacks along the bed
  Length overhang;                    // of a panel beyond the one below, both ends together
  std::string source;                 // of the limits
  std::optional<AxlesData> axles;
  Place place;
};

/// The second of two panels waits for the first.
struct WaitData {
  int panel = 0, needs = 0;  // positions
  Place place;
};

/// What comes next in a given order.
struct NextData {
  std::optional<int> panel;  // position, or
  std::string span;          // all of a span that is not named before
  Place place;
};

/// A position that cannot be set with the others: it comes last.
struct BlockedData {
  int panel = 0;  // position
  std::string why;
  Place place;
};

/// What a crane takes at a radius, as its owner's chart says.
struct ReachData {
  Length radius;
  Mass mass;
  Place place;
};

struct CraneData {
  std::string name;
  Length station, offset;       // of its slewing axis
  std::vector<ReachData> chart;  // by growing radius
  Mass tackle;                  // hook block and slings, on top of the panel
  std::string source;           // of the chart
  Place place;
};

enum class ErectionWay { from_start, from_end, both_ends, given };

struct ErectionData {
  ErectionWay way = ErectionWay::from_start;
  std::vector<NextData> nexts;  // with `given`; what is not named follows from the start
  std::vector<WaitData> waits;
  std::vector<BlockedData> blocked;
  std::vector<CraneData> cranes;
  Place place;
};

enum class Fastener { hold_down, grate, hatch_cover, rail_post };

/// What the engineer or supplier says that a bolt is tightened to.
struct TorqueData {
  Fastener of = Fastener::hold_down;
  double newton_metres = 0;
  std::string source;
  Place place;
};

/// What is ordered beyond the net quantity.
struct AllowanceData {
  std::string on;     // "bolts", see the vocabulary
  double ratio = 0;   // of the net quantity
  int least = 0;      // pieces, where the item is counted
  std::string source;
  Place place;
};

}  // namespace deckquire
