// Loads, rain, temperatures and strengths.
#include "project/vocabulary.h"

namespace deckquire {
namespace {

Attribute code() {
  return {"code", Kind::text, value("not stated"), {}, {}, "Document, edition and clause."};
}
Attribute source(const std::string& of) {
  return {"source", Kind::text, value("not stated"), {}, {}, "Who states " + of + "."};
}
Attribute share(const char* name, const char* preset, const char* meaning) {
  return {name, Kind::slope, value(preset), {"0 %", "95 %"}, {}, meaning};
}
Attribute factor(const char* name, const char* meaning) {
  return {name, Kind::number, required(), {"0", "5"}, {}, meaning};
}

Element load() {
  return {"load",
          "A load as the bridge designer states it: printed, not checked.",
          {{"name", Kind::text, required(), {}, {}, "What it is.", true},
           {"value", Kind::text, required(), {}, {}, "Its value with unit."},
           code()},
          {}};
}

Element pedestrian() {
  return {"pedestrian",
          "The uniform load of people.",
          {{"load", Kind::pressure, required(), {"0.1 kPa", "50 kPa"}, {}, "On the deck in plan."},
           code()},
          {}};
}

Element vehicle() {
  return {"vehicle",
          "A maintenance vehicle, by the wheels of its heaviest axle.",
          {{"wheel", Kind::force, required(), {"0.1 kN", "500 kN"}, {}, "Load of one wheel."},
           {"gauge",
            Kind::length,
            required(),
            {"200 mm", "5 m"},
            {},
            "Across the bridge, between the two wheels."},
           {"patch-along",
            Kind::length,
            required(),
            {"10 mm", "2 m"},
            {},
            "Of a wheel's contact area, along the bridge."},
           {"patch-across",
            Kind::length,
            required(),
            {"10 mm", "2 m"},
            {},
            "Of a wheel's contact area, across the bridge."},
           {"effective",
            Kind::length,
            required(),
            {"50 mm", "20 m"},
            {},
            "Length of panel along the bridge that carries one wheel; no code gives a rule for "
            "panels."},
           code()},
          {}};
}

Element wind() {
  return {"wind",
          "Wind that lifts the deck.",
          {{"uplift", Kind::pressure, required(), {"0.01 kPa", "20 kPa"}, {}, "Upwards, in plan."},
           code()},
          {}};
}

Element rail_load() {
  return {"rail-load",
          "Load of people on the rail.",
          {{"line", Kind::line_load, required(), {"0 kN/m", "20 kN/m"}, {}, "Along the top rail."},
           {"point", Kind::force, value("0 kN"), {"0 kN", "50 kN"}, {}, "At one place, with it."},
           {"height",
            Kind::length,
            required(),
            {"300 mm", "4 m"},
            {},
            "Of both above the wearing surface."},
           code()},
          {}};
}

Element factors() {
  return {
      "factors",
      "Load factors of the strength checks. Deflections are of loads without factors.",
      {factor("dead", "Of the panel's own weight."), factor("pedestrian", "Of the load of people."),
       factor("vehicle", "Of the wheels."), factor("wind", "Of the wind."),
       factor("dead-against-wind", "Of the weight where it holds against the wind."),
       factor("rail", "Of the rail load."), code()},
      {}};
}

Element deflection() {
  return {"deflection",
          "How far a panel may bend under its live load.",
          {{"span", Kind::number, required(), {"50", "2000"}, {}, "Span over deflection."},
           {"arm", Kind::number, required(), {"50", "2000"}, {}, "Overhang over deflection."},
           code()},
          {}};
}

Element rain() {
  return {
      "rain",
      "Design rain, and what the gutters and scuppers are checked with.",
      {{"value",
        Kind::text,
        absent("none printed"),
        {},
        {},
        "As the owner states it: intensity, duration, return period. Printed."},
       {"intensity",
        Kind::rain,
        absent("the drainage is not checked"),
        {"1 mm/h", "1000 mm/h"},
        {},
        "At 5 minutes, which is the shortest time taken."},
       {"runoff", Kind::number, value("1"), {"0.1", "1"}, {}, "Share of the rain that runs off."},
       {"roughness",
        Kind::number,
        absent("the drainage is not checked"),
        {"0.005", "0.1"},
        {},
        "Manning's n of deck and gutter."},
       {"spread",
        Kind::length,
        absent("the drainage is not checked"),
        {"50 mm", "20 m"},
        {},
        "How far from the curb water may stand."},
       {"grate",
        Kind::word,
        absent("grates are not checked"),
        {},
        {"P-1-7/8", "P-1-7/8-4", "P-1-1/8", "curved-vane", "45-tilt-bar", "30-tilt-bar",
         "reticuline"},
        "What the scuppers' grates let through is like that of this tested type."},
       {"opening",
        Kind::slope,
        absent("as the type of grate has"),
        {"5 %", "95 %"},
        {},
        "Clear share of the grate."},
       {"clogging",
        Kind::word,
        value("length"),
        {},
        {"none", "length", "flow"},
        "How debris is allowed for on a grade: not, by a shorter grate, by a smaller flow."},
       share("blocked", "50 %", "Share that debris takes of a grate on a grade."),
       share("blocked-in-sag", "50 %",
             "Share that debris takes of a grate in a sag, from the curb."),
       {"pipe-filling",
        Kind::number,
        value("0.33"),
        {"0.1", "0.5"},
        {},
        "Greatest filling of a vertical pipe (EN 12056-3)."},
       code()},
      {{"duration", 0, 50}}};
}

Element duration() {
  return {"duration",
          "Intensity of the design rain at one duration; in order.",
          {{"minutes", Kind::number, required(), {"1", "1440"}, {}, "How long it rains."},
           {"intensity", Kind::rain, required(), {"1 mm/h", "1000 mm/h"}, {}, "How hard."}},
          {}};
}

Attribute expansion(const char* name, const char* of) {
  return {name,
          Kind::expansion,
          absent("movements are not checked"),
          {"1 ppm/C", "200 ppm/C"},
          {},
          std::string("Thermal expansion of the ") + of + "."};
}

Element temperature() {
  const Limits air{"-60 C", "90 C"};
  const auto degrees = [&](const char* name, const char* absence, const char* meaning) {
    return Attribute{name, Kind::temperature, absent(absence), air, {}, meaning};
  };
  return {"temperature",
          "Temperatures of steel and panels.",
          {degrees("setting", "not stated", "When the panels are laid and the gaps set."),
           degrees("least", "not stated", "Lowest of the steel in service."),
           degrees("greatest", "not stated", "Highest of the steel in service."),
           degrees("deck-least", "as the steel", "Lowest of the panels."),
           degrees("deck-greatest", "as the steel", "Highest of the panels."),
           expansion("steel-expansion", "girders"),
           expansion("panel-expansion", "panels"),
           {"least-gap",
            Kind::length,
            value("3 mm", "1/8 in"),
            {"0 mm", "50 mm"},
            {},
            "Of a joint at its hottest."},
           source("the expansions")},
          {}};
}

Element panel_strength() {
  const auto stress = [](const char* name, const char* absence, const char* meaning) {
    return Attribute{name, Kind::pressure, absent(absence), {"0.01 MPa", "5000 MPa"}, {}, meaning};
  };
  return {
      "panel-strength",
      "Stiffness and strength of the panel as a sandwich of skins and core, along its span "
      "across the bridge: proved by test, factored by the engineer.",
      {{"face-modulus", Kind::pressure, required(), {"100 MPa", "500000 MPa"}, {}, "Of the skins."},
       {"core-shear-modulus",
        Kind::pressure,
        required(),
        {"0.1 MPa", "50000 MPa"},
        {},
        "Of the core, webs smeared into it."},
       stress("face-strength", "bending is not checked", "Of the skins, the lesser way."),
       stress("core-shear-strength", "shear is not checked", "Of the core, webs smeared in."),
       stress("bearing-strength", "bearing is not checked", "Through the depth on a flange."),
       source("them")},
      {}};
}

Element anchor() {
  return {"anchor",
          "What holds a rail post: its bolts and the tapped plate.",
          {{"bolts",
            Kind::word,
            required(),
            {},
            {"4.6", "4.8", "5.8", "8.8", "10.9", "12.9", "A307", "A325"},
            "Class or grade of the bolts."},
           {"plate-strength",
            Kind::pressure,
            absent("stripping of the plate's threads is not checked"),
            {"50 MPa", "2000 MPa"},
            {},
            "Tensile strength of the tapped plate."},
           {"toe",
            Kind::length,
            required(),
            {"0 mm", "500 mm"},
            {},
            "From the edge of the post's base plate to the nearer row of bolts, across."},
           {"shear-ratio",
            Kind::number,
            value("0.6"),
            {"0.3", "1"},
            {},
            "Shear over tensile strength of a thread."},
           source("them")},
          {}};
}

}  // namespace

std::vector<Element> load_vocabulary() {
  return {load(),       pedestrian(), vehicle(),  wind(),        rail_load(),      factors(),
          deflection(), rain(),       duration(), temperature(), panel_strength(), anchor()};
}

}  // namespace deckquire
