// What the project asks between two kinds of things.
#include "project/vocabulary.h"

namespace deckquire {

std::vector<Element> clearance_vocabulary() {
  const std::vector<std::string> kinds{
      "hatch", "sleeve", "scupper", "outlet", "post plate", "hold-down", "lifting insert", "tag",
      "pad",   "drip",   "opening", "recess", "splice",     "flange",    "joint",          "edge"};
  const Limits distance{"0 mm", "1 m"};
  return {
      {"clearance",
       "A least distance between two kinds of things, in place of the one that the program would "
       "ask. Of several the most specific holds: of a pair, then of one kind with everything. "
       "outlet: the pipe of a scupper; opening: left out for an obstruction; joint: a panel's end "
       "face or the face of a row joint; edge: the deck's own edge.",
       {{"between", Kind::word, required(), {}, kinds, "One kind."},
        {"and", Kind::word, absent("with everything"), {}, kinds, "The other kind, or the same."},
        {"least", Kind::length, required(), distance, {}, "Between their outlines in plan."},
        {"depth",
         Kind::length,
         absent("as the program would ask"),
         distance,
         {},
         "Between them through the depth: enough by itself, where one lies over the other."}},
       {}}};
}

}  // namespace deckquire
