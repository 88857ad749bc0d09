// A strip of panel as a beam on any number of supports, with overhangs, with or without shear
// deformation. Plain doubles in N, mm, MPa: workings and checks put the units on.
//
// x runs from the left end. Loads and deflections are positive downwards, reactions upwards,
// bending moments where they sag; the shear V is what pushes up minus what pushes down left of x.
// With the rotation t of the cross-section:
//   w' = t + V/S,  t' = -M/D
// Over a support t runs through, not w' (Timoshenko's beam; without shear deformation S is infinite
// and the two are the same).
#pragma once

#include <array>
#include <limits>
#include <string>
#include <vector>

namespace deckquire::workings {

constexpr double no_shear_deformation = std::numeric_limits<double>::infinity();

/// The stiffnesses from the end of the former stretch (or the left end) to `to`.
struct StripStretch {
  double to = 0;
  double D = 0;                     // N mm2, of the whole width of the strip
  double S = no_shear_deformation;  // N
};

struct StripSupport {
  double x = 0;
  bool holds_down = true;  // false: it can only push, and the strip may lift off
};

struct Strip {
  double length = 0;
  std::vector<StripStretch> stretches;  // from left to right, the last ends at `length`
  std::vector<StripSupport> supports;   // from left to right, at least two
};

struct StripLoad {
  enum class Kind { uniform, point, couple } kind = Kind::uniform;
  double from = 0, to = 0;  // equal but for uniform loads
  double size = 0;          // N/mm, N, N mm
};
StripLoad uniform_load(double per_mm, double from, double to);
StripLoad point_load(double force, double x);
/// Clockwise where x runs to the right and z up: M rises by `moment` at x.
StripLoad couple_load(double moment, double x);
/// A force spread evenly over `patch` mm about `centre`.
StripLoad patch_load(double force, double centre, double patch);

struct StripState {
  double w = 0, rotation = 0, V = 0, M = 0;
};

/// Something at its largest or smallest, and where: the leftmost place of equal ones.
struct StripPeak {
  double value = 0, x = 0;
};
struct StripPeaks {
  StripPeak max_M, min_M, max_V, min_V, max_w, min_w;
};

/// A stretch without any jump: V, M, rotation and w are polynomials in s = x - from, lowest power
/// first.
struct StripPiece {
  double from = 0, to = 0, D = 0, S = 0, q = 0;
  std::array<double, 2> V{};
  std::array<double, 3> M{};
  std::array<double, 4> rotation{};
  std::array<double, 5> w{};
};

enum class Side { left, right };

struct StripResult {
  std::vector<StripPiece> pieces;  // from left to right, without gaps
  std::vector<double> reactions;   // one a support, 0 where it has lifted off
  std::vector<bool> lifted;
  /// How far forces and moments about the left end fail to balance, over the sum of the magnitudes.
  double force_residual = 0, moment_residual = 0;

  /// Just left or just right of x where something jumps there; 0 <= x <= length.
  StripState at(double x, Side side = Side::right) const;
  /// Exact: from the roots of the polynomials, not from samples.
  StripPeaks peaks() const;
  StripPeaks peaks(double from, double to) const;
};

/// WorkingError where the strip makes no sense (a sentence with the remedy), or where supports that
/// can only push leave it to tip over.
StripResult solve(const Strip& strip, const std::vector<StripLoad>& loads);

/// The same in words, empty where the strip and the loads make sense: for messages before solving.
std::string fault_of(const Strip& strip, const std::vector<StripLoad>& loads);

}  // namespace deckquire::workings
