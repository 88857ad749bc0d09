// What an engineer types about a strip, and how its results are told: shared by panel-strip and
// lift-bending.
#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "workings/reckoner.h"
#include "workings/strip.h"

namespace deckquire::workings {

/// "800 N @ 75 mm; 17.8 kN @ 2300 to 2500 mm; -2.6 kN m @ 100 mm; 5 kPa @ 0 to 1200 mm": point
/// loads, patches (a force over a range), couples (clockwise), uniform loads per length or, times
/// `width` mm, per area.
std::vector<StripLoad> typed_loads(std::string_view text, double width);

/// Stretches of D and S over the whole length; `weaker` is "0.6 @ 1200 to 1500 mm" (of D and S) or
/// "0.6 0.8 @ …" (of D, of S).
std::vector<StripStretch> typed_stretches(std::string_view weaker, double length, double D,
                                          double S);

/// A part of a strip between two supports, or an overhang.
struct StripBay {
  std::string name, suffix;  // "span 1", "span1"; "left overhang", "left"
  double from = 0, to = 0;
  bool overhang = false;
};
std::vector<StripBay> bays_of(const Strip& strip);

/// How the strip was solved and how far loads and reactions balance; a limit that they do.
void tell_solution(Reckoner& r, const StripResult& solved);

/// Points for a diagram, both sides of every jump.
template <class At>
Curve curve_of(const Strip& strip, const std::vector<StripPiece>& pieces, const char* title,
               const Unit& along, const Unit& unit, double scale, At at) {
  Curve c{title, along, unit, {}, {}, {}};
  constexpr int steps = 12;
  for (const StripPiece& p : pieces) {
    for (int i = 0; i <= steps; ++i) {
      const double x = i == steps ? p.to : p.from + (p.to - p.from) * i / steps;
      c.x.push_back(x / 1e3);
      c.y.push_back(at(x, i == steps ? Side::left : Side::right) * scale);
    }
  }
  for (const StripSupport& s : strip.supports) c.supports.push_back(s.x / 1e3);
  return c;
}

}  // namespace deckquire::workings
