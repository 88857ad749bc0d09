#include "sheets/blocks.h"

#include <algorithm>
#include <cmath>
#include <numeric>

namespace deckquire::sheets {

using paper::Align;
using paper::Board;
using paper::LetterUse;
using paper::PaperBox;
using paper::Stand;
using paper::TableData;

namespace {

Block sentence_block(std::size_t number, const std::string& sentence) {
  return {[number, sentence](Board& board, const PaperBox& column, double top) {
    const double indent = board.text_width(LetterUse::note, "00") + 2.5;
    board.text(LetterUse::note, {column.low.x, top}, std::to_string(number), Align::left,
               Stand::top);
    return board.paragraph(LetterUse::note, {column.low.x + indent, top}, column.width() - indent,
                           sentence) +
           0.3 * board.pitch(LetterUse::note);
  }};
}

Block table_block(const TableData& table, std::size_t first, std::size_t count) {
  return {.draw =
              [table, first, count](Board& board, const PaperBox& column, double top) {
                return draw_table(board, table, {column.low.x, top}, column.width(),
                                  board.style().compact_row_height, LetterUse::table, first, count);
              },
          .starts = true,
          .follows = first > 0};
}

/// The second half of the rows beside the first.
TableData folded(const TableData& table) {
  TableData out;
  out.title = table.title;
  out.columns = table.columns;
  out.columns.insert(out.columns.end(), table.columns.begin(), table.columns.end());
  const std::size_t n = table.rows.size(), half = (n + 1) / 2;
  for (std::size_t i = 0; i < half; ++i) {
    std::vector<std::string> row = table.rows[i];
    const std::size_t beside = half + i;
    if (beside < n) row.insert(row.end(), table.rows[beside].begin(), table.rows[beside].end());
    row.resize(out.columns.size());
    out.rows.push_back(std::move(row));
  }
  return out;
}

double natural_width(const Board& board, const TableData& table) {
  const std::vector<double> widths = column_widths(board, table, LetterUse::table);
  return std::accumulate(widths.begin(), widths.end(), 0.0);
}

/// A heading and the block under it are not parted.
std::size_t start_end(const Blocks& group, std::size_t block) {
  return group[block].heads && block + 1 < group.size() ? block + 2 : block + 1;
}

}  // namespace

void add_heading(Blocks& blocks, const std::string& heading) {
  blocks.push_back(
      {[heading](Board& board, const PaperBox& column, double top) {
         board.text(LetterUse::heading, {column.low.x, top}, heading, Align::left, Stand::top);
         return top - board.pitch(LetterUse::heading) - 0.5;
       },
       true, true, false, heading});
}

void add_space(Blocks& blocks) {
  blocks.push_back(
      {[](Board& board, const PaperBox&, double top) { return top - board.style().gap; }});
}

void add_notes(Blocks& blocks, const std::string& heading,
               const std::vector<std::string>& sentences) {
  if (sentences.empty()) return;
  add_heading(blocks, heading);
  for (std::size_t i = 0; i < sentences.size(); ++i)
    blocks.push_back(sentence_block(i + 1, sentences[i]));
  add_space(blocks);
}

void add_table(Blocks& blocks, const TableData& table, std::size_t most) {
  for (std::size_t first = 0; first < table.rows.size(); first += most) {
    blocks.push_back(table_block(table, first, most));
    add_space(blocks);
  }
}

void add_folded_table(Blocks& blocks, const TableData& table) {
  if (table.rows.empty()) return;
  blocks.push_back(
      {.draw =
           [table, two = folded(table)](Board& board, const PaperBox& column, double top) {
             const bool fits = natural_width(board, two) <= column.width();
             const TableData& t = fits ? two : table;
             return draw_table(board, t, {column.low.x, top}, column.width(),
                               board.style().compact_row_height, LetterUse::table, 0,
                               t.rows.size());
           },
       .starts = true});
  add_space(blocks);
}

Columns::Columns(const Board& board, const std::vector<PaperBox>& boxes)
    : board_(scratch_, board.style(), board.lettering()) {
  for (const PaperBox& b : boxes) add(b);
}

void Columns::add(const PaperBox& box) {
  boxes_.push_back(box);
  tops_.push_back(box.high.y);
}

double Columns::height(const Block& block, std::size_t column) {
  scratch_.items.clear();
  return -block.draw(board_, boxes_[column], 0);
}

/// The heights of a group's blocks in columns of one width: measured anew only for another width.
class Columns::Heights {
 public:
  Heights(Columns& columns, const Blocks& group) : columns_(columns), group_(group) {}
  double operator()(std::size_t block, std::size_t column) {
    constexpr double same = 1e-6;  // mm
    const double width = columns_.boxes_[column].width();
    if (std::abs(width - width_) > same) {
      width_ = width;
      heights_.clear();
      for (const Block& b : group_) heights_.push_back(columns_.height(b, column));
    }
    return heights_[block];
  }

 private:
  Columns& columns_;
  const Blocks& group_;
  double width_ = -1;
  std::vector<double> heights_;
};

bool Columns::put(const Blocks& group) {
  Heights heights(*this, group);
  for (std::size_t c = 0; c < boxes_.size(); ++c) {
    double y = tops_[c];
    std::vector<double> tops;
    for (std::size_t i = 0; i < group.size(); ++i) {
      tops.push_back(y);
      y -= heights(i, c);
    }
    if (y < boxes_[c].low.y - board_.style().gap) continue;  // the last of it is air
    for (std::size_t i = 0; i < group.size(); ++i) placed_.push_back({&group[i], c, tops[i]});
    tops_[c] = y;
    return true;
  }
  return part(group, heights);
}

bool Columns::flow(const Blocks& group) {
  Heights heights(*this, group);
  return part(group, heights);
}

bool Columns::part(const Blocks& group, Heights& heights) {
  std::vector<double> tops = tops_;
  std::vector<PlacedBlock> placed;
  Blocks head;
  if (!group.empty() && !group.front().heading.empty())
    add_heading(head, group.front().heading + ", continued");
  Heights head_height(*this, head);
  const auto put_down = [&](const Block& block, std::size_t column, double height) {
    placed.push_back({&block, column, tops[column]});
    tops[column] -= height;
  };
  std::size_t c = 0, last = 0;
  for (std::size_t i = 0; i < group.size(); ++i) {
    const auto room = [&] {
      double y = tops[c];
      if (i > 0 && c != last && !head.empty()) y -= head_height(0, c);
      const std::size_t end = start_end(group, i);
      for (std::size_t k = i; k < end; ++k) y -= heights(k, c);
      // The last of the whole is air.
      return y >= boxes_[c].low.y - board_.style().gap * (end == group.size() ? 1 : 0.4);
    };
    while (c < boxes_.size() && !room()) ++c;
    if (c == boxes_.size()) return false;
    if (i > 0 && c != last && i + 1 < group.size() && !head.empty()) {
      continued_.push_back(head.front());
      put_down(continued_.back(), c, head_height(0, c));
    }
    put_down(group[i], c, heights(i, c));
    last = c;
  }
  tops_ = std::move(tops);
  placed_.insert(placed_.end(), placed.begin(), placed.end());
  return true;
}

std::vector<PaperBox> columns_across(const PaperBox& space, double least, double gap) {
  const int count = std::max(1, static_cast<int>((space.width() + gap) / (least + gap)));
  const double width = (space.width() - (count - 1) * gap) / count;
  std::vector<PaperBox> out;
  for (int i = 0; i < count; ++i) {
    const double x = space.low.x + i * (width + gap);
    out.push_back({{x, space.low.y}, {x + width, space.high.y}});
  }
  return out;
}

void draw_placed(Board& board, const Columns& columns, std::size_t first, std::size_t count) {
  for (const PlacedBlock& p : columns.placed())
    if (p.column >= first && p.column < first + count)
      p.block->draw(board, columns.box(p.column), p.top);
}

}  // namespace deckquire::sheets
