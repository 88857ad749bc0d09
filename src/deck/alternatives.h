// Divisions of the whole deck compared as real panels: set-ups are marks, with every feature.
//
// What is proven: by pitch and width (outlines) the fewest, on the lattice of each span's step, up
// to four pitches of one width (optimum.h). What is compared: set-ups, between the alternatives
// listed here only, each span's by itself in turn until no change of one span helps. Bounded: at
// most `most_shaped` panels are shaped for it, more alternatives are not looked at.
//
// Spans are compared each by itself, and joints keep clear only of what stands before the division
// (splices, hatches, given posts ...). What the rules place after it (posts, scuppers, clips, lifting
// inserts) may still be in the way of something: so the best is built and checked as a whole deck,
// and where that has errors the next best ones are, until one has none. That is no search of its
// own: what none of the alternatives avoids stays.
#pragma once

#include <string>
#include <vector>

#include "deck/deck.h"
#include "deck/division.h"

namespace deckquire {

struct Alternative {
  std::string name;                        // how it was found
  std::vector<std::vector<Length>> spans;  // panel lengths of every span of the deck
  int lengths = 0;                         // different panel lengths
  int outlines = 0;                        // different outlines in the spans compared
  int setups = 0;  // marks of the deck, or moulds where opposite hands count as one
  int panels = 0;
  Mass heaviest, mean;
  Length longest, shortest;
};

struct Alternatives {
  std::vector<Alternative> all;         // best first, then in the order sought
  int at_least = 0;                     // outlines that no division within the rules goes below
  bool proven = false;                  // the pitches of one width are the fewest there can be
  std::string bound;                    // how far the comparison went
  std::vector<std::string> left_alone;  // why spans that ask for nothing were not divided anew
};

/// The project with the panels of every span written out one by one; an empty list leaves its span as
/// it is.
Project with_division(const Project& project, const std::vector<std::vector<Length>>& spans);

constexpr std::int64_t most_shaped = 4000;

/// Panel lengths of the spans that ask for the fewest types; the others' are empty. Where there is
/// no division an error says which rule stands in the way, where, and what would help.
std::vector<std::vector<Length>> choose_panels(const Project& project, const Bridge& bridge,
                                               const std::vector<SpanFrame>& frames,
                                               Findings& findings, const DeckChecks& checks = {});

/// The same, with what was compared. Of a project that asks nowhere every span is divided by the
/// defaults of <panels>, its own longest panel the longest, and "as it stands" is one of them.
Alternatives compare_divisions(const Project& project, const Bridge& bridge, Findings& findings,
                               const DeckChecks& checks = {});

}  // namespace deckquire
