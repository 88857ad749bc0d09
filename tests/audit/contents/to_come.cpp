// Items of what comes after the drawings: loads, tags.
#include <algorithm>

#include "audit/contents/reading.h"

namespace deckquire::contents {

namespace {

/// The tag lies where nothing bears and nothing else is.
void tag_place(const Reading& r, Outcome& o) {
  for (const Mark& m : r.deck().marks)
    for (const Feature& tag : m.shape.features) {
      if (tag.kind != FeatureKind::tag) continue;
      for (const Feature& f : m.shape.features) {
        if (f.kind != FeatureKind::pad && f.kind != FeatureKind::hold_down) continue;
        const auto a = tag.box(), b = f.box();
        const bool apart = a.high.x <= b.low.x || b.high.x <= a.low.x || a.high.y <= b.low.y ||
                           b.high.y <= a.low.y;
        o.expect(apart, m.name + ": the tag lies on a " + feature_name(f.kind));
      }
    }
  for (const Page* p : r.of("P"))
    if (p->table("FEATURES"))
      o.expect(holds(p->words, "tag, soffit"), p->number() + ": no tag on the soffit");
}

Item absent(const std::string& id, const std::string& title, const std::string& row) {
  return {id, title, {}, {}, {}, {}, row};
}

Items loads() {
  return {absent("L1", "Load, date, vehicle, destination", "loads: number, date, vehicle, destination"),
          absent("L2", "Marks, serials, masses of a load", "loads: marks, serials and masses"),
          absent("L3", "Pieces and mass of a load", "loads: pieces and mass in all"),
          absent("L4", "Stacking in the order of erection", "stacking in the order of erection"),
          absent("L5", "Bearers, height of a stack", "bearers and height of a stack"),
          absent("L6", "Loose hardware by box", "loose hardware, box by box"),
          {"L7", "Limits of the vehicle",
           {{"G", "Shipping limit, length*Shipping limit, mass", false,
             [](const Reading& r) { return r.project().conditions.ship_mass.has_value(); }}},
           {}, {}, {}, "a whole load against the limits of its vehicle"},
          absent("L8", "Papers with the load", "papers that go with a load"),
          absent("L9", "Revision that a panel was made to", "revision that each panel was made to"),
          absent("L10", "Signatures, damage", "signatures on loading and receipt")};
}

Items tags() {
  return {{"P1", "Tag: mark, serial, job, mass", {{"P", "its tag*job *serial, mark*mass"}}},
          {"P2", "Tag: maker and date", {{"P", "its tag*maker,*date"}}},
          {"P3", "Top side and direction on the panel",
           {{"P", "AHEAD with its arrow is*painted*top face"}}},
          {"P4", "Tag: sheet and revision", {{"P", "its tag*date, P*and*revision"}}},
          absent("P5", "Readable where the panel lies", "a tag that reads the right way up in place"),
          {"P6", "Tagged on the day of making", {{"P", "On the day it is made a panel gets its tag"}}},
          {"P7", "Tag durable, off bearings and sight", {{"G", "moulded on*panel's*tag", false}},
           tag_place, reword("P", "tag, soffit", "tag, top"), {}, "", "saltmarsh"},
          absent("P8", "Machine-readable tag", "a code on the tag for machines"),
          {"P9", "Panels that fail are kept apart",
           {{"G", "marks a panel that fails and keeps it apart", false}}}};
}

}  // namespace

Items to_come() {
  Items out = loads();
  for (const Items& more : {revisions(), tags()})
    out.insert(out.end(), more.begin(), more.end());
  return out;
}

}  // namespace deckquire::contents
