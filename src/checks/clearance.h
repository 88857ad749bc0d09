// Least distances between two things, in plan and through the depth.
#pragma once

#include <map>
#include <optional>
#include <string>

#include "deck/deck.h"

namespace deckquire {

/// What can be in another's way. Of two, the one listed first is the easier to move: a finding is
/// placed at its line of the file.
enum class Part {
  hatch,
  sleeve,
  scupper,  // its moulded body
  outlet,   // its pipe, also below the soffit
  post_plate,
  hold_down,
  lifting_insert,
  tag,
  pad,
  drip,     // the groove along a deck edge
  opening,  // left out for an obstruction
  recess,
  splice,  // plate and bolt heads, on the steel
  flange,  // of a girder
  joint,   // an end face, or the face of a row joint
  edge     // the deck's own edge
};
constexpr int part_count = 16;

/// As the project file and the findings name it.
const char* part_name(Part p);
std::optional<Part> part_named(const std::string& name);

/// Two things clash when they are nearer than `plan` in plan and also nearer than `depth` through
/// the depth: exactly at either is enough. 0: they must not overlap.
struct ClearanceRule {
  Part a, b;
  double plan = 0, depth = 0;  // mm
  std::string source;
  Place place;  // where the project says so; line 0: the table does
};

/// The rules of a project. Of several that speak of a pair the most specific holds: the project's
/// for the pair, the project's for one of the two, the table's for the pair.
class Clearances {
 public:
  /// A row of the project that cannot mean anything goes to `findings`.
  Clearances(const Project& project, Findings& findings);
  /// In either order; nullptr: the two may be anywhere.
  const ClearanceRule* between(Part a, Part b) const;
  /// The greatest plan distance that a rule asks of this part.
  double reach(Part p) const;

 private:
  void set(const ClearanceRule& rule);
  std::optional<ClearanceRule> rules_[part_count][part_count];
};

}  // namespace deckquire
