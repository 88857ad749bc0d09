// Everything that takes up room in and under the panels, as bodies: a convex plan between two
// heights. Used inside checks/ only.
#pragma once

#include <vector>

#include "checks/clearance.h"
#include "checks/plan.h"

namespace deckquire {

/// One thing: a feature or the outlet of one, an edge of a panel, a flange or a splice under it.
struct Thing {
  Part part{};
  int panel = -1;                    // index into Deck::panels; of a splice -1: it is under several
  const Feature* feature = nullptr;  // of a part of a panel's feature
  int girder = -1;                   // recess, splice, pad, flange: index into Bridge::girders
  int splice = -1;                   // splice: index into Bridge::splices
  bool row_joint = false, ahead = false;  // which joint
  Side side{};                            // of an edge or a row joint
};

struct Body {
  int thing = 0;
  PlanShape plan;
  double low = 0, high = 0;  // above the soffit, mm
};

struct Bodies {
  std::vector<Thing> things;  // by panel, then the splices
  std::vector<Body> bodies;
};

/// Heights are taken where the top is lowest over a thing.
Bodies bodies_of(const Project& project, const Bridge& bridge, const Deck& deck, const Plan& plan);

/// The splice plate in plan, and the heads of its bolts: rows and lines evenly over the plate. A
/// head is taken as wide as its washer, twice the bolt's diameter.
PlanShape splice_plate(const Bridge& bridge, const Splice& splice, const Plan& plan);
std::vector<PlanShape> splice_bolts(const Bridge& bridge, const Splice& splice, const Plan& plan);

/// Strips of a girder's flange under a panel, from `reach` behind its back face to as much ahead.
std::vector<PlanShape> flange_strips(const Bridge& bridge, const Girder& girder, const Panel& panel,
                                     const Plan& plan);

}  // namespace deckquire
