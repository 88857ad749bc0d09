// What the sheets must tell their readers: a checklist, item by item (agency manuals for shop
// drawings as the sources of most, common practice of the rest). Every item is a check over drawn
// sets, or a row of projects/contents.md, which says what is not there yet; or part of it is each.
#include <doctest/doctest.h>

#include <algorithm>
#include <map>
#include <set>

#include "audit/contents/reading.h"
#include "base/files.h"
#include "commands/story.h"

using namespace deckquire;
using namespace deckquire::contents;
using deckquire::sheets::drawn_set;

namespace {

const std::vector<std::string> projects =
    thorough ? std::vector<std::string>{"quickstart", "saltmarsh", "orchard", "heron", "ropewalk",
                                        "story"}
             : std::vector<std::string>{"quickstart", "story"};

const Items& checklist() {
  static const Items all = [] {
    Items out;
    for (const Items& part : {every_sheet(), cover(), erection(), panel_sheets(), detail_sheets(),
                              table_sheets(), calculation_sheets(), to_come()})
      out.insert(out.end(), part.begin(), part.end());
    return out;
  }();
  return all;
}

const Reading& reading(const std::string& project, const std::string& style = "a1") {
  static std::map<std::string, Reading> read;
  // A set with issues before it; the others are first issues.
  if (project == "story")
    return read.try_emplace(project, commands::story_drawn()).first->second;
  return read.try_emplace(project + " " + style, drawn_set(project, style)).first->second;
}

/// First cells of the rows of a page's tables.
std::set<std::string> rows_of(const std::string& page) {
  std::set<std::string> out;
  for (std::size_t at = 0; at < page.size();) {
    const std::size_t end = std::min(page.find('\n', at), page.size());
    const std::string line = page.substr(at, end - at);
    at = end + 1;
    const std::size_t bar = line.find(" |", 2);
    if (!line.starts_with("| ") || line.starts_with("| ---") || bar == std::string::npos) continue;
    out.insert(line.substr(2, bar - 2));
  }
  out.erase("not there yet");
  return out;
}

/// Sheets of a set that have these words, and those that should.
struct Found {
  std::size_t on = 0, of = 0;
  std::string missing;
};

Found find_words(const Reading& r, const Words& w) {
  Found f;
  if (w.when && !w.when(r)) return f;
  for (const Page* p : r.of(w.series)) {
    ++f.of;
    if (says(" " + p->words, w.pattern))
      ++f.on;
    else
      f.missing += " " + p->number();
  }
  return f;
}

}  // namespace

TEST_CASE("contents: every item of the checklist is checked, or is in the table of what is not there") {
  // How many items each part of the checklist has.
  const std::map<std::string, int> parts{{"G", 25}, {"C", 17}, {"E", 25}, {"S", 30},
                                         {"D", 13}, {"M", 10}, {"T", 7},  {"L", 10},
                                         {"R", 10}, {"K", 7},  {"P", 9}};
  std::set<std::string> ids, wanted, absent;
  for (const auto& [letter, count] : parts)
    for (int i = 1; i <= count; ++i) wanted.insert(letter + std::to_string(i));
  for (const Item& item : checklist()) {
    CHECK_MESSAGE(ids.insert(item.id).second, item.id << " twice");
    const bool checked = !item.words.empty() || item.relation || !item.audit.empty();
    CHECK_MESSAGE((checked || !item.absent.empty()), item.id << " is neither checked nor absent");
    if (!item.absent.empty()) absent.insert(item.absent);
  }
  CHECK(ids == wanted);
  const auto rows = rows_of(read_file(DECKQUIRE_SOURCE "/projects/contents.md"));
  for (const std::string& a : absent) CHECK_MESSAGE(rows.count(a) == 1, a << " is not in the table");
  for (const std::string& row : rows) CHECK_MESSAGE(absent.count(row) == 1, row << " is no item");
}

TEST_CASE("contents: the sheets of the examples say and keep what the checklist asks") {
  for (const Item& item : checklist()) {
    std::vector<std::size_t> read(item.words.size());
    std::size_t looked_at = 0;
    for (const std::string& project : projects) {
      const Reading& r = reading(project);
      for (std::size_t i = 0; i < item.words.size(); ++i) {
        const Words& w = item.words[i];
        const Found f = find_words(r, w);
        read[i] += f.of;
        CHECK_MESSAGE((f.of == 0 || (w.all ? f.on == f.of : f.on > 0)),
                      item.id << ", " << project << ": '" << w.pattern << "' is missing on"
                              << f.missing);
      }
      if (!item.relation) continue;
      Outcome o;
      item.relation(r, o);
      looked_at += o.looked_at;
      for (std::size_t i = 0; i < std::min<std::size_t>(o.wrong.size(), 3); ++i)
        CHECK_MESSAGE(false, item.id << ", " << project << ": " << o.wrong[i]);
    }
    if (!thorough) continue;  // the others have what this one has not
    for (std::size_t n : read) CHECK_MESSAGE(n > 0, item.id << ": no sheet was read");
    if (item.relation) CHECK_MESSAGE(looked_at > 0, item.id << ": nothing to look at");
  }
}

TEST_CASE("contents: what every sheet must have, on other paper too") {
  if (!thorough) return;
  for (const auto& [project, style] :
       {std::pair{"orchard", "a3"}, std::pair{"orchard", "arch-d"}})
    for (const Item& item : every_sheet()) {
      if (!item.relation) continue;
      Outcome o;
      item.relation(reading(project, style), o);
      CHECK_MESSAGE(o.wrong.empty(), item.id << ", " << project << ", " << style << ": "
                                             << (o.wrong.empty() ? "" : o.wrong.front()));
    }
}

TEST_CASE("contents: each relation finds the fault that is seeded for it") {
  for (const Item& item : checklist()) {
    if (!item.relation) continue;
    REQUIRE_MESSAGE(item.fault.seed, item.id << " has no fault");
    if (std::find(projects.begin(), projects.end(), item.example) == projects.end()) continue;
    const Reading& sound = reading(item.example);
    std::size_t tried = 0, found = 0;
    for (std::size_t i = 0; i < sound.pages.size() && found == 0; ++i) {
      if (item.fault.series.find(sound.pages[i]->series()) == std::string::npos) continue;
      paper::Sheet sheet = sound.pages[i]->sheet;
      if (!item.fault.seed(sheet)) continue;
      Reading spoilt = sound;
      spoilt.pages[i] = std::make_shared<const Page>(sheet);
      Outcome o;
      item.relation(spoilt, o);
      ++tried;
      found += o.wrong.empty() ? 0 : 1;
    }
    CHECK_MESSAGE(tried > 0, item.id << ": its fault could not be seeded");
    CHECK_MESSAGE(found > 0, item.id << ": its fault is not found");
  }
}

TEST_CASE("contents: the program's own checks that items rely on have something to look at") {
  const auto& d = drawn_set(thorough ? "saltmarsh" : "quickstart");
  const audit::Report report = audit::audit_set(d.set.input(), d.plan, d.sheets);
  for (const Item& item : checklist())
    for (const std::string& code : item.audit) {
      const auto at = std::find_if(report.checks.begin(), report.checks.end(),
                                   [&](const audit::Check& c) { return c.code == code; });
      REQUIRE_MESSAGE(at != report.checks.end(), item.id << ": no check " << code);
      CHECK_MESSAGE((at->looked_at > 0 && at->flaws == 0), item.id << ": " << code);
    }
}
