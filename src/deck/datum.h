// The corner of a panel that everything on it is measured from.
#pragma once

#include "deck/deck.h"

namespace deckquire {

/// What differs by less (mm) prints alike.
constexpr double datum_prints_alike = 0.5;

inline bool datum_on_left(const PanelShape& s) {
  return s.back_x(s.left_back) < s.back_x(s.right_back) - datum_prints_alike;
}

/// The corner that the shop measures from: the one of the back end that lies further back, so that
/// no place of the panel has a negative x; the right one where both lie alike. `turned`: the same
/// corner of a panel that lies end for end to its drawing.
inline PanelPoint datum_corner(const PanelShape& s, bool turned = false) {
  const PanelPoint back_left{s.back_x(s.left_back), s.left_back};
  const PanelPoint back_right{s.back_x(s.right_back), s.right_back};
  const PanelPoint ahead_left{s.ahead_x(s.left_ahead), s.left_ahead};
  const PanelPoint ahead_right{s.ahead_x(s.right_ahead), s.right_ahead};
  if (!turned) return datum_on_left(s) ? back_left : back_right;
  return ahead_right.x > ahead_left.x + datum_prints_alike ? ahead_right : ahead_left;
}

/// Of a shape as drawn: x ahead of its datum corner, y from it towards the other edge.
inline PanelPoint from_datum(const PanelShape& s, PanelPoint p) {
  const PanelPoint d = datum_corner(s);
  return {p.x - d.x, datum_on_left(s) ? d.y - p.y : p.y - d.y};
}

}  // namespace deckquire
