// What is made by a mark, as text that a person can read and the program can compare.
//
// In it is all that belongs to the panel itself: outline, openings, curbs, features with their
// sizes, ends, direction of the fall; and of what all panels of the deck share the section, skins,
// materials, drip, surface, plates, scuppers, hatch frames, inserts, the tag. Not in it: names of
// features and of places, stations, loads, strengths, texts.
#pragma once

#include <optional>

#include "deck/deck.h"
#include "history/register.h"

namespace deckquire::history {

/// How far a number of an issued mark may be off and still be the same: what is lost by printing to
/// 0.001 mm, and by summing in another order.
inline constexpr double signature_tolerance = 0.002;  // mm

/// One fact a line, from the lowest corner of the box around the outline; mm to 0.001.
Signature signature_of(const PanelShape& shape, const Project& project);

/// A signature taken apart, to be compared many times.
struct Facts {
  struct Fact {
    std::string words;  // with # for each number
    std::vector<double> numbers;
  };
  std::vector<Fact> list;         // ordered by words
  std::optional<PanelPoint> tag;  // where the drawing shows it: kept, but not compared, since it
                                  // follows the drawing and not the panel
};
Facts facts_of(const Signature& signature);

/// Whether two are the same part in the orientations they have, whatever the order of the lines and
/// the corner that a ring begins with. For the other orientation take the signature of half_turn().
bool same_part(const Facts& a, const Facts& b);
bool same_part(const Signature& a, const Signature& b);

/// Only equal ones can be the same part: all that is no number.
std::string kind_of(const Facts& facts);

}  // namespace deckquire::history
