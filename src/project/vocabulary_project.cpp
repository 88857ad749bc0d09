// The head of the file, conditions, set, redlines.
#include "project/vocabulary.h"

namespace deckquire {
namespace {

Element root() {
  return {
      "project",
      "One bridge deck: the root of the file. Bare numbers are lengths in the project's own unit.",
      {{"number", Kind::name, required(), {}, {}, "Job number; the serials begin with it."},
       {"units",
        Kind::word,
        required(),
        {},
        {"mm", "m", "in", "ft"},
        "Unit of bare numbers. The sheets are metric for mm and m, in feet and inches for in "
        "and ft."}},
      {{"title", 1, 1},
       {"parties", 0, 1},
       {"revisions", 1, 1},
       {"bridge", 1, 1},
       {"deck", 1, 1},
       {"conditions", 0, 1},
       {"set", 0, 1},
       {"redline", 0, 1000},
       {"decision", 0, 1000}}};
}

Element title() {
  return {"title", "Title of the set, on every sheet.", {}, {}, true, {}};
}

Element parties() {
  return {"parties", "Who takes part.", {}, {{"party", 1, 50}}};
}

Element party() {
  return {"party",
          "One firm or body.",
          {{"role",
            Kind::word,
            required(),
            {},
            {"owner", "designer", "contractor", "fabricator", "railing", "drainage", "erector",
             "checker"},
            "What it does in this project."},
           {"name", Kind::text, required(), {}, {}, "Its name."},
           {"contact", Kind::text, absent("none printed"), {}, {}, "Address, telephone."}},
          {}};
}

Element revisions() {
  return {"revisions", "Issues of the set, oldest first.", {}, {{"revision", 1, 200}}};
}

Element revision() {
  return {"revision",
          "One issue; its text says what changed.",
          {{"id",
            Kind::revision,
            required(),
            {},
            {},
            "One or two letters, without I O Q S X Z; later than the one before."},
           {"date", Kind::date, required(), {}, {}, "Date YYYY-MM-DD, not before the one before."},
           {"by", Kind::text, required(), {}, {}, "Who drew it."},
           {"checked", Kind::text, value("not stated"), {}, {}, "Who checked it."},
           {"status",
            Kind::word,
            value("preliminary"),
            {},
            {"preliminary", "for approval", "approved as noted", "revise and resubmit",
             "for fabrication", "as built"},
            "What the set may be used for."}},
          {},
          true,
          {}};
}

Element conditions() {
  return {"conditions",
          "What the deck must bear, meet and travel through.",
          {},
          {{"load", 0, 50},
           {"factors", 0, 1},
           {"pedestrian", 0, 1},
           {"vehicle", 0, 1},
           {"wind", 0, 1},
           {"rail-load", 0, 1},
           {"deflection", 0, 1},
           {"temperature", 0, 1},
           {"rain", 0, 1},
           {"shipping", 0, 1},
           {"truck", 0, 1},
           {"erection", 0, 1},
           {"torque", 0, 4},
           {"tolerance", 0, 20}}};
}

Element shipping() {
  const Limits size{"500 mm", "40 m"};
  return {"shipping",
          "What fits the transport.",
          {{"length", Kind::length, absent("not stated"), size, {}, "Greatest panel length."},
           {"width", Kind::length, absent("not stated"), size, {}, "Greatest panel width."},
           {"mass",
            Kind::mass,
            absent("not stated"),
            {"100 kg", "200000 kg"},
            {},
            "Greatest mass of a load."}},
          {}};
}

Element tolerance() {
  return {"tolerance",
          "A tolerance, plus or minus, of making the panels; setting: of their place on the "
          "steel (left out: 5 mm or 3/16 in); openings keep it clear of flanges and splices.",
          {{"of",
            Kind::word,
            required(),
            {},
            {"length", "width", "thickness", "squareness", "flatness", "hole position", "gap",
             "straightness", "level", "setting"},
            "What it limits.",
            true},
           {"value", Kind::length, required(), {"0.1 mm", "100 mm"}, {}, "The tolerance."}},
          {}};
}

Element set() {
  return {"set",
          "Which sheets, on which paper.",
          {{"style",
            Kind::name,
            value("a1"),
            {},
            {},
            "Name of a file in styles/: sheet size, pens, lettering, title block."},
           {"series",
            Kind::series,
            absent("all"),
            {},
            {},
            "Letters of the series wanted, blanks between: G E P D T."}},
          {{"override", 0, 200}, {"scale", 0, 4}, {"note", 0, 100}}};
}

Element override_element() {
  return {
      "override",
      "One property of the style, other than its file says; the words are those of style files "
      "(styles/README.md). It does not hold for a style named on the command line.",
      {{"element", Kind::text, required(), {}, {}, "paper, layout, pen, letter, ink, layer ..."},
       {"of", Kind::text, absent("for elements that a style has once"), {}, {}, "Which pen ..."},
       {"property", Kind::text, required(), {}, {}, "width, height, first, shown ..."},
       {"value", Kind::text, required(), {}, {}, "As in a style file: millimetres, no unit."}},
      {}};
}

Element scale() {
  return {"scale",
          "A scale set by hand; else the program chooses the largest that fits.",
          {{"of",
            Kind::word,
            required(),
            {},
            {"erection", "panel", "detail", "key"},
            "Which drawings.",
            true},
           {"ratio", Kind::scale, required(), {"1", "1000"}, {}, "50 or 1:50."}},
          {}};
}

Element note() {
  return {"note", "A note on the cover, after the standard ones.", {}, {}, true, {}};
}

Element redline() {
  return {"redline",
          "A remark of a reviewer; its text says what is asked.",
          {{"on",
            Kind::text,
            required(),
            {},
            {},
            "What it is about: \"panel 7\", \"mark DP03\", \"hatch H2\", \"panel 7 hatch H2\", "
            "\"post 12L\", \"scupper S1\", \"sleeve D1\", \"joint J3\", \"row joint R1\", "
            "\"span S1\", \"girder G1\", \"support A1\"; or \"set\", all of it."},
           {"sheet",
            Kind::text,
            absent("every sheet that shows the object"),
            {},
            {},
            "Number of the one sheet that it is written on: P03."},
           {"by", Kind::text, required(), {}, {}, "Whose remark."},
           {"date", Kind::date, required(), {}, {}, "Date YYYY-MM-DD."},
           {"status",
            Kind::word,
            value("open"),
            {},
            {"open", "answered", "closed"},
            "open: to be dealt with. answered: the fabricator says what was done. closed: the "
            "reviewer has accepted that."},
           {"answer", Kind::text, absent("not answered"), {}, {}, "What was done, or why not."},
           {"revision",
            Kind::revision,
            absent("not answered"),
            {},
            {},
            "Letter of the revision that answers it."}},
          {},
          true,
          {}};
}

Element decision() {
  return {"decision",
          "What is done with a panel that is cast and that the design would change; its text says "
          "why.",
          {{"on", Kind::name, required(), {}, {}, "Serial of the panel."},
           {"way",
            Kind::word,
            required(),
            {},
            {"rework", "replace", "accept"},
            "rework: the panel is changed, keeps its serial and takes the new mark; replace: its "
            "serial becomes void, a new panel with a new serial takes its place; accept: it stays "
            "as it was built, and all checks are made with it as it is."},
           {"revision",
            Kind::revision,
            required(),
            {},
            {},
            "The revision whose change it is about. An accepted panel stays accepted until the "
            "design asks for something else again."},
           {"by", Kind::text, required(), {}, {}, "Whose decision."},
           {"date", Kind::date, required(), {}, {}, "Date YYYY-MM-DD."}},
          {},
          true,
          {}};
}

}  // namespace

std::vector<Element> project_vocabulary() {
  return {root(),       title(),    parties(),   party(), revisions(),        revision(),
          conditions(), shipping(), tolerance(), set(),   override_element(), scale(),
          note(),       redline(),  decision()};
}

}  // namespace deckquire
