// Marks that would be one if a few fittings moved a little: one mould fewer.
#pragma once

#include <functional>
#include <optional>
#include <string>
#include <vector>

#include "deck/deck.h"

namespace deckquire {

/// A fitting of the deck, moved.
struct FittingMove {
  FeatureKind kind{};
  std::string name;            // "S3"
  double ahead = 0, left = 0;  // mm along the alignment and across
};

struct Merger {
  int from = 0, into = 0;          // indices of marks: the panels of `from` become `into`
  std::vector<FittingMove> moves;  // in all panels of `from`
  double furthest = 0;             // mm, the greatest of them
  std::size_t marks = 0;           // of the whole deck afterwards
};

/// The deck of a changed project with all its checks; nothing where there are errors.
using Rebuild = std::function<std::optional<Deck>(const Project&)>;

/// How far a hint may move what; mm. (Common practice, no source: what a designer will look at.)
constexpr double furthest_move = 300, furthest_move_of_openings = 100;

struct Merging {
  const Project& project;
  const Bridge& bridge;
  const Deck& deck;
};

/// How far a rule of the project lets what it places leave its place: posts of constant spacing or
/// equal bays with a freedom, scuppers of the rule (further upstream). Nothing where no rule says.
std::optional<double> post_freedom(const Project& project);
std::optional<double> scupper_freedom(const Project& project);

/// Pairs of marks between which nothing differs but places of rail posts and scuppers (along the
/// bridge), hatches and sleeves (both ways), by no more than the distances above, and what a rule
/// placed with a freedom by no more than that; what the program places after them (hold-downs,
/// lifting inserts) follows. Each is tried: the project is changed, the deck rebuilt, and only
/// those are returned whose panels do become one mark, with fewer marks in all. The smallest moves
/// first; of at most `most` candidates. `only`: those with this mark. Whether a thing may be moved
/// at all is for the designer to say.
std::vector<Merger> find_mergers(const Merging& here, const Rebuild& rebuild,
                                 std::optional<int> only = {}, std::size_t most = 60);

/// The project with the moves made: every post and scupper written out at its station.
Project with_moves(const Project& project, const Deck& deck, const std::vector<FittingMove>& moves);

/// "moving scuppers S3, S4 by 24 ahead and hatch H1 by 10 back, 5 to the left"
std::string move_words(const Merger& merger, UnitSystem units);

}  // namespace deckquire
