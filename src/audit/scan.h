// A sheet taken apart for measuring. Inside this folder only.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "audit/audit.h"
#include "paper/overlaps.h"
#include "paper/sheet.h"

namespace deckquire::audit {

struct Group {
  const paper::GroupStart* start = nullptr;
  int parent = -1;
  paper::PaperBox box;  // of all that is in it
  bool empty = true;
};

struct Letters {
  const paper::Text* text = nullptr;
  paper::PaperBox box;
  std::size_t order = 0;   // among the items of the sheet
  std::size_t shield = 0;  // lines drawn before this one are hidden under white
  int group = -1;
};

struct Line {
  const paper::Stroke* stroke = nullptr;
  double width = 0;
  std::size_t order = 0;
  int group = -1;
};

struct Scan {
  explicit Scan(const paper::Sheet& sheet);
  /// The innermost group around `group`, itself included, of that kind; -1 none.
  int within(int group, const std::string& kind) const;
  const paper::GroupStart& start(int group) const {
    return *groups[static_cast<std::size_t>(group)].start;
  }

  const paper::Sheet& sheet;
  std::vector<Group> groups;
  std::vector<Letters> texts;
  std::vector<Line> lines;
  /// White patches, those under masked letters included, with their order.
  std::vector<std::pair<paper::PaperBox, std::size_t>> whites;
};

/// Writes down what a check finds.
class Notebook {
 public:
  Notebook(Report& report, std::string code, std::string rule)
      : report_(report), at_(report.checks.size()) {
    report.checks.push_back({std::move(code), std::move(rule), 0, 0});
  }
  void look(std::size_t n = 1) { check().looked_at += n; }
  void flaw(const std::string& sheet, paper::PaperPoint at, const std::string& what) {
    ++check().flaws;
    report_.flaws.push_back({check().code, sheet, at, what});
  }

 private:
  Check& check() { return report_.checks[at_]; }
  Report& report_;
  std::size_t at_;
};

/// What a check is made of.
struct Subject {
  const sheets::SetInput& input;
  const sheets::SetPlan& plan;
  const std::vector<Scan>& scans;  // one a sheet, in the order of the set
};

void audit_letters(const Subject& s, Report& report);     // sizes, overlaps, frame, half-size print
void audit_lines(const Subject& s, Report& report);       // leaders, dimension lines, inks
void audit_chains(const Subject& s, Report& report);      // sums
void audit_references(const Subject& s, Report& report);  // what points to what
void audit_agreement(const Subject& s, Report& report);   // marks, serials, counts between sheets
void audit_use(const Subject& s, Report& report);         // how full sheets are

}  // namespace deckquire::audit
