// Where the words of the erection sheets stand: beside their strips, else on sheets of their own.
#include <algorithm>
#include <deque>
#include <map>
#include <memory>

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

/// "Read with E02: hardware; with E05: setting, signs."
std::string reference(const SetPlan& plan, int sheet) {
  std::map<int, std::vector<std::string>> names;  // by the sheet where they stand
  for (const MovedWords& m : plan.moved)
    // By its number, not by its plan: this is asked before that sheet is planned.
    if (m.sheet == sheet)
      names[m.host < 0 ? plan.first_of_moved() : m.host].push_back(words_name(m.words));
  std::vector<std::string> parts;
  for (const auto& [at, words] : names)
    parts.push_back(fmt::format("with {}: {}", erection_number(at), join(words, ", ")));
  return parts.empty() ? "" : "Read " + join(parts, "; ") + ".";
}

/// In `order`, as far as they find room, then those of other sheets; returns what finds none.
std::vector<ErectionWords> fill(Columns& columns, std::deque<Blocks>& kept, const SetInput& input,
                                const SetPlan& plan, int sheet, bool with_section,
                                const std::vector<ErectionWords>& order) {
  std::vector<ErectionWords> rest;
  for (ErectionWords words : order) {
    if (is_moved(plan, sheet, words)) continue;
    bool placed = false;
    for (const std::size_t most : {std::size_t{10000}, std::size_t{16}, std::size_t{5}}) {
      if (placed) break;
      kept.push_back(erection_words(input, plan, sheet, words, with_section, "", most));
      placed = columns.put(kept.back());
    }
    if (!placed) rest.push_back(words);
  }
  for (const MovedWords& m : plan.moved) {
    if (m.host != sheet) continue;
    // The same on all sheets: its own will do.
    if (m.words == ErectionWords::setting && !is_moved(plan, sheet, m.words)) continue;
    kept.push_back(erection_words(input, plan, m.sheet, m.words, false, erection_number(m.sheet)));
    if (!columns.put(kept.back())) rest.push_back(m.words);
  }
  return rest;
}

/// The words of one sheet in one order of placing.
struct Filled {
  Filled(const paper::Board& board, const std::vector<PaperBox>& boxes, double first)
      : columns(board, boxes) {
    columns.used_to(0, first);
  }
  bool has(ErectionWords words) const {
    return std::find(rest.begin(), rest.end(), words) == rest.end();
  }
  Columns columns;
  std::deque<Blocks> kept;  // what the columns point at
  std::vector<ErectionWords> rest;
};

// ---- sheets of words

/// The columns of one sheet: what is free of the text column, then those of the drawing space.
std::vector<PaperBox> columns_of(const SetInput& input, const PaperBox& text) {
  const PaperBox space = input.style.drawing_space().grown(-1.6 * input.style.gap);
  return columns_across(space, text.width(), 2 * input.style.gap);
}

/// The hardware of several sheets: a row an item, a column a sheet, as many as the paper's columns
/// hold.
Blocks hardware_by_sheet(const SetInput& input, const SetPlan& plan,
                         const std::vector<int>& sheets) {
  const double width = columns_of(input, input.style.text_space()).front().width();
  const std::size_t most = static_cast<std::size_t>(std::max(2.0, (width - 65) / 19));
  Blocks out;
  for (std::size_t first = 0; first < sheets.size(); first += most) {
    paper::TableData t;
    t.title = "HARDWARE BY SHEET";
    t.columns = {{"Item", "", paper::Align::left, 0}};
    for (std::size_t k = first; k < std::min(first + most, sheets.size()); ++k) {
      t.columns.push_back({erection_number(sheets[k]), "", paper::Align::right, 0});
      for (const auto& row : hardware(input, panels_on(plan, sheets[k])).rows) {
        auto at = std::find_if(t.rows.begin(), t.rows.end(),
                               [&](const auto& r) { return r.front() == row.front(); });
        if (at == t.rows.end()) at = t.rows.insert(at, {row.front()});
        at->resize(t.columns.size() - 1, "-");
        at->push_back(row.back());
      }
    }
    for (auto& row : t.rows) row.resize(t.columns.size(), "-");
    add_table(out, t);
  }
  return out;
}

/// The words that were moved: what is the same on all sheets once, for all.
std::deque<Blocks> moved_words(const SetInput& input, const SetPlan& plan) {
  std::deque<Blocks> out;
  std::vector<ErectionWords> common;
  std::vector<int> with_hardware;
  for (const MovedWords& m : plan.moved)
    if (m.host < 0 && m.words == ErectionWords::hardware) with_hardware.push_back(m.sheet);
  const bool together = with_hardware.size() > 1;
  if (together) out.push_back(hardware_by_sheet(input, plan, with_hardware));
  for (const MovedWords& m : plan.moved) {
    if (m.host >= 0 || (together && m.words == ErectionWords::hardware)) continue;
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
  std::vector<std::vector<ErectionWords>> turns{
      {order, setting, picks, hardware, scales, signs, bay}};
  if (plan.bay && sheet + 1 == plan.strip_sheets())
    turns.insert(turns.end(), {{order, setting, picks, hardware, scales, bay, signs},
                               {bay, order, setting, picks, hardware, scales, signs}});
  turns.push_back({scales, order, setting, picks, hardware, signs, bay});
  // The first that leaves nothing over; else the first with scale bars, as a sheet without them
  // cannot be checked.
  std::unique_ptr<Filled> best;
  for (const auto& turn : turns) {
    auto filled = std::make_unique<Filled>(board, boxes, y);
    filled->rest = fill(filled->columns, filled->kept, input, plan, sheet, with_section, turn);
    if (!best || filled->rest.empty() || (!best->has(scales) && filled->has(scales)))
      best = std::move(filled);
    if (best->rest.empty()) break;
  }
  draw_placed(board, best->columns, 0, boxes.size());
  return best->rest;
}

namespace {

/// What an E sheet with strips has no room for as things stand.
std::vector<ErectionWords> left_over(const SetPlan& plan, const SetInput& input, std::size_t i) {
  paper::Sheet scratch = blank_sheet(input, plan.sheets[i]);
  paper::Board board(scratch, input.style, input.lettering);
  // The title block may grow when the sheets are counted.
  return draw_erection_sides(board, input, plan, i, board.pitch(LetterUse::note));
}

/// Finds room for moved words on other sheets with strips; in long sets they are better together.
void find_hosts(SetPlan& plan, const SetInput& input, const std::vector<std::size_t>& sheets) {
  if (sheets.size() > 6) return;
  for (std::size_t k = 0; k < plan.moved.size(); ++k) {
    MovedWords& m = plan.moved[k];
    for (std::size_t step = 1; step < sheets.size() && m.host < 0; ++step) {
      const std::size_t own = static_cast<std::size_t>(m.sheet);
      const std::size_t host = (own + step) % sheets.size();
      m.host = static_cast<int>(host);
      if (!left_over(plan, input, sheets[host]).empty() ||
          !left_over(plan, input, sheets[own]).empty())
        m.host = -1;
    }
  }
}

}  // namespace

void plan_erection_words(SetPlan& plan, const SetInput& input) {
  std::vector<std::size_t> sheets;
  for (std::size_t i = 0; i < plan.sheets.size(); ++i) {
    if (plan.sheets[i].series != 'E' || plan.sheets[i].subject >= plan.strip_sheets()) continue;
    sheets.push_back(i);
    if (plan.sheets[i].subject + 1 == plan.strip_sheets() && !left_over(plan, input, i).empty())
      plan.widest_section = false;
    // With the reference to the other sheet there is less room: until nothing more has to go.
    for (bool more = true; more;) {
      const auto rest = left_over(plan, input, i);
      for (ErectionWords words : rest) plan.moved.push_back({plan.sheets[i].subject, words});
      more = !rest.empty();
    }
  }
  find_hosts(plan, input, sheets);
  if (std::all_of(plan.moved.begin(), plan.moved.end(),
                  [](const MovedWords& m) { return m.host >= 0; }))
    return;
  const auto after = std::find_if(plan.sheets.rbegin(), plan.sheets.rend(), [](const SheetPlan& s) {
                       return s.series == 'E';
                     }).base();
  SheetPlan sheet;
  sheet.series = 'E';
  sheet.title = "ERECTION NOTES AND TABLES";
  sheet.subject = plan.first_of_moved();
  paper::Sheet scratch = blank_sheet(input, sheet);
  paper::Board board(scratch, input.style, input.lettering);
  Columns columns(board, {});
  const std::deque<Blocks> words = moved_words(input, plan);
  const std::size_t more = place_moved(columns, input, input.style.text_space(), words);
  std::vector<SheetPlan> list;
  for (std::size_t k = 0; k < more; ++k) {
    sheet.subject = plan.first_of_moved() + static_cast<int>(k);
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
      static_cast<std::size_t>(plan.sheets[index].subject - plan.first_of_moved());
  const std::size_t count = columns_of(input, input.style.text_space()).size();
  place_moved(columns, input, input.style.text_space(), words);
  draw_placed(board, columns, page * count, count);
}

}  // namespace deckquire::sheets
