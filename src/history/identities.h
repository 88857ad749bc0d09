// Names that last: what a deck's marks, positions and serials are called, given what was issued.
//
// The rules (all numbers are 1 + the highest that was ever issued):
// * A mark means what was issued under its name, for ever. A panel whose signature was issued takes
//   that mark, also one that was withdrawn; a panel that differs by less than the project's tolerance
//   from the drawing of a mark in use joins it; all others get new marks, in the order of erection.
// * A mark's drawing keeps the orientation in which it was issued.
// * A position is a place: old and new ones are matched row by row, in order, so that they share as
//   much length as they can.
// * A serial is one physical panel. A position that changes its mark gives up its serial and takes a
//   new one. A panel that was cast is not changed without a <decision> (see built.h).
#pragma once

#include <functional>

#include "deck/deck.h"
#include "history/register.h"

namespace deckquire::history {

/// The shape in place of a panel of the last issue, by its serial, from the project as it was issued;
/// nothing where that cannot be had.
using IssuedShapes = std::function<std::optional<PanelShape>(const std::string& serial)>;

/// Marks and positions of the deck as an issue of the project's last revision; nothing of sheets,
/// layout and files.
Issue issue_of(const Project& project, const Bridge& bridge, const Deck& deck);

/// Gives the deck the names that the register asks for; an empty register changes nothing. Built
/// panels that would change without a decision are errors. `shapes` is asked only for
/// built panels that would change.
void keep_identities(Deck& deck, const Project& project, const Bridge& bridge,
                     const Register& issued, Findings& findings, const IssuedShapes& shapes = {});

/// The serials of the last issue that are not in the new one, each with what takes its place and why.
std::vector<VoidedSerial> voided_by(const Issue& now, const Register& before,
                                    const Project& project);

/// True where marks and positions are the same: the same names for the same parts and places.
bool same_content(const Issue& a, const Issue& b);

// ---- the steps, each public for its tests

/// The number at the end of a name: 3 of DP03 and of 0417-003; 0 where there is none.
int number_of(const std::string& name);

/// A stretch of one row.
struct Interval {
  Length start, end;
};
/// For each of `now` the index in `old` that it continues, or -1: in order, with the greatest sum of
/// lengths shared; among equals the one that comes first.
std::vector<int> match_in_order(const std::vector<Interval>& old, const std::vector<Interval>& now);

}  // namespace deckquire::history
