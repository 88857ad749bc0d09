// Rail posts and their plates.
#include "project/vocabulary.h"

namespace deckquire {
namespace {

Element posts() {
  return {
      "posts",
      "Rail posts on the curb, each over a plate moulded in. Left out: none.",
      {{"greatest",
        Kind::length,
        absent("not by this rule"),
        {"200 mm", "10 m"},
        {},
        "No bay longer than this, measured along the rail; not with spacing."},
       {"bays",
        Kind::word,
        value("half"),
        {},
        {"half", "equal"},
        "With greatest. half: in every panel the fewest equal bays, posts half a bay from the "
        "joint lines. equal: between the posts that are fixed (written out, at-ends, at-breaks) "
        "the fewest equal bays, each post moved the least that keeps clear of the joints."},
       {"spacing",
        Kind::length,
        absent("not by this rule"),
        {"200 mm", "10 m"},
        {},
        "Constant spacing along the bridge; not with greatest."},
       {"first",
        Kind::station,
        described("half a spacing ahead of the alignment's beginning, or the nearest to it that "
                  "keeps every post clear of the joints"),
        {},
        {},
        "Station of the first post; only with spacing."},
       {"sides", Kind::word, value("both"), {}, {"both", "left", "right"}, "On which edges."},
       {"in-line",
        Kind::word,
        value("yes"),
        {},
        {"yes", "no"},
        "yes: left and right posts at the same stations. no: each edge by itself, which differs "
        "on curves and skewed joints."},
       {"at-ends",
        Kind::length,
        absent("no posts of their own at the ends"),
        {"0 mm", "5 m"},
        {},
        "A post so far from each end face of the deck."},
       {"at-breaks",
        Kind::word,
        value("no"),
        {},
        {"yes", "no"},
        "A post where the edge turns (at changes of the width), moved the least that keeps "
        "clear of the joints."},
       {"freedom",
        Kind::length,
        value("0 mm", "0 in"),
        {"0 mm", "1 m"},
        {},
        "A post by spacing or equal bays may leave its place by so much to make more panels "
        "alike."},
       {"clear",
        Kind::length,
        value("75 mm", "3 in"),
        {"0 mm", "1 m"},
        {},
        "Least distance from the plate to the panel's end: a rule keeps it; a post written out "
        "nearer to a joint gives a warning."}},
      {{"plate", 0, 1}, {"anchor", 0, 1}, {"post", 0, 5000}},
      false,
      {{{{"greatest"}, {"spacing"}}, false}}};
}

Element plate() {
  return {
      "plate",
      "The tapped steel plate under each post.",
      {{"length", Kind::length, value("200 mm", "8 in"), {"30 mm", "1 m"}, {}, "Along the edge."},
       {"width", Kind::length, value("90 mm", "3 1/2 in"), {"20 mm", "1 m"}, {}, "Across."},
       {"thickness", Kind::length, value("16 mm", "5/8 in"), {"3 mm", "80 mm"}, {}, "In z."},
       {"cover",
        Kind::length,
        value("25 mm", "1 in"),
        {"0 mm", "300 mm"},
        {},
        "From its top to the top of the curb."},
       {"thread", Kind::thread, value("M16", "5/8-11"), {}, {}, "Of the holes."},
       {"along", Kind::integer, value("2"), {"1", "20"}, {}, "Holes along the edge."},
       {"across", Kind::integer, value("2"), {"1", "20"}, {}, "Holes across."},
       {"pitch-along",
        Kind::length,
        value("140 mm", "5 1/2 in"),
        {"0 mm", "900 mm"},
        {},
        "Of the holes along the edge."},
       {"pitch-across",
        Kind::length,
        value("40 mm", "1 1/2 in"),
        {"0 mm", "900 mm"},
        {},
        "Of the holes across."},
       {"tap-depth",
        Kind::length,
        value("16 mm", "5/8 in"),
        {"3 mm", "150 mm"},
        {},
        "Depth of full thread."}},
      {}};
}

Element post() {
  return {"post",
          "A post written out. It takes the place of the nearest post of the rule on its edge, if "
          "that is not more than half a bay away; else it stands in addition.",
          {{"name",
            Kind::name,
            described("number and side, like 12L"),
            {},
            {},
            "Its name on the drawings.",
            true},
           {"at", Kind::station, required(), {}, {}, "Its station."},
           {"side", Kind::word, value("both"), {}, {"both", "left", "right"}, "On which edge."}},
          {}};
}

}  // namespace

std::vector<Element> post_vocabulary() {
  return {posts(), plate(), post()};
}

}  // namespace deckquire
