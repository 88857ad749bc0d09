// Pairs of things that are nearer than their clearance.
#pragma once

#include "checks/bodies.h"

namespace deckquire {

struct Clash {
  int a = 0, b = 0;  // things; a's part is listed before b's, of equal parts the lower index first
  const ClearanceRule* rule = nullptr;
  double plan = 0;   // distance in plan; negative: how deep they overlap
  double depth = 0;  // distance through the depth; negative: what they share of it
  PlanPoint at;
  bool overlap() const;
  double shortfall() const { return rule->plan - plan; }
};

/// Less than this is none: coordinates carry rounding, on curves that of the projection. mm
constexpr double clash_slack = 1e-4;
inline bool Clash::overlap() const {
  return plan < -clash_slack && depth < clash_slack;
}

/// True where two things are compared at all: not parts of one feature, and what belongs to a
/// panel (its edges, the flanges under it) only with that panel's own.
bool comparable(const Thing& a, const Thing& b);

/// The clash of two bodies, or none: nearer than the rule's plan distance and also nearer than its
/// depth.
std::optional<Clash> clash_of(const Body& a, const Body& b, const ClearanceRule& rule);

/// Of every two things that clash their worst place, in the order of the things. Time grows with
/// the bodies and the pairs that are near.
std::vector<Clash> find_clashes(const Bodies& all, const Clearances& clearances);

}  // namespace deckquire
