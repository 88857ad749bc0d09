// Where the words of the erection sheets stand: beside their strips, else on sheets of their own.
#include <algorithm>
#include <deque>

#include <fmt/format.h>

#include "sheets/erection_parts.h"

namespace deckquire::sheets {
namespace {

using paper::LetterUse;
using paper::PaperBox;

bool is_moved(const SetPlan& plan, int sheet, ErectionWords words) {
  return std::any_of(plan.moved.begin(), plan.moved.end(),
                     [&](const MovedWords& m) { return m.sheet == sheet && m.words == words; });
}

std::string erection_number(int sheet) {
  return "E" + padded(sheet + 1, 2);
}

/// "Read with E05: setting, signs."
std::string reference(const SetPlan& plan, int sheet) {
  std::vector<std::string> names;
  for (const MovedWords& m : plan.moved)
    if (m.sheet == sheet) names.push_back(words_name(m.words));
  if (names.empty()) return "";
  // By its number, not by its plan: this is asked before that sheet is planned.
  return fmt::format("Read with {}: {}.", erection_number(plan.strip_sheets()), join(names, ", "));
}

/// In `order`, as far as they find room; returns the others.
std::vector<ErectionWords> fill(Columns& columns, std::deque<Blocks>& kept, const SetInput& input,
                                const SetPlan& plan, int sheet, bool with_section,
                                const std::vector<ErectionWords>& order) {
  std::vector<ErectionWords> rest;
  for (ErectionWords words : order) {
    if (is_moved(plan, sheet, words)) continue;
    bool placed = false;
    for (std::size_t most : {std::size_t{10000}, std::size_t{16}}) {  // a table is parted in need
      if (placed) break;
      kept.push_back(erection_words(input, plan, sheet, words, with_section, "", most));
      placed = columns.put(kept.back());
    }
    if (!placed) rest.push_back(words);
  }
  return rest;
}

// ---- sheets of words

/// The columns of one sheet: what is free of the text column, then those of the drawing space.
std::vector<PaperBox> columns_of(const SetInput& input, const PaperBox& text) {
  const PaperBox space = input.style.drawing_space().grown(-1.6 * input.style.gap);
  const double gap = 2 * input.style.gap;
  const int count = std::max(1, static_cast<int>((space.width() + gap) / (text.width() + gap)));
  const double width = (space.width() - (count - 1) * gap) / count;
  std::vector<PaperBox> out;
  for (int i = 0; i < count; ++i) {
    const double x = space.low.x + i * (width + gap);
    out.push_back({{x, space.low.y}, {x + width, space.high.y}});
  }
  return out;
}

/// The words that were moved: what is the same on all sheets once, for all.
std::deque<Blocks> moved_words(const SetInput& input, const SetPlan& plan) {
  std::deque<Blocks> out;
  std::vector<ErectionWords> common;
  for (const MovedWords& m : plan.moved) {
    const bool same = m.words == ErectionWords::setting || m.words == ErectionWords::signs;
    if (same && std::find(common.begin(), common.end(), m.words) != common.end()) continue;
    if (same) common.push_back(m.words);
    out.push_back(erection_words(input, plan, same ? -1 : m.sheet, m.words, false,
                                 same ? "THE ERECTION SHEETS" : erection_number(m.sheet)));
  }
  return out;
}

/// Places them on as many sheets as they need; returns how many.
std::size_t place_moved(Columns& columns, const SetInput& input, const PaperBox& text,
                        const std::deque<Blocks>& words) {
  std::size_t sheets = 0;
  for (const Blocks& group : words)
    for (int more = 0; !columns.put(group) && more < 3; ++more) {
      for (const PaperBox& box : columns_of(input, text)) columns.add(box);
      ++sheets;
    }
  return sheets;
}

}  // namespace

std::vector<ErectionWords> draw_erection_column(paper::Board& board, const SetInput& input,
                                                const SetPlan& plan, int sheet,
                                                const PaperBox& space,
                                                const std::vector<PaperBox>& spare,
                                                bool with_section) {
  const PanelRange range = panels_on(plan, sheet);
  double y = purpose(board, space, "Where each panel lies, which way round, in which order.");
  if (const std::string more = reference(plan, sheet); !more.empty())
    y = board.paragraph(LetterUse::heading, {space.low.x, y}, space.width(), more) -
        board.style().gap / 2;
  y = key_plan(board, space, y, input, range.first, range.count) - board.style().gap * 0.6;
  std::vector<PaperBox> boxes{space};
  boxes.insert(boxes.end(), spare.begin(), spare.end());
  using enum ErectionWords;
  std::vector<ErectionWords> rest;
  // A sheet without scale bars cannot be checked: they go first where they find no room in turn.
  for (const auto& turn : {std::vector{order, setting, picks, hardware, scales, signs},
                           std::vector{scales, order, setting, picks, hardware, signs}}) {
    std::deque<Blocks> kept;
    Columns columns(board, boxes);
    columns.used_to(0, y);
    rest = fill(columns, kept, input, plan, sheet, with_section, turn);
    if (turn.front() == order && std::find(rest.begin(), rest.end(), scales) != rest.end())
      continue;
    draw_placed(board, columns, 0, boxes.size());
    break;
  }
  return rest;
}

void plan_erection_words(SetPlan& plan, const SetInput& input) {
  for (std::size_t i = 0; i < plan.sheets.size(); ++i) {
    if (plan.sheets[i].series != 'E') continue;
    // With the reference to the other sheet there is less room: until nothing more has to go.
    for (bool more = true; more;) {
      paper::Sheet scratch = blank_sheet(input, plan.sheets[i]);
      paper::Board board(scratch, input.style, input.lettering);
      // The title block may grow when the sheets are counted.
      const double reserve = board.pitch(LetterUse::note);
      const auto rest = draw_erection_sides(board, input, plan, i, reserve);
      for (ErectionWords words : rest) plan.moved.push_back({plan.sheets[i].subject, words});
      more = !rest.empty();
    }
  }
  if (plan.moved.empty()) return;
  const auto after = std::find_if(plan.sheets.rbegin(), plan.sheets.rend(), [](const SheetPlan& s) {
                       return s.series == 'E';
                     }).base();
  SheetPlan sheet;
  sheet.series = 'E';
  sheet.title = "ERECTION NOTES AND TABLES";
  sheet.subject = plan.strip_sheets();
  paper::Sheet scratch = blank_sheet(input, sheet);
  paper::Board board(scratch, input.style, input.lettering);
  Columns columns(board, {});
  const std::deque<Blocks> words = moved_words(input, plan);
  const std::size_t sheets = place_moved(columns, input, input.style.text_space(), words);
  std::vector<SheetPlan> list;
  for (std::size_t k = 0; k < sheets; ++k) {
    sheet.subject = plan.strip_sheets() + static_cast<int>(k);
    sheet.number = erection_number(sheet.subject);
    list.push_back(sheet);
  }
  plan.sheets.insert(after, list.begin(), list.end());
}

void draw_moved_words(paper::Board& board, const SetInput& input, const SetPlan& plan,
                      std::size_t index) {
  const PaperBox text = furnish(board, input, plan, index, "none").text;
  double y = purpose(board, text, "Words and tables that go with the erection sheets.");
  key_plan(board, text, y, input, 0, 0);
  Columns columns(board, {});
  const std::deque<Blocks> words = moved_words(input, plan);
  const std::size_t page =
      static_cast<std::size_t>(plan.sheets[index].subject - plan.strip_sheets());
  const std::size_t count = columns_of(input, input.style.text_space()).size();
  place_moved(columns, input, input.style.text_space(), words);
  draw_placed(board, columns, page * count, count);
}

}  // namespace deckquire::sheets
