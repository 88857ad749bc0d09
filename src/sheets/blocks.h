// Words, tables and small pictures that flow down columns.
#pragma once

#include <deque>
#include <functional>
#include <string>
#include <vector>

#include "paper/board.h"
#include "paper/table.h"

namespace deckquire::sheets {

/// A piece that is never parted: draws itself at the top of a column, returns the y below it.
struct Block {
  std::function<double(paper::Board&, const paper::PaperBox& column, double top)> draw;
  bool heads = false;        // a heading: never the last in its column
  bool starts = false;       // begins a group: a table, a picture, a heading with its sentences
  bool follows = false;      // its group stands after the one before
  std::string heading = {};  // of a heading: its words
};
using Blocks = std::vector<Block>;

void add_heading(Blocks& blocks, const std::string& heading);
/// Heading and numbered sentences, one block a sentence.
void add_notes(Blocks& blocks, const std::string& heading,
               const std::vector<std::string>& sentences);
/// A small table, parted by rows of at most `most`.
void add_table(Blocks& blocks, const paper::TableData& table, std::size_t most = 30);
/// The same in two halves side by side where the column is wide enough.
void add_folded_table(Blocks& blocks, const paper::TableData& table);
/// Air between groups.
void add_space(Blocks& blocks);

/// A block at its place. `column` says how wide it may be.
struct PlacedBlock {
  const Block* block = nullptr;
  std::size_t column = 0;  // index into the columns
  double top = 0;
};

/// Columns of free paper, filled with groups of blocks one after the other.
class Columns {
 public:
  /// `board`: for measuring only, nothing stays on it.
  Columns(const paper::Board& board, const std::vector<paper::PaperBox>& boxes);
  Columns(const Columns&) = delete;
  Columns& operator=(const Columns&) = delete;
  /// Column `column` is taken down to y.
  void used_to(std::size_t column, double y) { tops_[column] = y; }
  void add(const paper::PaperBox& box);
  /// Places the group whole in the first column that holds it; else parted, from the first column
  /// that holds its head on, its heading repeated ("continued") in every further column. False, and
  /// nothing placed, when there is no room for all of it.
  bool put(const Blocks& group);
  /// As running text: from the first column with room for its beginning, parted where a column
  /// ends.
  bool flow(const Blocks& group);
  /// What was placed, in the order of placing.
  const std::vector<PlacedBlock>& placed() const { return placed_; }
  const paper::PaperBox& box(std::size_t column) const { return boxes_[column]; }

 private:
  class Heights;
  bool part(const Blocks& group, Heights& heights);
  double height(const Block& block, std::size_t column);

  paper::Sheet scratch_;
  paper::Board board_;
  std::vector<paper::PaperBox> boxes_;
  std::vector<double> tops_;
  std::vector<PlacedBlock> placed_;
  std::deque<Block> continued_;  // headings of parts in later columns
};

/// As many columns of at least that width as stand beside one another in a space, all as wide.
std::vector<paper::PaperBox> columns_across(const paper::PaperBox& space, double least, double gap);

/// Draws the blocks placed in the columns [first, first + count).
void draw_placed(paper::Board& board, const Columns& columns, std::size_t first, std::size_t count);

}  // namespace deckquire::sheets
