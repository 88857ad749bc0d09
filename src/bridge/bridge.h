// Project -> Bridge: the steelwork and the deck edges as functions of the station.
#pragma once

#include <string>
#include <vector>

#include "base/findings.h"
#include "bridge/alignment.h"

namespace deckquire {

struct Support {
  std::string name;
  bool abutment = false;
  Length station;
};

struct Girder {
  std::string name;
  Length offset, flange, from, to;
  bool straight = false;  // from support to support, there at `offset`; else parallel
  Length left() const { return offset + flange / 2; }
  Length right() const { return offset - flange / 2; }
};

/// One splice on one girder.
struct Splice {
  std::string name;  // "G1-S2": girder and running number along it, or as given
  int girder = 0;    // index into Bridge::girders
  Length station, length, width, plate, projection, bolt;
  int rows = 0, lines = 0;
  Box<BridgeFrame> plan;  // of the plate; on a curve the stations and offsets that it reaches
  Place place;
};

struct Obstruction {
  std::string name, kind;
  Ring<BridgeFrame> outline;    // of the thing itself, as stations and offsets
  Ring<BridgeFrame> kept_free;  // with its clearance
  Length station, offset;
  std::optional<Length> diameter;   // when round
  Length length, width, clearance;  // when a box: along and across; kept free all round
  Place place;
};

/// Width law of the deck: points in the order of their stations.
class DeckEdges {
 public:
  DeckEdges() = default;
  explicit DeckEdges(std::vector<EdgeData> edges);
  /// Distance of the edge from the alignment (positive on its own side). At a step: `ahead` chooses
  /// the value on that side of it. Constant beyond the first and last.
  Length left(Length station, bool ahead = true) const;
  Length right(Length station, bool ahead = true) const;
  /// Stations where the law has a corner or a step, in order.
  const std::vector<Length>& breaks() const { return breaks_; }
  /// Stations of the steps alone.
  const std::vector<Length>& steps() const { return steps_; }
  const std::vector<EdgeData>& data() const { return edges_; }
  /// The greatest distances anywhere.
  Length most_left() const { return most_left_; }
  Length most_right() const { return most_right_; }

 private:
  std::vector<EdgeData> edges_;
  std::vector<Length> breaks_, steps_;
  Length most_left_, most_right_;
};

struct Bridge {
  Alignment alignment;
  std::vector<Support> supports;
  std::vector<Girder> girders;
  std::vector<Splice> splices;  // ordered by girder, then station
  std::vector<Obstruction> obstructions;
  DeckEdges edges;
};

/// Indices of the splices whose middles lie from `from` to `to`, both included; ascending.
std::vector<int> splices_between(const Bridge& bridge, Length from, Length to);

/// Offset (mm) of the middle of a girder's top flange at a station: constant, but for a straight
/// girder beside a curve. There it is where the line square to the alignment meets the chord
/// between the supports before and after (the girder's ends count as supports; the chords at its
/// ends go on beyond).
double girder_offset(const Bridge& bridge, const Girder& girder, double station);

/// Heading (rad, counter-clockwise from east) of that line at a station; at a kink, of what is
/// ahead.
double girder_heading(const Bridge& bridge, const Girder& girder, double station);

/// The middle of a girder's top flange from end to end: its kinks, and on a curve as many points as
/// keep the chord within 0.5 mm of it.
std::vector<GroundPoint> girder_line(const Bridge& bridge, const Girder& girder);

/// Splice::plan of a splice of which all else is known, and an obstruction as it lies: what
/// build_bridge() makes of the project, for others that are found elsewhere.
Box<BridgeFrame> splice_reach(const Bridge& bridge, const Splice& splice);
Obstruction lay_obstruction(const Bridge& bridge, const ObstructionData& data);

/// Corners of the splice plate: a rectangle, turned along the girder.
Ring<GroundFrame> splice_ring(const Bridge& bridge, const Splice& splice);

/// An obstruction, and what must be kept free: true to size, boxes square to the alignment at
/// their station.
Ring<GroundFrame> obstruction_ring(const Bridge& bridge, const Obstruction& obstruction);
Ring<GroundFrame> kept_free_ring(const Bridge& bridge, const Obstruction& obstruction);

/// Contradictions of the steelwork with itself (a splice outside its girder, supports out of order
/// or outside the bridge, edges out of order) go to `findings`.
Bridge build_bridge(const Project& project, Findings& findings);

}  // namespace deckquire
