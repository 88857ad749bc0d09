// Panels out of dice, for the tests of types: outlines, curbs and features that need not be
// buildable, only different.
#pragma once

#include "deck/features.h"
#include "deck/trial.h"

namespace trial {

/// A value on a grid of `step` mm between 0 and `range`.
inline double on_grid(Dice& dice, double step, double range) {
  return step * dice.upto(static_cast<int>(range / step) + 1);
}

inline Feature feature(FeatureKind kind, PanelPoint at, double length, double width) {
  Feature f;
  f.kind = kind;
  f.at = at;
  f.length = length;
  f.width = width;
  return f;
}

inline CurbRun curb(const PanelShape& s, Side side) {
  const double out = side == Side::left ? 1500 : -1500, in = out - 150 * (out > 0 ? 1 : -1);
  const double low = std::min(in, out), high = std::max(in, out);
  return {side, {{0, low}, {s.length, low}, {s.length, high}, {0, high}}};
}

struct Recipe {
  double step = 5;        // grid of all places and lengths
  int lengths = 3;        // different lengths
  int most_features = 4;  // of the loose ones
  bool skew = false;
};

/// One panel 3 m wide, one-way, crowned or flat.
inline PanelShape random_shape(Dice& dice, const Recipe& r) {
  PanelShape s;
  s.length = 2400 + r.step * dice.upto(r.lengths);
  s.depth = 150;
  s.fall = static_cast<Fall>(dice.upto(4));
  s.slope = s.fall == Fall::none ? 0 : 0.02;
  s.high_line = s.fall == Fall::left ? -1500 : s.fall == Fall::right ? 1500 : 0;
  if (r.skew) {
    s.back_slope = 0.25 * dice.upto(2);
    s.ahead_slope = 0.25 * dice.upto(2);
  }
  s.outline = {{s.back_x(-1500), -1500},
               {s.ahead_x(-1500), -1500},
               {s.ahead_x(1500), 1500},
               {s.back_x(1500), 1500}};
  s.left_back = s.left_ahead = 1500;
  s.right_back = s.right_ahead = -1500;
  s.back = dice.upto(5) == 0 ? EdgeEnd::end_joint : EdgeEnd::joint;
  for (Side side : {Side::left, Side::right})
    if (dice.upto(4) > 0) s.curbs.push_back(curb(s, side));
  const int n = dice.upto(r.most_features + 1);
  for (int i = 0; i < n; ++i) {
    const PanelPoint at{300 + on_grid(dice, r.step, s.length - 600),
                        on_grid(dice, r.step, 2000) - 1000};
    switch (dice.upto(3)) {
      case 0:
        s.features.push_back(feature(FeatureKind::scupper, at, 360, 260));
        s.features.back().variant = at.y > 0 ? 0 : 1;
        s.openings.push_back(circle_ring(at, 110));
        break;
      case 1:
        s.features.push_back(feature(FeatureKind::hatch, at, 600, 500));
        s.openings.push_back(box_ring(s.features.back().box()));
        break;
      default:
        s.features.push_back(feature(FeatureKind::post_plate, at, 200, 85));
        s.features.back().variant = at.y > 0 ? 0 : 1;
        s.features.back().angle = 0.1 * (dice.upto(3) - 1);
    }
  }
  DeckData deck;
  deck.scuppers.emplace();
  deck.tag = {mm(100), mm(60), mm(150), mm(120), {}};
  add_tag(s, deck, {});
  sort_features(s);
  return s;
}

inline std::vector<PanelShape> random_shapes(std::uint64_t seed, int n, const Recipe& r) {
  Dice dice{seed};
  std::vector<PanelShape> all;
  for (int i = 0; i < n; ++i) all.push_back(random_shape(dice, r));
  return all;
}

/// The same part in a row `dy` further left. The frame begins where the back face meets y = 0, so
/// the part moves along that face, and between skewed faces the chord has another length there.
inline PanelShape in_row(PanelShape s, double dy) {
  const PanelPoint d{s.back_slope * dy, dy};
  s.length -= (s.ahead_slope - s.back_slope) * dy;
  for (PanelPoint& p : s.outline) p = p + d;
  for (auto& o : s.openings)
    for (PanelPoint& p : o) p = p + d;
  for (CurbRun& c : s.curbs)
    for (PanelPoint& p : c.plan) p = p + d;
  for (Feature& f : s.features) f.at = f.at + d;
  for (double* y : {&s.left_back, &s.left_ahead, &s.right_back, &s.right_ahead, &s.high_line})
    *y += dy;
  return s;
}

/// Every place moved by up to `reach` in x and y, sizes too.
inline PanelShape shaken(PanelShape s, Dice& dice, double reach) {
  const auto by = [&] { return (2 * dice.next() - 1) * reach; };
  for (PanelPoint& p : s.outline) p = p + PanelPoint{by(), by()};
  for (Feature& f : s.features) {
    const PanelPoint d{by(), by()};
    f.at = f.at + d;
    f.length += by();
    f.depth += by();
  }
  sort_features(s);
  return s;
}

}  // namespace trial
