// Names of what a deck is made of, as people write them: "panel 7", "hatch H2", "panel 7 hatch H2".
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "deck/deck.h"

namespace deckquire {

enum class ObjectKind { set, panel, mark, feature, joint, row_joint, span, girder, support };

/// What a name means in one deck.
struct Object {
  ObjectKind kind{};
  std::string name;           // without its kind: "7", "DP03", "H2", "J3"
  int index = -1;             // of the mark, joint, row joint, span, girder or support in its list
  std::vector<int> panels{};  // the panel; those of the mark or span; those with the feature
  FeatureKind feature{};      // of a feature
};

/// Finds "panel 7" (its position), "mark DP03", "joint J3", "row joint R1", "span S1", "girder G1",
/// "support A1", a feature by its kind and name ("hatch H2", "post 12L", "recess G1-S2"), the same on
/// one panel ("panel 7 hatch H2"), "set" or "bridge". Nothing when there is none.
std::optional<Object> find_object(const Bridge& bridge, const Deck& deck, const std::string& name);

/// An error for every open redline that is about nothing in the deck: what is answered may be gone.
void check_redlines(const Project& project, const Bridge& bridge, const Deck& deck,
                    Findings& findings);

}  // namespace deckquire
