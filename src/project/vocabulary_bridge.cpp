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
           {"obstruction", 0, 500},
           {"crossing", 0, 100},
           {"measured", 0, 5000}}};
}

Element alignment() {
  const Limits survey{"-20000 km", "20000 km"};
  return {"alignment",
          "The line that stations and offsets refer to, looking ahead towards greater stations: "
          "straight, but for its curves and transitions. Stations are measured along it, level.",
          {{"from", Kind::station, required(), {}, {}, "Station where the deck begins."},
           {"to", Kind::station, required(), {}, {}, "Station where the deck ends."},
           {"easting", Kind::length, value("0 m", "0 ft"), survey, {}, "Easting of `from`."},
           {"northing", Kind::length, value("0 m", "0 ft"), survey, {}, "Northing of `from`."},
           {"bearing",
            Kind::angle,
            value("90 deg"),
            {"-360", "360"},
            {},
            "Direction looking ahead at `from`, clockwise from north."}},
          {{"curve", 0, 200}, {"transition", 0, 400}, {"grade", 1, 500}}};
}

Element curve() {
  return {"curve",
          "A circular arc of the alignment. Curves and transitions follow each other in the order "
          "of their stations; where there is neither, the line is straight.",
          {{"from", Kind::station, required(), {}, {}, "Station where it begins."},
           {"to", Kind::station, required(), {}, {}, "Station where it ends."},
           {"radius",
            Kind::length,
            required(),
            {"3 m", "100 km"},
            {},
            "Of the alignment itself, not of an edge."},
           {"turn", Kind::word, required(), {}, {"left", "right"}, "Which way, looking ahead."}},
          {}};
}

Element transition() {
  return {"transition",
          "A clothoid: its curvature changes evenly from that of the element before it to that of "
          "the one after. Where two of them meet, the line is straight for an instant.",
          {{"from", Kind::station, required(), {}, {}, "Station where it begins."},
           {"to", Kind::station, required(), {}, {}, "Station where it ends."}},
          {}};
}

Element grade() {
  return {"grade",
          "A point of the long profile where two straight grades meet; the last ones go on beyond.",
          {{"at", Kind::station, required(), {}, {}, "Its station."},
           {"level",
            Kind::length,
            required(),
            {"-500 m", "9000 m"},
            {},
            "Level there, where the two grades meet: that of the top of the panels on the "
            "alignment, unless a curve rounds the corner."},
           {"curve",
            Kind::length,
            absent("the grades meet in a corner"),
            {"1 m", "10 km"},
            {},
            "Length, level, of the parabola that rounds the corner, half on each side of it."}},
          {}};
}

Element support() {
  return {"support",
          "An abutment or a pier.",
          {{"name", Kind::name, required(), {}, {}, "Its name on the drawings.", true},
           {"kind", Kind::word, required(), {}, {"abutment", "pier"}, "Which of the two."},
           {"at", Kind::station, required(), {}, {}, "Station of its bearings."},
           {"top", Kind::length, absent("not stated: outlets above it are not checked"),
            {"50 mm", "20 m"}, {},
            "Of its top with the bearings, along, half on each side of them: no outlet ends above it."}},
          {}};
}

Element girder() {
  return {"girder",
          "A girder beneath the deck.",
          {{"name", Kind::name, required(), {}, {}, "Its name on the drawings.", true},
           {"offset",
            Kind::length,
            required(),
            offsets,
            {},
            "Of the middle of its top flange, positive to the left looking ahead; with "
            "course=\"straight\" at its supports."},
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
            "Station where it ends."},
           {"course",
            Kind::word,
            value("parallel"),
            {},
            {"parallel", "straight"},
            "Parallel to the alignment, or straight from support to support (its own ends count "
            "as supports). The same where the alignment is straight."}},
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
  return {bridge(),  alignment(), curve(),  transition(), grade(),
          support(), girder(),    splice(), obstruction()};
}

}  // namespace deckquire
