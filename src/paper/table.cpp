#include "paper/table.h"

#include <algorithm>
#include <cmath>
#include <numeric>
#include <utility>

namespace deckquire::paper {

namespace {

constexpr double cell_air = 1.2;  // left and right of a cell's text
constexpr double word_air = 2.5;  // more before words that follow a column of right-aligned figures

/// Air before the text of a column.
double left_air(const TableData& table, std::size_t i) {
  const bool after_figures = i > 0 && table.columns[i - 1].align == Align::right;
  return table.columns[i].align == Align::left && after_figures ? cell_air + word_air : cell_air;
}

/// A plain decimal number: it stands on its decimal point.
bool is_number(const std::string& s) {
  return !s.empty() && s.find_first_not_of("+-0123456789.") == std::string::npos &&
         s.find_first_of("0123456789") != std::string::npos;
}

/// What follows the whole part, the point included.
std::string fraction(const std::string& s) {
  const std::size_t point = s.find('.');
  return point == std::string::npos ? "" : s.substr(point);
}

template <class Visit>
void each_cell(const TableData& table, std::size_t column, Visit visit) {
  for (const auto& row : table.rows) {
    if (column < row.size()) visit(row[column]);
  }
  if (column < table.total.size()) visit(table.total[column]);
}

/// Width of the widest fraction in a column that stands on the decimal.
double fraction_width(const Board& board, const TableData& table, std::size_t column,
                      LetterUse letters) {
  double w = 0;
  if (table.columns[column].align != Align::right) return w;
  each_cell(table, column, [&](const std::string& s) {
    if (is_number(s)) w = std::max(w, board.text_width(letters, fraction(s)));
  });
  return w;
}

double head_width(const Board& board, const TableColumn& c) {
  double w = board.text_width(LetterUse::table_head, c.unit);
  for (const std::string& s : split_lines(c.head)) {
    w = std::max(w, board.text_width(LetterUse::table_head, s));
  }
  return w;
}

double natural_width(const Board& board, const TableData& table, std::size_t i, LetterUse letters) {
  double w = head_width(board, table.columns[i]), whole = 0;
  const double decimals = fraction_width(board, table, i, letters);
  each_cell(table, i, [&](const std::string& s) {
    const double own = board.text_width(letters, s);
    w = std::max(w, own);
    if (is_number(s)) whole = std::max(whole, own - board.text_width(letters, fraction(s)));
  });
  return std::max(w, whole + decimals) + left_air(table, i) + cell_air;
}

/// The least width at which a column's cells break between words only.
double least_width(const Board& board, const TableData& table, std::size_t i, LetterUse letters) {
  const TableColumn& c = table.columns[i];
  if (c.width > 0) return c.width;
  if (c.align != Align::left) return natural_width(board, table, i, letters);
  double w = head_width(board, c);
  each_cell(table, i, [&](const std::string& s) {
    for (std::size_t from = 0; from <= s.size();) {
      const std::size_t to = std::min(s.find(' ', from), s.size());
      w = std::max(w, board.text_width(letters, s.substr(from, to - from)));
      from = to + 1;
    }
  });
  return w + left_air(table, i) + cell_air;
}

double total_of(const std::vector<double>& v) {
  return std::accumulate(v.begin(), v.end(), 0.0);
}

/// Natural widths stretched in proportion, or squeezed as far as the words allow (and beyond, all
/// alike, only when they do not).
std::vector<double> fitted_widths(const Board& board, const TableData& table, LetterUse letters,
                                  double width) {
  std::vector<double> w = column_widths(board, table, letters);
  const double natural = total_of(w);
  if (width <= 0 || natural <= 0) return w;
  if (natural <= width) {
    for (double& x : w) x *= width / natural;
    return w;
  }
  const std::vector<double> least = least_widths(board, table, letters);
  const double slack = natural - total_of(least);
  const double share = slack > 0 ? std::min(1.0, (natural - width) / slack) : 0;
  for (std::size_t i = 0; i < w.size(); ++i) w[i] -= share * (w[i] - least[i]);
  const double left = total_of(w);
  if (left > width + 1e-9) {
    for (double& x : w) x *= width / left;
  }
  return w;
}

/// Everything about a table that drawing and counting must agree on.
class Layout {
 public:
  Layout(const Board& board, const TableData& table, double width, double row_height,
         LetterUse letters)
      : board_(board),
        table_(table),
        row_height_(row_height),
        letters_(letters),
        widths_(fitted_widths(board, table, letters, width)) {
    for (std::size_t i = 0; i < widths_.size(); ++i) {
      fractions_.push_back(i < table.measured.size() ? table.measured[i].fraction
                                                     : fraction_width(board, table, i, letters));
    }
  }

  const std::vector<double>& widths() const { return widths_; }
  double width() const { return total_of(widths_); }
  double fraction(std::size_t column) const { return fractions_[column]; }

  std::vector<std::string> lines(std::size_t column, const std::string& cell) const {
    return board_.broken(letters_, widths_[column] - left_air(table_, column) - cell_air + 1e-6,
                         cell);
  }
  double row(const std::vector<std::string>& cells) const {
    std::size_t most = 1;
    for (std::size_t i = 0; i < widths_.size() && i < cells.size(); ++i) {
      most = std::max(most, lines(i, cells[i]).size());
    }
    return row_height_ + static_cast<double>(most - 1) * board_.pitch(letters_);
  }
  double title() const {
    return table_.title.empty() ? 0 : 2 * board_.text_height(LetterUse::heading);
  }
  std::size_t head_lines() const {
    std::size_t most = 0;
    for (const TableColumn& c : table_.columns) most = std::max(most, head_cell(c).size());
    return most;
  }
  double head() const {
    const double h = board_.text_height(LetterUse::table_head);
    return h + static_cast<double>(head_lines() - 1) * board_.pitch(LetterUse::table_head) + 2.4;
  }
  double total() const { return table_.total.empty() ? 0 : row(table_.total); }

  static std::vector<std::string> head_cell(const TableColumn& c) {
    std::vector<std::string> out = split_lines(c.head);
    if (!c.unit.empty()) out.push_back(c.unit);
    return out;
  }

 private:
  const Board& board_;
  const TableData& table_;
  double row_height_;
  LetterUse letters_;
  std::vector<double> widths_, fractions_;
};

double anchor(Align align, double left, double width, double air) {
  if (align == Align::left) return left + air;
  if (align == Align::right) return left + width - cell_air;
  return left + width / 2;
}

/// Draws one table; holds what its parts share.
class Drawing {
 public:
  Drawing(Board& board, const TableData& table, const Layout& layout, LetterUse letters)
      : board_(board), table_(table), layout_(layout), letters_(letters) {}

  double title(PaperPoint at, bool first) {
    if (table_.title.empty()) return at.y;
    board_.text(LetterUse::heading, at, first ? table_.title : table_.title + ", continued",
                Align::left, Stand::top);
    return at.y - layout_.title();
  }

  double head(PaperPoint at) {
    rule(PenUse::table_heavy, at);
    const double pitch = board_.pitch(LetterUse::table_head), low = at.y - layout_.head();
    double x = at.x;
    for (std::size_t i = 0; i < table_.columns.size(); ++i) {
      const TableColumn& c = table_.columns[i];
      const std::vector<std::string> lines = Layout::head_cell(c);
      for (std::size_t k = 0; k < lines.size(); ++k) {
        const double up = static_cast<double>(lines.size() - 1 - k) * pitch;
        board_.text(LetterUse::table_head,
                    {anchor(c.align, x, layout_.widths()[i], left_air(table_, i)), low + 1.2 + up},
                    lines[k], c.align);
      }
      x += layout_.widths()[i];
    }
    rule(PenUse::table_heavy, {at.x, low});
    return low;
  }

  double row(PaperPoint at, const std::vector<std::string>& cells, bool band) {
    const double height = layout_.row(cells);
    if (band) {
      Path p;
      p.box({{at.x, at.y - height}, {at.x + layout_.width(), at.y}});
      board_.fill(Ink::pale, p);
    }
    double x = at.x;
    for (std::size_t i = 0; i < table_.columns.size() && i < cells.size(); ++i) {
      cell({x, at.y}, i, cells[i], height);
      x += layout_.widths()[i];
    }
    return at.y - height;
  }

  void rule(PenUse pen, PaperPoint at) { board_.line(pen, at, {at.x + layout_.width(), at.y}); }

 private:
  void cell(PaperPoint corner, std::size_t column, const std::string& text, double height) {
    const Align align = table_.columns[column].align;
    const std::vector<std::string> lines = layout_.lines(column, text);
    const double pitch = board_.pitch(letters_), h = board_.text_height(letters_);
    const double block = h + static_cast<double>(lines.size() - 1) * pitch;
    double base = corner.y - (height - block) / 2 - h;
    double x = anchor(align, corner.x, layout_.widths()[column], left_air(table_, column));
    if (align == Align::right && is_number(text)) {
      x -= layout_.fraction(column) - board_.text_width(letters_, fraction(text));
    }
    for (const std::string& s : lines) {
      board_.text(letters_, {x, base}, s, align);
      base -= pitch;
    }
  }

  Board& board_;
  const TableData& table_;
  const Layout& layout_;
  LetterUse letters_;
};

}  // namespace

std::vector<double> least_widths(const Board& board, const TableData& table, LetterUse letters) {
  std::vector<double> out;
  for (std::size_t i = 0; i < table.columns.size(); ++i)
    out.push_back(i < table.measured.size() ? table.measured[i].least
                                            : least_width(board, table, i, letters));
  return out;
}

std::vector<double> column_widths(const Board& board, const TableData& table, LetterUse letters) {
  std::vector<double> out;
  for (std::size_t i = 0; i < table.columns.size(); ++i) {
    const double fixed = table.columns[i].width;
    if (i < table.measured.size())
      out.push_back(table.measured[i].natural);
    else
      out.push_back(fixed > 0 ? fixed : natural_width(board, table, i, letters));
  }
  return out;
}

void measure(const Board& board, TableData& table, LetterUse letters) {
  table.measured.clear();
  std::vector<ColumnMeasure> out;
  const std::vector<double> natural = column_widths(board, table, letters);
  const std::vector<double> least = least_widths(board, table, letters);
  for (std::size_t i = 0; i < table.columns.size(); ++i)
    out.push_back({natural[i], least[i], fraction_width(board, table, i, letters)});
  table.measured = std::move(out);
}

double draw_table(Board& board, const TableData& table, PaperPoint at, double width,
                  double row_height, LetterUse letters, std::size_t first, std::size_t count) {
  const Layout layout(board, table, width, row_height, letters);
  Drawing drawing(board, table, layout, letters);
  const Group group(board, "", "table", table.title);
  const std::size_t end = std::min(table.rows.size(), first + count);
  const auto every = static_cast<std::size_t>(std::max(0, board.style().band_every));
  double y = drawing.head({at.x, drawing.title(at, first == 0)});
  for (std::size_t i = first; i < end; ++i) {
    const std::string target = i < table.targets.size() ? table.targets[i] : "";
    const Group row(board, "", "row", "", target);
    y = drawing.row({at.x, y}, table.rows[i], every > 0 && (i + 1) % every == 0);
    if (i + 1 < end) drawing.rule(PenUse::table, {at.x, y});
  }
  drawing.rule(PenUse::table_heavy, {at.x, y});
  if (end == table.rows.size() && !table.total.empty()) {
    y = drawing.row({at.x, y}, table.total, false);
    drawing.rule(PenUse::table_heavy, {at.x, y});
  }
  return y;
}

std::size_t rows_that_fit(const Board& board, const TableData& table, double width, double height,
                          double row_height, LetterUse letters, std::size_t first) {
  const Layout layout(board, table, width, row_height, letters);
  double left = height - layout.title() - layout.head() + 1e-9;
  std::size_t n = 0;
  for (; first + n < table.rows.size(); ++n) {
    const bool last = first + n + 1 == table.rows.size();
    const double need = layout.row(table.rows[first + n]);
    if (left < need + (last ? layout.total() : 0)) break;
    left -= need;
  }
  return n;
}

}  // namespace deckquire::paper
