// How far the water may run before a scupper must take some of it. Used inside deck/ only.
#pragma once

#include "deck/gutter_line.h"

namespace deckquire {

/// One gutter in the rain, for the rule by="drainage".
class RainReach {
 public:
  /// `allowed`: the spread at which a scupper must stand, m. The grate of `water` is there.
  RainReach(GutterLine line, const GutterWater& water, double allowed, const Alignment& alignment);
  /// Rain between two stations, m3/s; none where `to` is up the gutter from `from`.
  double flow(Length from, Length to, bool ahead) const;
  /// The furthest station down the gutter, not beyond `to`, that water may reach which carries
  /// `carried` at `from`. Uniform flow; where the gutter is flatter than 0.3 % at most what the
  /// water's own slope asks above a scupper that catches all. On a level gutter a scupper takes
  /// half of what falls between it and the next.
  Length furthest(Length from, Length to, double carried) const;
  /// The most that may come to a low point from one side: half of what its scupper takes from a
  /// pond of the allowed depth. Nothing where the grate's opening is not known.
  std::optional<double> sag_share() const;
  /// What goes past a scupper.
  double passes(Length at, bool ahead, double arriving) const;

 private:
  double grade(double x, bool ahead) const { return (ahead ? -1 : 1) * line_.slope(x, !ahead); }
  double foot_of_pond(double Q) const;

  GutterLine line_;
  GutterWater water_;
  double allowed_;
  bool level_;
};

}  // namespace deckquire
