// The panels: width, section, materials, spans, joints.
#include "project/vocabulary.h"

namespace deckquire {
namespace {

Element deck() {
  return {"deck",
          "The deck of prefabricated panels.",
          {},
          {{"edges", 1, 1},
           {"section", 1, 1},
           {"material", 0, 7},
           {"panel-strength", 0, 1},
           {"surface", 0, 200},
           {"span", 1, 200},
           {"joints", 0, 1},
           {"row-joint", 0, 20},
           {"posts", 0, 1},
           {"scuppers", 0, 1},
           {"hatch", 0, 500},
           {"sleeve", 0, 2000},
           {"hold-downs", 0, 1},
           {"pads", 0, 1},
           {"lifting", 0, 1},
           {"tag", 0, 1},
           {"marks", 0, 1},
           {"clearance", 0, 200},
           {"allowance", 0, 20}}};
}

Element edges() {
  return {"edges",
          "Width of the deck along the bridge: straight between two stations, constant before the "
          "first and after the last, a step where two share a station.",
          {},
          {{"edge", 1, 2000}}};
}

Element edge() {
  const Limits distance{"0 mm", "50 m"};
  return {"edge",
          "The width at one station.",
          {{"at", Kind::station, required(), {}, {}, "Its station."},
           {"left",
            Kind::length,
            required(),
            distance,
            {},
            "From the alignment to the left edge of the panels."},
           {"right",
            Kind::length,
            required(),
            distance,
            {},
            "From the alignment to the right edge of the panels."}},
          {}};
}

Element section() {
  const Limits skin{"1 mm", "60 mm"};
  return {
      "section",
      "The panel cut across. The soffit is flat and level across; the top falls.",
      {{"depth",
        Kind::length,
        required(),
        {"20 mm", "1 m"},
        {},
        "Soffit to top at the high line, wearing surface not counted."},
       {"fall",
        Kind::word,
        value("crown"),
        {},
        {"crown", "left", "right", "none"},
        "Where water runs: both ways from a high line, to one side, or nowhere."},
       {"slope",
        Kind::slope,
        value_by("fall", "crown=1.5 %|left=1.5 %|right=1.5 %|none=0 %",
                 "crown=1.5 %|left=1.5 %|right=1.5 %|none=0 %"),
        {"0 %", "10 %"},
        {},
        "Crossfall of the top."},
       {"high-line",
        Kind::length,
        value("0 mm", "0 in"),
        {"-50 m", "50 m"},
        {},
        "Offset of the crown from the alignment; only with fall=\"crown\"."},
       {"least-edge",
        Kind::length,
        described("half the depth"),
        {"5 mm", "1 m"},
        {},
        "Least depth allowed at an edge."},
       {"least-bearing",
        Kind::length,
        value("50 mm", "2 in"),
        {"0 mm", "1 m"},
        {},
        "Least width, across, that a panel bears on the flange of a girder under it."},
       {"top-skin", Kind::length, value("8 mm", "5/16 in"), skin, {}, "Laminate thickness, top."},
       {"bottom-skin",
        Kind::length,
        value("8 mm", "5/16 in"),
        skin,
        {},
        "Laminate thickness, soffit."},
       {"edge-skin",
        Kind::length,
        value("6 mm", "1/4 in"),
        skin,
        {},
        "Laminate thickness, edges and ends."}},
      {{"curb", 0, 1}, {"drip", 0, 1}, {"recess", 0, 1}}};
}

Element curb() {
  return {"curb",
          "A curb moulded on the panel along its edge. Left out: no curb.",
          {{"sides", Kind::word, value("both"), {}, {"both", "left", "right"}, "On which edges."},
           {"height",
            Kind::length,
            value("100 mm", "4 in"),
            {"20 mm", "600 mm"},
            {},
            "Of its top above the deck at its inner face."},
           {"width", Kind::length, value("150 mm", "6 in"), {"30 mm", "1 m"}, {}, "At its foot."},
           {"batter",
            Kind::length,
            value("15 mm", "1/2 in"),
            {"0 mm", "200 mm"},
            {},
            "How far the inner face leans over its height."}},
          {}};
}

Element drip() {
  return {
      "drip",
      "A groove under each long edge that makes water drop off. Left out: no groove.",
      {{"width", Kind::length, value("12 mm", "1/2 in"), {"3 mm", "60 mm"}, {}, "Of the groove."},
       {"depth", Kind::length, value("8 mm", "5/16 in"), {"2 mm", "40 mm"}, {}, "Of the groove."},
       {"inset",
        Kind::length,
        value("20 mm", "3/4 in"),
        {"5 mm", "200 mm"},
        {},
        "Of its outer side from the panel's edge."}},
      {}};
}

Element recess() {
  return {"recess",
          "The hollow moulded in the soffit over a splice.",
          {{"over",
            Kind::length,
            value("10 mm", "3/8 in"),
            {"0 mm", "100 mm"},
            {},
            "Clearance above the highest bolt end."},
           {"around",
            Kind::length,
            value("20 mm", "3/4 in"),
            {"0 mm", "200 mm"},
            {},
            "Clearance round the splice plate."},
           {"cover",
            Kind::length,
            value("50 mm", "2 in"),
            {"5 mm", "500 mm"},
            {},
            "Least depth left above it."}},
          {}};
}

Element material() {
  return {"material",
          "What a part is made of. A part left out takes the default listed below.",
          {{"part",
            Kind::word,
            required(),
            {},
            {"laminate", "core", "curb", "steel", "cover", "pad", "sealant"},
            "Which part.",
            true},
           {"name", Kind::text, required(), {}, {}, "What it is."},
           {"density", Kind::density, required(), {"10 kg/m3", "20000 kg/m3"}, {}, "Its density."},
           {"source", Kind::text, value("not stated"), {}, {}, "Where the value comes from."}},
          {}};
}

Element surface() {
  return {"surface",
          "A wearing surface. Where two overlap, the later one holds. Left out: none.",
          {{"class",
            Kind::word,
            required(),
            {},
            {"light", "heavy"},
            "light: grit in resin; heavy: polymer concrete."},
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
           {"thickness",
            Kind::length,
            value_by("class", "light=4 mm|heavy=10 mm", "light=3/16 in|heavy=3/8 in"),
            {"0.5 mm", "100 mm"},
            {},
            "Its thickness."},
           {"mass",
            Kind::area_mass,
            value_by("class", "light=7.2 kg/m2|heavy=22 kg/m2", "light=1.5 psf|heavy=4.5 psf"),
            {"0.1 kg/m2", "300 kg/m2"},
            {},
            "Mass per area."},
           {"colour", Kind::text, value("not stated"), {}, {}, "Name of its colour."},
           {"friction", Kind::text, value("not stated"), {}, {}, "Required value: printed."},
           {"standard",
            Kind::text,
            value("not stated"),
            {},
            {},
            "Test standard of the friction value, with edition."},
           {"stop",
            Kind::length,
            value("15 mm", "1/2 in"),
            {"0 mm", "500 mm"},
            {},
            "Its edge stays this far from panel ends and curbs."}},
          {}};
}

Element span() {
  return {"span",
          "A stretch of panels between two end joints: either <panels>, and the program divides, "
          "or a <panel> each, and the engineer divides.",
          {{"name", Kind::name, required(), {}, {}, "Its name on the drawings.", true},
           {"from", Kind::station, required(), {}, {}, "Station of its back end joint."},
           {"to", Kind::station, required(), {}, {}, "Station of its ahead end joint."},
           {"skew-from",
            Kind::angle,
            described("as skew of <joints>"),
            {"-45", "45"},
            {},
            "Skew of its back end joint. Where two spans meet it is one joint: state it once, or "
            "the same twice."},
           {"skew-to",
            Kind::angle,
            described("as skew of <joints>"),
            {"-45", "45"},
            {},
            "Skew of its ahead end joint."}},
          {{"panels", 0, 1}, {"panel", 0, many}}};
}

Element panel() {
  return {"panel",
          "One panel, or several alike in a row.",
          {{"length",
            Kind::length,
            required(),
            {"200 mm", "40 m"},
            {},
            "Its own length; gaps are not part of it."},
           {"times", Kind::integer, value("1"), {"1", "20000"}, {}, "How many in a row."}},
          {}};
}

Element joints() {
  const Limits small{"1 mm", "200 mm"};
  return {
      "joints",
      "Transverse joints.",
      {{"kind",
        Kind::word,
        value("sealed"),
        {},
        {"open", "sealed", "lapped"},
        "open: a gap; sealed: backer rod and sealant; lapped: the panel set first has a tongue at "
        "its foot, the next is lowered onto it."},
       {"gap",
        Kind::length,
        value("12 mm", "1/2 in"),
        {"0 mm", "150 mm"},
        {},
        "Between two panels of a span, half on each side of the joint line."},
       {"end-gap",
        Kind::length,
        value("32 mm", "1 1/4 in"),
        {"0 mm", "500 mm"},
        {},
        "At span ends: all of it inside the deck at its two ends, half in each span between "
        "two spans."},
       {"rod",
        Kind::length,
        value("16 mm", "5/8 in"),
        small,
        {},
        "Diameter of the backer rod (sealed)."},
       {"seal",
        Kind::length,
        value("10 mm", "3/8 in"),
        small,
        {},
        "Depth of the sealant (sealed)."},
       {"lap",
        Kind::length,
        value("40 mm", "1 1/2 in"),
        {"5 mm", "500 mm"},
        {},
        "Length of the lap (lapped)."},
       {"tongue",
        Kind::length,
        value("20 mm", "3/4 in"),
        small,
        {},
        "Thickness of the tongue (lapped)."},
       {"cover-width",
        Kind::length,
        value("160 mm", "6 in"),
        {"20 mm", "1.5 m"},
        {},
        "Of the steel cover plate over end joints."},
       {"cover-thickness",
        Kind::length,
        value("8 mm", "5/16 in"),
        {"2 mm", "50 mm"},
        {},
        "Of that plate."},
       {"skew",
        Kind::angle,
        value("0 deg"),
        {"-45", "45"},
        {},
        "Of the joint lines from square to the alignment; positive: the left end of the line "
        "lies ahead. Gaps are measured square to the line."}},
      {}};
}

Element row_joint() {
  return {"row-joint",
          "A longitudinal joint along the alignment, over a girder: it parts the deck in rows of "
          "panels side by side, the first row on the left.",
          {{"name", Kind::name, required(), {}, {}, "Its name on the drawings.", true},
           {"offset",
            Kind::length,
            required(),
            {"-50 m", "50 m"},
            {},
            "Of its middle from the alignment, left positive."},
           {"gap",
            Kind::length,
            value("12 mm", "1/2 in"),
            {"0 mm", "150 mm"},
            {},
            "Between the two rows, half on each side."},
           {"from",
            Kind::station,
            described("where the alignment begins"),
            {},
            {},
            "Station where it begins, on a transverse joint."},
           {"to",
            Kind::station,
            described("where the alignment ends"),
            {},
            {},
            "Station where it ends, on a transverse joint."}},
          {}};
}

}  // namespace

std::vector<Element> deck_vocabulary() {
  return {deck(),     edges(),   edge(), section(),        curb(),  drip(),   recess(),
          material(), surface(), span(), panels_element(), panel(), joints(), row_joint()};
}

}  // namespace deckquire
