// What the joints of one span have to heed, in the lines of the optimum: a line stands where the
// panel ahead begins, less half a gap; a pitch is a panel and one gap. Used inside deck/ only.
//
// Heeded: lines that must be joints (steps of the width, borders of the wearing surface, ends of
// row joints; bends of the width where asked for), zones around splices, posts that do not follow
// the joints, scuppers, hatches, sleeves and obstructions, limits of length, mould, shipping, mass.
#pragma once

#include <string>
#include <tuple>
#include <vector>

#include "deck/division.h"
#include "deck/optimum.h"

namespace deckquire {

/// Between two lines that must be joints.
struct JointStretch {
  optimum::Nm from = 0, to = 0;
  enum class Width { constant, taper, bent } width = Width::constant;
  /// Edges at both ends and the wearing surface: panels of equal pitch in stretches of equal
  /// constant width are of one outline.
  Length left_from, right_from, left_to, right_to;
  int surface = -1;
  optimum::Limits limits;
  const char* greatest_by = "longest";  // what sets the greatest length: "mould", "heaviest" ...
  std::optional<Mass> most;             // of a bare panel, and what sets it
  const char* most_by = "heaviest";
};

struct JointRules {
  int span = 0;
  SpanFrame frame;
  PanelsRule rule;
  optimum::Nm first = 0, last = 0;  // lines at the span's ends
  std::vector<optimum::Zone> zones;
  std::vector<JointStretch> stretches;

  optimum::Nm gap() const { return frame.gap.in_nanometres(); }
  std::vector<Length> panels(const std::vector<optimum::Nm>& lines) const;
  std::vector<optimum::Nm> lines(const std::vector<Length>& panels) const;
  /// Are these lines within every rule?
  bool heeded_by(const std::vector<optimum::Nm>& lines) const;
};

/// `allowance` is taken off the greatest mass: what features add to a bare panel.
JointRules joint_rules(const Project& project, const Bridge& bridge, const SpanFrame& frame,
                       int span, Mass allowance);

/// The mass of a panel without openings, recesses, posts and drains, as a sum of shares: by piece,
/// by length along the alignment, by area. An estimate: what is built is weighed afterwards.
struct BareMass {
  double each = 0, per_mm = 0, per_mm2 = 0;  // kg
  Mass of(double length, double area) const {
    return Mass::si(each + per_mm * length + per_mm2 * area);
  }
};

/// For panels between two stations (of the heaviest row where there are several).
BareMass bare_mass(const Project& project, const Bridge& bridge, Length from, Length to);

/// Area of the deck in plan between two stations, mm2, rows and gaps not parted.
double deck_area(const Bridge& bridge, Length from, Length to);

}  // namespace deckquire
