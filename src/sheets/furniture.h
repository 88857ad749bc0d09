// What every sheet has: frame, zones, centring marks, text column, revision block, stamp space,
// title block.
//
// Names in the templates of a style's title fields ("{project.number} {sheet.number}"):
//   {project.title} {project.number} {bridge.name} {bridge.structure} {bridge.location}
//   {party.ROLE} {party.ROLE.contact}  ROLE: owner designer contractor fabricator railing ...
//   {revision.id} {revision.date} {revision.by} {revision.checked} {revision.status}
//   {revision.text} {sheet.number} {sheet.title} {sheet.index} {sheet.count} {sheet.scale}
//   {sheet.size} {units}  "mm, levels in m" or "ft-in, levels in ft"
// What the project leaves empty prints as "not stated".
#pragma once

#include <string>
#include <vector>

#include "paper/board.h"
#include "paper/table.h"
#include "sheets/plan.h"

namespace deckquire::sheets {

/// Where a sheet's own things go.
struct Spaces {
  paper::PaperBox drawing;  // drawing space, inside the frame, left of the text column
  paper::PaperBox text;     // what is left of the text column above revision block and title block,
                            // already inset by the style's gap
};

/// An empty sheet of the style's size with its number, title, revision and pens.
paper::Sheet blank_sheet(const SetInput& input, const SheetPlan& plan);

/// Draws the furniture. `scale` is the title block's entry: "1:20" or "as shown".
Spaces furnish(paper::Board& board, const SetInput& input, const SetPlan& plan, std::size_t index,
               const std::string& scale);

/// The style for sheets that are mostly read (G, T): notes and tables as high as headings, so that
/// they survive a print at half size. Furniture keeps the style itself.
paper::Style reading_style(const paper::Style& style);

/// Heading and numbered sentences at the top of `space`; returns the y below.
double notes(paper::Board& board, const paper::PaperBox& space, double top,
             const std::string& heading, const std::vector<std::string>& sentences);

/// One line in bold size at the head of the text column: what the sheet is for. Returns the y
/// below.
double purpose(paper::Board& board, const paper::PaperBox& space, const std::string& sentence);

/// The whole bridge small: deck outline, supports, joints of spans; panels [first, first + count)
/// solid (count 0: none). Returns the y below it.
double key_plan(paper::Board& board, const paper::PaperBox& space, double top,
                const SetInput& input, int first, int count);

/// A computed table as the sheets print it: heads, units, cells in the project's units. `targets`
/// are filled for marks (their P sheets) and left empty elsewhere.
paper::TableData printed(const Table& table, UnitSystem units);

}  // namespace deckquire::sheets
