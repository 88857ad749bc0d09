// The steelwork that carries the deck.
#include "project/vocabulary.h"

namespace deckquire {
namespace {

const Limits offsets{"-50 m", "50 m"};

Element bridge() {
  return {"bridge",
          "The steelwork as the deck meets it.",
          {{"name", Kind::text, described("the title"), {}, {}, "Name of the bridge."},
           {"structure", Kind::text, absent("none printed"), {}, {}, "Its number at the owner's."},
           {"location", Kind::text, absent("none printed"), {}, {}, "Where it stands."}},
          {{"alignment", 1, 1},
           {"support", 0, 200},
           {"girder", 1, 50},
           {"splice", 0, 2000},
           {"obstruction", 0, 500}}};
}

Element alignment() {
  const Limits survey{"-20000 km", "20000 km"};
  return {"alignment",
          "The line that stations and offsets refer to: straight in plan, looking ahead towards "
          "greater stations.",
          {{"from", Kind::station, required(), {}, {}, "Station where the deck begins."},
           {"to", Kind::station, required(), {}, {}, "Station where the deck ends."},
           {"easting", Kind::length, value("0 m", "0 ft"), survey, {}, "Easting of `from`."},
           {"northing", Kind::length, value("0 m", "0 ft"), survey, {}, "Northing of `from`."},
           {"bearing",
            Kind::angle,
            value("90 deg"),
            {"-360", "360"},
            {},
            "Direction looking ahead, clockwise from north."}},
          {{"grade", 1, 500}}};
}

Element grade() {
  return {"grade",
          "A point of the long profile; straight grades between, the last ones go on beyond.",
          {{"at", Kind::station, required(), {}, {}, "Its station."},
           {"level",
            Kind::length,
            required(),
            {"-500 m", "9000 m"},
            {},
            "Level of the top of the panels there, on the alignment."}},
          {}};
}

Element support() {
  return {"support",
          "An abutment or a pier.",
          {{"name", Kind::name, required(), {}, {}, "Its name on the drawings.", true},
           {"kind", Kind::word, required(), {}, {"abutment", "pier"}, "Which of the two."},
           {"at", Kind::station, required(), {}, {}, "Station of its bearings."}},
          {}};
}

Element girder() {
  return {"girder",
          "A girder parallel to the alignment.",
          {{"name", Kind::name, required(), {}, {}, "Its name on the drawings.", true},
           {"offset",
            Kind::length,
            required(),
            offsets,
            {},
            "Of the middle of its top flange, positive to the left looking ahead."},
           {"flange", Kind::length, required(), {"40 mm", "3 m"}, {}, "Width of its top flange."},
           {"from",
            Kind::station,
            described("where the alignment begins"),
            {},
            {},
            "Station where it begins."},
           {"to",
            Kind::station,
            described("where the alignment ends"),
            {},
            {},
            "Station where it ends."}},
          {}};
}

Element splice() {
  return {
      "splice",
      "A bolted splice of the top flange, over which the panel needs a recess.",
      {{"name",
        Kind::name,
        described("girder and number, like G1-S2"),
        {},
        {},
        "Its name on the drawings; with girder=\"all\" the girder's name goes before it."},
       {"girder", Kind::name, value("all"), {}, {}, "Name of its girder, or all."},
       {"at", Kind::station, required(), {}, {}, "Station of its middle."},
       {"length",
        Kind::length,
        required(),
        {"50 mm", "5 m"},
        {},
        "Of the top plate, along the girder."},
       {"width", Kind::length, required(), {"40 mm", "3 m"}, {}, "Of the top plate, across."},
       {"plate", Kind::length, required(), {"2 mm", "150 mm"}, {}, "Thickness of the top plate."},
       {"projection",
        Kind::length,
        required(),
        {"0 mm", "300 mm"},
        {},
        "Of the highest bolt end above the plate."},
       {"rows",
        Kind::integer,
        value("0"),
        {"0", "60"},
        {},
        "Rows of bolts along the girder, both sides together; 0: not stated, no bolts drawn."},
       {"lines",
        Kind::integer,
        value("0"),
        {"0", "20"},
        {},
        "Bolts in a row, across the flange; given with rows."},
       {"bolt",
        Kind::length,
        value("22 mm", "7/8 in"),
        {"8 mm", "60 mm"},
        {},
        "Diameter of the bolts."}},
      {},
      false,
      {{{{"rows", "lines"}}, false}}};
}

Element obstruction() {
  return {
      "obstruction",
      "Something that passes through or beside the deck, round or rectangular.",
      {{"name", Kind::name, required(), {}, {}, "Its name on the drawings.", true},
       {"kind", Kind::word, required(), {}, {"mast", "hanger", "column"}, "What it is."},
       {"at", Kind::station, required(), {}, {}, "Station of its centre."},
       {"offset", Kind::length, required(), offsets, {}, "Offset of its centre."},
       {"diameter",
        Kind::length,
        absent("rectangular"),
        {"5 mm", "10 m"},
        {},
        "When round; not with length and width."},
       {"length",
        Kind::length,
        absent("round"),
        {"5 mm", "20 m"},
        {},
        "When rectangular: along the alignment."},
       {"width", Kind::length, absent("round"), {"5 mm", "20 m"}, {}, "When rectangular: across."},
       {"clearance",
        Kind::length,
        value("50 mm", "2 in"),
        {"0 mm", "1 m"},
        {},
        "Kept free of the deck all round."}},
      {},
      false,
      {{{{"diameter"}, {"length", "width"}}, true}}};
}

}  // namespace

std::vector<Element> bridge_vocabulary() {
  return {bridge(), alignment(), grade(), support(), girder(), splice(), obstruction()};
}

}  // namespace deckquire
