// The gutter of one side as hydraulics sees it: metres, m3/s, slopes as ratios. For the rule that
// places scuppers by the rain, and for checks/.
#pragma once

#include <optional>

#include "deck/gutters.h"
#include "workings/hydraulics.h"

namespace deckquire {

/// Water runs along that side: the top falls to it, and a curb holds it.
bool has_gutter(const SectionData& section, Side side);

/// Foot of the curb of one side between two stations. Widths, curves, parabolas and crossfall as
/// the bridge has them; joints and the panels' chords are not seen.
class GutterLine {
 public:
  GutterLine(const Project& project, const Bridge& bridge, Side side, Length from, Length to);
  Side side() const { return side_; }
  double from() const { return pieces_.front().from; }
  double to() const { return pieces_.back().to; }
  /// Plan area that drains to it from its beginning to a station: to the deck's edge, as the curb's
  /// top may drain inwards. Exact where edges are straight and the line is straight, an arc or a
  /// clothoid.
  double area(double station) const;
  /// From the deck's edge, and from the curb's foot, to the high line. At a step or corner of the
  /// edge `ahead` chooses the side.
  double width(double station, bool ahead = true) const;
  double room(double station, bool ahead = true) const;
  /// Of the gutter's bottom; its rise per length along the gutter; that length per length of
  /// station.
  double level(double station) const;
  double slope(double station, bool ahead = true) const;
  double stretch(double station, bool ahead = true) const;
  /// Stations inside its ends where a width or curvature has a corner, and the corners and the ends
  /// of parabolas of the long profile; in order.
  const std::vector<double>& breaks() const { return breaks_; }

 private:
  struct Piece {
    double from = 0, to = 0;
    double edge_from = 0, edge_to = 0;  // signed offsets
    double high_from = 0, high_to = 0;
    double bend_from = 0, bend_to = 0;  // curvature, 1/m
    double area = 0;                    // before it
  };
  const Piece& piece(double station, bool ahead) const;
  static double share(const Piece& p, double station);
  double density(const Piece& p, double station) const;
  double partial(const Piece& p, double station) const;
  double out() const { return side_ == Side::left ? 1 : -1; }

  const Alignment& alignment_;
  Side side_;
  double fall_, curb_, far_curb_;
  std::vector<Piece> pieces_;
  std::vector<double> breaks_;
};

/// No fall along the gutter anywhere.
bool is_level(const Alignment& alignment, const GutterLine& gutter);

/// What the project says about rain and grates: all that the gutter needs.
struct GutterWater {
  double rate = 0;  // C i, m/s
  double n = 0, Sx = 0;
  double curb = 0;                // its height
  std::optional<double> allowed;  // spread
  std::optional<hydraulics::Grate>
      grate;                      // none: its type is not stated, or it is not tested so short
  std::optional<double> opening;  // clear share
  double blocked_in_sag = 0;
  hydraulics::Gutter gutter(double SL) const { return {n, Sx, SL}; }
  /// Of the grate in a sag, depth above the gutter's bottom there.
  hydraulics::Ponding ponding(double Q) const;
};

/// Intensity at a time of concentration, m/s: linear between durations, never that of less than 5
/// minutes; beyond the last that of the last. Nothing: the project has none at 5 minutes or below.
std::optional<double> rain_intensity(const RainData& rain, double seconds);
/// Nothing without rain, its intensity or the roughness, and without a crossfall.
std::optional<GutterWater> gutter_water(const Project& project, double intensity);

}  // namespace deckquire
