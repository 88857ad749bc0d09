#include <fmt/format.h>

#include <algorithm>
#include <cstdlib>
#include <map>

#include "base/document.h"
#include "base/checksum.h"
#include "base/text.h"
#include "history/entry_xml.h"

namespace deckquire::history {
namespace {

constexpr const char* remedy_of_change =
    "put the file back as it was: nothing in a register is edited, and later entries count on it";

/// The lines above the seal, when it is theirs.
bool is_sealed(const std::string& text, const std::string& file, Findings& findings) {
  const std::string begin = "  <seal sha256=\"", end = "\"/>\n</entry>\n";
  const std::size_t at = text.rfind(begin);
  const Place place{file, static_cast<int>(std::count(text.begin(), text.end(), '\n')), 1};
  if (at == std::string::npos || !text.ends_with(end) ||
      text.size() != at + begin.size() + 64 + end.size()) {
    findings.error(place, "register-incomplete", "the entry does not end with its seal",
                   remedy_of_change);
    return false;
  }
  const std::string said = text.substr(at + begin.size(), 64);
  const std::string is = sha256(std::string_view(text).substr(0, at));
  if (said == is) return true;
  findings.error(place, "register-changed",
                 fmt::format("the entry was changed after it was written: its checksum is {}, and "
                             "not {} as its seal says",
                             is.substr(0, 12), said.substr(0, 12)),
                 remedy_of_change);
  return false;
}

/// What may stand where: elements with their attributes ("name!": needed) and children.
struct Rule {
  std::vector<std::string> attributes, children;
};
const std::map<std::string, Rule>& rules() {
  static const std::vector<std::string> box{"left!", "low!", "right!", "high!"};
  static const std::map<std::string, Rule> all{
      {"entry", {{"xmlns!", "number!", "before"}, {"issue", "status", "built", "voided", "seal"}}},
      {"issue",
       {{"revision!", "status!", "date!", "by", "style", "project!", "checksum!"},
        {"mark", "position", "sheet", "layout"}}},
      {"mark", {{"name!", "quantity!", "opposite-of", "sheet"}, {"signature", "variant"}}},
      {"signature", {}},
      {"variant", {}},
      {"position",
       {{"number!", "span!", "row!", "from!", "to!", "mark!", "serial!", "turned"}, {"wanted"}}},
      {"wanted", {}},
      {"sheet", {{"number!", "title", "fingerprint", "revisions", "withdrawn"}, {"spot"}}},
      {"spot", {box, {}}},
      {"layout", {{"erection-ratio"}, {"strip", "panel-sheet", "callout"}}},
      {"strip", {{"first!", "last!", "sheet!"}, {}}},
      {"panel-sheet", {{"number!", "marks", "ratio!"}, {}}},
      {"callout", {{"sheet!", "text!", "left!", "low!", "right!", "high!"}, {}}},
      {"status", {{"revision!", "status!", "date!", "by"}, {}}},
      {"built",
       {{"serial!", "mark!", "revision!", "stage!", "date!", "by", "note", "length-left",
         "length-right", "width-back", "width-ahead"},
        {}}},
      {"voided", {{"serial!", "mark!", "revision!", "replaced-by", "reason"}, {}}},
      {"seal", {{"sha256!"}, {}}}};
  return all;
}

/// Knows the document; every fault is one finding.
class EntryReader {
 public:
  EntryReader(const Document& document, Findings& findings) : document_(document), findings_(findings) {}

  void check(pugi::xml_node e) {
    const Rule& rule = rules().at(e.name());
    for (pugi::xml_attribute a : e.attributes())
      if (std::none_of(rule.attributes.begin(), rule.attributes.end(), [&](const std::string& r) {
            return r == a.name() || r == std::string(a.name()) + "!";
          }))
        fault(document_.place(a), fmt::format("<{}> has no attribute {}", e.name(), a.name()));
    for (const std::string& r : rule.attributes)
      if (r.ends_with('!') && !e.attribute(r.substr(0, r.size() - 1).c_str()))
        fault(document_.place(e),
              fmt::format("<{}> lacks its attribute {}", e.name(), r.substr(0, r.size() - 1)));
    for (pugi::xml_node c : e.children()) {
      if (c.type() != pugi::node_element) continue;
      if (std::find(rule.children.begin(), rule.children.end(), c.name()) != rule.children.end())
        check(c);
      else
        fault(document_.place(c), fmt::format("<{}> is not known inside <{}>", c.name(), e.name()));
    }
  }

  std::string text(pugi::xml_node e, const char* name) const { return e.attribute(name).value(); }
  bool yes(pugi::xml_node e, const char* name) const { return text(e, name) == "yes"; }
  double number(pugi::xml_node e, const char* name) {
    const pugi::xml_attribute a = e.attribute(name);
    char* end = nullptr;
    const double v = std::strtod(a.value(), &end);
    if (a && (end == a.value() || *end != '\0'))
      fault(document_.value_place(a), fmt::format("{} is no number", quoted(a.value())));
    return v;
  }
  int integer(pugi::xml_node e, const char* name) { return static_cast<int>(number(e, name)); }
  Length length(pugi::xml_node e, const char* name) { return mm(number(e, name)); }
  std::optional<Length> optional_length(pugi::xml_node e, const char* name) {
    if (!e.attribute(name)) return std::nullopt;
    return length(e, name);
  }
  std::vector<std::string> words(pugi::xml_node e, const char* name) const {
    std::vector<std::string> out(1);
    for (char c : text(e, name))
      if (c == ' ')
        out.emplace_back();
      else
        out.back() += c;
    if (out.back().empty()) out.pop_back();
    return out;
  }
  /// A signature: one fact a line.
  static std::string lines(pugi::xml_node e) {
    std::string out;
    for (std::string line : split_lines(e.child_value())) {
      line.erase(line.find_last_not_of(" \t\r") + 1);
      line.erase(0, line.find_first_not_of(" \t"));
      if (!line.empty()) out += line + '\n';
    }
    return out;
  }
  Spot box(pugi::xml_node e) {
    return {number(e, "left"), number(e, "low"), number(e, "right"), number(e, "high")};
  }
  void fault(Place place, std::string what) {
    findings_.error(std::move(place), "register-unknown", std::move(what),
                    "read this register with the version of the program that wrote it");
  }
  Place place(pugi::xml_node e) const { return document_.place(e); }

 private:
  const Document& document_;
  Findings& findings_;
};

IssuedMark read_mark(EntryReader& r, pugi::xml_node e) {
  IssuedMark m;
  m.name = r.text(e, "name");
  m.opposite_of = r.text(e, "opposite-of");
  m.quantity = r.integer(e, "quantity");
  m.signature = EntryReader::lines(e.child("signature"));
  for (pugi::xml_node v : e.children("variant")) m.variants.push_back(EntryReader::lines(v));
  m.sheet = r.text(e, "sheet");
  return m;
}

IssuedPosition read_position(EntryReader& r, pugi::xml_node e) {
  return {r.integer(e, "number"), r.text(e, "span"),   r.integer(e, "row") - 1,
          r.length(e, "from"),    r.length(e, "to"),   r.text(e, "mark"),
          r.text(e, "serial"),    r.yes(e, "turned"), EntryReader::lines(e.child("wanted"))};
}

IssuedSheet read_sheet(EntryReader& r, pugi::xml_node e) {
  IssuedSheet s{r.text(e, "number"),      r.text(e, "title"), r.text(e, "fingerprint"),
                r.words(e, "revisions"), {},                 r.yes(e, "withdrawn")};
  for (pugi::xml_node spot : e.children("spot")) s.spots.push_back(r.box(spot));
  return s;
}

LayoutHints read_layout(EntryReader& r, pugi::xml_node e) {
  LayoutHints l;
  l.erection_ratio = r.integer(e, "erection-ratio");
  for (pugi::xml_node s : e.children("strip"))
    l.strips.push_back({r.integer(s, "first"), r.integer(s, "last"), r.integer(s, "sheet")});
  for (pugi::xml_node s : e.children("panel-sheet"))
    l.panels.push_back({r.text(s, "number"), r.words(s, "marks"), r.integer(s, "ratio")});
  for (pugi::xml_node c : e.children("callout"))
    l.callouts[r.text(c, "sheet")][r.text(c, "text")] = r.box(c);
  return l;
}

Issue read_issue(EntryReader& r, pugi::xml_node e) {
  Issue i;
  i.revision = r.text(e, "revision");
  i.status = r.text(e, "status");
  i.date = r.text(e, "date");
  i.by = r.text(e, "by");
  i.style = r.text(e, "style");
  i.project_file = r.text(e, "project");
  i.project_checksum = r.text(e, "checksum");
  for (pugi::xml_node m : e.children("mark")) i.marks.push_back(read_mark(r, m));
  for (pugi::xml_node p : e.children("position")) i.positions.push_back(read_position(r, p));
  for (pugi::xml_node s : e.children("sheet")) i.sheets.push_back(read_sheet(r, s));
  i.layout = read_layout(r, e.child("layout"));
  return i;
}

BuiltPanel read_built(EntryReader& r, pugi::xml_node e) {
  static const std::map<std::string, Stage> stages{
      {"cast", Stage::cast}, {"shipped", Stage::shipped}, {"set", Stage::set}};
  BuiltPanel b;
  b.serial = r.text(e, "serial");
  b.mark = r.text(e, "mark");
  b.revision = r.text(e, "revision");
  const auto stage = stages.find(r.text(e, "stage"));
  if (stage != stages.end())
    b.stage = stage->second;
  else
    r.fault(r.place(e), fmt::format("{} is no stage", quoted(r.text(e, "stage"))));
  b.date = r.text(e, "date");
  b.by = r.text(e, "by");
  b.note = r.text(e, "note");
  b.length_left = r.optional_length(e, "length-left");
  b.length_right = r.optional_length(e, "length-right");
  b.width_back = r.optional_length(e, "width-back");
  b.width_ahead = r.optional_length(e, "width-ahead");
  return b;
}

}  // namespace

std::optional<ReadEntry> read_entry(const std::string& text, const std::string& file,
                                    Findings& findings) {
  Findings mine;
  ReadEntry out;
  if (is_sealed(text, file, mine)) {
    const Document document(text, file, mine);
    EntryReader r(document, mine);
    const pugi::xml_node root = document.ok() ? document.root() : pugi::xml_node();
    if (document.ok() && (std::string_view(root.name()) != "entry" ||
                          r.text(root, "xmlns") != register_namespace))
      r.fault({file, 1, 1}, "this is no entry of a register that this program knows");
    if (!mine.has_errors()) r.check(root);
    if (!mine.has_errors()) {
      out.before = r.text(root, "before");
      out.entry.number = r.integer(root, "number");
      if (const auto e = root.child("issue")) out.entry.issue = read_issue(r, e);
      if (const auto e = root.child("status"))
        out.entry.status = StatusChange{r.text(e, "revision"), r.text(e, "status"),
                                        r.text(e, "date"), r.text(e, "by")};
      for (pugi::xml_node e : root.children("built")) out.entry.built.push_back(read_built(r, e));
      for (pugi::xml_node e : root.children("voided"))
        out.entry.voided.push_back({r.text(e, "serial"), r.text(e, "mark"), r.text(e, "revision"),
                                    r.text(e, "replaced-by"), r.text(e, "reason")});
    }
  }
  findings.add(mine);
  if (mine.has_errors()) return std::nullopt;
  return out;
}

}  // namespace deckquire::history
