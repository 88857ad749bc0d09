// Plane areas by GEOS, the oracle of the tests that go over plans.
#pragma once

#include <memory>
#include <vector>

namespace deckquire {

struct OraclePoint {
  double x = 0, y = 0;
};

/// An area, or several; a value. A ring of one point is that point, of two the line there and back.
class OracleArea {
 public:
  OracleArea();
  explicit OracleArea(const std::vector<OraclePoint>& ring);
  /// From any ring of points with x and y, shifted by -(x0, y0) so that figures stay small.
  template <class Ring>
  static OracleArea of(const Ring& ring, OraclePoint zero = {}) {
    std::vector<OraclePoint> points;
    for (const auto& p : ring) points.push_back({p.x - zero.x, p.y - zero.y});
    return OracleArea(points);
  }
  static OracleArea together(const std::vector<OracleArea>& parts);

  bool valid() const;
  double area() const;
  double distance(const OracleArea& other) const;
  OracleArea minus(const OracleArea& other) const;
  OracleArea common(const OracleArea& other) const;
  OracleArea grown(double by) const;

 private:
  std::shared_ptr<void> shape_;
  explicit OracleArea(void* shape);
};

}  // namespace deckquire
