#include <fmt/format.h>

#include "project/extract.h"

namespace deckquire {
namespace {

void extract_head(const Fields& f, Project& p) {
  p.number = f.text("number");
  p.units = f.own().system();
  const std::string unit = f.own().name;
  p.unit = unit == "m" ? metres(1) : unit == "in" ? inches(1) : unit == "ft" ? feet(1) : mm(1);
  p.title = text_of(f.node().child("title"));
  p.place = f.place();
  f.child("parties").each("party", [&](const Fields& e) {
    p.parties.push_back({e.text("role"), e.text("name"), e.text("contact"), e.place()});
  });
  f.child("revisions").each("revision", [&](const Fields& e) {
    p.revisions.push_back({e.text("id"), e.text("date"), e.text("by"), e.text("checked"),
                           e.text("status"), text_of(e.node()), e.place()});
  });
}

/// "G E P": blanks between, each once.
std::vector<std::string> letters(const std::string& text) {
  std::vector<std::string> out;
  for (char c : text)
    if (c != ' ') out.push_back(std::string(1, c));
  return out;
}

SetData extract_set(const Fields& f) {
  SetData s;
  s.style = f.text("style");
  s.series = letters(f.text("series"));
  s.place = f.place();
  f.each("scale", [&](const Fields& e) {
    s.scales.push_back({e.text("of"), e.integer("ratio"), e.place()});
  });
  f.each("override", [&](const Fields& e) {
    s.overrides.push_back(
        {e.text("element"), e.text("of"), e.text("property"), e.text("value"), e.place()});
  });
  f.each("note", [&](const Fields& e) { s.notes.push_back(text_of(e.node())); });
  return s;
}

std::vector<ToleranceData> extract_tolerances(const Fields& f) {
  std::vector<ToleranceData> out;
  f.each("tolerance", [&](const Fields& e) {
    out.push_back({e.text("of"), e.length("value"), e.place()});
  });
  const std::size_t written = out.size();
  for (const ToleranceDefault& d : tolerance_defaults()) {
    bool known = false;
    for (std::size_t i = 0; i < written; ++i) known = known || out[i].of == d.of;
    const std::string& text = f.own().system() == UnitSystem::metric ? d.metric : d.imperial;
    const auto value = std::get<Amount>(read_amount(Kind::length, text, f.own()));
    if (!known) out.push_back({d.of, Length::from_nanometres(value.nanometres), f.place()});
  }
  return out;
}

/// "hatch H2", "edge 3 of edges", "rain": no quantities in it, so that other units are no other name.
std::string element_words(pugi::xml_node e) {
  const std::string tag = e.name();
  for (const char* key : {"name", "id", "of", "part", "on", "between"})
    if (const pugi::xml_attribute a = e.attribute(key); !a.empty())
      return tag + " " + std::string(trimmed(a.value()));
  int before = 0, all = 0;
  for (pugi::xml_node other : e.parent().children(e.name())) {
    ++all;
    if (other == e) before = all;
  }
  return all > 1 ? fmt::format("{} {}", tag, before) : tag;
}

void name_elements(const Document& document, pugi::xml_node node, const std::string& parent, Project& p) {
  for (pugi::xml_node e : node.children()) {
    if (e.type() != pugi::node_element) continue;
    const std::string name = element_words(e) + (parent.empty() ? "" : " of " + parent);
    const Place at = document.place(e);
    p.elements[{at.line, at.column}] = name;
    // The great parts of the file go without saying.
    const bool great = e.parent() == document.root();
    name_elements(document, e, great ? "" : name, p);
  }
}

}  // namespace

Conditions extract_conditions(const Fields& project) {
  const Fields f = project.child("conditions");
  Conditions c;
  extract_loads(f, c);
  extract_delivery(f, c);
  c.tolerances = extract_tolerances(f);
  const Fields s = f.child("shipping");
  c.ship_length = s.optional_length("length");
  c.ship_width = s.optional_length("width");
  if (const auto mass = s.optional_si("mass")) c.ship_mass = Mass::si(*mass);
  c.place = f.place();
  return c;
}

Project extract_project(const Document& document, const OwnUnit& own, const std::string& file) {
  const Fields f(document, own, document.root(), "project");
  Project p;
  p.file = file;
  name_elements(document, document.root(), "", p);
  extract_head(f, p);
  p.bridge = extract_bridge(f.child("bridge"), p.title);
  p.deck = extract_deck(f.child("deck"), p.bridge, p.number);
  p.conditions = extract_conditions(f);
  p.set = extract_set(f.child("set"));
  f.each("redline", [&](const Fields& e) {
    Redline r{e.text("on"), e.text("by"), e.text("date"), text_of(e.node()), e.place()};
    r.sheet = e.text("sheet");
    const std::string status = e.text("status");
    r.status = status == "open"       ? RedlineStatus::open
               : status == "answered" ? RedlineStatus::answered
                                      : RedlineStatus::closed;
    r.answer = e.text("answer");
    r.revision = e.text("revision");
    p.redlines.push_back(std::move(r));
  });
  f.each("decision", [&](const Fields& e) {
    p.decisions.push_back({e.text("on"), e.text("way"), e.text("revision"), e.text("by"),
                           e.text("date"), text_of(e.node()), e.place()});
  });
  return p;
}

}  // namespace deckquire
