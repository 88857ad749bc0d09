// The audit of finished sheets: nothing on the examples, and each seeded fault found by its own
// check. What a set comes back for: drawing practice (common practice, no single source); the
// single limits name theirs beside the checks.
#include "audit/audit.h"

#include <doctest/doctest.h>

#include <algorithm>
#include <functional>
#include <optional>
#include <set>

#include "sheets/drawn_set.h"

using namespace deckquire;
using namespace deckquire::audit;
using namespace deckquire::sheets;

namespace {

Report report(const DrawnSet& d) { return audit_set(d.set.input(), d.plan, d.sheets); }

/// What a fault is seeded in.
struct Copy {
  SetPlan plan;
  std::vector<paper::Sheet> sheets;
  paper::Style style;
  paper::Sheet& sheet(const std::string& number) {
    for (paper::Sheet& s : sheets)
      if (s.number == number) return s;
    FAIL("no sheet " << number);
    return sheets.front();
  }
};

std::set<std::string> codes(const Report& r) {
  std::set<std::string> out;
  for (const Flaw& f : r.flaws) out.insert(f.code);
  return out;
}

/// The checks that speak when `spoil` has been at the set.
std::set<std::string> found(const std::function<void(Copy&)>& spoil) {
  const DrawnSet& d = drawn_set("quickstart");
  Copy copy{d.plan, d.sheets, d.set.style};
  spoil(copy);
  const SetInput in = d.set.input();
  return codes(audit_set(
      {in.project, in.bridge, in.deck, in.tables, in.scope, in.findings, copy.style, in.lettering},
      copy.plan, copy.sheets));
}

/// The first text of a sheet that `wanted` takes, with its place among the items.
paper::Text& text_of(paper::Sheet& sheet, const std::function<bool(const paper::Text&)>& wanted) {
  for (paper::Item& i : sheet.items)
    if (auto* t = std::get_if<paper::Text>(&i); t != nullptr && wanted(*t)) return *t;
  FAIL("no such text on " << sheet.number);
  return std::get<paper::Text>(sheet.items.front());
}

/// A text inside a group of that kind, not masked by anything drawn later.
paper::Text& text_in(paper::Sheet& sheet, const std::string& kind) {
  bool inside = false;
  for (paper::Item& i : sheet.items) {
    if (const auto* g = std::get_if<paper::GroupStart>(&i)) inside = g->kind == kind;
    if (std::holds_alternative<paper::GroupEnd>(i)) inside = false;
    if (auto* t = std::get_if<paper::Text>(&i); t != nullptr && inside) return *t;
  }
  FAIL("no text in " << kind);
  return std::get<paper::Text>(sheet.items.front());
}

paper::PenIndex pen(const paper::Sheet& sheet, const std::string& name) {
  for (std::size_t i = 0; i < sheet.pens.size(); ++i)
    if (sheet.pens[i].name == name) return static_cast<paper::PenIndex>(i);
  FAIL("no pen " << name);
  return 0;
}

void add_leader(paper::Sheet& s, paper::PaperPoint a, paper::PaperPoint b) {
  s.items.push_back(paper::GroupStart{"", "note", "", ""});
  paper::Path line;
  line.segment(a, b);
  s.items.push_back(paper::Stroke{pen(s, "dimension"), line});
  s.items.push_back(paper::GroupEnd{});
}

}  // namespace

TEST_CASE(
    "audit: every example on every paper, nothing to send back, and every check had something to "
    "look at") {
  const std::vector<std::string> projects =
      thorough ? std::vector<std::string>{"quickstart", "saltmarsh", "orchard", "heron", "ropewalk"}
               : std::vector<std::string>{"orchard", "heron", "ropewalk"};
  for (const std::string& project : projects)
    for (const std::string& style : trial_styles) {
      std::optional<DrawnSet> own;  // those on A1 serve other tests too
      const DrawnSet& d = style == "a1" ? drawn_set(project) : own.emplace(project, style);
      const Report r = report(d);
      for (const Flaw& f : r.flaws)
        FAIL_CHECK(project << " " << style << " " << f.sheet << " at " << f.at.x << ", " << f.at.y
                           << " [" << f.code << "]: " << f.what);
      // What a sheet must not be whatever it shows: see paper::faults().
      for (const paper::Sheet& sheet : d.sheets)
        for (const std::string& f :
             paper::faults(sheet, d.set.style.least_height, d.set.style.frame().grown(0.5)))
          FAIL_CHECK(project << " " << style << " " << f);
      CHECK(r.use.size() == d.sheets.size());
      for (const Check& c : r.checks) {
        // Red is for revisions, which the sets do not draw yet.
        const bool may_be_idle = c.code == "colour-alone" ||
                                 (c.code == "letters-small-at-half" && d.set.style.width < 500);
        CHECK_MESSAGE((c.looked_at > 0 || may_be_idle), c.code);
      }
    }
}

TEST_CASE("audit: a project made to be nasty, nothing to send back either, over more sheets") {
  Findings findings;
  const std::string path = DECKQUIRE_SOURCE "/tests/audit/nasty.xml";
  const auto project = read_project(read_file(path), path, findings);
  REQUIRE(project);
  const Bridge bridge = build_bridge(*project, findings);
  const Deck deck = build_deck(*project, bridge, findings);
  check_fit(*project, bridge, deck, findings);
  REQUIRE(!findings.has_errors());
  const auto tables = make_schedules(*project, bridge, deck);
  const CheckScope scope = check_scope(*project, bridge, deck, findings);
  const std::vector<Finding> remarks = findings.sorted();
  std::size_t most = 0;
  for (const Mark& m : deck.marks) most = std::max(most, m.shape.features.size());
  CHECK(most >= 50);
  for (const std::string& name : trial_styles) {
    const paper::Style style = trial_style(name);
    const paper::Lettering lettering(style.fonts);
    const SetInput in{*project, bridge, deck, tables, scope, remarks, style, lettering};
    for (const Flaw& f : audit_set(in, plan_set(in), draw_set(in, 1)).flaws)
      FAIL_CHECK(name << " " << f.sheet << " at " << f.at.x << ", " << f.at.y << " [" << f.code
                      << "]: " << f.what);
  }
}

TEST_CASE("audit: a seeded flaw is found by its own check alone") {
  using Codes = std::set<std::string>;
  const auto any = [](const paper::Text&) { return true; };
  const auto spoiled = [&](const char* number, const std::function<void(paper::Sheet&)>& change) {
    return found([&](Copy& d) { change(d.sheet(number)); });
  };
  SUBCASE("a dimension one millimetre off") {
    CHECK(spoiled("P01", [](paper::Sheet& s) { text_in(s, "chain").text = "1"; }) ==
          Codes{"chain-sum"});
  }
  SUBCASE("letters shrunk") {
    const Codes c = spoiled("G01", [&](paper::Sheet& s) { text_of(s, any).height = 1.5; });
    CHECK(c == Codes{"letters-odd", "letters-small", "letters-small-at-half"});
  }
  SUBCASE("letters askew") {
    CHECK(spoiled("T01", [&](paper::Sheet& s) {
            text_of(s, [](const auto& t) { return t.text == "Serial"; }).angle = 0.2;
          }).count("letters-turned") == 1);
  }
  SUBCASE("letters on letters, and outside the frame") {
    const auto twice = [&](paper::PaperPoint move) {
      return spoiled("D01", [&](paper::Sheet& s) {
        paper::Text t = text_of(s, [](const auto& x) { return x.text == "NOTES"; });
        t.at = t.at + move;
        s.items.push_back(t);
      });
    };
    CHECK(twice({1, 1}) == Codes{"text-over-text"});
    CHECK(twice({-900, 0}) == Codes{"outside-frame"});
  }
  SUBCASE("a thin line through letters; one under a white patch is none") {
    const auto lined = [&](bool covered) {
      return spoiled("D01", [&](paper::Sheet& s) {
        const paper::Text t = text_of(s, [](const auto& x) { return x.text == "NOTES"; });
        const paper::PaperBox box = text_box(t);
        paper::Path line, white;
        line.segment({box.low.x - 2, box.centre().y}, {box.high.x + 2, box.centre().y});
        white.box(box.grown(1));
        s.items.push_back(paper::Stroke{pen(s, "hatch"), line});
        if (!covered) return;
        s.items.push_back(paper::Fill{paper::Ink::white, white});
        s.items.push_back(t);
        std::erase_if(s.items, [&](const paper::Item& i) {
          const auto* other = std::get_if<paper::Text>(&i);
          return other != nullptr && other->text == "NOTES" && &i != &s.items.back();
        });
      });
    };
    CHECK(lined(false) == Codes{"text-over-line"});
    CHECK(lined(true).empty());
  }
  SUBCASE("leaders that cross, and one over a dimension line") {
    const Codes c = spoiled("D01", [](paper::Sheet& s) {
      add_leader(s, {600, 20}, {605, 25});
      add_leader(s, {600, 25}, {605, 20});
    });
    CHECK(c == Codes{"leaders-cross"});
  }
  SUBCASE("a link and a sheet that are not there") {
    CHECK(spoiled("E01", [](paper::Sheet& s) {
            s.items.push_back(paper::GroupStart{"", "mark", "", "P77"});
            s.items.push_back(paper::GroupEnd{});
          }) == Codes{"link-dead"});
    CHECK(spoiled("D01", [&](paper::Sheet& s) {
            text_of(s, [](const auto& t) { return t.text == "NOTES"; }).text = "SEE E77";
          }) == Codes{"sheet-unknown"});
  }
  SUBCASE("a detail mark that names a sheet without that view") {
    CHECK(spoiled("E01", [](paper::Sheet& s) {
            s.items.push_back(paper::GroupStart{"", "reference", "Z, sheet D01", ""});
            s.items.push_back(paper::GroupEnd{});
          }) == Codes{"reference-dead"});
  }
  SUBCASE("a mark once too often, and one serial twice") {
    const std::string mark = drawn_set("quickstart").set.deck.marks.front().name;
    const std::string serial = drawn_set("quickstart").set.deck.panels.front().serial;
    CHECK(spoiled("E01", [&](paper::Sheet& s) {
            text_of(s, [](const auto& t) { return t.text == "ORDER"; }).text = mark;
          }) == Codes{"mark-count"});
    CHECK(spoiled("E01", [&](paper::Sheet& s) {
            text_of(s, [](const auto& t) { return t.text == "ORDER"; }).text = serial;
          }) == Codes{"serial-count"});
  }
  SUBCASE("a sheet that the index leaves out, one whose title changed") {
    CHECK(found([](Copy& d) { d.plan.sheets.back().title = "OTHER"; }) == Codes{"index"});
  }
  SUBCASE("a sheet that is nearly empty") {
    CHECK(found([](Copy& d) {
            paper::Sheet& s = d.sheet("P02");
            int depth = 0;
            bool view = false;
            std::erase_if(s.items, [&](const paper::Item& i) {  // the views and tables
              if (const auto* g = std::get_if<paper::GroupStart>(&i))
                if (depth++ == 0) view = g->kind == "view";
              const bool erase = view;
              if (std::holds_alternative<paper::GroupEnd>(i) && --depth == 0) view = false;
              return erase;
            });
          }).count("sheet-empty") == 1);
  }
  SUBCASE("letters of a view heaped up") {
    CHECK(found([](Copy& d) {
            paper::Sheet& s = d.sheet("P02");
            const paper::PaperBox room = d.style.drawing_space();
            paper::Text t = text_in(s, "chain");
            s.items.push_back(paper::GroupStart{"heap", "view", "", ""});
            for (int row = 0; row < 16; ++row)
              for (int column = 0; column < 10; ++column) {
                t.at = room.low + paper::PaperPoint{2 + 10.0 * column, 2 + 6.0 * row};
                s.items.push_back(t);
              }
            s.items.push_back(paper::GroupEnd{});
          }).count("sheet-crowded") == 1);
  }
  SUBCASE("two leaders beside one another with hardly a space") {
    const auto beside = [](double apart) {
      return found([=](Copy& d) {
               paper::Sheet& s = d.sheet("D01");
               add_leader(s, {400, 300}, {430, 320});
               add_leader(s, {400, 300 + apart}, {430, 320 + apart});
             }).count("lines-close") == 1;
    };
    CHECK(beside(0.5));
    CHECK(!beside(1.2));
  }
  SUBCASE("ink too pale") {
    CHECK(found([](Copy& d) {
            d.style.inks[static_cast<std::size_t>(paper::Ink::grey)] = "#c0c0c0";
          }) == Codes{"ink-pale"});
  }
  SUBCASE("something in the stamp space") {
    CHECK(spoiled("D01", [&](paper::Sheet& s) {
            bool stamp = false;
            paper::PaperBox box;
            for (const paper::Item& i : s.items) {
              if (const auto* g = std::get_if<paper::GroupStart>(&i)) stamp = g->kind == "stamp";
              if (const auto* line = std::get_if<paper::Stroke>(&i); line != nullptr && stamp)
                box = bounds(line->path);
              if (std::holds_alternative<paper::GroupEnd>(i)) stamp = false;
            }
            text_of(s, [](const auto& t) { return t.text == "NOTES"; }).at = box.centre();
          }) == Codes{"stamp-space"});
  }
}
