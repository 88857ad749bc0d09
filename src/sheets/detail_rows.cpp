#include "sheets/detail_rows.h"

#include <algorithm>
#include <utility>

#include "sheets/details.h"

namespace deckquire::sheets {

using paper::LetterUse;
using paper::PaperBox;

PaperBox room_of(const SetInput& input) {
  PaperBox room = input.style.drawing_space();
  return room.grown(-2 * input.style.gap);
}

double row_height(const Row& row) {
  double h = 0;
  for (const Sized& s : row) h = std::max(h, s.height);
  return h;
}

namespace {

Sized sized(const SetInput& input, Detail detail, Piece piece) {
  paper::Sheet scratch;
  const paper::Board board(scratch, input.style, input.lettering);
  const double title = board.text_width(LetterUse::view_title, detail_title(detail)) + 40;
  const double width = std::max(piece.box.width(), title);
  const double height = piece.box.height() + title_room;
  return {detail, std::move(piece), width, height};
}

std::vector<Sized> sized_details(const SetInput& input) {
  std::vector<Sized> out;
  const PaperBox room = room_of(input);
  for (Detail d : details_of(input)) {
    Piece p = detail_piece(input, d, {room.width(), room.height() - title_room});
    if (p.draw) out.push_back(sized(input, d, std::move(p)));
  }
  return out;
}

double row_width(const Row& row, double air) {
  double w = -air;
  for (const Sized& s : row) w += s.width + air;
  return w;
}

/// Takes a row from the front of the list: the first, and every later one that fits beside without
/// making the row much taller.
Row next_row(std::vector<Sized>& left, double room, double air) {
  constexpr double taller = 1.3;
  Row row{std::move(left.front())};
  left.erase(left.begin());
  const double most = taller * row.front().height;
  for (std::size_t i = 0; i < left.size();) {
    if (left[i].height > most || row_width(row, air) + air + left[i].width > room) {
      ++i;
      continue;
    }
    row.push_back(std::move(left[i]));
    left.erase(left.begin() + static_cast<std::ptrdiff_t>(i));
  }
  return row;
}

/// Rows from the top; a row that does not fit under the others opens a sheet.
std::vector<Rows> in_rows(const SetInput& input, std::vector<Sized> left) {
  const PaperBox room = room_of(input);
  const double air = 3 * input.style.gap;
  std::vector<Rows> sheets;
  double used = 0;
  while (!left.empty()) {
    Row row = next_row(left, room.width(), air);
    const double height = row_height(row);
    if (sheets.empty() || used + air + height > room.height()) {
      sheets.emplace_back();
      used = height;
    } else {
      used += air + height;
    }
    sheets.back().push_back(std::move(row));
  }
  return sheets;
}

double rows_height(const Rows& rows, double air) {
  double h = -air;
  for (const Row& r : rows) h += row_height(r) + air;
  return std::max(h, 0.0);
}

/// What sheets are filled with when the order of the list is given up.
struct Shelf {
  double width, height, air;

  /// Puts a detail in the first row that has room for it.
  bool join(Rows& rows, const Sized& s) const {
    const double left = height - rows_height(rows, air);
    for (Row& r : rows) {
      if (row_width(r, air) + air + s.width > width) continue;
      if (s.height - row_height(r) > left) continue;
      r.push_back(s);
      return true;
    }
    return false;
  }
  /// Puts a detail in a row of its own.
  bool open(Rows& rows, const Sized& s) const {
    if (!rows.empty() && rows_height(rows, air) + air + s.height > height) return false;
    rows.push_back({s});
    return true;
  }
  /// On the first of these sheets where a row has room, else where a row can be added.
  bool take(const std::vector<Rows*>& sheets, const Sized& s) const {
    const auto any = [&](auto put) { return std::any_of(sheets.begin(), sheets.end(), put); };
    return any([&](Rows* rows) { return join(*rows, s); }) ||
           any([&](Rows* rows) { return open(*rows, s); });
  }
};

std::vector<Rows*> all_of(std::vector<Rows>& sheets) {
  std::vector<Rows*> out;
  for (Rows& rows : sheets) out.push_back(&rows);
  return out;
}

/// Each detail on the first sheet that has room.
std::vector<Rows> first_fit(const Shelf& shelf, const std::vector<Sized>& list) {
  std::vector<Rows> sheets;
  for (const Sized& s : list)
    if (!shelf.take(all_of(sheets), s)) sheets.push_back({{s}});
  return sheets;
}

/// Each detail on the emptiest of n sheets that has room; no sheets where one finds none.
std::vector<Rows> even_fit(const Shelf& shelf, const std::vector<Sized>& list, std::size_t n) {
  std::vector<Rows> sheets(n);
  for (const Sized& s : list) {
    std::vector<Rows*> by_use = all_of(sheets);
    std::stable_sort(by_use.begin(), by_use.end(), [&](const Rows* a, const Rows* b) {
      return rows_height(*a, shelf.air) < rows_height(*b, shelf.air);
    });
    if (!shelf.take(by_use, s)) return {};
  }
  return sheets;
}

/// The list as it is, the highest first, the widest first.
std::vector<std::vector<Sized>> orders(const std::vector<Sized>& list) {
  std::vector<std::vector<Sized>> out(3, list);
  std::stable_sort(out[1].begin(), out[1].end(),
                   [](const Sized& a, const Sized& b) { return a.height > b.height; });
  std::stable_sort(out[2].begin(), out[2].end(),
                   [](const Sized& a, const Sized& b) { return a.width > b.width; });
  return out;
}

/// Sheets, rows and details in rows in the order of the list, which their letters follow.
void in_list_order(std::vector<Rows>& sheets) {
  const auto before = [](const Sized& a, const Sized& b) { return a.detail < b.detail; };
  for (Rows& rows : sheets) {
    for (Row& r : rows) std::sort(r.begin(), r.end(), before);
    std::sort(rows.begin(), rows.end(),
              [&](const Row& a, const Row& b) { return before(a.front(), b.front()); });
  }
  std::sort(sheets.begin(), sheets.end(), [&](const Rows& a, const Rows& b) {
    return before(a.front().front(), b.front().front());
  });
}

Shelf shelf_of(const SetInput& input) {
  const PaperBox room = room_of(input);
  return {room.width(), room.height(), 3 * input.style.gap};
}

/// In the order of the list unless another takes fewer sheets.
std::vector<Rows> arranged(const SetInput& input, const std::vector<Sized>& list) {
  std::vector<Rows> best = in_rows(input, list);
  for (const auto& order : orders(list)) {
    std::vector<Rows> sheets = first_fit(shelf_of(input), order);
    if (sheets.size() < best.size()) best = std::move(sheets);
  }
  return best;
}

double sheet_height(const Rows& rows) {
  double h = 0;
  for (const Row& r : rows) h += row_height(r);
  return h;
}

/// Hands last rows on to the next sheet as long as the fuller of the two gets emptier.
void balance(std::vector<Rows>& sheets) {
  for (std::size_t k = sheets.size(); k-- > 1;)
    while (sheets[k - 1].size() > 1) {
      const double row = row_height(sheets[k - 1].back());
      if (sheet_height(sheets[k]) + row >= sheet_height(sheets[k - 1])) break;
      sheets[k].insert(sheets[k].begin(), std::move(sheets[k - 1].back()));
      sheets[k - 1].pop_back();
    }
}

double emptiest(const std::vector<Rows>& sheets) {
  double least = sheets.empty() ? 0 : sheet_height(sheets.front());
  for (const Rows& rows : sheets) least = std::min(least, sheet_height(rows));
  return least;
}

/// Where a sheet stays more than half empty: another order, if that fills it better.
void even_out(const SetInput& input, const std::vector<Sized>& list, std::vector<Rows>& best) {
  const Shelf shelf = shelf_of(input);
  if (emptiest(best) > shelf.height / 2) return;
  for (const auto& order : orders(list)) {
    std::vector<Rows> sheets = even_fit(shelf, order, best.size());
    if (emptiest(sheets) > emptiest(best)) best = std::move(sheets);
  }
}

std::vector<Rows> packed_to(const SetInput& input, int finest) {
  const PaperBox room = room_of(input);
  std::vector<Sized> list = sized_details(input);
  std::vector<Rows> best = arranged(input, list);
  for (Sized& s : list)
    for (double finer : {0.4, 0.8}) {
      const Sized larger =
          sized(input, s.detail, drawn_as({input, finer, false, finest}, s.detail));
      if (larger.piece.ratio >= s.piece.ratio || larger.width > room.width() ||
          larger.height > room.height())
        continue;
      const Sized was = std::exchange(s, larger);
      std::vector<Rows> rows = arranged(input, list);
      if (rows.size() <= best.size()) {
        best = std::move(rows);
        break;
      }
      s = was;
    }
  balance(best);
  even_out(input, list, best);
  in_list_order(best);
  return best;
}

}  // namespace

std::vector<Rows> packed(const SetInput& input) {
  std::vector<Rows> best = packed_to(input, 2);
  // Full size only where a sheet would stay more than half empty without it.
  if (best.size() > 1 && emptiest(best) <= shelf_of(input).height / 2) {
    std::vector<Rows> larger = packed_to(input, 1);
    if (emptiest(larger) > emptiest(best)) best = std::move(larger);
  }
  return best;
}

}  // namespace deckquire::sheets
