// Tables on T sheets: shelves from the top, long tables split into columns of equal length.
#include <algorithm>
#include <map>
#include <numeric>
#include <utility>

#include "paper/table.h"
#include "sheets/furniture.h"
#include "sheets/plan.h"
#include "sheets/table_sheet.h"

namespace deckquire::sheets {
namespace {

using paper::Board;
using paper::LetterUse;
using paper::PaperBox;

// The free part of one sheet: a shelf being filled from the left, and what lies below it.
struct Shelf {
  double x = 0, top = 0, bottom = 0;
};

class Packer {
 public:
  Packer(const SetInput& input, const std::vector<paper::TableData>& tables)
      : input_(input),
        tables_(tables),
        space_(table_space(input.style)),
        gap_(2 * input.style.gap),
        style_(reading_style(input.style)),
        board_(scratch_, style_, input.lettering) {
    scratch_ = blank_sheet(input, {});
  }

  /// The tables in that order; those that sheets do not show are left out.
  std::vector<SheetPlan> run(const std::vector<int>& order) {
    for (int i : order) {
      const Table& t = input_.tables[static_cast<std::size_t>(i)];
      if (t.on_sheet && !t.rows.empty()) place(i);
    }
    emptiest_last();
    for (SheetPlan& s : sheets_) s.title = title(s);
    return std::move(sheets_);
  }

  /// The least share of the table space that a sheet but the last one uses.
  double least_share(const std::vector<SheetPlan>& sheets) const {
    double least = 1;
    for (std::size_t i = 0; i + 1 < sheets.size(); ++i)
      least =
          std::min(least, area(sheets[i]) * style_.row_height / (space_.width() * space_.height()));
    return least;
  }

 private:
  /// Widths times rows, with some for the heads.
  static double area(const SheetPlan& s) {
    double sum = 0;
    for (const TablePart& p : s.parts) sum += p.width * static_cast<double>(p.count + 3);
    return sum;
  }

  /// Of the sheets with whole tables only the one with the least on it goes to the end: no reader
  /// meets a sheet that is nearly empty in the middle of the series.
  void emptiest_last() {
    const auto whole = [&](const SheetPlan& s) {
      return std::all_of(s.parts.begin(), s.parts.end(), [&](const TablePart& p) {
        return p.first == 0 && p.count == tables_[static_cast<std::size_t>(p.table)].rows.size();
      });
    };
    auto least = sheets_.end();
    for (auto at = sheets_.begin(); at != sheets_.end(); ++at)
      if (whole(*at) && (least == sheets_.end() || area(*at) < area(*least))) least = at;
    if (least != sheets_.end() && area(*least) < area(sheets_.back()))
      std::rotate(least, least + 1, sheets_.end());
  }

  void place(int index) {
    index_ = index;
    splits_.clear();
    columns_ = columns_that_fit();
    width_ = (space_.width() - (columns_ - 1) * gap_) / columns_;
    for (std::size_t s = 0; s < sheets_.size(); ++s)
      if (place_whole(s, 0)) return;
    std::size_t first = fits_fresh() ? 0 : fill_beside();
    while (first < table().rows.size()) {
      open_sheet();
      if (place_whole(sheets_.size() - 1, first)) return;
      first = fill_from(sheets_.size() - 1, space_.low.x, space_.high.y, first);
    }
  }

  const paper::TableData& table() const { return tables_[static_cast<std::size_t>(index_)]; }

  bool fits_fresh() { return measured(0, columns_).low >= -space_.height(); }

  // The start of a table longer than a sheet, beside or below what the last sheet has; returns the
  // row after it.
  std::size_t fill_beside() {
    if (sheets_.empty()) return 0;
    const Shelf shelf = shelves_.back();
    const double least = 0.4 * space_.height();
    const bool beside = shelf.x + width_ <= space_.high.x + 0.01;
    if (beside && shelf.top - space_.low.y >= least)
      return fill_from(sheets_.size() - 1, shelf.x, shelf.top, 0);
    const double top = shelf.bottom - gap_;
    if (top - space_.low.y < least) return 0;
    return fill_from(sheets_.size() - 1, space_.low.x, top, 0);
  }

  int columns_that_fit() {
    double natural = 0;
    for (double w : column_widths(board_, table(), LetterUse::table)) natural += w;
    const double n = (space_.width() + gap_) / (natural + gap_);
    return std::clamp(static_cast<int>(n), 1, 3);
  }

  void open_sheet() {
    SheetPlan s;
    s.series = 'T';
    sheets_.push_back(s);
    shelves_.push_back({space_.low.x, space_.high.y, space_.high.y});
  }

  TablePart part(std::size_t first, std::size_t count, int columns) const {
    const Table& source = input_.tables[static_cast<std::size_t>(index_)];
    TablePart p;
    p.table = index_;
    p.first = first;
    p.count = count;
    p.width = width_;
    p.heading = first == 0 ? source.title : source.title + ", continued";
    p.intro = first == 0 ? source.intro : "";
    if (first == 0 && table().columns.size() < source.columns.size())
      p.intro += " More columns are in tables/" + source.name + ".csv.";
    p.heading_width = columns * width_ + (columns - 1) * gap_;
    return p;
  }

  /// Parts beginning at (0, 0) and their lower end: the same on every sheet that is tried.
  struct Split {
    std::vector<TablePart> parts;
    double low = 0;
  };
  const Split& measured(std::size_t first, int columns) {
    const auto [it, fresh] = splits_.try_emplace({first, columns});
    if (!fresh) return it->second;
    const std::size_t rows = table().rows.size() - first, n = static_cast<std::size_t>(columns);
    const std::size_t each = (rows + n - 1) / n;
    if (static_cast<double>(each) * style_.row_height > space_.height()) {
      it->second = {{part(first, each, columns)}, -2 * space_.height()};  // too long for any sheet
      return it->second;
    }
    it->second.parts = split(first, columns);
    it->second.low = lower_end(it->second.parts);
    scratch_.items.clear();
    return it->second;
  }

  // Rows from `first` on in `columns` columns of equal length, beginning at (0, 0).
  std::vector<TablePart> split(std::size_t first, int columns) {
    const std::size_t rows = table().rows.size() - first, n = static_cast<std::size_t>(columns);
    const std::size_t each = (rows + n - 1) / n;
    std::vector<TablePart> parts;
    double drop = 0;
    for (std::size_t from = first; from < table().rows.size(); from += each) {
      TablePart p = part(from, std::min(each, table().rows.size() - from), columns);
      if (parts.empty()) {
        TablePart empty = p;
        empty.count = 0;
        drop = draw_part(board_, table(), empty) - draw_bare(empty);
      } else {
        p.heading.clear();
        p.intro.clear();
      }
      p.at = {static_cast<double>(parts.size()) * (width_ + gap_), parts.empty() ? 0 : drop};
      parts.push_back(p);
    }
    return parts;
  }

  double draw_bare(TablePart p) {
    p.heading.clear();
    p.intro.clear();
    return draw_part(board_, table(), p);
  }

  double lower_end(const std::vector<TablePart>& parts) {
    double low = 0;
    for (const TablePart& p : parts) low = std::min(low, draw_part(board_, table(), p));
    return low;
  }

  void put(std::size_t sheet, std::vector<TablePart> parts, double x, double y) {
    for (TablePart& p : parts) {
      p.at = {p.at.x + x, p.at.y + y};
      sheets_[sheet].parts.push_back(p);
    }
  }

  // Everything from `first` on, beside what is on the shelf or on a new shelf below it, in as few
  // columns as it takes.
  bool place_whole(std::size_t sheet, std::size_t first) {
    Shelf& shelf = shelves_[sheet];
    for (int columns = 1; columns <= columns_; ++columns) {
      const auto& [parts, low] = measured(first, columns);
      const double width = parts.front().heading_width;
      const bool used = shelf.x > space_.low.x;
      if (used && shelf.x + width <= space_.high.x + 0.01 && shelf.top + low >= space_.low.y) {
        put(sheet, parts, shelf.x, shelf.top);
        shelf.bottom = std::min(shelf.bottom, shelf.top + low);
        shelf.x += width + gap_;
        return true;
      }
      const double top = used ? shelf.bottom - gap_ : shelf.top;
      if (top + low < space_.low.y) continue;
      put(sheet, parts, space_.low.x, top);
      shelf = {space_.low.x + width + gap_, top, top + low};
      return true;
    }
    return false;
  }

  // As many rows as fit in columns from x on below `top`; returns the row after them.
  std::size_t fill_from(std::size_t sheet, double x, double top, std::size_t first) {
    const int columns = static_cast<int>((space_.high.x + 0.01 - x + gap_) / (width_ + gap_));
    for (int c = 0; c < columns && first < table().rows.size(); ++c) {
      TablePart p = part(first, 0, columns);
      if (c > 0) p.heading.clear(), p.intro.clear();
      p.at = {x + c * (width_ + gap_), top};
      if (c == 0) top += draw_part(board_, table(), p) - draw_bare(p);
      p.count = std::max<std::size_t>(1, rows_that_fit(board_, table(), width_, top - space_.low.y,
                                                       style_.row_height, LetterUse::table, first));
      sheets_[sheet].parts.push_back(p);
      first += p.count;
    }
    shelves_[sheet] = {space_.high.x, space_.low.y, space_.low.y};
    return first;
  }

  std::string title(const SheetPlan& sheet) const {
    std::vector<std::string> titles;
    for (const TablePart& p : sheet.parts) {
      const std::string& t = input_.tables[static_cast<std::size_t>(p.table)].title;
      if (std::find(titles.begin(), titles.end(), t) == titles.end()) titles.push_back(t);
    }
    if (titles.size() <= 2) return join(titles, "; ");
    const std::string more = std::to_string(titles.size() - 2);
    return titles[0] + "; " + titles[1] + "; AND " + more + " MORE";
  }

  const SetInput& input_;
  const std::vector<paper::TableData>& tables_;
  PaperBox space_;
  double gap_;
  paper::Style style_;
  paper::Sheet scratch_;  // measured on, never shown
  Board board_;
  std::vector<SheetPlan> sheets_;
  std::vector<Shelf> shelves_;                           // one a sheet
  std::map<std::pair<std::size_t, int>, Split> splits_;  // of the table being placed
  int index_ = 0, columns_ = 1;
  double width_ = 0;
};

}  // namespace

std::vector<SheetPlan> arrange_tables(const SetInput& input,
                                      const std::vector<paper::TableData>& tables) {
  std::vector<int> order(input.tables.size());
  std::iota(order.begin(), order.end(), 0);
  Packer packer(input, tables);
  std::vector<SheetPlan> best = packer.run(order);
  const double half_empty = 0.5;
  if (packer.least_share(best) >= half_empty) return best;
  // Where a sheet would be half empty: the longest tables first, if that fills the sheets better.
  std::stable_sort(order.begin(), order.end(), [&](int a, int b) {
    return input.tables[static_cast<std::size_t>(a)].rows.size() >
           input.tables[static_cast<std::size_t>(b)].rows.size();
  });
  Packer other(input, tables);
  std::vector<SheetPlan> sheets = other.run(order);
  const bool better =
      sheets.size() < best.size() ||
      (sheets.size() == best.size() && other.least_share(sheets) > packer.least_share(best));
  return better ? sheets : best;
}

}  // namespace deckquire::sheets
