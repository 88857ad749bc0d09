// What an approver would send back, measured on the finished sheets of a set.
#pragma once

#include <cstddef>
#include <string>
#include <vector>

#include "sheets/plan.h"
#include "sheets/set.h"

namespace deckquire::audit {

/// One thing that is wrong, and where on its sheet (paper mm; 0, 0 when it has no place).
struct Flaw {
  std::string code;  // of the check: "text-over-text"
  std::string sheet;
  paper::PaperPoint at;
  std::string what;
};

/// One check of the whole set: what it holds, how many things it looked at, how many were wrong. A
/// check that found nothing to look at has proved nothing, and says so by its count.
struct Check {
  std::string code;
  std::string rule;
  std::size_t looked_at = 0, flaws = 0;
};

/// Share of the drawing space of a sheet that views, tables and words take, 0 to 1.
struct SheetUse {
  std::string sheet;
  double share = 0;
  bool last = false;  // of its series, or with one whole table alone: may be as empty as it likes
};

struct Report {
  std::vector<Check> checks;
  std::vector<Flaw> flaws;  // by check, then by sheet
  std::vector<SheetUse> use;
};

/// Measures the sheets of the whole set, as draw_set() made them of that plan. Rules and limits:
/// each check's own; ISO 128, 129-1, 3098 and 5457 where it says so, else common practice.
Report audit_set(const sheets::SetInput& input, const sheets::SetPlan& plan,
                 const std::vector<paper::Sheet>& sheets);

}  // namespace deckquire::audit
