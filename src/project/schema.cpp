// The vocabulary as an XML schema (W3C XML Schema 1.0), for editors. What a schema cannot say
// (units against ranges, order of stations, forms that exclude one another) only the reader says.
#include "base/text.h"

#include <fmt/core.h>

#include <algorithm>

#include "project/reader.h"
#include "project/vocabulary_words.h"

namespace deckquire {
namespace {

/// Lines with an indent that follows the nesting.
class Lines {
 public:
  void add(const std::string& line) { text_ += std::string(depth_ * 2, ' ') + line + "\n"; }
  void open(const std::string& line) {
    add(line);
    ++depth_;
  }
  void close(const std::string& line) {
    --depth_;
    add(line);
  }
  void note(const std::string& words) {
    add("<xs:annotation><xs:documentation>" + escaped(words) +
        "</xs:documentation></xs:annotation>");
  }
  const std::string& text() const { return text_; }

 private:
  std::string text_;
  std::size_t depth_ = 0;
};

struct TypePatterns {
  Kind kind;
  const char* name;
  std::vector<std::string> patterns;
};

const std::string number = R"((\d{1,9}(\.\d{1,9})?|(\d{1,9}\s?-?\s?)?\d{1,6}/\d{1,4}))";
const std::string decimal_number = R"(\d{1,9}(\.\d{1,9})?)";

std::vector<std::string> length_patterns() {
  return {"-?" + number + R"(\s?(mm|cm|m|km|in|ft|"|')?)",
          R"(-?\d{1,9}\s?(ft|')\s?-?\s?)" + number + R"(\s?(in|"))"};
}

std::vector<std::string> station_patterns() {
  auto all = length_patterns();
  all.push_back(R"(-?\d{1,6}\+\d{2,3}(\.\d{1,9})?)");
  return all;
}

std::string with_unit(const std::string& units) {
  return "-?" + decimal_number + R"(\s?()" + units + ")";
}

std::vector<TypePatterns> type_patterns() {
  return {{Kind::text, "text", {}},
          {Kind::name, "name", {}},
          {Kind::letters, "letters", {"[A-Z]{1,4}"}},
          {Kind::series, "series", {"[GEPDTC]( [GEPDTC])*"}},
          {Kind::length, "length", length_patterns()},
          {Kind::station, "station", station_patterns()},
          {Kind::slope, "slope", {with_unit("%?")}},
          {Kind::density, "density", {with_unit("kg/m3|lb/ft3|pcf")}},
          {Kind::area_mass, "area-mass", {with_unit("kg/m2|lb/ft2|psf")}},
          {Kind::mass, "mass", {with_unit("kg|t|lb")}},
          {Kind::angle, "angle", {with_unit("deg|\u00b0|rad|")}},
          {Kind::temperature, "temperature", {with_unit("C|F")}},
          {Kind::force, "force", {with_unit("N|kN|lbf|kip")}},
          {Kind::pressure, "pressure", {with_unit("Pa|kPa|kN/m2|MPa|N/mm2|GPa|psf|psi|ksi")}},
          {Kind::line_load, "line-load", {with_unit("N/m|kN/m|lb/ft")}},
          {Kind::moment, "torque", {with_unit("N m|Nm|kN m|lbf ft|lbf in")}},
          {Kind::rain, "rain-intensity", {with_unit("mm/h|in/h")}},
          {Kind::expansion, "expansion", {with_unit("ppm/C|ppm/F")}},
          {Kind::number, "number", {with_unit("")}},
          {Kind::date, "date", {R"((19|20|21)\d{2}-(0[1-9]|1[0-2])-(0[1-9]|[12]\d|3[01]))"}},
          {Kind::revision, "revision-letters", {"[A-HJ-NPRT-WY]{1,2}"}},
          {Kind::thread,
           "thread",
           {R"(M\d{1,9}(\.\d{1,9})?(x\d{1,9}(\.\d{1,9})?)?)",
            R"((\d{1,6}/\d{1,4}|\d{1,9}(\.\d{1,9})?)(-\d+|\s?(in|")))"}},
          {Kind::scale, "scale-ratio", {R"((1:)?\d{1,4})"}}};
}

std::string type_name(Kind kind) {
  for (const TypePatterns& t : type_patterns())
    if (t.kind == kind) return std::string("dq:") + t.name;
  return "xs:token";
}

void add_types(Lines& out) {
  for (const TypePatterns& t : type_patterns()) {
    out.open(fmt::format("<xs:simpleType name=\"{}\">", t.name));
    out.note("Write " + how_to_write(t.kind) + ".");
    out.open("<xs:restriction base=\"xs:token\">");
    if (t.kind == Kind::text || t.kind == Kind::name) {
      out.add("<xs:minLength value=\"1\"/>");
      out.add(fmt::format("<xs:maxLength value=\"{}\"/>", t.kind == Kind::name ? 40 : 2000));
    }
    for (const std::string& p : t.patterns)
      out.add(fmt::format("<xs:pattern value=\"{}\"/>", escaped(p)));
    out.close("</xs:restriction>");
    out.close("</xs:simpleType>");
  }
}

/// The meaning, the default and the limits in one text.
std::string attribute_note(const Attribute& row) {
  std::string note = row.meaning;
  note += row.preset.way == Preset::Way::required ? " Required."
                                                  : " Default: " + preset_words(row) + ".";
  if (!row.limits.least.empty()) note += " Range: " + limits_words(row) + ".";
  return note;
}

void add_own_type(Lines& out, const Attribute& row) {
  out.open("<xs:simpleType>");
  const bool is_number = row.kind == Kind::integer;
  out.open(fmt::format("<xs:restriction base=\"{}\">", is_number ? "xs:integer" : "xs:token"));
  for (const std::string& word : row.words)
    out.add(fmt::format("<xs:enumeration value=\"{}\"/>", escaped(word)));
  if (is_number) {
    out.add(fmt::format("<xs:minInclusive value=\"{}\"/>", row.limits.least));
    out.add(fmt::format("<xs:maxInclusive value=\"{}\"/>", row.limits.greatest));
  }
  out.close("</xs:restriction>");
  out.close("</xs:simpleType>");
}

void add_attribute(Lines& out, const Attribute& row) {
  const char* use = row.preset.way == Preset::Way::required ? " use=\"required\"" : "";
  const bool own = row.kind == Kind::word || row.kind == Kind::integer;
  const std::string type = own ? "" : fmt::format(" type=\"{}\"", type_name(row.kind));
  out.open(fmt::format("<xs:attribute name=\"{}\"{}{}>", row.name, type, use));
  out.note(attribute_note(row));
  if (own) add_own_type(out, row);
  out.close("</xs:attribute>");
}

/// The value of one attribute of a child names it among its siblings.
void add_unique(Lines& out, const Element& child) {
  for (const Attribute& row : child.attributes) {
    if (!row.unique) continue;
    out.open(fmt::format("<xs:unique name=\"{}-{}\">", child.name, row.name));
    out.add(fmt::format("<xs:selector xpath=\"dq:{}\"/>", child.name));
    out.add(fmt::format("<xs:field xpath=\"@{}\"/>", row.name));
    out.close("</xs:unique>");
  }
}

bool is_mixed_bag(const Element& e) {
  return e.children.size() > 1 && std::any_of(e.children.begin(), e.children.end(),
                                              [](const Child& c) { return c.most > 1; });
}

/// A choice in any order cannot count. But a key must be there exactly once, so one over a required
/// attribute (or text) of a required child asks for exactly one such child.
void add_presence(Lines& out, const Element& parent, const Child& c) {
  if (!is_mixed_bag(parent) || c.least != 1 || c.most != 1) return;
  const Element& child = *find_element(c.name);
  std::string field = child.text ? "dq:" + c.name : "";
  for (const Attribute& row : child.attributes)
    if (field.empty() && row.preset.way == Preset::Way::required)
      field = "dq:" + c.name + "/@" + row.name;
  if (field.empty()) return;
  out.open(fmt::format("<xs:key name=\"{}-has-{}\">", parent.name, c.name));
  out.add("<xs:selector xpath=\".\"/>");
  out.add(fmt::format("<xs:field xpath=\"{}\"/>", field));
  out.close("</xs:key>");
}

void add_element(Lines& out, const Element& e, const std::string& occurs) {
  out.open(fmt::format("<xs:element name=\"{0}\" type=\"dq:{0}-element\"{1}>", e.name, occurs));
  out.note(e.meaning);
  for (const Child& c : e.children) {
    add_unique(out, *find_element(c.name));
    add_presence(out, e, c);
  }
  out.close("</xs:element>");
}

std::string occurs(const Child& c) {
  return fmt::format(" minOccurs=\"{}\" maxOccurs=\"{}\"", c.least, c.most);
}

void add_children(Lines& out, const Element& e) {
  if (e.children.empty()) return;
  const bool bag = is_mixed_bag(e);
  const std::string model = bag ? "choice" : e.children.size() > 1 ? "all" : "sequence";
  out.open(bag ? "<xs:choice minOccurs=\"0\" maxOccurs=\"unbounded\">" : "<xs:" + model + ">");
  for (const Child& c : e.children) add_element(out, *find_element(c.name), bag ? "" : occurs(c));
  out.close("</xs:" + model + ">");
}

void add_type(Lines& out, const Element& e) {
  out.open(fmt::format("<xs:complexType name=\"{}-element\">", e.name));
  if (e.text) {
    out.open("<xs:simpleContent>");
    out.open("<xs:extension base=\"dq:text\">");
  }
  add_children(out, e);
  for (const Attribute& row : e.attributes) add_attribute(out, row);
  if (e.text) {
    out.close("</xs:extension>");
    out.close("</xs:simpleContent>");
  }
  out.close("</xs:complexType>");
}

}  // namespace

std::string project_schema() {
  Lines out;
  out.add("<?xml version=\"1.0\" encoding=\"UTF-8\"?>");
  out.add("<!-- Generated from the vocabulary in src/project; do not edit. -->");
  out.open(
      fmt::format("<xs:schema xmlns:xs=\"http://www.w3.org/2001/XMLSchema\" xmlns:dq=\"{0}\" "
                  "targetNamespace=\"{0}\" elementFormDefault=\"qualified\">",
                  project_namespace));
  add_element(out, *find_element("project"), "");
  for (const Element& e : vocabulary()) add_type(out, e);
  add_types(out);
  out.close("</xs:schema>");
  return out.text();
}

}  // namespace deckquire
