// Do the sheets say the same of marks, serials and counts?
#include <fmt/format.h>

#include <algorithm>
#include <map>
#include <set>

#include "audit/scan.h"

namespace deckquire::audit {

namespace {

bool has_series(const Subject& s, char series) {
  return std::any_of(s.scans.begin(), s.scans.end(),
                     [&](const Scan& scan) { return scan.sheet.number.front() == series; });
}

/// How often each text stands on the sheets of a series, counted within words too: "DP01".
std::map<std::string, std::size_t> counted(const Subject& s, char series,
                                           const std::vector<std::string>& names) {
  std::map<std::string, std::size_t> out;
  const std::set<std::string> known(names.begin(), names.end());
  const auto letter = [](char c) {
    // Letters of other scripts too: bytes from 128 on.
    return std::isalnum(static_cast<unsigned char>(c)) || c == '-' || (c & 0x80) != 0;
  };
  for (const Scan& scan : s.scans) {
    if (scan.sheet.number.front() != series) continue;
    for (const Letters& l : scan.texts) {
      const std::string& t = l.text->text;
      for (std::size_t i = 0; i < t.size();) {
        std::size_t end = i;
        while (end < t.size() && letter(t[end])) ++end;
        const std::string word = t.substr(i, end - i);
        if (known.count(word) > 0) ++out[word];
        i = std::max(end, i + 1);
      }
    }
  }
  return out;
}

/// Does a P sheet of that title show the mark? "PANEL DP01", "PANELS DP03, DP04", and on small
/// paper, where tables stand on a second sheet, "PANEL DP01, TABLES".
bool shows(const std::string& title, const std::string& mark) {
  const std::size_t names = title.find(' ');
  if (!title.starts_with("PANEL") || names == std::string::npos) return false;
  const std::string list = ", " + title.substr(names + 1) + ", ";
  return list.find(", " + mark + ", ") != std::string::npos;
}

void marks(const Subject& s, Report& report) {
  Notebook plans(report, "mark-count",
                 "every mark is on the erection plans as often as its quantity says");
  Notebook shop(report, "mark-sheet",
                "every mark has its shop sheet, which states the same quantity");
  Notebook tables(report, "mark-table", "every mark is in the tables");
  std::vector<std::string> names;
  for (const Mark& m : s.input.deck.marks) names.push_back(m.name);
  const auto on_plans = counted(s, 'E', names), in_tables = counted(s, 'T', names);
  for (std::size_t i = 0; i < names.size(); ++i) {
    const Mark& m = s.input.deck.marks[i];
    const auto times = [&](const auto& where) {
      const auto at = where.find(m.name);
      return at == where.end() ? std::size_t{0} : at->second;
    };
    if (has_series(s, 'E')) {
      plans.look();
      if (times(on_plans) != static_cast<std::size_t>(m.quantity))
        plans.flaw("E", {},
                   fmt::format("{} is on the erection plans {} times, its quantity is {}", m.name,
                               times(on_plans), m.quantity));
    }
    if (has_series(s, 'T')) {
      tables.look();
      if (times(in_tables) == 0) tables.flaw("T", {}, m.name + " is in no table");
    }
    if (!has_series(s, 'P')) continue;
    shop.look();
    bool stated = false;
    for (const Scan& scan : s.scans) {
      if (!shows(scan.sheet.title, m.name)) continue;
      // Where marks share a sheet, over its own part of it.
      const bool shared = scan.sheet.title.starts_with("PANELS ");
      const std::string words = shared ? fmt::format("PANEL {}, {} REQUIRED", m.name, m.quantity)
                                       : fmt::format("{} (", m.quantity);
      for (const Letters& l : scan.texts) stated = stated || l.text->text.starts_with(words);
    }
    if (!stated)
      shop.flaw("P", {}, fmt::format("no sheet PANEL {} states {} pieces", m.name, m.quantity));
  }
}

void serials(const Subject& s, Report& report) {
  Notebook book(report, "serial-count",
                "every serial stands in one panel of the erection plans, and in the tables");
  std::map<std::string, std::size_t> seen;
  for (const Scan& scan : s.scans) {
    if (scan.sheet.number.front() != 'E') continue;
    for (const Letters& l : scan.texts)
      if (scan.within(l.group, "table") < 0) ++seen[l.text->text];
  }
  std::vector<std::string> names;
  for (const Panel& p : s.input.deck.panels) names.push_back(p.serial);
  const auto in_tables = counted(s, 'T', names);
  for (const std::string& serial : names) {
    book.look();
    if (has_series(s, 'E') && seen[serial] != 1)
      book.flaw("E", {}, fmt::format("{} is on the erection plans {} times", serial, seen[serial]));
    if (has_series(s, 'T') && in_tables.count(serial) == 0)
      book.flaw("T", {}, serial + " is in no table");
  }
}

void views(const Subject& s, Report& report) {
  Notebook bars(report, "scale-bar", "every scale that a sheet names has its bar there");
  static const std::string ratio_of = "1:";
  for (const Scan& scan : s.scans) {
    std::set<std::string> named, barred;
    for (const Letters& l : scan.texts) {
      const bool bar = scan.within(l.group, "scale-bar") >= 0;
      for (std::size_t i = 0; i < s.input.style.scales.size(); ++i) {
        const std::string name = s.input.style.scale_name(s.input.style.scales[i]);
        if (l.text->text == name) (bar ? barred : named).insert(name);
      }
    }
    for (const std::string& name : named) {
      bars.look();
      if (barred.count(name) == 0) bars.flaw(scan.sheet.number, {}, "no bar for " + name);
    }
  }
}

}  // namespace

void audit_agreement(const Subject& s, Report& report) {
  marks(s, report);
  serials(s, report);
  views(s, report);
}

}  // namespace deckquire::audit
