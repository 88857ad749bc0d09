// How two panels differ, in the trade's words.
#pragma once

#include <string>
#include <vector>

#include "deck/deck.h"

namespace deckquire {

struct Difference {
  std::string of;        // what differs: "length", "left edge", "post plate" ...
  std::string words;     // "post plates 12L, 12R at x = 412 instead of 400"
  double amount = 0;     // mm, of the greatest change; 0 where it is no measure
  int things = 1;        // of how many features it is said
  bool follows = false;  // of a thing that the program places after the others: hold-downs, lifting
                         // inserts, pads
};

/// What makes `a` another part than `b`, with `b` laid on `a` as drawn or end for end, whichever
/// leaves less_different() (else as drawn). Places are printed in the project's
/// units as on the sheet of `a`: x ahead and y to the left from its back right corner. Empty just
/// where the two are one part within the project's tolerance. A hand is not looked for: a mirror
/// image is described by what lies elsewhere.
struct ShapeComparison {
  bool turned = false;  // b lies end for end
  std::vector<Difference> list;
};
ShapeComparison compare_shapes(const PanelShape& a, const PanelShape& b, const Project& project);
/// The same of two panels in one place: b is not turned.
ShapeComparison compare_in_place(const PanelShape& a, const PanelShape& b, const Project& project);

/// True where fewer things differ, those that follow others counted last; then the smaller sum.
bool less_different(const ShapeComparison& p, const ShapeComparison& q);

/// A feature of one panel and the one of its kind (and side) in the other that lies nearest, each
/// taken once; null where one panel has more of them.
struct FeaturePair {
  const Feature* a = nullptr;
  const Feature* b = nullptr;
  PanelPoint move;  // from its place in a to its place in b, frames laid corner on corner
};
/// In the order of `a`, then what only `b` has. The tag is left out.
std::vector<FeaturePair> pair_features(const PanelShape& a, const PanelShape& b);

/// Hold-downs, lifting inserts and pads, which take their places after all else is placed.
bool follows(FeatureKind kind);

}  // namespace deckquire
