// What holds for every deck. Each check says in words what does not.
#pragma once

#include <fmt/format.h>

#include "deck/random_decks.h"

namespace trial {

struct Case {
  const RandomDeck& made;
  const Built& built;
  std::vector<std::string>& wrong;

  const Project& project() const { return made.project; }
  const Deck& deck() const { return built.deck; }
  const Alignment& alignment() const { return built.bridge.alignment; }
  template <class... Args>
  void say(fmt::format_string<Args...> words, Args&&... args) const {
    wrong.push_back(fmt::format(words, std::forward<Args>(args)...));
  }
  bool has_step() const {
    const auto& e = project().deck.edges;
    for (std::size_t i = 1; i < e.size(); ++i)
      if (e[i].station == e[i - 1].station) return true;
    return false;
  }
};

/// The plan of a feature by its own sizes, nothing but its corners; larger by `around`.
Ring<PanelFrame> corners_of(const Feature& f, double around = 0);

// ---- of any deck, right or wrong

/// Each finding has its place in the file and is said once.
void check_findings(const Case& c);
/// Panels or none; indices within their lists; positions by station, then row.
void check_whole(const Case& c);
/// Of every two things nearer than their clearance by GEOS, all pairs, the clash search knows.
void check_clashes(const Case& c);

// ---- of a deck without errors

/// Panels, gaps and end gaps add up to the spans, to the nanometre, as the project says.
void check_spans(const Case& c);
/// Corners lie on the edge lines, faces are parallel to the joint lines, half a gap away.
void check_faces(const Case& c);
/// Panels, gaps and what is cut out for obstructions make up the deck, and nothing twice.
void check_tiling(const Case& c);
/// Every feature lies inside its panel, the posts in their curbs.
void check_features(const Case& c);
/// No bay of the rail is longer than the project says.
void check_posts(const Case& c);
/// Panels of a mark are the part that its drawing shows; two marks are two parts.
void check_types(const Case& c);
void check_masses(const Case& c);
/// Nothing lies where a hatch, a sleeve or the room of an obstruction goes through a panel.
void check_through(const Case& c);
/// All rain is caught or reaches an end, whatever the rain and the grates are; what is calculated of
/// the drainage is said with a place and numbers, or is not checked.
void check_drainage(const Case& c);

}  // namespace trial
