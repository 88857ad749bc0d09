// What lies below the bridge, and what was measured on the steel.
#include "project/vocabulary.h"

namespace deckquire {
namespace {

const Limits offsets{"-50 m", "50 m"}, levels{"-500 m", "9000 m"};

Element crossing() {
  return {"crossing",
          "What passes below the bridge. No outlet drips on it unless it says so.",
          {{"name", Kind::name, required(), {}, {}, "Its name on the drawings.", true},
           {"kind", Kind::word, required(), {}, {"road", "railway", "path", "water"}, "What it is."},
           {"from", Kind::station, required(), {}, {}, "Station of its back border."},
           {"to", Kind::station, required(), {}, {}, "Station of its ahead border."},
           {"left", Kind::length, absent("to beyond the deck"), offsets, {},
            "Offset of its left border, where it does not pass under the whole width."},
           {"right", Kind::length, absent("to beyond the deck"), offsets, {}, "Offset of its right border."},
           {"level", Kind::length, absent("not stated"), levels, {}, "Highest level of its surface."},
           {"headroom", Kind::length, absent("not checked"), {"500 mm", "20 m"}, {},
            "To be kept free above that level; pipes below the deck count."},
           {"outlets", Kind::word, value_by("kind", "road=none|railway=none|path=none|water=allowed",
                                            "road=none|railway=none|path=none|water=allowed"),
            {}, {"none", "allowed"}, "Whether outlets may end above it."},
           {"clear", Kind::length, value("500 mm", "20 in"), {"0 mm", "20 m"}, {},
            "What outlets keep from its borders where they may not end above it (common practice, no "
            "source: wind carries drops)."}},
          {}};
}

Element measured() {
  const Limits size{"1 mm", "20 m"};
  return {"measured",
          "What a survey found. The design stays as it is; the findings say where the steel is out of what "
          "the panels allow.",
          {{"of", Kind::word, required(), {}, {"splice", "girder", "support", "obstruction"}, "Of what."},
           {"name", Kind::name, required(), {}, {}, "Which one, by its name."},
           {"girder", Kind::name, absent("the splice is on one girder only"), {}, {},
            "On which girder, for a splice of several."},
           {"at", Kind::station, absent("not measured"), {}, {},
            "Station of its middle; of a girder: where its offset and level were taken."},
           {"offset", Kind::length, absent("not measured"), offsets, {},
            "Offset of its middle; of a girder: of its flange's middle."},
           {"level", Kind::length, absent("not measured"), levels, {}, "Top of a girder's flange."},
           {"length", Kind::length, absent("not measured"), size, {}, "Along."},
           {"width", Kind::length, absent("not measured"), size, {}, "Across; of a girder: of its flange."},
           {"projection", Kind::length, absent("not measured"), {"0 mm", "500 mm"}, {},
            "Of a splice's highest bolt end above the flange."},
           {"diameter", Kind::length, absent("not measured"), size, {}, "Of a round obstruction."},
           {"by", Kind::text, required(), {}, {}, "Who measured."},
           {"date", Kind::date, required(), {}, {}, "When."}},
          {}};
}

}  // namespace

std::vector<Element> site_vocabulary() {
  return {crossing(), measured()};
}

}  // namespace deckquire
