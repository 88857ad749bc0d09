// The panel's plate: where it is read after the panel is laid.
#include <algorithm>
#include <cmath>

#include "deck/features.h"

namespace deckquire {
namespace {

/// What hides the plate, or has no flat soffit for it.
std::vector<Ring<PanelFrame>> hiding(const PanelShape& shape, const DeckData& deck, Length flange) {
  constexpr double around = 20;  // of holes, inserts and hollows, mm (common practice, no source)
  std::vector<Ring<PanelFrame>> out;
  for (Feature f : shape.features) {
    switch (f.kind) {
      case FeatureKind::pad:  // over the flange nobody sees it
        f.width = std::max(f.width, flange.in_mm());
        out.push_back(f.ring());
        break;
      case FeatureKind::recess:  // no pad there, but the flange
        f.width = std::max(f.width + 2 * around, flange.in_mm());
        f.length += 2 * around;
        out.push_back(f.ring());
        break;
      case FeatureKind::hatch:
      case FeatureKind::sleeve:
      case FeatureKind::hold_down:
      case FeatureKind::notch:
        f.length += 2 * around;
        f.width += 2 * around;
        out.push_back(f.ring());
        break;
      case FeatureKind::scupper:
        out.push_back(circle_ring(f.at, deck.scuppers->outlet.in_mm() + 2 * around));
        break;
      default:
        break;
    }
  }
  return out;
}

Feature tag_at(const TagData& data, PanelPoint at) {
  Feature f;
  f.kind = FeatureKind::tag;
  f.at = at;
  f.length = data.length.in_mm();
  f.width = data.width.in_mm();
  f.place = data.place;
  return f;
}

bool seen(const PanelShape& shape, const DeckData& deck,
          const std::vector<Ring<PanelFrame>>& hidden, const Feature& f) {
  const Ring<PanelFrame> plate = f.ring();
  const auto& drip = deck.section.drip;
  const double from_edge = drip ? (drip->inset + drip->width).in_mm() : 0;
  for (const PanelPoint& corner : plate)
    if (!contains(shape.outline, corner) || distance_to_boundary(shape.outline, corner) < from_edge)
      return false;
  constexpr double apart = 1e-6;
  const Box<PanelFrame> around = bounds(plate).grown(2 * apart);
  return std::all_of(hidden.begin(), hidden.end(), [&](const Ring<PanelFrame>& r) {
    return !bounds(r).overlaps(around) || distance(r, plate) > apart;  // most are far away
  });
}

/// y of the right edge beside the plate, whichever of its ends lies further in.
double edge_beside(const PanelShape& s, double reach) {
  const double along = std::min(1.0, reach / s.length);
  return std::max(s.right_back, s.right_back + (s.right_ahead - s.right_back) * along);
}

}  // namespace

bool tag_is_seen(const PanelShape& shape, const DeckData& deck, Length flange, const Feature& tag) {
  return seen(shape, deck, hiding(shape, deck, flange), tag);
}

void add_tag(PanelShape& shape, const DeckData& deck, Length flange) {
  const TagData& data = deck.tag;
  const double from_end = data.from_end.in_mm(), half = data.length.in_mm() / 2;
  const PanelPoint first{std::min(from_end, shape.length / 2),
                         edge_beside(shape, from_end + half) + data.from_edge.in_mm()};
  const auto hidden = hiding(shape, deck, flange);
  const double step = std::max(5.0, half / 5);
  // Ahead along the edge first, then further in.
  for (double in = 0; in < shape.left_back - shape.right_back; in += 2 * step)
    for (double x = first.x; x <= shape.length - first.x + 1e-6; x += step) {
      const PanelPoint at{x + shape.back_x(first.y + in), first.y + in};
      const Feature f = tag_at(data, at);
      if (!seen(shape, deck, hidden, f)) continue;
      shape.features.push_back(f);
      return;
    }
  shape.features.push_back(tag_at(data, first));
}

void place_tag(const PanelSite& site, PanelShape& shape, bool turned) {
  const Length flange = widest_flange(site.bridge);
  if (!turned && site.deck().pads) return add_tag(shape, site.deck(), flange);
  PanelShape drawn = shape;
  std::erase_if(drawn.features, [](const Feature& f) { return f.kind == FeatureKind::tag; });
  for (const Feature& f : bare_flanges(site)) drawn.features.push_back(f);
  if (turned) drawn = half_turn(drawn);
  add_tag(drawn, site.deck(), flange);
  if (turned) drawn = half_turn(drawn);
  std::erase_if(shape.features, [](const Feature& f) { return f.kind == FeatureKind::tag; });
  for (const Feature& f : drawn.features)
    if (f.kind == FeatureKind::tag) shape.features.push_back(f);
  sort_features(shape);
}

}  // namespace deckquire
