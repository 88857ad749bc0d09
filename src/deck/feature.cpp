#include <algorithm>
#include <cmath>
#include <tuple>

#include "deck/features.h"

namespace deckquire {

const char* feature_name(FeatureKind kind) {
  switch (kind) {
    case FeatureKind::recess:
      return "recess";
    case FeatureKind::post_plate:
      return "post plate";
    case FeatureKind::scupper:
      return "scupper";
    case FeatureKind::hatch:
      return "hatch";
    case FeatureKind::sleeve:
      return "sleeve";
    case FeatureKind::hold_down:
      return "hold-down";
    case FeatureKind::lifting_insert:
      return "lifting insert";
    case FeatureKind::notch:
      return "opening";
    case FeatureKind::pad:
      return "bearing pad";
    case FeatureKind::tag:
      return "tag";
  }
  return "";
}

const char* end_name(EdgeEnd end) {
  switch (end) {
    case EdgeEnd::joint:
      return "panel joint";
    case EdgeEnd::end_joint:
      return "end joint";
    case EdgeEnd::tongue:
      return "panel joint, tongue";
    case EdgeEnd::groove:
      return "panel joint, rebate";
  }
  return "";
}

std::string hole_name(HoleKind kind) {
  switch (kind) {
    case HoleKind::tapped:
      return "tapped";
    case HoleKind::insert:
      return "insert";
    case HoleKind::through:
      return "through";
    case HoleKind::blind:
      return "blind";
    case HoleKind::bolt:
      return "bolt";
  }
  return "";
}

Ring<PanelFrame> Feature::ring() const {
  if (round) return circle_ring(at, length, 32);
  const double c = std::cos(angle), s = std::sin(angle), l = length / 2, w = width / 2;
  Ring<PanelFrame> r;
  for (const PanelPoint& p : {PanelPoint{-l, -w}, {l, -w}, {l, w}, {-l, w}})
    r.push_back({at.x + p.x * c - p.y * s, at.y + p.x * s + p.y * c});
  return r;
}

Box<PanelFrame> Feature::box() const {
  if (angle != 0 && !round) return bounds(ring());
  const double l = length / 2, w = (round ? length : width) / 2;
  return {{at.x - l, at.y - w}, {at.x + l, at.y + w}};
}

void sort_features(PanelShape& shape) {
  const auto hundredths = [](double v) { return std::llround(v * 100); };
  std::stable_sort(shape.features.begin(), shape.features.end(),
                   [&](const Feature& a, const Feature& b) {
                     return std::tuple(a.kind, hundredths(a.at.x), hundredths(a.at.y)) <
                            std::tuple(b.kind, hundredths(b.at.x), hundredths(b.at.y));
                   });
}

double PanelShape::top(double y) const {
  switch (fall) {
    case Fall::crown:
      return depth - slope * std::abs(y - high_line);
    case Fall::left:
      return depth - slope * (y - high_line);
    case Fall::right:
      return depth + slope * (y - high_line);
    case Fall::none:
      break;
  }
  return depth;
}

double distance_to_boundary(const Ring<PanelFrame>& ring, PanelPoint p) {
  double least = 1e300;
  for (std::size_t i = 0; i < ring.size(); ++i) {
    const PanelPoint a = ring[i], d = ring[(i + 1) % ring.size()] - a, ap = p - a;
    const double length2 = d.x * d.x + d.y * d.y;
    const double t = length2 > 0 ? std::clamp((ap.x * d.x + ap.y * d.y) / length2, 0.0, 1.0) : 0.0;
    least = std::min(least, std::hypot(ap.x - d.x * t, ap.y - d.y * t));
  }
  return least;
}

double distance_to(const Ring<PanelFrame>& ring, PanelPoint p) {
  return contains(ring, p) ? 0 : distance_to_boundary(ring, p);
}

double shift_step(UnitSystem units) {
  return units == UnitSystem::metric ? 5 : 6.35;
}

Box<PanelFrame> footprint(const Feature& f, const DeckData& deck) {
  if (f.kind != FeatureKind::hatch) return f.box();
  return f.box().grown(deck.hatches[static_cast<std::size_t>(f.variant)].rebate.in_mm());
}

}  // namespace deckquire
