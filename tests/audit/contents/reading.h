// A drawn set as its reader sees it: words, tables, groups of every sheet, for the checklist of
// contents.
#pragma once

#include <functional>
#include <memory>
#include <set>
#include <string>
#include <vector>

#include "audit/scan.h"
#include "sheets/drawn_set.h"

namespace deckquire::contents {

using Cells = std::vector<std::string>;

/// A table: words above its rows, and the words of each row from left to right; a cell of two lines
/// gives two words.
struct Listing {
  std::string title, head;
  std::vector<Cells> rows;
  Cells foot;  // words below the last row: the total
};

/// One sheet.
struct Page {
  explicit Page(const paper::Sheet& s);
  Page(const Page&) = delete;
  char series() const { return scan.sheet.number.front(); }
  const std::string& number() const { return scan.sheet.number; }
  /// Value of a field of the title block; "" where there is no such field.
  std::string field(const std::string& caption) const;
  /// Words inside groups of that kind, in the order of drawing.
  Cells in(const std::string& kind) const;
  /// Groups of that kind, by their index in the scan.
  std::vector<int> groups(const std::string& kind) const;
  /// Words inside that group.
  Cells words_of(int group) const;
  const Listing* table(const std::string& head) const;  // the first whose head or title has that

  paper::Sheet sheet;
  audit::Scan scan;
  std::string words;  // all of them, with a space between
  std::vector<Listing> tables;
};

/// The set.
struct Reading {
  explicit Reading(const sheets::DrawnSet& d);
  const sheets::DrawnSet& drawn;
  std::vector<std::shared_ptr<const Page>> pages;
  std::vector<const Page*> of(const std::string& series) const;
  /// The words of all sheets of these series.
  std::string words(const std::string& series) const;
  /// Rows of that table on all sheets of these series, in order.
  std::vector<Cells> rows(const std::string& series, const std::string& head) const;
  const Project& project() const { return drawn.set.project; }
  const Deck& deck() const { return drawn.set.deck; }
  const Bridge& bridge() const { return drawn.set.bridge; }
};

/// What a relation found: how many things it looked at, and what is wrong with them.
struct Outcome {
  std::size_t looked_at = 0;
  std::vector<std::string> wrong;
  void expect(bool right, const std::string& what) {
    ++looked_at;
    if (!right) wrong.push_back(what);
  }
};

/// A fault for one sheet of these series: true when it was seeded.
struct Fault {
  std::string series;
  std::function<bool(paper::Sheet&)> seed;
};
/// What contains `from` has `to` instead; `kind`: only inside groups of that kind.
Fault reword(const std::string& series, const std::string& from, const std::string& to,
             const std::string& kind = "");
/// What is `from` is `to` instead.
Fault rename(const std::string& series, const std::string& from, const std::string& to,
             const std::string& kind = "");
/// Groups of that kind lose their kind.
Fault unmark(const std::string& series, const std::string& kind);

/// Words that sheets must have. `pattern`: parts between "*" in this order, alternatives between
/// "|". `all`: on every sheet of the series; else on one of them.
struct Words {
  std::string series, pattern;
  bool all = true;
  std::function<bool(const Reading&)> when = {};  // only where the project has the thing
};

using Relation = std::function<void(const Reading&, Outcome&)>;

/// One item of the checklist.
struct Item {
  std::string id;
  std::string title;
  std::vector<Words> words = {};
  Relation relation = {};
  Fault fault = {};                    // makes the relation find something
  std::vector<std::string> audit = {};  // codes of the program's own checks that hold the rest
  std::string absent = {};             // first cell of a row of the table of what is not there yet
  std::string example = "quickstart";  // that the fault is seeded in
};
using Items = std::vector<Item>;

bool says(const std::string& text, const std::string& pattern);
std::string joined(const Cells& words);
bool holds(const std::string& text, const std::string& part);

Items every_sheet();
Items cover();
Items erection();
Items panel_sheets();
Items detail_sheets();
Items table_sheets();
Items calculation_sheets();
Items revisions();
Items to_come();  // loads, revisions, tags

}  // namespace deckquire::contents
