// Semantic differences: reference part 6, cases R1 to R4 as far as they are about files, and
// properties by dice.
#include "history/changes.h"

#include <doctest/doctest.h>

#include <pugixml.hpp>
#include <set>
#include <sstream>

#include "base/files.h"
#include "history/single_change.h"
#include "project/reader.h"
#include "project/vocabulary.h"
#include "support/dice.h"

using namespace deckquire;
using namespace deckquire::history;

namespace {

std::string example(const std::string& name) {
  return read_file(DECKQUIRE_SOURCE "/projects/" + name + ".xml");
}

std::string with(std::string text, const std::string& from, const std::string& to) {
  const std::size_t at = text.find(from);
  REQUIRE_MESSAGE(at != std::string::npos, from);
  REQUIRE(text.find(from, at + from.size()) == std::string::npos);
  return text.replace(at, from.size(), to);
}

std::vector<Change> between(const std::string& before, const std::string& now) {
  return changes(statements_of(before, "old.xml"), statements_of(now, "new.xml"));
}

std::vector<std::string> words(const std::vector<Change>& list) {
  std::vector<std::string> out;
  for (const Change& c : list) out.push_back(to_words(c));
  return out;
}

using Words = std::vector<std::string>;

bool is_read(const std::string& text) {
  Findings findings;
  return read_project(text, "x.xml", findings).has_value();
}

}  // namespace

TEST_CASE("changes: every example and itself are the same, and so is its text written anew") {
  for (const char* name : {"saltmarsh", "quickstart", "orchard", "heron", "ropewalk", "causeway"}) {
    const std::string text = example(name);
    CHECK(between(text, text).empty());
    const std::string anew = with_group(text, text, {});  // other white space
    CHECK(anew != text);
    CHECK(between(text, anew).empty());
    CHECK(is_read(anew));
  }
}

// R1: h1.s 3100 -> 3160; sc2 added at 6000; nothing for sc1, 4000 -> 4.000 m.
TEST_CASE("changes: R1, a hatch moved, a scupper added, another written in metres") {
  const std::string before = example("saltmarsh");
  std::string now = with(before, R"(name="H1" at="0+003.776")", R"(name="H1" at="3.836 m")");
  now = with(now, R"(name="S1" at="0+006.276")", R"(name="S1" at="6.276 m")");
  now = with(now, R"(<scupper name="S8")",
             "<scupper name=\"S9\" at=\"0+070.000\" side=\"left\"/>\n<scupper name=\"S8\"");
  const auto list = between(before, now);
  CHECK(words(list) == Words{"scupper S9 added: at 0+070.000, name S9, side left",
                             "hatch H1 at: 0+003.836, was 0+003.776"});
  CHECK(list[0].old_place.line == 0);
  CHECK(list[0].new_place.line == 82);
  CHECK(list[1].old_place.line == 84);
  CHECK(list[1].new_place.line == 85);
  CHECK(*list[1].now_si == doctest::Approx(3.836));
}

TEST_CASE("changes: R2, a note's text") {
  const std::string before = example("saltmarsh");
  const auto list =
      between(before, with(before, "survey check before", "survey check\n   well before"));
  REQUIRE(list.size() == 1);
  CHECK(list[0].element == "note 1");
  CHECK(list[0].attribute == "text");
  CHECK(list[0].now.find("check well before") != std::string::npos);
}

namespace {

/// Elements and attributes in the opposite order, all the way down but for what is ordered.
void reverse(pugi::xml_node node) {
  std::vector<std::pair<std::string, std::string>> attributes;
  for (pugi::xml_attribute a : node.attributes())
    attributes.insert(attributes.begin(), {a.name(), a.value()});
  node.remove_attributes();
  for (const auto& [name, value] : attributes)
    node.append_attribute(name.c_str()).set_value(value.c_str());
  std::vector<pugi::xml_node> children;
  for (pugi::xml_node c : node.children())
    if (c.type() == pugi::node_element) children.push_back(c);
  const std::set<std::string> ordered{"panel",    "note",    "redline",
                                      "revision", "surface", "duration"};
  for (pugi::xml_node c : children) {
    reverse(c);
    if (!ordered.count(c.name())) node.prepend_move(c);
  }
}

/// Every length with its unit, in metres where that is exact.
void in_metres(pugi::xml_node node, const OwnUnit& own) {
  if (const Element* e = find_element(node.name()))
    for (pugi::xml_attribute a : node.attributes()) {
      const Attribute* row = find_attribute(*e, a.name());
      if (row == nullptr || (row->kind != Kind::length && row->kind != Kind::station)) continue;
      const Reading reading = read_amount(row->kind, a.value(), own);
      const auto* amount = std::get_if<Amount>(&reading);
      REQUIRE(amount != nullptr);
      a.set_value(
          (shortest_decimal(static_cast<double>(amount->nanometres) / 1e9, 9) + " m").c_str());
    }
  for (pugi::xml_node child : node.children()) in_metres(child, own);
}

std::string printed(const pugi::xml_document& doc) {
  std::ostringstream out;
  doc.print(out);
  return out.str();
}

}  // namespace

TEST_CASE("changes: R3, everything reordered, millimetres to metres") {
  for (const char* name : {"saltmarsh", "quickstart", "heron", "ropewalk"}) {
    const std::string before = example(name);
    pugi::xml_document doc;
    REQUIRE(doc.load_string(before.c_str()));
    in_metres(doc.document_element(), {doc.document_element().attribute("units").value()});
    doc.document_element().attribute("units").set_value("m");
    reverse(doc.document_element());
    const std::string now = printed(doc);
    CHECK(is_read(now));
    CHECK(words(between(before, now)) == Words{});
  }
}

TEST_CASE(
    "changes: defaults written out, panels written one by one, an edge moved, a rule removed") {
  const std::string before = example("saltmarsh");
  CHECK(between(before, with(before, R"(<marks prefix="DP" tolerance="1"/>)", "")).empty());
  CHECK(
      between(
          before,
          with(
              before, R"(<panel length="2488" times="12"/>)",
              R"(<panel length="2488"/><panel length="97.95 in" times="1"/><panel length="2488" times="10"/>)"))
          .size() == 1);  // inches only come near
  CHECK(between(before,
                with(before, R"(<panel length="2488" times="12"/>)",
                     R"(<panel length="2.488 m" times="5"/><panel length="2488" times="7"/>)"))
            .empty());
  CHECK(
      words(between(before, with(before, R"(<edge at="0+012.526")", R"(<edge at="0+012.600")"))) ==
      Words{"edge at 0+012.526 at: 0+012.600, was 0+012.526"});
  const auto gone = between(before, with(before, R"(<drip width="12" depth="8" inset="20"/>)", ""));
  CHECK(words(gone) == Words{"drip removed; it was depth 8 mm, inset 20 mm, width 12 mm"});
  CHECK(words(between(before, with(before, R"(gap="12" end-gap)", R"(gap="14" end-gap)"))) ==
        Words{"joints gap: 14 mm, was 12 mm"});
}

TEST_CASE(
    "changes: elements that say something by being there are those the reference says so of") {
  std::set<std::string> found;
  for (const Element& e : vocabulary())
    if (e.meaning.find("Left out: no") != std::string::npos) found.insert(e.name);
  CHECK(found == std::set<std::string>{"curb", "drip", "surface", "scuppers", "posts"});
}

namespace {

/// Changes, adds or removes one thing by chance; what comes out need not be a good project.
void edit(pugi::xml_document& doc, testing::Dice& dice) {
  std::vector<pugi::xml_node> nodes;
  const auto collect = [&](auto&& self, pugi::xml_node n) -> void {
    for (pugi::xml_node c : n.children())
      if (c.type() == pugi::node_element) nodes.push_back(c), self(self, c);
  };
  collect(collect, doc.document_element());
  pugi::xml_node node = nodes[static_cast<std::size_t>(dice.upto(static_cast<int>(nodes.size())))];
  const int what = dice.upto(4);
  if (what == 0) {
    node.parent().remove_child(node);
  } else if (what == 1) {
    pugi::xml_node copy = node.parent().append_copy(node);
    for (const char* key : {"name", "at", "length"})
      if (copy.attribute(key))
        copy.attribute(key).set_value(std::to_string(100 + dice.upto(9000)).c_str());
  } else {
    for (pugi::xml_attribute a : node.attributes())
      if (dice.upto(3) == 0) a.set_value(std::to_string(1 + dice.upto(500)).c_str());
  }
}

}  // namespace

TEST_CASE(
    "changes: from A to C is from A to B and then to C, by dice; every statement in one change") {
  const std::string start = example("saltmarsh");
  for (unsigned seed = 1; seed <= 60; ++seed) {
    testing::Dice dice{seed};
    pugi::xml_document doc;
    REQUIRE(doc.load_string(start.c_str()));
    const auto next = [&] {
      for (int i = 1 + dice.upto(4); i > 0; --i) edit(doc, dice);
      return statements_of(printed(doc), "x.xml");
    };
    const Statements a = next(), b = next(), c = next();
    CHECK(steps(a, c) == then(steps(a, b), steps(b, c)));
    CHECK(steps(a, a).empty());
    std::multiset<std::string> told;
    for (const Change& change : changes(a, c)) told.insert(change.keys.begin(), change.keys.end());
    for (const auto& [key, step] : steps(a, c)) CHECK_MESSAGE(told.count(key) > 0, key);
    CHECK(changes(a, c).empty() == steps(a, c).empty());
  }
}

TEST_CASE("changes: one group after the other on the old file makes the new one") {
  const std::string start = example("saltmarsh");
  for (unsigned seed = 1; seed <= 40; ++seed) {
    testing::Dice dice{seed};
    pugi::xml_document doc;
    REQUIRE(doc.load_string(start.c_str()));
    for (int i = 0; i < 4; ++i) edit(doc, dice);
    const std::string now = printed(doc);
    const auto list = between(start, now);
    std::size_t told = 0;
    std::string text = start;
    for (const ChangeGroup& g : groups_of(list)) {
      text = with_group(text, now, g);
      told += g.changes.size();
    }
    CHECK(told == list.size());
    CHECK_MESSAGE(join(words(between(text, now)), " | ") == "", seed);
  }
}

TEST_CASE("changes: a group into a file in another unit keeps its lengths") {
  const std::string before = example("saltmarsh");
  std::string now = with(before, R"(units="mm")", R"(units="m")");
  // Bare numbers are metres now; the hatch alone is written so.
  now = with(now, R"(<hatch name="H1" at="0+003.776" offset="0" length="600")",
             R"(<hatch name="H1" at="3.776" offset="0" length="0.7")");
  for (const ChangeGroup& g : groups_of(between(before, now))) {
    if (g.paths.front().find("hatch[H1]") == std::string::npos) continue;
    const std::string text = with_group(before, now, g);
    CHECK(text.find("length=\"700.000000 mm\"") != std::string::npos);
    CHECK(text.find("units=\"mm\"") != std::string::npos);
  }
}
