#include "support/geos.h"

#include <geos_c.h>

#include <stdexcept>

namespace deckquire {
namespace {

/// mm. Lines that all but coincide confuse GEOS without a grid: whole areas are lost.
constexpr double grid = 1e-6;

/// One for the whole run: the tests have one thread.
GEOSContextHandle_t context() {
  struct Context {
    GEOSContextHandle_t handle = GEOS_init_r();
    ~Context() { GEOS_finish_r(handle); }
  };
  static Context c;
  return c.handle;
}

const GEOSGeometry* geometry(const std::shared_ptr<void>& p) {
  return static_cast<const GEOSGeometry*>(p.get());
}

GEOSGeometry* polygon(const std::vector<OraclePoint>& ring) {
  if (ring.empty()) return GEOSGeom_createEmptyPolygon_r(context());
  if (ring.size() == 1) return GEOSGeom_createPointFromXY_r(context(), ring[0].x, ring[0].y);
  const auto n = static_cast<unsigned>(ring.size());
  GEOSCoordSequence* s = GEOSCoordSeq_create_r(context(), n + 1, 2);
  for (unsigned i = 0; i <= n; ++i)
    GEOSCoordSeq_setXY_r(context(), s, i, ring[i % n].x, ring[i % n].y);
  GEOSGeometry* line = GEOSGeom_createLinearRing_r(context(), s);
  return GEOSGeom_createPolygon_r(context(), line, nullptr, 0);
}

}  // namespace

OracleArea::OracleArea(void* shape)
    : shape_(shape, [](void* p) { GEOSGeom_destroy_r(context(), static_cast<GEOSGeometry*>(p)); }) {
  if (!shape) throw std::runtime_error("GEOS refused a shape");
}

OracleArea::OracleArea() : OracleArea(std::vector<OraclePoint>{}) {}

OracleArea::OracleArea(const std::vector<OraclePoint>& ring)
    : OracleArea(static_cast<void*>(polygon(ring))) {}

OracleArea OracleArea::together(const std::vector<OracleArea>& parts) {
  std::vector<GEOSGeometry*> copies;
  for (const OracleArea& p : parts)
    copies.push_back(GEOSGeom_clone_r(context(), geometry(p.shape_)));
  const OracleArea all(static_cast<void*>(GEOSGeom_createCollection_r(
      context(), GEOS_GEOMETRYCOLLECTION, copies.data(), static_cast<unsigned>(copies.size()))));
  return OracleArea(static_cast<void*>(GEOSUnaryUnion_r(context(), geometry(all.shape_))));
}

bool OracleArea::valid() const {
  return GEOSisValid_r(context(), geometry(shape_)) == 1;
}

double OracleArea::area() const {
  double a = 0;
  GEOSArea_r(context(), geometry(shape_), &a);
  return a;
}

double OracleArea::distance(const OracleArea& o) const {
  double d = 0;
  GEOSDistance_r(context(), geometry(shape_), geometry(o.shape_), &d);
  return d;
}

// On the grid; what GEOS refuses there (a mixed collection) without it.
OracleArea OracleArea::minus(const OracleArea& o) const {
  const GEOSGeometry *a = geometry(shape_), *b = geometry(o.shape_);
  GEOSGeometry* out = GEOSDifferencePrec_r(context(), a, b, grid);
  return OracleArea(static_cast<void*>(out ? out : GEOSDifference_r(context(), a, b)));
}

OracleArea OracleArea::common(const OracleArea& o) const {
  const GEOSGeometry *a = geometry(shape_), *b = geometry(o.shape_);
  GEOSGeometry* out = GEOSIntersectionPrec_r(context(), a, b, grid);
  return OracleArea(static_cast<void*>(out ? out : GEOSIntersection_r(context(), a, b)));
}

OracleArea OracleArea::grown(double by) const {
  return OracleArea(static_cast<void*>(GEOSBuffer_r(context(), geometry(shape_), by, 8)));
}

}  // namespace deckquire
