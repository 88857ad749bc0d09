// Does everything that points lead somewhere?
#include <fmt/format.h>

#include <algorithm>
#include <map>
#include <regex>
#include <set>

#include "audit/scan.h"

namespace deckquire::audit {

namespace {

std::set<std::string> numbers(const Subject& s) {
  std::set<std::string> out;
  for (const Scan& scan : s.scans) out.insert(scan.sheet.number);
  return out;
}

/// Every link of a group, to a sheet or to a thing on a sheet.
void links(const Subject& s, Report& report) {
  Notebook book(report, "link-dead",
                "every link leads to a sheet of the set, and to a thing on it");
  std::map<std::string, std::set<std::string>> ids;  // by sheet
  for (const Scan& scan : s.scans) {
    auto& on = ids[scan.sheet.number];
    for (const Group& g : scan.groups) on.insert(g.start->id);
  }
  for (const Scan& scan : s.scans)
    for (const Group& g : scan.groups) {
      const std::string& target = g.start->target;
      if (target.empty()) continue;
      book.look();
      const std::size_t hash = target.find('#');
      const auto sheet = ids.find(target.substr(0, hash));
      const bool found = sheet != ids.end() && (hash == std::string::npos ||
                                                sheet->second.count(target.substr(hash + 1)) > 0);
      if (!found) book.flaw(scan.sheet.number, g.box.low, "it leads to " + target);
    }
}

/// Sheet numbers in words: "SEE E02", "detail A on D01", "on sheet P03", "Read with E05".
void words(const Subject& s, Report& report) {
  Notebook book(report, "sheet-unknown", "every sheet that words name is in the set");
  const std::set<std::string> known = numbers(s);
  static const std::regex named(
      R"((?:SEE|see|on|ON|sheet|sheets|with|WITH)\s+([GEPDTCR]\d{2,3}(?:-\d)?)\b)");
  for (const Scan& scan : s.scans)
    for (const Letters& l : scan.texts) {
      const std::string& text = l.text->text;
      for (std::sregex_iterator at(text.begin(), text.end(), named), end; at != end; ++at) {
        book.look();
        if (known.count((*at)[1]) == 0)
          book.flaw(scan.sheet.number, l.text->at, "\"" + text + "\" names " + (*at)[1].str());
      }
    }
}

/// Letter and sheet of a reference bar, from its title "C, sheet D02".
std::pair<std::string, std::string> parted(const std::string& title) {
  const std::size_t comma = title.find(", sheet ");
  if (comma == std::string::npos) return {title, ""};
  return {title.substr(0, comma), title.substr(comma + 8)};
}

/// Bars of sections and details: the view that they name stands on the sheet that they name.
void bars(const Subject& s, Report& report) {
  Notebook book(report, "reference-dead",
                "every section and detail mark names a view that its sheet shows");
  Notebook orphan(report, "detail-orphan", "every detail is called for on another sheet");
  std::map<std::string, std::set<std::string>> shown;  // letters of the views, by sheet
  static const std::regex view(R"((?:SECTION|DETAIL) ([A-Z]{1,2})(?:-[A-Z]{1,2})?\b.*)");
  for (const Scan& scan : s.scans)
    for (const Letters& l : scan.texts) {
      std::smatch m;
      if (std::regex_match(l.text->text, m, view)) shown[scan.sheet.number].insert(m[1]);
    }
  for (const sheets::DetailRef& d : s.plan.details) shown[d.sheet].insert(d.letter);
  std::set<std::string> called;
  for (const Scan& scan : s.scans) {
    for (const Group& g : scan.groups) {
      if (g.start->kind != "reference" || g.start->title.empty()) continue;
      const auto [letter, sheet] = parted(g.start->title);
      if (sheet.empty()) continue;
      book.look();
      if (sheet != scan.sheet.number) called.insert(letter);
      if (shown[sheet].count(letter) == 0)
        book.flaw(scan.sheet.number, g.box.low, letter + " is not on " + sheet);
    }
    static const std::regex said(R"(\b([A-Z]{1,2})(?: on |/)(D\d\d)\b)");
    std::string all;
    for (const Letters& l : scan.texts) all += l.text->text + " ";
    for (std::sregex_iterator at(all.begin(), all.end(), said), end; at != end; ++at) {
      book.look();
      if ((*at)[2] != scan.sheet.number) called.insert((*at)[1]);
      if (shown[(*at)[2]].count((*at)[1]) == 0)
        book.flaw(scan.sheet.number, {}, (*at)[0].str() + " is not there");
    }
  }
  for (const sheets::DetailRef& d : s.plan.details) {
    orphan.look();
    if (called.count(d.letter) == 0)
      orphan.flaw(d.sheet, {}, fmt::format("detail {}, {}", d.letter, d.title));
  }
}

/// The index on the general sheets lists every sheet with its title, and no other.
void index(const Subject& s, Report& report) {
  Notebook book(report, "index", "the index lists every sheet of the set with its title");
  std::map<std::string, std::string> after;  // the text that follows a sheet's number in a table
  for (const Scan& scan : s.scans) {
    if (scan.sheet.number.front() != 'G') continue;
    for (std::size_t i = 0; i + 1 < scan.texts.size(); ++i)
      if (scan.within(scan.texts[i].group, "table") >= 0)
        after.emplace(scan.texts[i].text->text, scan.texts[i + 1].text->text);
  }
  for (const sheets::SheetPlan& sheet : s.plan.sheets) {
    book.look();
    const auto at = after.find(sheet.number);
    if (at == after.end())
      book.flaw(sheet.number, {}, "the index leaves it out");
    else if (!sheet.title.starts_with(at->second))  // a long title is broken into lines
      book.flaw(sheet.number, {}, "the index calls it \"" + at->second + "\"");
  }
}

}  // namespace

void audit_references(const Subject& s, Report& report) {
  links(s, report);
  words(s, report);
  bars(s, report);
  index(s, report);
}

}  // namespace deckquire::audit
