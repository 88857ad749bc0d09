// The E sheets of the setting: small plans of its stages, and beside them what the crew needs to know.
#include <algorithm>
#include <deque>

#include "sheets/setting_plan.h"

namespace deckquire::sheets {
namespace {

using paper::Board;
using paper::PaperBox;
using paper::PaperPoint;

/// Plans and words of all sheets, placed.
class SettingPages {
 public:
  SettingPages(const Board& board, const SetInput& in, const SettingPlan& s)
      : in_(in), s_(s), board_(board), words_(setting_words(in, s)), picks_(setting_picks(in, s)), columns_(board, {}) {
    while (plans_placed() < s_.stages.size()) add_page();
    for (const Blocks& group : words_)
      for (int more = 0; !columns_.put(group) && more < 3; ++more) add_page();
    columns_.put(picks_);  // only where there is room
  }

  std::size_t count() const { return firsts_.size(); }

  void draw(Board& board, std::size_t page) const {
    const PaperBox space = setting_space(in_);
    const double pitch = stage_height(board, in_, s_, s_.stage_width) + stage_gap;
    for (std::size_t k = 0; k < plans_on(page); ++k) {
      const auto column = static_cast<double>(k % s_.columns), row = static_cast<double>(k / s_.columns);
      draw_stage(board, in_, s_, page * a_page() + k,
                 {space.low.x + column * (s_.stage_width + stage_gap), space.high.y - row * pitch});
    }
    const std::size_t first = firsts_[page];
    draw_placed(board, columns_, first, (page + 1 < firsts_.size() ? firsts_[page + 1] : boxes_) - first);
  }

  /// Where the words of a sheet begin in its text column; what stands above is drawn on `board`.
  static double head(Board& board, const SetInput& in, const PaperBox& text) {
    const double y = purpose(board, text, "In which order panels are set, to which gaps, by which crane.");
    return key_plan(board, text, y, in, 0, 0) - board.style().gap * 0.6;
  }

 private:
  const SetInput& in_;
  const SettingPlan& s_;
  const Board& board_;
  std::vector<Blocks> words_;
  Blocks picks_;
  Columns columns_;
  std::vector<std::size_t> firsts_;  // by page: its first column
  std::size_t boxes_ = 0;

  std::size_t a_page() const { return s_.columns * s_.rows; }
  std::size_t plans_placed() const { return std::min(firsts_.size() * a_page(), s_.stages.size()); }
  std::size_t plans_on(std::size_t page) const {
    return std::min(a_page(), s_.stages.size() - std::min(page * a_page(), s_.stages.size()));
  }

  void add_page() {
    const std::size_t page = firsts_.size();
    firsts_.push_back(boxes_);
    PaperBox text = s_.text;
    paper::Sheet scratch = blank_sheet(in_, {});
    Board measuring(scratch, in_.style, in_.lettering);
    text.high.y = head(measuring, in_, text);
    add(text);
    PaperBox under = setting_space(in_);
    if (const std::size_t n = plans_on(page); n > 0) {
      const auto rows = static_cast<double>((n + s_.columns - 1) / s_.columns);
      under.high.y -= rows * (stage_height(board_, in_, s_, s_.stage_width) + stage_gap);
    }
    if (under.height() < 30) return;
    for (const PaperBox& box : columns_across(under, text.width(), 2 * in_.style.gap)) add(box);
  }
  void add(const PaperBox& box) {
    columns_.add(box);
    ++boxes_;
  }
};

}  // namespace

int count_setting_sheets(const SetInput& input, const SettingPlan& setting) {
  paper::Sheet scratch = blank_sheet(input, {});
  const Board board(scratch, input.style, input.lettering);
  return static_cast<int>(SettingPages(board, input, setting).count());
}

paper::Sheet draw_setting(const SetInput& input, const SetPlan& plan, std::size_t index) {
  const SheetPlan& own = plan.sheets[index];
  paper::Sheet sheet = blank_sheet(input, own);
  Board board(sheet, input.style, input.lettering);
  furnish(board, input, plan, index, "none");
  SettingPages::head(board, input, plan.setting->text);
  const SettingPages pages(board, input, *plan.setting);
  pages.draw(board, static_cast<std::size_t>(own.subject - plan.strip_sheets()));
  return sheet;
}

}  // namespace deckquire::sheets
