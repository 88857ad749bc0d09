// Shapes into marks. A mark has a representative, the first shape that came; another shape joins
// it when it, or its half-turn, is within the tolerance of the representative itself, never of
// another member: so two panels of one mark differ by twice the tolerance at most, and a chain of
// small steps does not become one mark. A mirror image never joins.
#pragma once

#include <memory>

#include "deck/deck.h"

namespace deckquire {

class Typing {
 public:
  explicit Typing(Length tolerance);
  ~Typing();
  Typing(const Typing&) = delete;
  Typing& operator=(const Typing&) = delete;

  struct Placed {
    int mark = 0;          // from 0, in the order of their representatives
    bool turned = false;   // end for end to the representative; false where either way would do
    bool first = false;    // this shape is the representative of a new mark
    int opposite_of = -1;  // of a new mark: the first mark whose mirror image it is
  };
  /// The same as comparing with all representatives in turn and taking the first that fits; about
  /// log n of them are looked at.
  Placed place(const PanelShape& shape);

 private:
  struct Index;
  int first_fit(const PanelShape& shape, const PanelShape& turned, bool* is_turned) const;

  Length tolerance_;
  std::vector<PanelShape> representatives_;
  std::unique_ptr<Index> index_;
};

}  // namespace deckquire
