// The steelwork as the deck meets it, what lies below it, and what was measured. Part of project.h.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "base/findings.h"
#include "base/units.h"

namespace deckquire {

struct GradePointData {
  Length station, level;
  Place place;
  Length curve = {};  // length of the parabola that rounds the change of grade, half on each side
};

/// An arc; tangents between curves that do not meet.
struct PlanCurveData {
  Length from, to;
  Length radius;  // of the alignment itself
  bool left = true;
  Place place;
};

/// A clothoid from the element before it to the one after.
struct TransitionData {
  Length from, to;
  Place place;
};

struct AlignmentData {
  Length from, to;                          // stations of the ends of the bridge
  Length easting, northing;                 // of `from`
  Angle bearing;                            // of the line at `from`, clockwise from north
  std::vector<GradePointData> grades;       // at least one, in order; straight grades between
  std::vector<PlanCurveData> curves;        // in order; the line is straight where there is none
  std::vector<TransitionData> transitions;  // in order
  Place place;
};

struct SupportData {
  std::string name;
  std::string kind;  // abutment, pier
  Length station;
  Place place;
  std::optional<Length> top = {};  // along, half on each side of the station
};

struct GirderData {
  std::string name;
  Length offset, flange;  // of the flange centre; flange width
  Length from, to;        // default: the whole bridge
  Place place;
  bool straight = false;  // chords between its supports; else parallel to the alignment
};

struct SpliceData {
  std::string name;
  std::string girder;    // a girder's name, or "all"
  Length station;        // of its middle
  Length length, width;  // of the top splice plate, along and across
  Length plate;          // thickness
  Length projection;     // of the highest bolt end above the plate
  int rows = 0;          // bolt rows along the girder, each side of the splice line times two
  int lines = 0;         // bolts in a row (across the flange)
  Length bolt;           // diameter
  Place place;
};

struct ObstructionData {
  std::string name;
  std::string kind;                     // mast, hanger, column
  Length station, offset;               // centre
  std::optional<Length> diameter;       // round, or
  std::optional<Length> length, width;  // box, along and across
  Length clearance;                     // to be kept free of deck all round
  Place place;
};

enum class CrossingKind { road, railway, path, water };

/// What passes below the bridge.
struct CrossingData {
  std::string name;
  CrossingKind kind = CrossingKind::road;
  Length from, to;                    // stations
  std::optional<Length> left, right;  // offsets of its borders; none: under the whole width
  std::optional<Length> level;        // the highest of its surface
  std::optional<Length> headroom;     // to be kept free above that
  bool outlets_allowed = false;
  Length clear;  // that outlets keep from it in plan, where they are not allowed
  Place place;
};

enum class MeasuredThing { splice, girder, support, obstruction };

/// What a survey found in the field; what is not given was not measured.
struct MeasuredData {
  MeasuredThing of = MeasuredThing::splice;
  std::string name, girder;  // girder: which, where a splice is one of several
  std::optional<Length> station, offset, level;  // station of a girder: where it was measured
  std::optional<Length> length, width, projection, diameter;
  std::string by, date;
  Place place;
};

struct BridgeData {
  std::string name, structure, location;
  AlignmentData alignment;
  std::vector<SupportData> supports;
  std::vector<GirderData> girders;
  std::vector<SpliceData> splices;
  std::vector<ObstructionData> obstructions;
  std::vector<CrossingData> crossings;
  std::vector<MeasuredData> measured;
  Place place;
};

}  // namespace deckquire
