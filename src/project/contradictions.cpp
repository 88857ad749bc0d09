// What the table of the vocabulary cannot say.
#include <fmt/core.h>

#include <algorithm>
#include <string>
#include <utility>

#include "base/text.h"
#include "project/validate.h"

namespace deckquire {
namespace {

constexpr double most_panels = 20000;

struct Site {
  const Document& document;
  const OwnUnit& own;
  Report& report;
};

std::string word(pugi::xml_node node, const char* attribute) {
  return std::string(trimmed(node.attribute(attribute).value()));
}

void check_revisions(const Site& s, pugi::xml_node revisions) {
  std::string last_id, last_date;
  for (pugi::xml_node r : revisions.children("revision")) {
    const std::string id = word(r, "id"), date = word(r, "date");
    const auto order = [](const std::string& x) { return std::make_pair(x.size(), x); };
    if (is_revision(id)) {
      const bool back = !last_id.empty() && order(id) <= order(last_id);
      if (back)
        s.report.error(s.document.value_place(r.attribute("id")), "revision-order",
                       fmt::format("revision {} stands behind revision {}", id, last_id),
                       "list revisions oldest first, each letter once");
      last_id = id;
      if (back) continue;
    }
    if (!is_date(date)) continue;
    if (!last_date.empty() && date < last_date)
      s.report.error(
          s.document.value_place(r.attribute("date")), "revision-order",
          fmt::format("date {} is before {}, the date of the revision before", date, last_date),
          "correct one of the dates, or list revisions oldest first");
    last_date = date;
  }
}

void check_splices(const Site& s, pugi::xml_node bridge) {
  std::vector<std::string> names{"all"};
  for (pugi::xml_node g : bridge.children("girder")) names.push_back(word(g, "name"));
  for (pugi::xml_node splice : bridge.children("splice")) {
    const auto a = splice.attribute("girder");
    const std::string name = word(splice, "girder");
    if (!a || name.empty() || std::find(names.begin(), names.end(), name) != names.end()) continue;
    const std::string near = nearest_word(name, names);
    s.report.error(s.document.value_place(a), "unknown-name",
                   fmt::format("girder={}: there is no such girder", quoted(name)),
                   near.empty() ? "use one of: " + join(names, ", ")
                                : fmt::format("did you mean \"{}\"?", near));
  }
}

/// Panels of one span, as far as the file says how many.
double panel_count(const Site& s, pugi::xml_node span) {
  double n = 0;
  for (pugi::xml_node p : span.children("panel")) {
    const auto times = good_amount(p, "times", s.own);
    n += times ? times->si : 1;
  }
  const auto count = good_amount(span.child("panels"), "count", s.own);
  const auto longest = good_amount(span.child("panels"), "longest", s.own);
  const auto from = good_amount(span, "from", s.own), to = good_amount(span, "to", s.own);
  if (count) n += count->si;
  if (longest && from && to)
    n += static_cast<double>(to->nanometres - from->nanometres) /
         static_cast<double>(longest->nanometres);
  return n;
}

/// What only divide="fewest-types" understands, without it; and that without a longest length.
void check_fewest_types(const Site& s, pugi::xml_node rule) {
  const bool asked = word(rule, "divide") == "fewest-types";
  if (asked && rule.attribute("count") && !rule.attribute("longest"))
    s.report.error(s.document.value_place(rule.attribute("divide")), "contradiction",
                   "divide=\"fewest-types\" is given with count",
                   "give longest instead: the number of panels is what the program looks for");
  if (asked || (rule.attribute("divide") && word(rule, "divide") != "equal")) return;
  for (pugi::xml_attribute a : rule.attributes()) {
    const std::string name = a.name();
    if (name == "count" || name == "longest" || name == "divide") continue;
    if (!find_attribute(*find_element("panels"), name)) continue;
    s.report.error(s.document.place(a), "contradiction",
                   fmt::format("{} is given, but equal panels do not heed it", name),
                   "add divide=\"fewest-types\", or delete it");
    return;
  }
}

/// shortest, preferred and mould against longest, in the order that they must rise.
void check_panel_lengths(const Site& s, pugi::xml_node rule) {
  const char* const pairs[][2] = {{"shortest", "longest"},
                                  {"shortest", "preferred"},
                                  {"preferred", "longest"},
                                  {"shortest", "mould"}};
  for (const auto& [low, high] : pairs) {
    const auto a = good_amount(rule, low, s.own), b = good_amount(rule, high, s.own);
    if (!a || !b || a->nanometres <= b->nanometres) continue;
    s.report.error(s.document.value_place(rule.attribute(low)), "contradiction",
                   fmt::format("{}={} is above {}={}", low, quoted(rule.attribute(low).value()),
                               high, quoted(rule.attribute(high).value())),
                   "give shortest, preferred and longest in rising order");
    return;
  }
}

void check_spans(const Site& s, pugi::xml_node deck) {
  double total = 0;
  for (pugi::xml_node span : deck.children("span")) {
    const pugi::xml_node rule = span.child("panels"), run = span.child("panel");
    if (rule && run)
      s.report.error(s.document.place(run), "contradiction",
                     "the <span> has both <panels> and <panel>",
                     "keep <panels> and the program divides, or a <panel> each");
    if (rule) check_fewest_types(s, rule);
    if (rule) check_panel_lengths(s, rule);
    const bool has_wrong_child = [&] {
      for (pugi::xml_node c : span.children())
        if (c.type() == pugi::node_element && c != rule && std::string(c.name()) != "panel")
          return true;
      return false;
    }();
    if (!rule && !run && !has_wrong_child)
      s.report.error(s.document.place(span), "missing-element",
                     "the <span> does not say how it is divided",
                     "add <panels count=\"...\"/>, <panels longest=\"...\"/> or a <panel/> each");
    const double before = total;
    total += panel_count(s, span);
    if (before <= most_panels && total > most_panels)
      s.report.error(s.document.place(span), "too-many",
                     fmt::format("more than {} panels up to this span", most_panels),
                     "divide the project");
  }
}

bool has_curb(pugi::xml_node curb, const std::string& sides) {
  const std::string there = curb.attribute("sides") ? word(curb, "sides") : "both";
  return curb && (there == "both" || there == sides);
}

void check_posts(const Site& s, pugi::xml_node deck) {
  const pugi::xml_node posts = deck.child("posts");
  if (!posts) return;
  const bool spaced = !posts.attribute("spacing").empty();
  if (!spaced && !posts.attribute("greatest") && !posts.child("post"))
    s.report.error(s.document.place(posts), "incomplete", "<posts> says not where they stand",
                   "add greatest=\"...\", spacing=\"...\" or a <post/> each");
  if (!spaced && posts.attribute("first"))
    s.report.error(s.document.place(posts.attribute("first")), "contradiction",
                   "first is given without spacing", "add spacing=\"...\", or delete first");
  if (!posts.attribute("greatest") && posts.attribute("bays"))
    s.report.error(s.document.place(posts.attribute("bays")), "contradiction",
                   "bays is given without greatest", "add greatest=\"...\", or delete bays");
  const std::string sides = posts.attribute("sides") ? word(posts, "sides") : "both";
  const bool known = sides == "both" || sides == "left" || sides == "right";
  if (known && !has_curb(deck.child("section").child("curb"), sides))
    s.report.error(s.document.place(posts), "contradiction",
                   fmt::format("posts on {} need a curb there, and there is none",
                               sides == "both" ? "both sides" : "the " + sides),
                   "add <curb/> to <section>, or change sides");
}

/// What <rain> lacks for the rule by drainage.
void check_scuppers_by_rain(const Site& s, pugi::xml_node deck) {
  const pugi::xml_node by = deck.child("scuppers");
  const pugi::xml_node rain = deck.parent().child("conditions").child("rain");
  if (word(by, "by") != "drainage") {
    if (const auto a = by.attribute("reserve"))
      s.report.error(s.document.place(a), "contradiction",
                     "reserve is given without by=\"drainage\"",
                     "add by=\"drainage\", or delete reserve");
    return;
  }
  std::vector<std::string> missing;
  if (!rain.attribute("intensity") && !rain.child("duration")) missing.push_back("intensity");
  for (const char* name : {"roughness", "spread", "grate"})
    if (!rain.attribute(name)) missing.push_back(name);
  if (!missing.empty())
    s.report.error(s.document.place(by.attribute("by")), "incomplete",
                   fmt::format("by=\"drainage\" needs {}, which <rain> does not give",
                               join(missing, ", ")),
                   "add to <rain> what is missing, or give spacing=\"...\" instead");
  if (word(deck.child("section"), "fall") == "none")
    s.report.error(s.document.place(by.attribute("by")), "contradiction",
                   "by=\"drainage\" with fall=\"none\": no water runs to a gutter",
                   "give spacing=\"...\" instead, or the top a fall");
}

void check_durations(const Site& s, pugi::xml_node rain) {
  std::optional<Amount> last;
  for (pugi::xml_node d : rain.children("duration")) {
    const auto a = good_amount(d, "minutes", s.own);
    if (!a) continue;
    if (last && a->si <= last->si)
      s.report.error(s.document.value_place(d.attribute("minutes")), "contradiction",
                     fmt::format("minutes={} is not more than those of the duration before",
                                 quoted(d.attribute("minutes").value())),
                     "give the durations in rising order");
    if (!last && a->si > 5 && !rain.attribute("intensity"))
      s.report.error(
          s.document.value_place(d.attribute("minutes")), "incomplete",
          fmt::format("the shortest duration is {} minutes, and the intensity at 5 is not given",
                      d.attribute("minutes").value()),
          "add intensity=\"...\" (at 5 minutes) to <rain>, or a shorter duration");
    last = a;
  }
}

void check_scuppers(const Site& s, pugi::xml_node deck) {
  const pugi::xml_node scuppers = deck.child("scuppers");
  if (!scuppers) return;
  check_scuppers_by_rain(s, deck);
  if (scuppers.attribute("spacing") || scuppers.attribute("by")) return;
  if (!scuppers.child("scupper"))
    s.report.error(s.document.place(scuppers), "incomplete", "<scuppers> says not where they stand",
                   "add spacing=\"...\", by=\"drainage\" or a <scupper/> each");
  for (const char* rule : {"sides", "at-sags", "at-end-joints", "freedom"})
    if (const auto a = scuppers.attribute(rule))
      s.report.error(s.document.place(a), "contradiction",
                     fmt::format("{} is given without spacing", rule),
                     fmt::format("add spacing=\"...\" or by=\"drainage\", or delete {}", rule));
}

void check_section(const Site& s, pugi::xml_node section) {
  const auto fall = section.attribute("fall");
  const std::string way = fall ? word(section, "fall") : "crown";
  const auto slope = good_amount(section, "slope", s.own);
  if (way == "none" && slope && slope->si > 0)
    s.report.error(
        s.document.value_place(section.attribute("slope")), "contradiction",
        fmt::format("slope={} with fall=\"none\"", quoted(section.attribute("slope").value())),
        "delete one of them");
  if (way != "crown" && section.attribute("high-line"))
    s.report.error(s.document.place(section.attribute("high-line")), "contradiction",
                   fmt::format("high-line is given with fall={}", quoted(way)),
                   "delete it: only a crown has a high line of its own");
}

void check_temperatures(const Site& s, pugi::xml_node t) {
  const char* const in_order[] = {"least", "setting", "greatest"};
  std::optional<Amount> last;
  const char* last_name = "";
  for (const char* name : in_order) {
    const auto a = good_amount(t, name, s.own);
    if (!a) continue;
    if (last && a->si < last->si)
      s.report.error(s.document.value_place(t.attribute(name)), "contradiction",
                     fmt::format("{}={} is below {}={}", name, quoted(t.attribute(name).value()),
                                 last_name, quoted(t.attribute(last_name).value())),
                     "give least, setting and greatest in rising order");
    last = a;
    last_name = name;
  }
}

/// An answer, and the revision with it, of what is answered; neither of what is open.
void check_redline(const Site& s, pugi::xml_node redline) {
  const std::string status = redline.attribute("status") ? word(redline, "status") : "open";
  for (const char* name : {"answer", "revision"}) {
    const auto a = redline.attribute(name);
    if (a && status == "open")
      s.report.error(s.document.place(a), "contradiction",
                     fmt::format("the redline is open, and {} is given", name),
                     fmt::format("add status=\"answered\", or delete {}", name));
    if (!a && (status == "answered" || status == "closed"))
      s.report.error(s.document.place(redline), "incomplete",
                     fmt::format("the redline is {} without {}", status,
                                 name == std::string("answer") ? "an answer" : "a revision"),
                     name == std::string("answer")
                         ? "add answer=\"...\": what was done, or why not"
                         : "add revision=\"...\": the letter of the revision that answers it");
  }
  const std::string id = word(redline, "revision");
  if (!is_revision(id)) return;
  std::vector<std::string> ids;
  for (pugi::xml_node r : s.document.root().child("revisions").children("revision"))
    ids.push_back(word(r, "id"));
  if (std::find(ids.begin(), ids.end(), id) == ids.end())
    s.report.error(s.document.value_place(redline.attribute("revision")), "unknown-name",
                   fmt::format("revision={}: there is no such revision", quoted(id)),
                   "use one of: " + join(ids, ", "));
}

}  // namespace

void find_contradictions(const Document& document, const OwnUnit& own, Report& report) {
  const Site s{document, own, report};
  const pugi::xml_node root = document.root(), deck = root.child("deck");
  check_revisions(s, root.child("revisions"));
  check_splices(s, root.child("bridge"));
  check_section(s, deck.child("section"));
  check_spans(s, deck);
  check_posts(s, deck);
  check_scuppers(s, deck);
  check_durations(s, root.child("conditions").child("rain"));
  check_temperatures(s, root.child("conditions").child("temperature"));
  for (pugi::xml_node r : root.children("redline")) check_redline(s, r);
}

}  // namespace deckquire
