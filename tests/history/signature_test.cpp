#include "history/signature.h"

#include <pugixml.hpp>

#include <map>
#include <set>
#include <sstream>

#include "deck/trial.h"
#include "history/sample.h"
#include "project/vocabulary.h"

using namespace sample;

namespace {

/// What an attribute of the project file is to a mark.
enum class Is {
  part,   // of what is made: the value given here makes other signatures
  free,   // not of what is made: the value given here makes none
  place,  // where things are and how many, rules for that: the shapes say what comes of it
};
struct Row {
  const char *element, *attribute;
  Is is;
  const char* value;  // with place: not tried
};

// The test below fails for an attribute of the vocabulary that is not here.
const Row rows[] = {
    {"project", "number", Is::free, "0999"},
    {"project", "units", Is::place, ""},
    {"party", "role", Is::free, "checker"},
    {"party", "name", Is::free, "Hollin Works"},
    {"party", "contact", Is::free, "Ambersey"},
    {"revision", "id", Is::free, "B"},
    {"revision", "date", Is::free, "2026-12-02"},
    {"revision", "by", Is::free, "R. Ostler"},
    {"revision", "checked", Is::free, "I. Vane"},
    {"revision", "status", Is::free, "for fabrication"},
    {"bridge", "name", Is::free, "Marsh Bridge"},
    {"bridge", "structure", Is::free, "SW-8"},
    {"bridge", "location", Is::free, "Ambersey"},
    {"alignment", "from", Is::place, ""},
    {"alignment", "to", Is::place, ""},
    {"alignment", "easting", Is::free, "4000 m"},
    {"alignment", "northing", Is::free, "8000 m"},
    {"alignment", "bearing", Is::free, "60 deg"},
    {"curve", "from", Is::place, ""},
    {"curve", "to", Is::place, ""},
    {"curve", "radius", Is::place, ""},
    {"curve", "turn", Is::place, ""},
    {"transition", "from", Is::place, ""},
    {"transition", "to", Is::place, ""},
    {"grade", "at", Is::place, ""},
    {"grade", "level", Is::free, "101.3 m"},
    {"grade", "curve", Is::place, ""},
    {"support", "name", Is::free, "E1"},
    {"support", "kind", Is::free, "pier"},
    {"support", "at", Is::place, ""},
    {"support", "top", Is::free, "800"},
    {"girder", "name", Is::free, "B1"},
    {"girder", "offset", Is::place, ""},
    {"girder", "flange", Is::place, ""},
    {"girder", "from", Is::place, ""},
    {"girder", "to", Is::place, ""},
    {"girder", "course", Is::place, ""},
    {"splice", "name", Is::free, "S9"},
    {"splice", "girder", Is::place, ""},
    {"splice", "at", Is::part, "0+008.700"},
    {"splice", "length", Is::part, "800"},
    {"splice", "width", Is::part, "250"},
    {"splice", "plate", Is::part, "18"},
    {"splice", "projection", Is::part, "33"},
    {"splice", "rows", Is::free, "6"},
    {"splice", "lines", Is::free, "2"},
    {"splice", "bolt", Is::free, "20"},
    {"obstruction", "name", Is::free, "M9"},
    {"obstruction", "kind", Is::free, "hanger"},
    {"obstruction", "at", Is::place, ""},
    {"obstruction", "offset", Is::place, ""},
    {"obstruction", "diameter", Is::part, "310"},
    {"obstruction", "length", Is::place, ""},
    {"obstruction", "width", Is::place, ""},
    {"obstruction", "clearance", Is::part, "60"},
    {"edge", "at", Is::place, ""},
    {"edge", "left", Is::part, "1510"},
    {"edge", "right", Is::part, "1510"},
    {"section", "depth", Is::part, "151"},
    {"section", "fall", Is::part, "left"},
    {"section", "slope", Is::part, "1.4 %"},
    {"section", "high-line", Is::part, "10"},
    {"section", "least-edge", Is::free, "95"},
    {"section", "least-bearing", Is::free, "45"},
    {"section", "top-skin", Is::part, "9"},
    {"section", "bottom-skin", Is::part, "9"},
    {"section", "edge-skin", Is::part, "7"},
    {"curb", "sides", Is::place, ""},
    {"curb", "height", Is::part, "101"},
    {"curb", "width", Is::part, "151"},
    {"curb", "batter", Is::part, "14"},
    {"drip", "width", Is::part, "13"},
    {"drip", "depth", Is::part, "9"},
    {"drip", "inset", Is::part, "21"},
    {"recess", "over", Is::part, "11"},
    {"recess", "around", Is::part, "21"},
    {"recess", "cover", Is::free, "55"},
    {"material", "part", Is::place, ""},
    {"material", "name", Is::part, "E-glass / polyester"},
    {"material", "density", Is::part, "1851 kg/m3"},
    {"material", "source", Is::free, "shop test sheet 26-99"},
    {"surface", "class", Is::part, "heavy"},
    {"surface", "from", Is::place, ""},
    {"surface", "to", Is::place, ""},
    {"surface", "thickness", Is::part, "5"},
    {"surface", "mass", Is::part, "7.3 kg/m2"},
    {"surface", "colour", Is::part, "sand"},
    {"surface", "friction", Is::part, "PTV 60 wet"},
    {"surface", "standard", Is::part, "another"},
    {"surface", "stop", Is::part, "16"},
    {"span", "name", Is::free, "9"},
    {"span", "from", Is::place, ""},
    {"span", "to", Is::place, ""},
    {"span", "skew-from", Is::place, ""},
    {"span", "skew-to", Is::place, ""},
    {"panels", "count", Is::place, ""},
    {"panels", "longest", Is::place, ""},
    {"panels", "divide", Is::place, ""},
    {"panels", "shortest", Is::place, ""},
    {"panels", "preferred", Is::place, ""},
    {"panels", "step", Is::place, ""},
    {"panels", "heaviest", Is::place, ""},
    {"panels", "mould", Is::place, ""},
    {"panels", "symmetrical", Is::place, ""},
    {"panels", "closing", Is::place, ""},
    {"panels", "joints-at-breaks", Is::place, ""},
    {"panels", "hands", Is::place, ""},
    {"panels", "clear-splice", Is::place, ""},
    {"panels", "clear-post", Is::place, ""},
    {"panels", "clear-scupper", Is::place, ""},
    {"panels", "clear-hatch", Is::place, ""},
    {"panels", "clear-obstruction", Is::place, ""},
    {"panel", "length", Is::place, ""},
    {"panel", "times", Is::place, ""},
    {"joints", "kind", Is::part, "lapped"},
    {"joints", "gap", Is::place, ""},
    {"joints", "end-gap", Is::place, ""},
    {"joints", "rod", Is::free, "18"},
    {"joints", "seal", Is::free, "11"},
    {"joints", "lap", Is::part, "41"},
    {"joints", "tongue", Is::part, "21"},
    {"joints", "cover-width", Is::free, "170"},
    {"joints", "cover-thickness", Is::free, "9"},
    {"joints", "skew", Is::place, ""},
    {"row-joint", "name", Is::place, ""},
    {"row-joint", "offset", Is::place, ""},
    {"row-joint", "gap", Is::place, ""},
    {"row-joint", "from", Is::place, ""},
    {"row-joint", "to", Is::place, ""},
    {"posts", "greatest", Is::place, ""},
    {"posts", "bays", Is::place, ""},
    {"posts", "spacing", Is::place, ""},
    {"posts", "first", Is::place, ""},
    {"posts", "sides", Is::place, ""},
    {"posts", "in-line", Is::place, ""},
    {"posts", "at-ends", Is::place, ""},
    {"posts", "at-breaks", Is::place, ""},
    {"posts", "freedom", Is::place, ""},
    {"posts", "clear", Is::place, ""},
    {"plate", "length", Is::part, "201"},
    {"plate", "width", Is::part, "86"},
    {"plate", "thickness", Is::part, "17"},
    {"plate", "cover", Is::part, "26"},
    {"plate", "thread", Is::part, "M14"},
    {"plate", "along", Is::part, "3"},
    {"plate", "across", Is::part, "1"},
    {"plate", "pitch-along", Is::part, "141"},
    {"plate", "pitch-across", Is::part, "39"},
    {"plate", "tap-depth", Is::part, "15"},
    {"anchor", "bolts", Is::free, "5.8"},
    {"anchor", "plate-strength", Is::free, "480 MPa"},
    {"anchor", "toe", Is::free, "21"},
    {"anchor", "shear-ratio", Is::free, "0.61"},
    {"anchor", "source", Is::free, "another"},
    {"post", "name", Is::free, "X1"},
    {"post", "at", Is::place, ""},
    {"post", "side", Is::place, ""},
    {"scuppers", "inset", Is::part, "21"},
    {"scuppers", "spacing", Is::place, ""},
    {"scuppers", "by", Is::place, ""},
    {"scuppers", "reserve", Is::place, ""},
    {"scuppers", "sides", Is::place, ""},
    {"scuppers", "at-sags", Is::place, ""},
    {"scuppers", "at-end-joints", Is::place, ""},
    {"scuppers", "clear", Is::place, ""},
    {"scuppers", "freedom", Is::place, ""},
    {"body", "length", Is::part, "361"},
    {"body", "width", Is::part, "261"},
    {"body", "cavity", Is::part, "91"},
    {"body", "wall", Is::part, "9"},
    {"grate", "length", Is::part, "319"},
    {"grate", "width", Is::part, "199"},
    {"grate", "thickness", Is::part, "24"},
    {"grate", "bolt", Is::part, "M8"},
    {"grate", "bolts", Is::part, "6"},
    {"grate", "pitch-length", Is::part, "289"},
    {"grate", "pitch-width", Is::part, "169"},
    {"outlet", "diameter", Is::part, "111"},
    {"outlet", "wall", Is::part, "5"},
    {"outlet", "below", Is::part, "351"},
    {"scupper", "name", Is::free, "S99"},
    {"scupper", "at", Is::place, ""},
    {"scupper", "side", Is::place, ""},
    {"hatch", "name", Is::free, "H9"},
    {"hatch", "at", Is::part, "0+003.770"},
    {"hatch", "offset", Is::part, "10"},
    {"hatch", "length", Is::part, "601"},
    {"hatch", "width", Is::part, "601"},
    {"hatch", "rebate", Is::part, "41"},
    {"hatch", "rebate-depth", Is::part, "31"},
    {"hatch", "cover", Is::part, "27"},
    {"hatch", "bolt", Is::part, "M10"},
    {"hatch", "bolts", Is::part, "6"},
    {"hatch", "lift", Is::part, "31"},
    {"hatch", "use", Is::free, "gas valve"},
    {"sleeve", "name", Is::free, "C9"},
    {"sleeve", "at", Is::place, ""},
    {"sleeve", "offset", Is::part, "410"},
    {"sleeve", "diameter", Is::part, "81"},
    {"sleeve", "wall", Is::part, "5"},
    {"sleeve", "use", Is::free, "water"},
    {"hold-downs", "each", Is::place, ""},
    {"hold-downs", "spacing", Is::place, ""},
    {"hold-downs", "from-joint", Is::place, ""},
    {"hold-downs", "bolt", Is::part, "M10"},
    {"hold-downs", "gauge", Is::part, "31"},
    {"hold-downs", "depth", Is::part, "61"},
    {"hold-downs", "clear", Is::place, ""},
    {"hold-downs", "capacity", Is::free, "9 kN"},
    {"hold-downs", "source", Is::free, "another"},
    {"pads", "width", Is::part, "118"},
    {"pads", "thickness", Is::part, "11"},
    {"pads", "material", Is::part, "EPDM, 70 Shore A"},
    {"lifting", "thread", Is::part, "M16"},
    {"lifting", "capacity", Is::free, "13 kN"},
    {"lifting", "source", Is::free, "another"},
    {"lifting", "angle", Is::free, "61 deg"},
    {"lifting", "handling", Is::free, "1.6"},
    {"lifting", "carrying", Is::free, "3"},
    {"lifting", "depth", Is::part, "91"},
    {"lifting", "tolerance", Is::place, ""},
    {"lifting", "from-edge", Is::place, ""},
    {"lifting", "from-curb", Is::place, ""},
    {"lifting", "from-hollow", Is::place, ""},
    {"lifting", "from-insert", Is::place, ""},
    {"tag", "length", Is::part, "101"},
    {"tag", "width", Is::part, "61"},
    {"tag", "from-end", Is::part, "151"},
    {"tag", "from-edge", Is::part, "121"},
    {"marks", "prefix", Is::free, "Q"},
    {"marks", "serial", Is::free, "X-"},
    {"marks", "tolerance", Is::place, ""},
    {"shipping", "length", Is::free, "13 m"},
    {"shipping", "width", Is::free, "3.45 m"},
    {"shipping", "mass", Is::free, "23000 kg"},
    {"set", "style", Is::free, "a3"},
    {"set", "series", Is::free, "G P"},
    {"decision", "on", Is::free, "0417-001"},
    {"redline", "on", Is::free, "hatch H1"},
};

/// Elements of which nothing is of a panel: conditions, styles, words.
const std::set<std::string> free_elements{
    "title",      "override",  "scale",   "note",      "redline",  "decision",  "load",
    "pedestrian", "vehicle",   "wind",    "rail-load", "factors",  "deflection", "rain",
    "duration",   "temperature", "tolerance", "panel-strength", "clearance", "truck",
    "axles",      "erection",  "wait",    "next",      "blocked",  "crane",     "reach",
    "torque",     "allowance", "crossing", "measured"};

std::string text_of(const pugi::xml_document& d) {
  std::ostringstream out;
  d.save(out);
  return out.str();
}

/// Signatures of all marks, sorted; empty where the project has an error.
std::vector<Signature> signatures(const std::string& xml, std::string* trouble = nullptr) {
  Findings findings;
  const auto p = read_project(xml, "x.xml", findings);
  std::vector<Signature> out;
  if (p) {
    const Bridge bridge = build_bridge(*p, findings);
    Deck d;
    if (!findings.has_errors()) d = build_deck(*p, bridge, findings);
    for (const Mark& m : d.marks) out.push_back(signature_of(m.shape, *p));
  }
  if (trouble)
    for (const Finding& f : findings.sorted())
      if (f.severity == Severity::error) *trouble += to_line(f) + "\n";
  std::sort(out.begin(), out.end());
  return out;
}

/// The main example with something of everything.
std::string base() {
  pugi::xml_document d;
  REQUIRE(d.load_file(DECKQUIRE_SOURCE "/projects/saltmarsh.xml"));
  pugi::xml_node deck = d.document_element().child("deck");
  deck.insert_child_before("tag", deck.child("marks"));
  deck.child("posts").append_child("post").append_attribute("name") = "Z1";
  deck.child("posts").child("post").append_attribute("at") = "0+001.400";
  deck.child("posts").child("post").append_attribute("side") = "left";
  return text_of(d);
}

std::string changed(const std::string& xml, const std::string& element, const char* attribute,
                    const char* value) {
  pugi::xml_document d;
  REQUIRE(d.load_string(xml.c_str()));
  auto found = d.find_node([&](const pugi::xml_node& n) { return element == n.name(); });
  REQUIRE_MESSAGE(found, element);
  found.remove_attribute(attribute);
  found.append_attribute(attribute) = value;
  return text_of(d);
}

}  // namespace

TEST_CASE("signatures: every attribute of the vocabulary is of a panel, or is said not to be") {
  std::set<std::pair<std::string, std::string>> known;
  for (const Row& r : rows) known.insert({r.element, r.attribute});
  for (const Element& e : vocabulary())
    if (free_elements.count(e.name) == 0)
      for (const Attribute& a : e.attributes)
        CHECK_MESSAGE(known.count({e.name, a.name}) == 1, e.name, " ", a.name);
  for (const Row& r : rows) {
    const Element* e = find_element(r.element);
    REQUIRE_MESSAGE(e, r.element);
    CHECK_MESSAGE(find_attribute(*e, r.attribute), r.element, " ", r.attribute);
  }
}

TEST_CASE("signatures: what is of a panel changes them, what is not does not") {
  const std::string plain = base();
  const std::string lapped = changed(plain, "joints", "kind", "lapped");
  const auto of_plain = signatures(plain), of_lapped = signatures(lapped);
  REQUIRE(of_plain.size() > 3);
  for (const Row& r : rows) {
    if (r.is == Is::place || std::string(r.element) == "decision") continue;
    const bool lap = std::string(r.attribute) == "lap" || std::string(r.attribute) == "tongue";
    std::string trouble;
    std::string xml = changed(lap ? lapped : plain, r.element, r.attribute, r.value);
    if (std::string(r.element) == "section" && std::string(r.attribute) == "fall")
      xml = changed(xml, "section", "least-edge", "80");
    const auto now = signatures(xml, &trouble);
    CHECK_MESSAGE(trouble.empty(), r.element, " ", r.attribute, ": ", trouble);
    const bool same = now == (lap ? of_lapped : of_plain);
    CHECK_MESSAGE(same == (r.is == Is::free), r.element, " ", r.attribute);
  }
}

TEST_CASE("signatures: the order of lines and the first corner of a ring do not matter") {
  const Project p = project();
  PanelShape a = shape(2000), b = a;
  std::rotate(b.outline.begin(), b.outline.begin() + 2, b.outline.end());
  CHECK(signature_of(a, p) != signature_of(b, p));
  CHECK(same_part(signature_of(a, p), signature_of(b, p)));
  Feature f;
  f.kind = FeatureKind::recess;
  f.length = f.width = 100;
  f.at = {300, 0};
  a.features = {f};
  f.at.x = 800;
  a.features.push_back(f);
  b.features = {a.features[1], a.features[0]};
  CHECK(same_part(signature_of(a, p), signature_of(b, p)));
}

TEST_CASE("signatures: two thousandths of a millimetre are nothing, three are another part") {
  const Project p = project();
  const auto of = [&](double length) { return signature_of(shape(length), p); };
  CHECK(same_part(of(2000), of(2000.002)));
  CHECK(!same_part(of(2000), of(2000.003)));
  CHECK(!same_part(of(2000), of(1999.996)));
}

TEST_CASE("signatures: the same part in another row, or beside another line, is the same part") {
  const Project p = project();
  PanelShape a = shape(2000), b = a;
  for (PanelPoint& q : b.outline) q.y += 3012;
  CHECK(same_part(signature_of(a, p), signature_of(b, p)));
}

TEST_CASE("signatures: of panels of the examples are equal just where they are one part") {
  for (const char* name : {"saltmarsh", "heron"}) {
    const Project p = trial::example(name);
    const trial::Built built = trial::build(p);
    std::vector<std::pair<Facts, const Panel*>> all;
    for (const Panel& panel : built.deck.panels)
      all.push_back({facts_of(signature_of(panel.turned ? half_turn(panel.shape) : panel.shape, p)),
                     &panel});
    int same = 0, other = 0;
    for (const auto& [fa, a] : all)
      for (const auto& [fb, b] : all) {
        if (same_part(fa, fb)) {
          CHECK(a->mark == b->mark);
          ++same;
        } else {
          CHECK(!(a->mark == b->mark &&
                  same_type(a->turned ? half_turn(a->shape) : a->shape,
                            b->turned ? half_turn(b->shape) : b->shape, Length())));
          ++other;
        }
      }
    CHECK(same > 0);
    CHECK(other > 0);
  }
}
