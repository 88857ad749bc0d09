// What goes out with one revision: the sheets with what they replace, the marks that it changes and how
// far their panels are. As tables, and as the first R sheets.
#pragma once

#include <memory>
#include <string>
#include <vector>

#include "schedules/table.h"
#include "sheets/blocks.h"
#include "sheets/plan.h"

namespace deckquire::sheets {

/// One line of the list of sheets.
struct SentSheet {
  std::string number, title, revision, status;
  std::string change;    // "new", "changed at 3 spots", "unchanged", "void"
  std::string replaces;  // "P03 A": no longer to be used
};

/// Sheet, title, revision, status, what changed, what it replaces; void numbers at their places.
Table transmittal_table(const std::vector<SentSheet>& sheets);

/// Every mark that is new, withdrawn, taken up again or of another quantity than in the last issue:
/// where its panels lie, what is there in its place, and how many of them are not made, cast, shipped
/// and set. Without an issue before, no rows.
Table revised_marks(const SetInput& input);

/// Serials that the revision makes void, and which take their places.
Table voided_serials(const SetInput& input);

/// The transmittal laid out, and everything it needs to be drawn.
struct TransmittalPages {
  TransmittalPages(const SetInput& input, const SetPlan& plan,
                   const std::vector<SentSheet>& sheets);

  paper::Style style;  // for reading
  paper::Sheet scratch;
  paper::Board board;
  Blocks blocks;
  Columns columns;
  std::size_t per_sheet = 1, sheets = 0;
};

/// Adds its sheets to the plan as R01, R02 ...; `sheets` without them. `after`: further R sheets, which
/// get the numbers behind them.
void plan_transmittal(SetPlan& plan, const SetInput& input, std::vector<SentSheet> sheets,
                      std::vector<SentSheet> after = {});
bool is_transmittal(const SetPlan& plan, const SheetPlan& sheet);
paper::Sheet draw_transmittal(const SetInput& input, const SetPlan& plan, std::size_t index);

}  // namespace deckquire::sheets
