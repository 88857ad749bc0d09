#include "schedules/hole_patterns.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <tuple>

namespace deckquire {
namespace {

constexpr double same_within = 0.01;  // mm

bool near(double a, double b) { return std::abs(a - b) <= same_within; }

bool same(const Hole& a, const Hole& b) {
  return a.kind == b.kind && a.what == b.what && a.thread == b.thread && near(a.at.x, b.at.x) &&
         near(a.at.y, b.at.y) && near(a.diameter, b.diameter) &&
         a.depth.has_value() == b.depth.has_value() && near(a.depth.value_or(0), b.depth.value_or(0));
}

bool same(const Ring<PatternFrame>& a, const Ring<PatternFrame>& b) {
  return std::equal(a.begin(), a.end(), b.begin(), b.end(), [](PanelPoint p, PanelPoint q) {
    return near(p.x, q.x) && near(p.y, q.y);
  });
}

bool same(const HolePattern& a, const HolePattern& b) {
  return a.what == b.what && same(a.outline, b.outline) &&
         std::equal(a.holes.begin(), a.holes.end(), b.holes.begin(), b.holes.end(),
                    [](const Hole& p, const Hole& q) { return same(p, q); });
}

Ring<PatternFrame> box_ring(double length, double width) {
  const double l = length / 2, w = width / 2;
  return {{-l, -w}, {l, -w}, {l, w}, {-l, w}};
}

/// The place of a hole along and across its fitting.
PanelPoint about(const Feature& f, PanelPoint p) {
  const double c = std::cos(f.angle), s = std::sin(f.angle);
  const PanelPoint d = p - f.at;
  return {d.x * c + d.y * s, -d.x * s + d.y * c};
}

HolePattern bare_pattern(const DeckData& deck, const Feature& f) {
  HolePattern p;
  if (f.kind == FeatureKind::post_plate) {
    p.what = "post plate";
    p.outline = box_ring(deck.posts->plate.length.in_mm(), deck.posts->plate.width.in_mm());
  } else if (f.kind == FeatureKind::scupper) {
    const ScuppersData& s = *deck.scuppers;
    p.what = "scupper with grate";
    p.outline = box_ring(s.body_length.in_mm(), s.body_width.in_mm());
    p.openings = {box_ring(s.grate_length.in_mm(), s.grate_width.in_mm())};
  } else {
    const HatchData& h = deck.hatches[static_cast<std::size_t>(f.variant)];
    p.what = "hatch " + h.name;
    p.outline = box_ring((h.length + h.rebate * 2).in_mm(), (h.width + h.rebate * 2).in_mm());
    p.openings = {box_ring(h.length.in_mm(), h.width.in_mm())};
  }
  return p;
}

HolePattern pattern_of(const DeckData& deck, const Mark& mark, std::size_t feature) {
  const Feature& f = mark.shape.features[feature];
  HolePattern p = bare_pattern(deck, f);
  for (Hole h : mark.holes) {
    if (h.feature != static_cast<int>(feature)) continue;
    h.at = about(f, h.at);
    h.feature = 0;
    p.holes.push_back(h);
  }
  const auto place = [](const Hole& h) {
    return std::tuple(std::llround(h.at.x * 100), std::llround(h.at.y * 100));
  };
  std::stable_sort(p.holes.begin(), p.holes.end(),
                   [&](const Hole& a, const Hole& b) { return place(a) < place(b); });
  for (std::size_t i = 0; i < p.holes.size(); ++i) p.holes[i].label = std::to_string(i + 1);
  return p;
}

}  // namespace

std::vector<HolePattern> hole_patterns(const Project& project, const Deck& deck) {
  std::vector<HolePattern> all;
  for (const FeatureKind kind : {FeatureKind::post_plate, FeatureKind::scupper, FeatureKind::hatch})
    for (std::size_t m = 0; m < deck.marks.size(); ++m) {
      const Mark& mark = deck.marks[m];
      for (std::size_t i = 0; i < mark.shape.features.size(); ++i) {
        if (mark.shape.features[i].kind != kind) continue;
        HolePattern p = pattern_of(project.deck, mark, i);
        auto known = std::find_if(all.begin(), all.end(), [&](const HolePattern& q) { return same(p, q); });
        if (known == all.end()) known = all.insert(all.end(), std::move(p));
        known->quantity += mark.quantity;
        if (known->marks.empty() || known->marks.back() != static_cast<int>(m))
          known->marks.push_back(static_cast<int>(m));
      }
    }
  for (std::size_t i = 0; i < all.size(); ++i) all[i].name = fmt::format("HP{}", i + 1);
  return all;
}

}  // namespace deckquire
