// Plane geometry. A point carries the name of its frame of reference, so that a point of a panel,
// of the bridge and of the paper are different types and only a view can turn one into another.
#pragma once

#include <optional>
#include <vector>

#include "base/units.h"

namespace deckquire {

/// Frames. All coordinates are doubles in millimetres.
struct BridgeFrame;   // x = station, y = offset, positive to the left looking ahead
struct GroundFrame;   // x east, y north of the alignment's start, true to scale on curves too
struct PanelFrame;    // x ahead from the panel's back joint face, y left from the chord (alignment)
struct SectionFrame;  // a vertical cut: x = horizontal in the cut, y = z above the soffit
struct PlanFrame;     // one plan of the whole bridge: see checks/plan.h
struct PaperFrame;    // paper millimetres from the lower left of the trimmed sheet, y up

template <class Frame>
struct Point {
  double x = 0, y = 0;
  friend constexpr bool operator==(const Point&, const Point&) = default;
  friend constexpr Point operator+(Point a, Point b) { return {a.x + b.x, a.y + b.y}; }
  friend constexpr Point operator-(Point a, Point b) { return {a.x - b.x, a.y - b.y}; }
  friend constexpr Point operator*(Point a, double k) { return {a.x * k, a.y * k}; }
};

using BridgePoint = Point<BridgeFrame>;
using GroundPoint = Point<GroundFrame>;
using PanelPoint = Point<PanelFrame>;
using SectionPoint = Point<SectionFrame>;

/// A simple closed ring, counter-clockwise, the first vertex not repeated at the end.
template <class Frame>
using Ring = std::vector<Point<Frame>>;

template <class Frame>
struct Box {
  Point<Frame> low, high;
  constexpr double width() const { return high.x - low.x; }
  constexpr double height() const { return high.y - low.y; }
  constexpr Point<Frame> centre() const { return {(low.x + high.x) / 2, (low.y + high.y) / 2}; }
  /// Larger by d on every side.
  constexpr Box grown(double d) const { return {{low.x - d, low.y - d}, {high.x + d, high.y + d}}; }
  /// True where the insides share more than a line.
  constexpr bool overlaps(const Box& o) const {
    return low.x < o.high.x && o.low.x < high.x && low.y < o.high.y && o.low.y < high.y;
  }
  constexpr bool contains(Point<Frame> p) const {
    return p.x >= low.x && p.x <= high.x && p.y >= low.y && p.y <= high.y;
  }
};

/// Signed area in mm2, positive counter-clockwise (shoelace formula).
template <class Frame>
double area(const Ring<Frame>& ring);

/// Centroid; the ring has a non-zero area.
template <class Frame>
Point<Frame> centroid(const Ring<Frame>& ring);

template <class Frame>
Box<Frame> bounds(const Ring<Frame>& ring);

/// Integrals over a ring of 1, x, y, x2, xy, y2 (mm2, mm3, mm4): exact for any polygon (Green).
struct Moments {
  double a = 0, x = 0, y = 0, xx = 0, xy = 0, yy = 0;
};
template <class Frame>
Moments moments(const Ring<Frame>& ring);

/// The part of a ring where n.x * x + n.y * y <= d (one half-plane; a concave ring may give
/// coincident edges along the cut, which areas and moments do not feel). Empty when none is left.
template <class Frame>
Ring<Frame> clip(const Ring<Frame>& ring, Point<Frame> n, double d);

/// True inside or on the ring.
template <class Frame>
bool contains(const Ring<Frame>& ring, Point<Frame> p);

/// Shortest distance between two rings; 0 where they overlap or one lies in the other.
template <class Frame>
double distance(const Ring<Frame>& a, const Ring<Frame>& b);

/// Length of the boundary in mm.
template <class Frame>
double perimeter(const Ring<Frame>& ring);

/// A circle as a ring of `sides` vertices with the circle's own area (radius corrected).
template <class Frame>
Ring<Frame> circle_ring(Point<Frame> centre, double diameter, int sides = 64);

template <class Frame>
Ring<Frame> box_ring(const Box<Frame>& b) {
  return {b.low, {b.high.x, b.low.y}, b.high, {b.low.x, b.high.y}};
}

}  // namespace deckquire
