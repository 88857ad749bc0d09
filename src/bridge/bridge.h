// Project -> Bridge: the steelwork and the deck edges as functions of the station.
#pragma once

#include <string>
#include <vector>

#include "base/findings.h"
#include "base/geometry.h"
#include "project/project.h"

namespace deckquire {

/// A point in the survey's system, metres.
struct SurveyPoint {
  double easting = 0, northing = 0, level = 0;
};

struct GroundFrame;  // x east, y north of the alignment's start point, mm
using GroundPoint = Point<GroundFrame>;

/// Reference line of the bridge: straight in plan, straight grades between grade points.
class Alignment {
 public:
  Alignment() = default;
  explicit Alignment(const AlignmentData& data) : data_(data) {}
  Length from() const { return data_.from; }
  Length to() const { return data_.to; }
  Angle bearing() const { return data_.bearing; }
  /// Level of the reference line; beyond the last grade points the last grade goes on.
  Length level(Length station) const;
  /// Rise per unit of plan length just ahead of the station (0.01 = 1 % up).
  double grade(Length station) const;
  /// Easting and northing of a point beside the alignment; level of the reference line there.
  SurveyPoint survey(Length station, Length offset) const;
  GroundPoint ground(double station, double offset) const;
  double heading(double station) const;
  double curvature(double) const { return 0; }
  bool straight() const { return true; }
  bool straight(Length, Length) const { return true; }
  std::optional<BridgePoint> locate(GroundPoint p, double near_station) const;
  const std::vector<GradePointData>& grades() const { return data_.grades; }

 private:
  AlignmentData data_;
};

struct Support {
  std::string name;
  bool abutment = false;
  Length station;
};

struct Girder {
  std::string name;
  Length offset, flange, from, to;
  Length left() const { return offset + flange / 2; }
  Length right() const { return offset - flange / 2; }
};

/// One splice on one girder; plan box in the bridge frame.
struct Splice {
  std::string name;  // "G1-S2": girder and running number along it, or as given
  int girder = 0;    // index into Bridge::girders
  Length station, length, width, plate, projection, bolt;
  int rows = 0, lines = 0;
  Box<BridgeFrame> plan;  // of the plate
  Place place;
};

struct Obstruction {
  std::string name, kind;
  Ring<BridgeFrame> outline;    // of the thing itself
  Ring<BridgeFrame> kept_free;  // with its clearance
  Length station, offset;
  Place place;
};

/// Width law of the deck.
class DeckEdges {
 public:
  DeckEdges() = default;
  explicit DeckEdges(std::vector<EdgeData> edges) : edges_(std::move(edges)) {}
  /// Distance of the edge from the alignment (positive on its own side). At a step: `ahead` chooses
  /// the value on that side of it. Constant beyond the first and last.
  Length left(Length station, bool ahead = true) const;
  Length right(Length station, bool ahead = true) const;
  /// Stations where the law has a corner or a step, in order.
  std::vector<Length> breaks() const;
  /// Stations of the steps alone.
  std::vector<Length> steps() const;
  const std::vector<EdgeData>& data() const { return edges_; }

 private:
  std::vector<EdgeData> edges_;
};

struct Bridge {
  Alignment alignment;
  std::vector<Support> supports;
  std::vector<Girder> girders;
  std::vector<Splice> splices;  // ordered by girder, then station
  std::vector<Obstruction> obstructions;
  DeckEdges edges;
};

double girder_offset(const Bridge& bridge, const Girder& g, double station);
Ring<GroundFrame> splice_ring(const Bridge& bridge, const Splice& s);

/// Contradictions of the steelwork with itself (a splice outside its girder, supports out of order
/// or outside the bridge, edges out of order) go to `findings`.
Bridge build_bridge(const Project& project, Findings& findings);

}  // namespace deckquire
