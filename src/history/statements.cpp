#include "history/statements.h"

#include <algorithm>
#include <cmath>
#include <stdexcept>

#include <fmt/format.h>

#include "base/document.h"
#include "history/statement_nodes.h"
#include "project/fields.h"

namespace deckquire::history {
namespace {

/// What tells elements of one name under one parent apart, where no attribute has to be unique.
const std::map<std::string, std::vector<std::string>>& keys() {
  static const std::map<std::string, std::vector<std::string>> table = {
      {"party", {"role"}},
      {"revision", {"id"}},
      {"override", {"element", "of", "property"}},
      {"redline", {"on"}},
      {"curve", {"from"}},
      {"transition", {"from"}},
      {"grade", {"at"}},
      {"splice", {"girder", "at"}},
      {"edge", {"at"}},
      {"surface", {"class"}},
      {"post", {"at", "side"}},
      {"clearance", {"between", "and"}},
      {"duration", {"minutes"}},
      {"decision", {"on"}},
      {"next", {"panel", "span"}},
      {"wait", {"panel", "for"}},
      {"measured", {"of", "name", "girder", "date"}},
  };
  return table;
}

bool is_length(Kind kind) {
  return kind == Kind::length || kind == Kind::station;
}

bool is_number(Kind kind) {
  switch (kind) {
    case Kind::text:
    case Kind::name:
    case Kind::word:
    case Kind::letters:
    case Kind::series:
    case Kind::date:
    case Kind::revision:
    case Kind::thread:
      return false;
    default:
      return true;
  }
}

/// The SI unit of a kind, as it is printed; lengths have their own.
const char* unit_of(Kind kind) {
  switch (kind) {
    case Kind::density:
      return " kg/m3";
    case Kind::area_mass:
      return " kg/m2";
    case Kind::mass:
      return " kg";
    case Kind::angle:
      return " rad";
    case Kind::temperature:
      return " C";
    case Kind::force:
      return " N";
    case Kind::pressure:
      return " Pa";
    case Kind::line_load:
      return " N/m";
    case Kind::moment:
      return " N m";
    case Kind::rain:
      return " m/s";
    case Kind::expansion:
      return " 1/K";
    default:
      return "";
  }
}

/// Blanks run together; a list of series in the order of the alphabet.
std::string tidied(Kind kind, const std::string& text) {
  std::vector<std::string> words;
  std::string word;
  for (char c : text + " ") {
    const bool blank = c == ' ' || c == '\t' || c == '\n' || c == '\r';
    if (!blank) word += c;
    if (blank && !word.empty()) words.push_back(std::move(word)), word.clear();
  }
  if (kind == Kind::series) std::sort(words.begin(), words.end());
  return join(words, " ");
}

/// Twelve figures: units are turned into SI by doubles.
std::string rounded(double si) {
  return fmt::format("{:.12g}", si == 0 ? 0.0 : si);
}

struct Value {
  std::string value, shown;
  std::optional<double> si;
};

std::string shown_length(Length l, UnitSystem system) {
  const std::string printed = print_length(l, system);
  if (system == UnitSystem::imperial) return printed;
  return shortest_decimal(l.in_mm(), 6) + " mm";
}

Value value_of(Kind kind, const std::string& text, const OwnUnit& own) {
  Value out{tidied(kind, text), tidied(kind, text), std::nullopt};
  if (!is_number(kind)) return out;
  const Reading reading = read_amount(kind, text, own);
  const auto* amount = std::get_if<Amount>(&reading);
  if (amount == nullptr) return out;
  if (is_length(kind)) {
    const Length l = Length::from_nanometres(amount->nanometres);
    out = {std::to_string(amount->nanometres), shown_length(l, own.system()), l.in_m()};
    if (kind == Kind::station) out.shown = print_station(l, own.system());
    return out;
  }
  out.value = rounded(amount->si);
  out.si = amount->si;
  // As written where that has a unit of its own.
  const bool bare = text.find_first_not_of("0123456789.+-eE \t") == std::string::npos;
  if (bare) out.shown = out.value + unit_of(kind);
  return out;
}

bool is_repeated(const Element& parent, const std::string& child) {
  for (const Child& c : parent.children)
    if (c.name == child) return c.most > 1;
  return false;
}

/// False for what the file may leave out and the defaults then hold for all the same.
bool says_something_by_being_there(const Element& e) {
  if (e.text || e.meaning.find("Left out: no") != std::string::npos) return true;
  return std::any_of(e.attributes.begin(), e.attributes.end(),
                     [](const Attribute& a) { return a.preset.way == Preset::Way::required; });
}

class Walker {
 public:
  Walker(const Document& document, OwnUnit own, StatementNodes* nodes)
      : document_(document), own_(std::move(own)), nodes_(nodes) {}

  Statements statements() {
    walk(document_.root(), *find_element("project"), "project", "project", {});
    return std::move(out_);
  }

 private:
  const Document& document_;
  OwnUnit own_;
  StatementNodes* nodes_;
  Statements out_;

  void walk(pugi::xml_node node, const Element& e, const std::string& path,
            const std::string& words, Place around) {
    if (node) around = document_.place(node);
    if (node && nodes_ != nullptr) (*nodes_)[path] = node;
    for (const Attribute& a : e.attributes) attribute(node, e, a, path, words, around);
    if (e.text)
      add(path, words, "text", {text_of(node), text_of(node), std::nullopt}, true, around);
    for (const Child& c : e.children) {
      if (c.name == "panel") {
        panels(node, path, words, around);
        continue;
      }
      const Element& child = *find_element(c.name);
      if (is_repeated(e, c.name))
        several(node, child, path);
      else
        single(node.child(c.name.c_str()), child, path, around);
    }
  }

  void single(pugi::xml_node node, const Element& e, const std::string& parent,
              const Place& around) {
    const bool matters = says_something_by_being_there(e);
    if (!node && matters) return;
    const std::string path = parent + "/" + e.name;
    if (matters)
      add(path, e.name, "", {"there", "there", std::nullopt}, true, document_.place(node));
    walk(node, e, path, e.name, around);
  }

  void several(pugi::xml_node parent, const Element& e, const std::string& path) {
    std::map<std::string, int> alike;
    for (pugi::xml_node node : parent.children(e.name.c_str())) {
      std::string words = e.name, key;
      for (const std::string& name : key_names(e)) {
        const auto v = given_or_default(node, e, *find_attribute(e, name));
        if (!v || v->value.empty()) continue;
        const Kind kind = find_attribute(e, name)->kind;
        key += (key.empty() ? "" : ",") + v->value;
        words += (kind == Kind::station ? " at " : " ") + v->shown;
      }
      const int count = ++alike[key];
      if (key.empty() || count > 1) {
        words += " " + std::to_string(count);
        key += "#" + std::to_string(count);
      }
      const std::string own = path + "/" + e.name + "[" + key + "]";
      add(own, words, "", {"there", "there", std::nullopt}, true, document_.place(node));
      walk(node, e, own, words, {});
    }
  }

  static std::vector<std::string> key_names(const Element& e) {
    std::vector<std::string> unique;
    for (const Attribute& a : e.attributes)
      if (a.unique && a.preset.way == Preset::Way::required) unique.push_back(a.name);
    if (!unique.empty()) return unique;
    const auto found = keys().find(e.name);
    return found == keys().end() ? std::vector<std::string>{} : found->second;
  }

  std::string raw(pugi::xml_node node, const Element& e, const Attribute& a) const {
    if (const auto written = node.attribute(a.name.c_str()))
      return std::string(trimmed(written.value()));
    const Attribute* key = a.preset.key.empty() ? nullptr : find_attribute(e, a.preset.key);
    return preset_text(a.preset, own_, key == nullptr ? "" : raw(node, e, *key)).value_or("");
  }

  std::optional<Value> given_or_default(pugi::xml_node node, const Element& e,
                                        const Attribute& a) const {
    const std::string text = raw(node, e, a);
    if (text.empty()) return std::nullopt;
    return value_of(a.kind, text, own_);
  }

  void attribute(pugi::xml_node node, const Element& e, const Attribute& a, const std::string& path,
                 const std::string& words, const Place& around) {
    const auto written = node.attribute(a.name.c_str());
    Value v = given_or_default(node, e, a).value_or(Value{"", "left out", std::nullopt});
    if (v.value.empty() && !a.preset.words.empty()) v.shown += " (" + a.preset.words + ")";
    // The unit of bare numbers changes nothing; metric or feet and inches does.
    if (path == "project" && a.name == "units")
      v.value = v.shown = own_.system() == UnitSystem::metric ? "metric" : "feet and inches";
    add(path, words, a.name, v, !written.empty(),
        written.empty() ? around : document_.place(written));
  }

  /// Panels written out in a span, in order: "12 x 2488 mm, 2100 mm".
  void panels(pugi::xml_node node, const std::string& path, const std::string& words,
              const Place& around) {
    const Element& e = *find_element("panel");
    std::vector<std::pair<Length, int>> runs;
    Place place = around;
    for (pugi::xml_node child : node.children("panel")) {
      const Fields fields(document_, own_, child, "panel");
      if (runs.empty()) place = document_.place(child);
      const Length length = fields.length("length");
      if (runs.empty() || runs.back().first != length) runs.push_back({length, 0});
      runs.back().second += fields.integer("times");
    }
    std::vector<std::string> values, shown;
    for (const auto& [length, times] : runs) {
      const std::string what = shown_length(length, own_.system());
      values.push_back(fmt::format("{}x{}", times, length.in_nanometres()));
      shown.push_back(times == 1 ? what : fmt::format("{} x {}", times, what));
    }
    const Value v{join(values, " "), runs.empty() ? "none written out" : join(shown, ", "), {}};
    add(path, words, e.name + "s", v, !runs.empty(), place);
  }

  void add(const std::string& path, const std::string& words, const std::string& attribute,
           const Value& v, bool given, const Place& place) {
    out_[path + "@" + attribute] = {words, attribute, v.value, v.shown, v.si, given, place};
  }
};

}  // namespace

Statements statements_of(const Document& document, StatementNodes* nodes) {
  const std::string unit = document.root().attribute("units").value();
  return Walker(document, {std::string(trimmed(unit))}, nodes).statements();
}

Statements statements_of(const std::string& text, const std::string& file) {
  Findings findings;
  const Document document(text, file, findings);
  if (!document.ok()) throw std::invalid_argument(file + " cannot be read as XML");
  return statements_of(document, nullptr);
}

}  // namespace deckquire::history
