// Joints of all spans that ask for the fewest types, by the optimum. Used inside deck/ only.
//
// Stretches of one constant width (over all spans; a half-turn swaps the sides) are divided
// together, so that they share pitches: exact, see optimum.h. A taper gets the fewest panels, then
// the lightest heaviest one, and the mirrored joints of a taper like it elsewhere. A stretch with
// bends in its edges goes to the beam.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "deck/joint_rules.h"

namespace deckquire {

/// One way to look for a division.
struct Recipe {
  std::string name;
  int types = 0;  // this many lengths; 0: the fewest
  bool divisors = true;
  std::vector<optimum::Nm> stops = {};      // pitches off the lattice that may be used
  std::optional<optimum::Nm> longest = {};  // greatest pitch
  std::optional<optimum::Nm> preferred = {};
  std::int64_t work = 12'000'000;
  /// Panels are told apart by what lies on them as well, and all stretches go to the beam with
  /// `stops` and even divisions of the stretches for pitches.
  bool features = false;
};

struct Outline {
  std::vector<std::vector<optimum::Nm>> lines;  // of each span's rules
  int at_least = 0;      // outlines that any division within the rules has, on this lattice
  bool fewest = true;    // the pitches are proven the fewest
  bool compared = true;  // and their best layout found by comparing all
};

/// Why one stretch cannot be divided.
struct Refused {
  std::size_t rules = 0, stretch = 0;
  optimum::Infeasible why;
};

struct Sought {
  std::optional<Outline> outline;
  std::optional<Refused> refused;  // neither: nothing with the recipe's number of types
};

Sought seek(const Project& project, const Bridge& bridge, const std::vector<JointRules>& rules,
            const Recipe& recipe);

/// Different outlines of panels between these lines; equal after a half-turn is the same, and a
/// mirror image too where `moulds`. End joints and features are not looked at.
int outlines(const Bridge& bridge, const std::vector<JointRules>& rules,
             const std::vector<std::vector<optimum::Nm>>& lines, bool moulds);

}  // namespace deckquire
