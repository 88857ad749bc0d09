// The cover and the general sheets after it: blocks that flow down columns, below a picture of the
// whole bridge. Inside this folder only.
#pragma once

#include <set>
#include <string>
#include <vector>

#include "sheets/blocks.h"
#include "sheets/plan.h"

namespace deckquire::sheets {

/// What the sheets of a set show, for the legend and the abbreviations. Not known: everything.
struct SetUse {
  bool known = false;
  std::set<std::string> pens;   // names
  std::set<std::string> words;  // letters and figures between anything else
  std::set<std::string> kinds;  // of groups: "callout"
  std::set<std::string> faces;  // materials of cut faces, as the detail sheets name them
  bool shows(paper::PenUse pen) const { return !known || pens.count(paper::name_of(pen)) > 0; }
  bool has(const char* kind) const { return !known || kinds.count(kind) > 0; }
  bool cuts(const char* material) const { return !known || faces.count(material) > 0; }
  bool says(const std::string& word) const { return !known || words.count(word) > 0; }
};

/// What these sheets and the overview of the cover show.
SetUse use_of(const std::vector<paper::Sheet>& sheets, const SetInput& input, const SetPlan& plan);

/// As draw_cover, with legend and abbreviations of what the set shows.
paper::Sheet draw_cover_for(const SetUse& use, const SetInput& input, const SetPlan& plan,
                            std::size_t index);

/// Everything that the cover says, in order: first what stands in the text column.
Blocks cover_blocks(const SetInput& input, const SetPlan& plan, const SetUse& use = {});

// ---- what it says

std::vector<std::string> cautions();
std::vector<std::string> general_notes(const SetInput& input);
std::vector<std::string> shop_notes();
std::vector<std::string> mark_notes(const SetInput& input);
paper::TableData index_table(const SetInput& input, const SetPlan& plan);
paper::TableData party_table(const Project& project);
paper::TableData design_table(const Project& project);
paper::TableData material_table(const Project& project);
paper::TableData surface_table(const Project& project);
paper::TableData tolerance_table(const Project& project);
paper::TableData totals_table(const SetInput& input);
paper::TableData revision_history(const Project& project);
paper::TableData abbreviation_table(const SetInput& input, const SetPlan& plan, const SetUse& use);

/// Blocks with drawings.
void add_mark_picture(Blocks& blocks, const SetInput& input);
void add_legend(Blocks& blocks, const SetUse& use);

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

/// Rows of the design data: loads, factors, rain, each with value and source.
std::vector<std::vector<std::string>> load_rows(const Project& project);

/// What was not checked: every line; where C sheets say it in full, a count by topic instead of
/// theirs.
std::vector<std::string> not_checked_lines(const SetInput& input, const SetPlan& plan);

}  // namespace deckquire::sheets
