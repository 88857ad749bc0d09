// The reference line of the bridge, in plan and in level.
#pragma once

#include <optional>
#include <vector>

#include "bridge/plan_element.h"
#include "project/project.h"

namespace deckquire {

/// A point in the survey's system, metres.
struct SurveyPoint {
  double easting = 0, northing = 0, level = 0;
};

/// Radians that one element may turn: eight full circles. What turns farther is taken as straight,
/// and the contradictions report it.
constexpr double most_turn = 16 * pi;

/// Where two grades are joined by a parabola.
struct VerticalCurve {
  Length begin, middle, end;                    // stations; the grade point is the middle
  Length level_begin, level_middle, level_end;  // on the line
  double grade_back = 0, grade_ahead = 0;
  std::optional<Length> turning;  // station of its high or low point, where it has one
  Length level_turning;
  bool high = false;  // a crest; else a sag
};

/// Reference line of the bridge. In plan tangents, arcs and clothoids, which join in place and in
/// direction; beyond its ends the curvature goes on as at the end. In level straight grades, joined
/// by parabolas where the project asks for them. Stations are level lengths along it.
class Alignment {
 public:
  Alignment() = default;
  explicit Alignment(const AlignmentData& data);
  Length from() const { return data_.from; }
  Length to() const { return data_.to; }
  /// Of the line at `from`, clockwise from north.
  Angle bearing() const { return data_.bearing; }

  /// Level of the reference line; beyond the last grade points the last grade goes on.
  Length level(Length station) const;
  /// Rise per unit of plan length just ahead of the station (0.01 = 1 % up).
  double grade(Length station) const;
  const std::vector<GradePointData>& grades() const { return data_.grades; }
  std::vector<VerticalCurve> vertical_curves() const;
  /// Stations inside (from, to) between which the level may be taken as straight: corners, ends of
  /// parabolas, and points of them so close that the chord is off by 0.1 mm at most. In order.
  std::vector<Length> level_breaks(Length from, Length to) const;

  /// Easting and northing of a point beside the alignment; level of the reference line there.
  SurveyPoint survey(Length station, Length offset) const;
  /// Place of a point beside the line (mm). On a line that is straight throughout it comes from one
  /// linear formula, as that of survey().
  GroundPoint ground(double station, double offset) const;
  /// Radians, counter-clockwise from east; not brought back into one turn.
  double heading(double station) const;
  /// 1/mm, positive where the line bends to the left; just ahead of the station.
  double curvature(double station) const;
  bool straight() const { return straight_; }
  /// True where no curve begins, ends or lies between the two.
  bool straight(Length from, Length to) const;
  /// Station and offset (mm) of a point of the ground, to 1e-6 mm; where there are several, the one
  /// whose station is nearest to `near_station`. Nothing where |curvature * offset| >= 1 or more
  /// than 50 m beyond an end.
  std::optional<BridgePoint> locate(GroundPoint p, double near_station) const;
  /// In order, without gaps, from `from` to `to`.
  std::vector<PlanElement> elements() const;

 private:
  const PlanElement& element_at(double station) const;

  AlignmentData data_;
  bool straight_ = true;
  std::vector<PlanElement> plan_;  // the elements, with one more beyond either end
};

/// A line beside the alignment, and how far its chords may lie off it (mm, more than 0).
struct Beside {
  double offset = 0, off_by = 0;
};
/// Stations (mm) from end to end, both included, whose points at that offset join to such chords.
std::vector<double> stations_along(const Alignment& alignment, Length from, Length to, Beside line);

}  // namespace deckquire
