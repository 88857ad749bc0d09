// Solids of plane faces in parallel projection, hidden lines removed exactly: every edge is cut
// where a face begins or ends to stand before it; no raster, no depth buffer. Pure geometry, model
// mm.
#pragma once

#include <vector>

#include "base/geometry.h"

namespace deckquire::sheets {

struct PictureFrame;  // the plane of projection: x to the right, y up, mm
using PicturePoint = Point<PictureFrame>;

/// A point in space: x, y in plan, z up.
struct Spot {
  double x = 0, y = 0, z = 0;
};

/// A plane face of a solid: the even-odd inside of its loops (loops may share stretches of their
/// sides, which then are no edges). The first loop is counter-clockwise seen from outside.
struct Face {
  std::vector<std::vector<Spot>> loops;
  int smooth = 0;       // faces of one number above 0 are facets of one round surface
  int part = 0;         // faces of one part in one plane show no joint
  bool fine = false;    // of something so flat or small that its outlines are drawn as edges
  bool others = false;  // of what others build
};

/// How a line of a picture came about.
enum class LineKind {
  edge,     // between two faces that are both seen
  outline,  // between a face that is seen and one turned away
  trace,    // a line on a face
  sunk,     // a line on a face of what lies under it
  others    // an edge or outline of what others build
};

/// A line on faces: hides nothing itself.
struct Trace {
  std::vector<Spot> points;
  LineKind kind = LineKind::trace;
};

/// Closed: whatever is turned away lies behind something that is not.
struct Solid {
  std::vector<Face> faces;
  std::vector<Trace> traces;
};

/// A parallel projection: where the axes go, and the direction to the viewer, of length 1.
struct Projection {
  PicturePoint x, y, z;
  Spot viewer;
  PicturePoint operator()(Spot p) const { return x * p.x + y * p.y + z * p.z; }
};

/// Isometric axonometry (ISO 5456-3:1996, 5.1): x rises to the right and y to the left at 30
/// degrees (from below they fall), z is upright, and lengths along all three are drawn to the same
/// scale, 1.
Projection isometric(bool from_above);

struct PictureLine {
  PicturePoint a, b;
  LineKind kind{};
};

/// True where no stretch of an edge has a face on one side only: what visible_lines() relies on.
bool closed(const Solid& solid);

/// What is seen of the solid, each straight stretch once, in an order that depends on the places
/// only, not on that of the faces.
std::vector<PictureLine> visible_lines(const Solid& solid, const Projection& projection);

/// False where a face stands before that point.
bool in_sight(const Solid& solid, const Projection& projection, Spot at);

}  // namespace deckquire::sheets
