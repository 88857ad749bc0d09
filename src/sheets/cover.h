// The cover and the general sheets after it: blocks that flow down columns, below a picture of the
// whole bridge. Inside this folder only.
#pragma once

#include <functional>
#include <string>
#include <vector>

#include "paper/table.h"
#include "sheets/plan.h"

namespace deckquire::sheets {

/// A piece of the cover that is never parted: draws itself at the top of a column, returns the y
/// below it.
struct CoverBlock {
  std::function<double(paper::Board&, const paper::PaperBox& column, double top)> draw;
  bool heads = false;    // a heading: never the last in its column
  bool starts = false;   // begins a group: a table, a picture, a heading with its sentences
  bool follows = false;  // its group stands after the one before
};
using CoverBlocks = std::vector<CoverBlock>;

/// Heading and numbered sentences, one block a sentence.
void add_notes(CoverBlocks& blocks, const std::string& heading,
               const std::vector<std::string>& sentences);
/// A small table, parted by rows of at most `most`.
void add_table(CoverBlocks& blocks, const paper::TableData& table, std::size_t most = 30);

/// Everything that the cover says, in order: first what stands in the text column.
CoverBlocks cover_blocks(const SetInput& input, const SetPlan& plan);

// ---- what it says

std::vector<std::string> cautions();
std::vector<std::string> general_notes(const SetInput& input);
std::vector<std::string> mark_notes(const SetInput& input);
paper::TableData index_table(const SetInput& input, const SetPlan& plan);
paper::TableData party_table(const Project& project);
paper::TableData design_table(const Project& project);
paper::TableData material_table(const Project& project);
paper::TableData surface_table(const Project& project);
paper::TableData tolerance_table(const Project& project);
paper::TableData totals_table(const SetInput& input);
paper::TableData revision_history(const Project& project);
paper::TableData abbreviation_table(const SetInput& input);

/// Blocks with drawings.
void add_mark_picture(CoverBlocks& blocks, const SetInput& input);
void add_legend(CoverBlocks& blocks, const SetInput& input, const SetPlan& plan);

/// Height that the plan and a low profile of the whole bridge need.
double least_overview(paper::Board& board, const paper::PaperBox& box, const SetInput& input,
                      const SetPlan& plan);
/// Plan and profile of the whole bridge, as high as `box`.
void draw_overview(paper::Board& board, const paper::PaperBox& box, const SetInput& input,
                   const SetPlan& plan);

/// Blocks of every G sheet: how many G sheets the set needs, and the height of the overview.
struct CoverLayout {
  double overview = 0;  // height on the first sheet
  struct Place {
    std::size_t sheet = 0;  // among the G sheets
    std::size_t block = 0;
    paper::PaperBox column;
    double top = 0;
  };
  std::vector<Place> places;
  std::size_t sheets = 1;
};
CoverLayout lay_out_cover(const SetInput& input, const SetPlan& plan);

}  // namespace deckquire::sheets
