// Callouts: what points at a thing and names it. All ours: an upright pill with a number, a bar
// with a letter over a sheet number.
#pragma once

#include <string>
#include <vector>

#include "paper/board.h"

namespace deckquire::paper {

/// A numbered pill (rounded bar) centred at `at`. Returns its box.
PaperBox pill(Board& board, PaperPoint at, const std::string& number);

/// Size of the pill for that number.
PaperPoint pill_size(const Board& board, const std::string& number);

/// One thing to point at.
struct Callout {
  PaperPoint site;     // end of the leader: a dot on the thing
  std::string number;  // in the pill; or, with `text`, a note instead of a pill
  std::string text;
};

/// Places pills (or notes) in columns left and right of `view` or rows above and below it, with
/// leaders that do not cross, by least squares along the side (pool adjacent violators). `left` and
/// `right` are the x of the columns; `low`, `high` the range of y they may use.
struct CalloutColumns {
  double left = 0, right = 0, low = 0, high = 0;
};
void callouts(Board& board, const CalloutColumns& columns, std::vector<Callout> list);

/// All of them on one side: +1 in the right column, -1 in the left.
void callout_column(Board& board, const CalloutColumns& columns, int side,
                    const std::vector<Callout>& list);

/// The height that these callouts need in a column.
double column_height(const Board& board, const std::vector<Callout>& list);

/// Rows above (y = top) and below (y = bottom) the view instead.
struct CalloutRows {
  double top = 0, bottom = 0, low = 0, high = 0;  // low, high: range of x
};
void callouts(Board& board, const CalloutRows& rows, std::vector<Callout> list);

/// Nearest places to `ideals` (rising) for items of given sizes between low and high so that none
/// overlap: minimises the sum of squared moves exactly (pool adjacent violators). When they do not
/// fit, evenly packed from low.
std::vector<double> spread(const std::vector<double>& ideals, const std::vector<double>& sizes,
                           double low, double high);

/// A note at the end of a leader with a short shoulder: text at `at`, dot or arrow at `site`.
void leader_note(Board& board, PaperPoint site, PaperPoint at, const std::string& text,
                 bool arrow_end = true);

/// Cutting line marks of a section: the line from a to b at its ends only, arrows in the direction
/// of sight, and at each end a bar with letter over sheet number. Links to that sheet.
void section_mark(Board& board, PaperPoint a, PaperPoint b, PaperPoint sight,
                  const std::string& letter, const std::string& sheet, bool bar_at_a = true,
                  bool bar_at_b = true);

/// A reference to a detail: narrow ring around the spot, and a bar with letter over sheet.
void detail_mark(Board& board, const PaperBox& spot, PaperPoint bar, const std::string& letter,
                 const std::string& sheet);

}  // namespace deckquire::paper
