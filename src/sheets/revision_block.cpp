#include "sheets/revision_block.h"

#include <fmt/format.h>

#include <algorithm>

#include "base/text.h"
#include "paper/table.h"

namespace deckquire::sheets {
namespace {

using paper::Align;
using paper::Board;
using paper::LetterUse;
using paper::PaperBox;

constexpr double cell_air = 2.6;

// Names stay on one line each, one over the other: the column is as wide as the widest.
double name_width(const Board& board, const std::vector<Revision>& revisions) {
  double w = board.text_width(LetterUse::table_head, "Checked");
  for (const Revision& r : revisions)
    for (const std::string* name : {&r.by, &r.checked})
      w = std::max(w, board.text_width(LetterUse::table, *name));
  return w + cell_air;
}

/// All of the project's; `until`: no later ones than that.
std::vector<Revision> all_revisions(const Project& project, const Revision* until) {
  std::vector<Revision> out;
  for (const Revision& r : project.revisions) {
    out.push_back(r);
    if (&r == until) break;
  }
  return out;
}

/// Those that touched a sheet, and how many deltas each left on it.
struct OwnRevisions {
  std::vector<Revision> list;
  std::vector<int> deltas;
};

OwnRevisions own_revisions(const SetInput& input, const std::string& sheet) {
  const auto& all = input.project.revisions;
  OwnRevisions out;
  if (input.history == nullptr) return {all, {}};
  const auto touched = input.history->touched.find(sheet);
  if (touched == input.history->touched.end()) {
    if (!all.empty()) out = {{all.back()}, {0}};
    return out;
  }
  for (const SetHistory::Touch& t : touched->second)
    for (const Revision& r : all)
      if (r.id == t.revision) {
        out.list.push_back(r);
        out.deltas.push_back(t.deltas);
      }
  return out;
}

/// `names`: whose names the columns are as wide as.
paper::TableData revision_table(const Board& board, const std::vector<Revision>& revisions,
                                const std::vector<Revision>& names,
                                const std::vector<int>& deltas = {}) {
  paper::TableData t;
  t.columns = {{"Rev", "", Align::left, 0},
               {"Date", "", Align::left, 0},
               {"Change", "", Align::left, 0},
               {"By\nChecked", "", Align::left, name_width(board, names)}};
  for (const Revision& r : revisions) t.rows.push_back({r.id, r.date, r.text, r.by + "\n" + r.checked});
  // How many deltas of that revision to look for.
  for (std::size_t i = 0; i < t.rows.size() && i < deltas.size(); ++i)
    if (deltas[i] > 0)
      t.rows[i][2] = fmt::format("{} spot{}: {}", deltas[i], deltas[i] == 1 ? "" : "s", t.rows[i][2]);
  return t;
}

double revision_row(const Board& board) {
  return std::max(board.style().compact_row_height, board.text_height(LetterUse::table) + 2.4);
}

// True when at least the last revision fits.
bool fits_last(const Board& board, const paper::TableData& table, const PaperBox& box) {
  const std::size_t n = table.rows.size();
  return n == 0 || rows_that_fit(board, table, box.width(), box.height(), revision_row(board),
                                 LetterUse::table, n - 1) == 1;
}

void drop_letter(std::string& utf8) {
  while (!utf8.empty() && (utf8.back() & 0xc0) == 0x80) utf8.pop_back();
  if (!utf8.empty()) utf8.pop_back();
}

/// All columns but the words as wide as their cells, the words what is left.
void fix_widths(const Board& board, paper::TableData& table, double width) {
  const std::vector<double> natural = column_widths(board, table, LetterUse::table);
  double left = width;
  for (std::size_t i = 0; i < table.columns.size(); ++i) {
    if (table.columns[i].head == "Change") continue;
    table.columns[i].width = natural[i];
    left -= natural[i];
  }
  for (paper::TableColumn& c : table.columns)
    if (c.head == "Change") c.width = std::max(left, 0.2 * width);
}

/// A later revision may need more room than the first one had: then its words are cut, and names to
/// what their columns hold.
void cut_last(const Board& board, paper::TableData& table, const PaperBox& box) {
  if (table.rows.empty()) return;
  const double width = table.columns.back().width - cell_air;
  for (auto& row : table.rows) {
    std::vector<std::string> names = split_lines(row.back());
    for (std::string& name : names) {
      if (board.text_width(LetterUse::table, name) <= width + 0.01) continue;
      while (!name.empty() && board.text_width(LetterUse::table, name + "…") > width) drop_letter(name);
      name += "…";
    }
    row.back() = join(names, "\n");
  }
  std::string& words = table.rows.back()[table.columns.size() - 2];
  const std::string whole = words;
  for (auto end = whole.rfind(' '); !fits_last(board, table, box) && end != std::string::npos;
       end = end == 0 ? std::string::npos : whole.rfind(' ', end - 1))
    words = whole.substr(0, end) + " …";
}

}  // namespace

const Revision* first_issued(const SetInput& input) {
  const Project& p = input.project;
  if (input.history)
    for (const history::Entry& e : input.history->issued.entries)
      for (const Revision& r : p.revisions)
        if (e.issue && e.issue->revision == r.id) return &r;
  return p.revisions.empty() ? nullptr : &p.revisions.back();
}

const Revision* own_revision(const SetInput& input, const std::string& sheet) {
  const auto& all = input.project.revisions;
  if (all.empty()) return nullptr;
  if (input.history == nullptr) return &all.back();
  const auto touched = input.history->touched.find(sheet);
  if (touched != input.history->touched.end() && !touched->second.empty())
    for (const Revision& r : all)
      if (r.id == touched->second.back().revision) return &r;
  return &all.back();
}

bool first_revision_fits(const Board& board, const SetInput& input, const PaperBox& box) {
  const std::vector<Revision> until = all_revisions(input.project, first_issued(input));
  return fits_last(board, revision_table(board, until, until), box);
}

void draw_revisions(Board& board, const SetInput& input, const std::string& sheet,
                    const PaperBox& box) {
  const OwnRevisions own = own_revisions(input, sheet);
  const std::vector<Revision> first_names = all_revisions(input.project, first_issued(input));
  paper::TableData table = revision_table(board, own.list, first_names, own.deltas);
  // A sheet that the first issue drew, and no other touched, stays as that drew it.
  const Revision* first_one = first_issued(input);
  const bool as_first = own.list.size() == 1 && first_one && own.list.front().id == first_one->id &&
                        own.deltas.size() == 1 && own.deltas.front() == 0;
  if (input.history && !as_first) {
    fix_widths(board, table, box.width());
    cut_last(board, table, box);
  }
  const double row = revision_row(board);
  std::size_t first = 0;
  while (
      first + 1 < table.rows.size() &&
      first + rows_that_fit(board, table, box.width(), box.height(), row, LetterUse::table, first) <
          table.rows.size())
    ++first;
  draw_table(board, table, {box.low.x, box.high.y}, box.width(), row, LetterUse::table, first,
             table.rows.size() - first);
}

}  // namespace deckquire::sheets
