#include "project/validate.h"

#include <fmt/core.h>

#include <algorithm>
#include <cstring>
#include <map>
#include <set>

#include "base/text.h"

namespace deckquire {

void Report::error(const Place& place, std::string code, std::string what, std::string remedy) {
  if (count_ > most) return;
  if (++count_ > most)
    findings_.error(place, "too-many-errors", fmt::format("more than {} errors", most),
                    "mend those before this place first; later ones are not listed");
  else
    findings_.error(place, std::move(code), std::move(what), std::move(remedy));
}

namespace {

/// Names that a wrong one of the file probably means: what they stand for is not missing as well.
using Meant = std::set<std::string>;

/// What every check of an element works on.
struct Site {
  const Document& document;
  const OwnUnit& own;
  Report& report;
  pugi::xml_node node;
  const Element& element;
};

std::string shown(const char* name) {
  const std::string q = quoted(name);
  return q.substr(1, q.size() - 2);
}

const NotYet* not_yet(const std::vector<NotYet>& list, const std::string& name) {
  for (const NotYet& n : list)
    if (n.name == name) return &n;
  return nullptr;
}

/// xmlns and what an editor needs to find the schema.
bool is_xml_matter(const Site& s, const std::string& name) {
  return s.element.name == "project" &&
         (name == "xmlns" || name == "xmlns:xsi" || name == "xsi:schemaLocation");
}

void unknown_attribute(const Site& s, pugi::xml_attribute a, Meant& meant) {
  const Place place = s.document.place(a);
  if (const NotYet* later = not_yet(not_yet_attributes(), a.name())) {
    s.report.error(
        place, "not-yet",
        fmt::format("{} on <{}>: {} are not there yet", later->name, s.element.name, later->about),
        "leave it out");
    return;
  }
  std::vector<std::string> names;
  for (const Attribute& row : s.element.attributes)
    if (!s.node.attribute(row.name.c_str())) names.push_back(row.name);
  const std::string near = nearest_word(a.name(), names);
  std::vector<std::string> all;
  for (const Attribute& row : s.element.attributes) all.push_back(row.name);
  meant.insert(near);
  s.report.error(place, "unknown-attribute",
                 fmt::format("<{}> has no attribute {}", s.element.name, shown(a.name())),
                 !near.empty() ? fmt::format("did you mean {}?", near)
                 : all.empty() ? "delete it: the element has no attributes"
                               : "delete it, or use one of: " + join(all, ", "));
}

void check_value(const Site& s, const Attribute& row, pugi::xml_attribute a) {
  const auto refused = refusal(row, a.value(), s.own);
  if (!refused) return;
  s.report.error(s.document.value_place(a), refused->code,
                 fmt::format("{}={} {}", row.name, quoted(a.value()), refused->what),
                 refused->remedy);
}

void check_attributes(const Site& s) {
  std::set<std::string> seen;
  Meant meant;
  for (pugi::xml_attribute a : s.node.attributes()) {
    if (s.report.full()) return;
    if (!seen.insert(a.name()).second) {
      s.report.error(s.document.place(a), "duplicate-attribute",
                     fmt::format("{} stands twice on <{}>", shown(a.name()), s.element.name),
                     "keep one");
      continue;
    }
    if (is_xml_matter(s, a.name())) continue;
    const Attribute* row = find_attribute(s.element, a.name());
    if (row == nullptr)
      unknown_attribute(s, a, meant);
    else
      check_value(s, *row, a);
  }
  for (const Attribute& row : s.element.attributes)
    if (row.preset.way == Preset::Way::required && seen.count(row.name) == 0 &&
        meant.count(row.name) == 0)
      s.report.error(s.document.place(s.node), "missing-attribute",
                     fmt::format("<{}> has no {}", s.element.name, row.name),
                     fmt::format("add {}=\"...\", {}", row.name,
                                 row.kind == Kind::word ? "one of: " + join(row.words, ", ")
                                                        : how_to_write(row.kind)));
}

std::string ways_text(const Choice& choice, const char* word) {
  std::vector<std::string> parts;
  for (const auto& way : choice.ways) parts.push_back(join(way, " with "));
  return join(parts, word);
}

void check_choice(const Site& s, const Choice& choice) {
  const auto has = [&](const std::string& name) { return !s.node.attribute(name.c_str()).empty(); };
  int begun = 0, complete = 0;
  for (const auto& way : choice.ways) {
    const auto n = std::count_if(way.begin(), way.end(), has);
    begun += n > 0 ? 1 : 0;
    complete += n == static_cast<std::ptrdiff_t>(way.size()) ? 1 : 0;
  }
  const Place place = s.document.place(s.node);
  if (begun > 1)
    s.report.error(place, "contradiction",
                   fmt::format("<{}> says both {}", s.element.name, ways_text(choice, " and ")),
                   "keep one of them");
  else if (begun == 0 ? choice.needed : complete == 0)
    s.report.error(place, "incomplete",
                   fmt::format("<{}> needs {}", s.element.name, ways_text(choice, " or ")),
                   choice.ways.size() > 1 ? "give one of them" : "give all of them, or none");
}

/// from before to, wherever an element has both.
void check_order(const Site& s) {
  const auto from = good_amount(s.node, "from", s.own), to = good_amount(s.node, "to", s.own);
  if (!from || !to || from->nanometres < to->nanometres) return;
  const auto at = s.node.attribute("to");
  s.report.error(s.document.value_place(at), "contradiction",
                 fmt::format("to={} is not ahead of from={}", quoted(at.value()),
                             quoted(s.node.attribute("from").value())),
                 "give the smaller station as from");
}

void check_text(const Site& s) {
  if (s.element.text) {
    static const Attribute text_row{"text", Kind::text, required(), {}, {}, ""};
    const std::string text = text_of(s.node);
    if (text.empty())
      s.report.error(s.document.place(s.node), "empty",
                     fmt::format("<{}> says nothing", s.element.name), "write its text inside");
    else if (const auto refused = refusal(text_row, text, s.own))
      s.report.error(s.document.place(s.node), refused->code,
                     fmt::format("<{}> {}", s.element.name, refused->what), refused->remedy);
    return;
  }
  for (pugi::xml_node child : s.node.children()) {
    const bool text = child.type() == pugi::node_pcdata || child.type() == pugi::node_cdata;
    if (!text || trimmed(child.value()).empty()) continue;
    s.report.error(s.document.place(child), "stray-text",
                   fmt::format("<{}> has a text where none belongs: {}", s.element.name,
                               quoted(trimmed(child.value()))),
                   "delete it, or put it in <!-- -->");
    return;
  }
}

std::string parents_of(const std::string& name) {
  std::vector<std::string> parents;
  for (const Element& e : vocabulary())
    for (const Child& c : e.children)
      if (c.name == name) parents.push_back("<" + e.name + ">");
  return join(parents, " or ");
}

/// `present`: the names of all children of s.node.
void unknown_element(const Site& s, pugi::xml_node child, const std::set<std::string>& present,
                     Meant& meant) {
  const Place place = s.document.place(child);
  const std::string name = child.name();
  if (const NotYet* later = not_yet(not_yet_elements(), name)) {
    s.report.error(place, "not-yet",
                   fmt::format("<{}>: {} are not there yet", later->name, later->about),
                   "leave it out");
    return;
  }
  const std::string parents = find_element(name) != nullptr ? parents_of(name) : "";
  std::vector<std::string> names, missing;
  for (const Child& c : s.element.children) {
    names.push_back(c.name);
    if (c.most > 1 || present.count(c.name) == 0) missing.push_back(c.name);
  }
  const std::string near = parents.empty() ? nearest_word(name, missing) : "";
  meant.insert(near);
  s.report.error(place, "unknown-element",
                 fmt::format("<{}> does not belong in <{}>", shown(child.name()), s.element.name),
                 !parents.empty() ? fmt::format("move it into {}", parents)
                 : !near.empty()  ? fmt::format("did you mean <{}>?", near)
                 : names.empty()  ? "delete it"
                                  : "delete it, or use one of: " + join(names, ", "));
}

/// Values of unique attributes: no two alike among the children of one name.
void check_unique(const Site& s, const Element& child_element) {
  for (const Attribute& row : child_element.attributes) {
    if (!row.unique) continue;
    std::map<std::string, int> lines;
    for (pugi::xml_node child : s.node.children(child_element.name.c_str())) {
      const auto a = child.attribute(row.name.c_str());
      if (!a || s.report.full()) continue;
      const Place place = s.document.value_place(a);
      const auto [found, is_new] = lines.emplace(trimmed(a.value()), place.line);
      if (!is_new)
        s.report.error(place, "duplicate-name",
                       fmt::format("{}={} stands on another <{}> too, in line {}", row.name,
                                   quoted(a.value()), child_element.name, found->second),
                       "make them differ");
    }
  }
}

std::string first_sentence(const std::string& text) {
  return text.substr(0, std::min(text.find(". "), text.size() - 1));
}

void check_counts(const Site& s, const std::map<std::string, int>& counts, const Meant& meant) {
  for (const Child& c : s.element.children) {
    const auto found = counts.find(c.name);
    const int n = found == counts.end() ? 0 : found->second;
    if (n < c.least && meant.count(c.name) == 0)
      s.report.error(
          s.document.place(s.node), "missing-element",
          fmt::format("<{}> has no <{}>", s.element.name, c.name),
          fmt::format("add <{}> ({})", c.name, first_sentence(find_element(c.name)->meaning)));
  }
}

void validate_element(const Site& s);

void check_children(const Site& s) {
  std::map<std::string, int> counts;
  std::set<std::string> present;
  for (pugi::xml_node child : s.node.children()) present.insert(child.name());
  Meant meant;
  for (pugi::xml_node child : s.node.children()) {
    if (child.type() != pugi::node_element) continue;
    if (s.report.full()) return;
    const auto row = std::find_if(s.element.children.begin(), s.element.children.end(),
                                  [&](const Child& c) { return c.name == child.name(); });
    if (row == s.element.children.end()) {
      unknown_element(s, child, present, meant);
      continue;
    }
    const int n = ++counts[row->name];
    if (n == row->most + 1)
      s.report.error(
          s.document.place(child), row->most == 1 ? "duplicate-element" : "too-many",
          row->most == 1
              ? fmt::format("<{}> stands twice in <{}>", row->name, s.element.name)
              : fmt::format("more than {} <{}> in <{}>", row->most, row->name, s.element.name),
          row->most == 1 ? "keep one" : "divide the project");
    if (n <= row->most)
      validate_element({s.document, s.own, s.report, child, *find_element(row->name)});
  }
  check_counts(s, counts, meant);
  for (const Child& c : s.element.children) check_unique(s, *find_element(c.name));
}

/// The depth of the recursion is limited by find_xml_fault.
void validate_element(const Site& s) {
  if (s.report.full()) return;
  check_attributes(s);
  for (const Choice& choice : s.element.choices) check_choice(s, choice);
  check_order(s);
  check_text(s);
  check_children(s);
}

}  // namespace

std::optional<Amount> good_amount(pugi::xml_node node, const char* attribute, const OwnUnit& own) {
  const auto a = node.attribute(attribute);
  const Element* element = find_element(node.name());
  const Attribute* row = element == nullptr ? nullptr : find_attribute(*element, attribute);
  if (!a || row == nullptr || is_unjudged(*row, own) || refusal(*row, a.value(), own))
    return std::nullopt;
  return std::get<Amount>(read_amount(row->kind, a.value(), own));
}

bool is_project(const Document& document, Report& report) {
  const pugi::xml_node root = document.root();
  if (std::strcmp(root.name(), "project") != 0) {
    report.error(
        document.place(root), "not-a-project",
        fmt::format("the root element is <{}>", shown(root.name())),
        "begin with <project xmlns=\"urn:deckquire:project:1\" number=\"...\" units=\"mm\">");
    return false;
  }
  const auto space = root.attribute("xmlns");
  if (std::strcmp(space.value(), project_namespace) == 0) return true;
  report.error(space ? document.value_place(space) : document.place(root), "namespace",
               space ? fmt::format("the namespace is {}", quoted(space.value()))
                     : "<project> has no namespace",
               fmt::format("write xmlns=\"{}\"", project_namespace));
  return !space;  // another namespace may mean another vocabulary
}

void validate(const Document& document, const OwnUnit& own, Report& report) {
  validate_element({document, own, report, document.root(), *find_element("project")});
}

}  // namespace deckquire
