// <panels>: how the program is to divide a span.
#include "project/vocabulary.h"

namespace deckquire {
namespace {

constexpr const char* fewest_only = " Only with divide=\"fewest-types\".";

Limits panel_lengths() {
  return {"200 mm", "40 m"};
}

Attribute length(const char* name, Preset preset, Limits limits, const std::string& meaning) {
  return {name, Kind::length, std::move(preset), std::move(limits), {}, meaning + fewest_only};
}

Attribute word(const char* name, const char* preset, std::vector<std::string> words,
               const std::string& meaning) {
  return {name, Kind::word, value(preset), {}, std::move(words), meaning + fewest_only};
}

Attribute clearance(const char* name, Preset preset, const char* from) {
  return length(
      name, std::move(preset), {"0 mm", "2 m"},
      std::string("Least distance of a joint's edge from ") + from + "; no joint crosses it.");
}

void add_limits(std::vector<Attribute>& rows) {
  rows.push_back(
      length("shortest", described("half of longest"), panel_lengths(), "Least panel length."));
  rows.push_back(length("preferred", described("longest"), panel_lengths(),
                        "Of divisions alike in types and panels the one nearest to this length."));
  rows.push_back(length("step", value("50 mm", "2 in"), {"1 mm", "2 m"},
                        "Pitches (a panel and one gap) are whole numbers of it, or divide their "
                        "run evenly, or come from distances between features."));
  rows.push_back({"heaviest",
                  Kind::mass,
                  absent("no limit but the shipping mass"),
                  {"50 kg", "200 t"},
                  {},
                  std::string("Greatest mass of a panel.") + fewest_only});
  rows.push_back(length("mould", absent("no limit"), panel_lengths(),
                        "Length of the mould: no panel is longer."));
}

void add_manner(std::vector<Attribute>& rows) {
  rows.push_back(word("symmetrical", "no", {"yes", "no"},
                      "yes: the joints of the span lie alike from both its ends."));
  rows.push_back(word("closing", "yes", {"yes", "no"},
                      "yes: where it makes fewer types, one panel of each run may have any length; "
                      "it lies inside the run."));
  rows.push_back(word("joints-at-breaks", "yes", {"yes", "no"},
                      "yes: a joint wherever the width changes its course, so that no panel has a "
                      "bend in its edge."));
  rows.push_back(word("hands", "marks", {"marks", "moulds"},
                      "Are opposite hands two set-ups (marks), or one (moulds)?"));
}

}  // namespace

Element panels_element() {
  Element e{"panels",
            "The program divides the span: equal panels, the closing panel taking what rounding "
            "leaves; or panels of the fewest types.",
            {{"count",
              Kind::integer,
              absent("from longest"),
              {"1", "20000"},
              {},
              "How many; not with longest."},
             {"longest",
              Kind::length,
              absent("from count"),
              panel_lengths(),
              {},
              "Greatest panel length; not with count."},
             {"divide",
              Kind::word,
              value("equal"),
              {},
              {"equal", "fewest-types"},
              "equal: all alike; fewest-types: as few marks as can be found, then as few panels; "
              "needs longest."}},
            {},
            false,
            {{{{"count"}, {"longest"}}, true}}};
  add_limits(e.attributes);
  add_manner(e.attributes);
  const Preset usual = value("50 mm", "2 in");
  e.attributes.push_back(clearance("clear-splice", absent("a joint may part a recess in two"),
                                   "the recess over a splice"));
  e.attributes.push_back(clearance("clear-post", described("as clear of <posts>, and never less"),
                                   "the plate of a post that is given or at constant spacing"));
  e.attributes.push_back(clearance("clear-scupper", usual, "a scupper's body"));
  e.attributes.push_back(clearance("clear-hatch", usual, "a hatch with its rebate, or a sleeve"));
  e.attributes.push_back(clearance("clear-obstruction", value("75 mm", "3 in"),
                                   "what is kept free round an obstruction"));
  return e;
}

}  // namespace deckquire
