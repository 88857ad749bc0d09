// Trucks, the order of setting and its cranes, torques, spares.
#include "project/vocabulary.h"

namespace deckquire {
namespace {

Attribute limit(const char* name, const char* of) {
  return {name, Kind::mass, absent("not checked"), {"500 kg", "200000 kg"}, {}, of};
}

Element truck() {
  const Limits size{"1 m", "40 m"}, small{"0 mm", "3 m"}, mass{"100 kg", "200000 kg"};
  return {"truck",
          "A truck that brings the panels: what it takes, as its owner and the rules of the road "
          "say. Routes, permits and lashing are the carrier's duty.",
          {{"name", Kind::text, required(), {}, {}, "Printed on the load sheets."},
           {"length", Kind::length, required(), size, {}, "Of its bed."},
           {"width", Kind::length, required(), {"500 mm", "6 m"}, {}, "Greatest width of the load."},
           {"height", Kind::length, absent("not checked"), {"100 mm", "5 m"}, {},
            "Greatest height of the load above the bed."},
           {"payload", Kind::mass, absent("not checked"), mass, {}, "Greatest mass of the load."},
           {"panels", Kind::integer, absent("as many as fit"), {"1", "500"}, {}, "Most panels on one truck."},
           {"dunnage", Kind::length, value("100 mm", "4 in"), small, {},
            "Height of the bearers under every panel; they are made as high as what stands up from it."},
           {"between", Kind::length, value("100 mm", "4 in"), small, {}, "From stack to stack along the bed."},
           {"overhang", Kind::length, value("0 mm", "0 in"), small, {},
            "By how much a panel may be longer than the one that it lies on."},
           {"source", Kind::text, value("not stated"), {}, {}, "Whose limits these are, with the edition."}},
          {{"axles", 0, 1}}};
}

Element axles() {
  const Limits tare{"0 kg", "50000 kg"}, base{"1 m", "30 m"}, near{"-5 m", "5 m"};
  return {"axles",
          "A semitrailer's axles, for their loads.",
          {{"steer", Kind::mass, required(), tare, {}, "Empty, on the steer axle."},
           {"drive", Kind::mass, required(), tare, {}, "Empty, on the drive axles."},
           {"trailer", Kind::mass, required(), tare, {}, "Empty, on the trailer's axles."},
           {"wheelbase", Kind::length, required(), base, {}, "Steer axle to the middle of the drive axles."},
           {"fifth-wheel", Kind::length, required(), near, {}, "Kingpin ahead of the middle of the drive axles."},
           {"kingpin", Kind::length, required(), base, {}, "Kingpin to the middle of the trailer's axles."},
           {"bed-ahead", Kind::length, required(), near, {}, "Front end of the bed ahead of the kingpin."},
           limit("steer-limit", "Allowed on the steer axle."), limit("drive-limit", "Allowed on the drive axles."),
           limit("trailer-limit", "Allowed on the trailer's axles."), limit("gross-limit", "Allowed in all.")},
          {}};
}

Element erection() {
  return {"erection",
          "In which order panels are set; trucks are loaded in the reverse of it.",
          {{"order", Kind::word, value("from-start"), {},
            {"from-start", "from-end", "both-ends", "given"},
            "From the start of the bridge, from its end, from both with the closing panel last, or as "
            "given by next."}},
          {{"next", 0, 20000}, {"wait", 0, 1000}, {"blocked", 0, 1000}, {"crane", 0, 20}}};
}

Element next() {
  return {"next",
          "What is set next where the order is given; panels that are not named follow from the start.",
          {{"panel", Kind::integer, absent("a span"), {"1", "20000"}, {}, "Position of a panel.", true},
           {"span", Kind::name, absent("a panel"), {}, {}, "All panels of a span that are not named before.",
            true}},
          {},
          false,
          {{{{"panel"}, {"span"}}, true}}};
}

Element blocked() {
  return {"blocked",
          "A position that is not free when the others are set: it comes last.",
          {{"panel", Kind::integer, required(), {"1", "20000"}, {}, "Position.", true},
           {"why", Kind::text, required(), {}, {}, "What is in the way; printed in the sequence."}},
          {}};
}

Element crane() {
  const Limits offsets{"-200 m", "200 m"};
  return {"crane",
          "Where a crane may stand. Ground, outriggers and the lift plan are the lift supervisor's duty.",
          {{"name", Kind::name, required(), {}, {}, "Printed in the pick table.", true},
           {"at", Kind::station, required(), {}, {}, "Station of its slewing axis; beyond the bridge too."},
           {"offset", Kind::length, required(), offsets, {}, "Offset of its slewing axis."},
           {"tackle", Kind::mass, value("0 kg", "0 lb"), {"0 kg", "20000 kg"}, {},
            "Hook block and slings, lifted with every panel."},
           {"source", Kind::text, value("not stated"), {}, {}, "Of the reaches: whose chart, which set-up."}},
          {{"reach", 0, 60}}};
}

Element reach() {
  return {"reach",
          "One line of a crane's chart.",
          {{"radius", Kind::length, required(), {"1 m", "200 m"}, {}, "From the slewing axis.", true},
           {"mass", Kind::mass, required(), {"10 kg", "2000000 kg"}, {}, "What it takes out to there."}},
          {}};
}

Element torque() {
  return {"torque",
          "What bolts are tightened to, as the engineer or the supplier says.",
          {{"of", Kind::word, required(), {}, {"hold-downs", "grates", "hatch-covers", "rail-posts"},
            "Which bolts.", true},
           {"value", Kind::moment, required(), {"1 N m", "2000 N m"}, {}, "Torque on the dry thread unless "
            "the source says otherwise."},
           {"source", Kind::text, required(), {}, {}, "Who says so, in which document."}},
          {}};
}

Element allowance() {
  return {"allowance",
          "What is ordered beyond the net quantity: waste and spares.",
          {{"on", Kind::word, required(), {},
            {"bolts", "clips", "inserts", "plates", "caps", "pads", "grates", "drains", "hatches", "sealant",
             "surface", "laminate", "core"},
            "Of which items. Plates are those of posts and of end joints, drains the bodies and outlets of "
            "scuppers, caps those of lifting inserts; sealant counts for its backer rod too.", true},
           {"percent", Kind::slope, value("0 %"), {"0 %", "100 %"}, {}, "Of the net quantity."},
           {"least", Kind::integer, value("0"), {"0", "1000"}, {}, "At least so many pieces, where counted."},
           {"source", Kind::text, value("not stated"), {}, {}, "Where the figure comes from."}},
          {}};
}

Element wait() {
  const Limits positions{"1", "20000"};
  return {"wait",
          "A panel that is not set before another stands.",
          {{"panel", Kind::integer, required(), positions, {}, "Position of the panel that waits."},
           {"for", Kind::integer, required(), positions, {}, "Position of the panel that must stand."}},
          {}};
}

}  // namespace

std::vector<Element> delivery_vocabulary() {
  return {truck(), axles(), erection(), next(), wait(), blocked(), crane(), reach(), torque(), allowance()};
}

}  // namespace deckquire
