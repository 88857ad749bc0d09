// Items of revisions: what a set says of the issues before it.
#include <algorithm>
#include <cstdlib>

#include "audit/contents/reading.h"
#include "sheets/redlines.h"

namespace deckquire::contents {

namespace {

void revision_rows(const Reading& r, Outcome& o) {
  for (const auto& p : r.pages)
    for (const Listing& t : p->tables) {
      if (!holds(t.head, "Rev") || !holds(t.head, "Change") || !holds(t.head, "Checked")) continue;
      for (const Cells& row : t.rows)
        for (const Revision& v : r.project().revisions)
          if (row.front() == v.id)
            o.expect(says(joined(row), v.date + "*" + v.by + "*" + v.checked),
                     p->number() + ": " + joined(row));
    }
}

/// "3 spots: ..." in the revision block of the page; 0 where no delta is counted.
int deltas_told(const Page& p, const std::string& revision) {
  for (const Listing& t : p.tables) {
    if (!holds(t.head, "Rev") || !holds(t.head, "Change") || !holds(t.head, "Checked")) continue;
    for (const Cells& row : t.rows)
      for (std::size_t i = 1; i < row.size() && row.front() == revision; ++i)
        if (holds(row[i], " spot")) return std::atoi(row[i].c_str());
  }
  return 0;
}

std::vector<const Page*> clouded(const Reading& r) {
  std::vector<const Page*> out;
  for (const auto& p : r.pages)
    if (p->series() != 'G' && p->series() != 'R' && !p->groups("cloud").empty())
      out.push_back(p.get());
  return out;
}

/// Every cloud has a delta in it, and the sheet a row of that revision.
void clouds(const Reading& r, Outcome& o) {
  for (const Page* p : clouded(r)) {
    o.expect(p->groups("delta").size() == p->groups("cloud").size(),
             p->number() + ": clouds without deltas");
    o.expect(deltas_told(*p, p->sheet.revision) > 0, p->number() + ": no row for its clouds");
  }
}

void counts(const Reading& r, Outcome& o) {
  for (const Page* p : clouded(r))
    o.expect(deltas_told(*p, p->sheet.revision) == static_cast<int>(p->groups("delta").size()),
             p->number() + ": the row counts other deltas");
}

void newest_only(const Reading& r, Outcome& o) {
  for (const Page* p : clouded(r))
    for (const std::string& words : p->in("delta"))
      o.expect(words.starts_with(p->sheet.revision), p->number() + ": " + words);
}

/// The index gives every sheet the letter that the sheet itself prints.
void letters(const Reading& r, Outcome& o) {
  if (r.of("R").empty()) return;
  for (const Cells& row : r.rows("G", "Title"))
    for (const auto& p : r.pages)
      if (row.size() >= 3 && row.front() == p->number() && p->number()[0] != 'G')
        o.expect(row.back() == p->sheet.revision && p->field("Revision") == row.back(),
                 p->number() + ": " + joined(row));
}

/// The transmittal names every sheet of the set, what became of it and what it replaces.
void sent(const Reading& r, Outcome& o) {
  const auto rows = r.rows("R", "What changed");
  if (rows.empty()) return;
  for (const auto& p : r.pages) {
    const auto row = std::find_if(rows.begin(), rows.end(),
                                  [&](const Cells& c) { return c.front() == p->number(); });
    o.expect(row != rows.end(), p->number() + " is not sent");
    if (row != rows.end() && !p->groups("cloud").empty() && p->series() != 'G')
      o.expect(says(joined(*row), "changed*" + p->number() + " "),
               "transmittal: " + joined(*row));
  }
}

void superseded(const Reading& r, Outcome& o) {
  for (const Cells& row : r.rows("R", "What changed")) {
    if (!holds(joined(row), "void")) continue;
    bool indexed = false;
    for (const Cells& line : r.rows("G", "Title"))
      indexed = indexed || (line.front() == row.front() && holds(joined(line), "VOID"));
    o.expect(indexed, "the index does not say that " + row.front() + " is void");
  }
}

/// Every open remark that is about a thing on the sheets stands on each of them under its number.
void redlines(const Reading& r, Outcome& o) {
  if (r.of("R").empty()) return;
  const auto& drawn = r.drawn;
  for (std::size_t i = 0; i < r.project().redlines.size(); ++i)
    for (std::size_t k = 0; k < r.pages.size(); ++k) {
      if (!sheets::carries_redline(drawn.set.input(), drawn.plan, k, r.project().redlines[i]))
        continue;
      const std::string word = "REDLINE " + std::to_string(i + 1);
      o.expect(holds(joined(r.pages[k]->in("redline")), word), r.pages[k]->number() + ": " + word);
    }
}

Item absent(const std::string& id, const std::string& title, const std::string& row) {
  return {id, title, {}, {}, {}, {}, row};
}

const auto on_issues = [](const Reading& r) { return !r.of("R").empty(); };

}  // namespace

Items revisions() {
  return {{"R1", "Cloud, symbol and row for each change", {}, clouds, unmark("EPDTC", "delta"), {},
           "", "story"},
          {"R2", "Symbols counted in the row", {}, counts, unmark("EPDTC", "delta"), {}, "",
           "story"},
          {"R3", "Only the newest is ringed", {}, newest_only,
           reword("EPDTC", "B", "A", "delta"), {}, "", "story"},
          {"R4", "Date, author, checker of a revision", {}, revision_rows,
           reword("P", "2026-09-14", "2026-09-15")},
          absent("R5", "Reason and source of a change", "reason and source of a change"),
          {"R6", "Marks affected, and whether made",
           {{"R", "MARKS THAT THE REVISION CHANGES*Cast*Shipped*Set", false, on_issues}}},
          {"R7", "All sheets of a changed fact together", {}, letters,
           reword("E", "B", "A", "title-block"), {}, "", "story"},
          {"R8", "Redlines told apart without colour", {}, redlines,
           reword("EPDTC", "REDLINE", "NOTE", "redline"), {}, "", "story"},
          {"R9", "Superseded and void sheets", {}, [](const Reading& r, Outcome& o) {
             sent(r, o);
             superseded(r, o);
           },
           reword("R", "E01", "E99"), {}, "", "story"},
          absent("R10", "As built", "as-built drawings")};
}

}  // namespace deckquire::contents
