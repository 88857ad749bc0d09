// What is built into the panels or fixed to them, rail posts apart.
#include "project/vocabulary.h"

namespace deckquire {
namespace {

const Limits offsets{"-50 m", "50 m"};
const Limits plan_size{"20 mm", "5 m"};

Element scuppers() {
  return {"scuppers",
          "Drain bodies moulded in the panels. Left out: none.",
          {{"inset",
            Kind::length,
            value("20 mm", "3/4 in"),
            {"0 mm", "1 m"},
            {},
            "Of the grate's edge from the foot of the curb."},
           {"spacing",
            Kind::length,
            absent("only those written out"),
            {"1 m", "500 m"},
            {},
            "Rule: greatest length of gutter that drains to one scupper. The fewest that do, each "
            "moved upstream to where it may stand; those written out count."},
           {"by",
            Kind::word,
            absent("by spacing, where that is given"),
            {},
            {"drainage"},
            "Rule: the fewest with which the rain of <rain> spreads no wider than its spread; what "
            "a scupper does not catch runs to the next. With spacing, that too."},
           {"reserve",
            Kind::length,
            value("0 mm"),
            {"0 mm", "5 m"},
            {},
            "Rule by drainage: so much less than the spread allowed."},
           {"sides",
            Kind::word,
            value("both"),
            {},
            {"both", "left", "right"},
            "Gutters of the rule; none is placed on a side that the top does not fall to."},
           {"at-sags",
            Kind::word,
            value("yes"),
            {},
            {"yes", "no"},
            "Rule: one at every low point of the long profile."},
           {"at-end-joints",
            Kind::word,
            value("yes"),
            {},
            {"yes", "no"},
            "Rule: one just upstream of every end joint, so that it stays dry."},
           {"clear",
            Kind::length,
            value("50 mm", "2 in"),
            {"0 mm", "1 m"},
            {},
            "Rule: least distance from joints, post plates, recesses and sleeves; twice this from "
            "hatches, "
            "notches and other scuppers. The outlet pipe is always clear of girder flanges, by the "
            "setting tolerance."},
           {"freedom",
            Kind::length,
            value("250 mm", "10 in"),
            {"0 mm", "5 m"},
            {},
            "Rule: further upstream by at most this to make more panels alike, where that costs no "
            "scupper."}},
          {{"body", 0, 1}, {"grate", 0, 1}, {"outlet", 0, 1}, {"scupper", 0, 2000}}};
}

Element body() {
  return {
      "body",
      "The moulded box under the grate.",
      {{"length",
        Kind::length,
        value("360 mm", "14 in"),
        plan_size,
        {},
        "Outside, along the bridge."},
       {"width", Kind::length, value("260 mm", "10 in"), plan_size, {}, "Outside, across."},
       {"cavity",
        Kind::length,
        value("90 mm", "3 1/2 in"),
        {"10 mm", "1 m"},
        {},
        "Depth of the hollow below the top."},
       {"wall", Kind::length, value("8 mm", "5/16 in"), {"1 mm", "60 mm"}, {}, "Wall thickness."}},
      {}};
}

Element grate() {
  return {
      "grate",
      "The bolted grate, flush with the top.",
      {{"length", Kind::length, value("320 mm", "12 1/2 in"), plan_size, {}, "Along the bridge."},
       {"width", Kind::length, value("200 mm", "8 in"), plan_size, {}, "Across."},
       {"thickness", Kind::length, value("25 mm", "1 in"), {"3 mm", "150 mm"}, {}, "Its depth."},
       {"bolt", Kind::thread, value("M10", "3/8-16"), {}, {}, "Of its bolts."},
       {"bolts", Kind::integer, value("4"), {"1", "24"}, {}, "How many."},
       {"pitch-length",
        Kind::length,
        value("290 mm", "11 in"),
        plan_size,
        {},
        "Of the bolt holes, along."},
       {"pitch-width",
        Kind::length,
        value("170 mm", "6 1/2 in"),
        plan_size,
        {},
        "Of the bolt holes, across."}},
      {}};
}

Element outlet() {
  return {
      "outlet",
      "The pipe below the body.",
      {{"diameter", Kind::length, value("110 mm", "4 1/2 in"), {"20 mm", "600 mm"}, {}, "Outside."},
       {"wall", Kind::length, value("4 mm", "1/4 in"), {"0.5 mm", "40 mm"}, {}, "Wall thickness."},
       {"below",
        Kind::length,
        value("150 mm", "6 in"),
        {"0 mm", "10 m"},
        {},
        "Of its end below the soffit."}},
      {}};
}

Element scupper() {
  return {"scupper",
          "One scupper.",
          {{"name", Kind::name, required(), {}, {}, "Its name on the drawings.", true},
           {"at", Kind::station, required(), {}, {}, "Station of its centre."},
           {"side", Kind::word, required(), {}, {"left", "right"}, "Which gutter."}},
          {}};
}

Element hatch() {
  return {"hatch",
          "A rectangular opening with a bolted cover.",
          {{"name", Kind::name, required(), {}, {}, "Its name on the drawings.", true},
           {"at", Kind::station, required(), {}, {}, "Station of its centre."},
           {"offset", Kind::length, value("0 mm", "0 in"), offsets, {}, "Offset of its centre."},
           {"length", Kind::length, required(), plan_size, {}, "Clear opening along the bridge."},
           {"width", Kind::length, required(), plan_size, {}, "Clear opening across."},
           {"rebate",
            Kind::length,
            value("40 mm", "1 1/2 in"),
            {"0 mm", "500 mm"},
            {},
            "Width of the seat round the opening."},
           {"rebate-depth",
            Kind::length,
            value("30 mm", "1 1/4 in"),
            {"0 mm", "500 mm"},
            {},
            "Depth of the seat below the top."},
           {"cover",
            Kind::length,
            value("28 mm", "1 1/8 in"),
            {"1 mm", "500 mm"},
            {},
            "Thickness of the cover."},
           {"bolt", Kind::thread, value("M12", "1/2-13"), {}, {}, "Of the cover's bolts."},
           {"bolts",
            Kind::integer,
            value("4"),
            {"0", "24"},
            {},
            "How many: in the corners first, then along the sides."},
           {"lift",
            Kind::length,
            value("30 mm", "1 1/4 in"),
            {"0 mm", "200 mm"},
            {},
            "Diameter of the finger hole; 0: none."},
           {"use", Kind::text, value("not stated"), {}, {}, "What is below."}},
          {}};
}

Element sleeve() {
  return {
      "sleeve",
      "A round opening lined with a pipe.",
      {{"name", Kind::name, required(), {}, {}, "Its name on the drawings.", true},
       {"at", Kind::station, required(), {}, {}, "Station of its centre."},
       {"offset", Kind::length, required(), offsets, {}, "Offset of its centre."},
       {"diameter", Kind::length, required(), {"5 mm", "2 m"}, {}, "Outside."},
       {"wall", Kind::length, value("4 mm", "3/16 in"), {"0.5 mm", "60 mm"}, {}, "Wall thickness."},
       {"use", Kind::text, value("not stated"), {}, {}, "What passes."}},
      {}};
}

Element hold_downs() {
  return {
      "hold-downs",
      "Inserts in the soffit for clips under the girder flanges. Left out: as the defaults say; "
      "each=\"0\": none.",
      {{"each",
        Kind::integer,
        value("2"),
        {"0", "20"},
        {},
        "For every panel and girder; not with spacing."},
       {"spacing",
        Kind::length,
        absent("as many as each says"),
        {"100 mm", "10 m"},
        {},
        "On every girder the fewest not farther apart than this."},
       {"from-joint",
        Kind::length,
        value("400 mm", "16 in"),
        {"0 mm", "10 m"},
        {},
        "Of the outer ones from the panel's ends."},
       {"bolt", Kind::thread, value("M12", "1/2-13"), {}, {}, "Of the clip."},
       {"gauge",
        Kind::length,
        value("30 mm", "1 1/4 in"),
        {"-500 mm", "500 mm"},
        {},
        "Of the insert from the flange's edge; negative: over the flange."},
       {"depth",
        Kind::length,
        value("60 mm", "2 1/4 in"),
        {"5 mm", "500 mm"},
        {},
        "Of the insert."},
       {"clear",
        Kind::length,
        value("50 mm", "2 in"),
        {"0 mm", "500 mm"},
        {},
        "Least distance of the insert from recesses, openings and the panel's ends: it gives way "
        "along its girder."},
       {"capacity",
        Kind::force,
        absent("the uplift is not checked"),
        {"0.05 kN", "200 kN"},
        {},
        "Of one clip with its insert, downwards, factored."},
       {"source", Kind::text, value("not stated"), {}, {}, "Who states the capacity."}},
      {},
      false,
      {{{{"each"}, {"spacing"}}, false}}};
}

Element pads() {
  return {"pads",
          "Bearing pads along the girders. Left out: as the defaults say; thickness=\"0\": none.",
          {{"width", Kind::length, value("120 mm", "5 in"), {"10 mm", "2 m"}, {}, "Across."},
           {"thickness",
            Kind::length,
            value("10 mm", "3/8 in"),
            {"0 mm", "100 mm"},
            {},
            "Of a pad under load of the panel."},
           {"material", Kind::text, value("EPDM, 60 Shore A"), {}, {}, "What it is."}},
          {}};
}

Element lifting() {
  return {"lifting",
          "The four lifting inserts in the top of a panel.",
          {{"thread", Kind::thread, value("M20", "3/4-10"), {}, {}, "Of the insert."},
           {"capacity",
            Kind::force,
            absent("not stated: the check says so"),
            {"0.1 kN", "500 kN"},
            {},
            "Of one insert, working load."},
           {"source", Kind::text, value("not stated"), {}, {}, "Who states the capacity."},
           {"angle",
            Kind::angle,
            value("60 deg"),
            {"30 deg", "90 deg"},
            {},
            "Of the slings from level; never under 30 degrees (ASME B30.9)."},
           {"handling",
            Kind::number,
            absent("lifting is not checked"),
            {"1", "4"},
            {},
            "Factor on the mass for shocks and for parting from the mould."},
           {"carrying",
            Kind::integer,
            value("2"),
            {"2", "4"},
            {},
            "Inserts that are taken to carry: of four stiff legs two may."},
           {"depth",
            Kind::length,
            value("90 mm", "3 1/2 in"),
            {"10 mm", "800 mm"},
            {},
            "Of the insert."},
           {"tolerance",
            Kind::length,
            value("5 mm", "3/16 in"),
            {"0 mm", "500 mm"},
            {},
            "Of the inserts' middle from the panel's centre of gravity."},
           {"from-edge",
            Kind::length,
            value("150 mm", "6 in"),
            {"0 mm", "2 m"},
            {},
            "Least distance from the panel's edges and ends."},
           {"from-curb",
            Kind::length,
            value("40 mm", "1 1/2 in"),
            {"0 mm", "1 m"},
            {},
            "Least distance from the foot of the curb."},
           {"from-hollow",
            Kind::length,
            value("75 mm", "3 in"),
            {"0 mm", "1 m"},
            {},
            "Least distance from recesses, openings and scuppers."},
           {"from-insert",
            Kind::length,
            value("40 mm", "1 1/2 in"),
            {"0 mm", "1 m"},
            {},
            "Least distance from other inserts and post plates."}},
          {}};
}

Element tag() {
  return {"tag",
          "The plate with serial, mark and mass: on the soffit near the outer edge, where it is "
          "seen from below and beside the bridge after the panel is laid; never over a girder "
          "flange, pad or recess.",
          {{"length", Kind::length, value("100 mm", "4 in"), {"20 mm", "1 m"}, {}, "Along."},
           {"width", Kind::length, value("60 mm", "2 1/2 in"), {"20 mm", "1 m"}, {}, "Across."},
           {"from-end",
            Kind::length,
            value("150 mm", "6 in"),
            {"0 mm", "5 m"},
            {},
            "Of its middle from the panel's back end."},
           {"from-edge",
            Kind::length,
            value("120 mm", "5 in"),
            {"0 mm", "5 m"},
            {},
            "Of its middle from the panel's right edge."}},
          {}};
}

Element marks() {
  return {"marks",
          "How panel types and panels are named.",
          {{"prefix", Kind::letters, value("DP"), {}, {}, "Of marks: DP gives DP01."},
           {"serial",
            Kind::name,
            described("the job number and a hyphen"),
            {},
            {},
            "Beginning of serials: 0417- gives 0417-001; {mark}- counts by mark and gives "
            "DP03-001."},
           {"tolerance",
            Kind::length,
            value("1 mm", "1/16 in"),
            {"0 mm", "10 mm"},
            {},
            "Panels share a mark when no dimension differs by more."}},
          {}};
}

}  // namespace

std::vector<Element> fitting_vocabulary() {
  return {scuppers(), body(),       grate(), outlet(),  scupper(), hatch(),
          sleeve(),   hold_downs(), pads(),  lifting(), tag(),     marks()};
}

}  // namespace deckquire
