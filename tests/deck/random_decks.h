// Whole projects out of dice, for the tests that hold for every deck.
#pragma once

#include <cmath>

#include "deck/trial.h"

namespace trial {

struct RandomDeck {
  std::uint64_t seed = 0;
  Project project;    // its places are those of `xml`
  std::string xml;    // the same project as text
  std::string fault;  // code of the error that was built in; empty: meant to be right
};

/// A panel's end faces on the alignment, as the maker meant them.
struct Bay {
  Length start, end;
  Length middle() const { return start + (end - start) / 2; }
};

/// A project while it is made.
struct Making {
  Dice dice;
  Project project;
  Length unit;  // sizes are whole ones of these: 1 mm, 1/16 in
  std::vector<Bay> bays;
  std::vector<Length> joints;  // their stations, end joints of the deck left out
  double least_left = 0, least_right = 0;  // mm: no edge is nearer to the alignment

  /// The greatest skew of any joint.
  double skew() const;

  bool chance(double p) { return dice.next() < p; }
  double between(double low, double high) { return low + dice.next() * (high - low); }
  /// A length in whole units.
  Length size(double low_mm, double high_mm) { return snapped(between(low_mm, high_mm)); }
  Length snapped(double mm_value) const {
    const double u = static_cast<double>(unit.in_nanometres());
    return Length::from_nanometres(std::llround(mm_value * 1e6 / u) * unit.in_nanometres());
  }
  template <class List>
  const typename List::value_type& one_of(const List& list) {
    return list[static_cast<std::size_t>(dice.upto(static_cast<int>(list.size())))];
  }
};

/// Spans, alignment, edges, girders, section.
void make_frame(Making& m);
/// Splices, obstructions, posts, scuppers, hatches, sleeves, what is under the panels.
void make_fittings(Making& m);
/// One contradiction; its code, empty where this deck cannot have it.
std::string make_fault(Making& m);

/// Every sixth has a fault built in.
RandomDeck random_deck(std::uint64_t seed);

}  // namespace trial
