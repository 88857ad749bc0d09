// The panel as a sandwich: what the workings of its strips take. Used inside checks/ only.
#pragma once

#include <map>

#include "checks/reckoning.h"

namespace deckquire {

/// A strip of the panel of one depth: D and S by sandwich-stiffness, moment, shear and bearing by
/// sandwich-strength, as two calculations in a bundle.
struct SandwichStrip {
  Bundle bundle;
  double D = 0, S = 0;                  // SI: N m2, N
  std::optional<double> M_R, V_R, R_R;  // SI; none: the project does not state the strength
};

/// Of one topic, each width and depth once. The project states stiffness (panel-strength).
class SandwichStrips {
 public:
  SandwichStrips(const CalculationJob& job, Topic topic);
  /// Width and depth in mm. Nothing where no core is left between the skins.
  std::optional<SandwichStrip> of(double width, double depth, const std::vector<int>& marks);
  /// D and S, SI, of a strip one metre wide, to tell which of many strips is worth a working.
  std::pair<double, double> stiffness(double depth) const;
  /// What the faces' stress and the core's are to a moment and a shear on a metre, 1/m3 and 1/m2.
  std::pair<double, double> stress(double depth) const;
  /// Across the bridge, of the pad or the flange, the narrowest; mm.
  double bearing() const { return bearing_; }

 private:
  const CalculationJob& job_;
  Topic topic_;
  double bearing_ = 0, skin_ = 0, skins_ = 0;  // the thinner skin, both together
  std::string bearing_from_;
  std::map<std::pair<std::int64_t, std::int64_t>, std::optional<SandwichStrip>> known_;
};

/// "needs" of what cannot be done without <panel-strength>.
constexpr const char* needs_stiffness =
    "stiffness of skins and core, proved by test (panel-strength face-modulus=, "
    "core-shear-modulus=)";

}  // namespace deckquire
