#include "paper/callout.h"

#include <algorithm>
#include <cmath>
#include <map>
#include <numeric>

#include "paper/leaders.h"

namespace deckquire::paper {

namespace {

constexpr double pill_air = 1.1;   // between the number and the pill's outline
constexpr double shoulder = 3;     // level run of a leader before its note
constexpr double note_air = 1.2;   // between shoulder and note
constexpr double dot_size = 1.25;  // five times a line of 0.25 (ISO 128-22)

void dot(Board& board, PaperPoint at) {
  Path p;
  p.circle(at, dot_size / 2);
  board.fill(Ink::black, p);
}

/// A box with fully rounded short ends or corners of radius r.
Path rounded(const PaperBox& b, double r) {
  const double k = r * 0.4477;  // 1 - 0.5523: handles of a quarter circle
  const auto [x0, y0] = b.low;
  const auto [x1, y1] = b.high;
  Path p;
  p.move({x0 + r, y0});
  p.line({x1 - r, y0});
  p.curve({x1 - k, y0}, {x1, y0 + k}, {x1, y0 + r});
  p.line({x1, y1 - r});
  p.curve({x1, y1 - k}, {x1 - k, y1}, {x1 - r, y1});
  p.line({x0 + r, y1});
  p.curve({x0 + k, y1}, {x0, y1 - k}, {x0, y1 - r});
  p.line({x0, y0 + r});
  p.curve({x0, y0 + k}, {x0 + k, y0}, {x0 + r, y0});
  p.close();
  return p;
}

double note_width(const Board& board, const std::string& text) {
  double w = 0;
  for (const std::string& s : split_lines(text)) {
    w = std::max(w, board.text_width(LetterUse::note, s));
  }
  return w;
}

double note_height(const Board& board, const std::string& text) {
  const auto n = static_cast<double>(split_lines(text).size());
  return board.text_height(LetterUse::note) + (n - 1) * board.pitch(LetterUse::note);
}

/// Lines of a note, the first one half way up its capitals at `at`.
void note(Board& board, PaperPoint at, const std::string& text, Align align) {
  for (const std::string& s : split_lines(text)) {
    board.masked_text(LetterUse::note, at, s, align, Stand::middle);
    at.y -= board.pitch(LetterUse::note);
  }
}

/// Extent of a callout's label along its column (height) or row (width), with air.
double label_size(const Board& board, const Callout& c, bool in_column) {
  if (c.text.empty()) {
    const PaperPoint size = pill_size(board, c.number);
    return (in_column ? size.y : size.x) + 1;
  }
  if (in_column) return note_height(board, c.text) + 0.8 * board.text_height(LetterUse::note);
  return note_width(board, c.text) + 3;
}

void leader(Board& board, const std::vector<PaperPoint>& points) {
  Path p;
  p.move(points.front());
  for (std::size_t i = 1; i < points.size(); ++i) p.line(points[i]);
  board.stroke(PenUse::dimension, p);
  dot(board, points.front());
}

/// The label of a callout beside a column at x; `side` +1: the column is right of the view.
void column_label(Board& board, const Callout& c, PaperPoint at, int side) {
  const Group group(board, "", "callout");
  if (c.text.empty()) {
    const double half = pill_size(board, c.number).x / 2;
    leader(board, {c.site, {at.x - side * half, at.y}});
    pill(board, at, c.number);
    return;
  }
  const double lines = static_cast<double>(split_lines(c.text).size());
  const double first = at.y + (lines - 1) * board.pitch(LetterUse::note) / 2;
  leader(board,
         {c.site, {at.x - side * (shoulder + note_air), first}, {at.x - side * note_air, first}});
  note(board, {at.x, first}, c.text, side > 0 ? Align::left : Align::right);
}

/// Under which name each callout's place is kept.
std::vector<std::string> kept_names(const Sheet& sheet, const std::vector<Callout>& list) {
  std::map<std::string, int> more;  // in this list
  std::vector<std::string> out;
  for (const Callout& c : list) {
    const std::string words = c.text.empty() ? c.number : c.text;
    int n = ++more[words];
    const auto name = [&] { return n == 1 ? words : words + " #" + std::to_string(n); };
    while (sheet.callouts.count(name()) > 0) ++n;
    more[words] = n;
    out.push_back(name());
  }
  return out;
}

bool leaders_cross(const std::vector<PaperPoint>& sites, const std::vector<double>& places, double x) {
  for (std::size_t i = 0; i < sites.size(); ++i)
    for (std::size_t j = 0; j < i; ++j)
      if (segments_cross(sites[i], {x, places[i]}, sites[j], {x, places[j]})) return true;
  return false;
}

/// Labels of a sheet that was issued stay where they were, in the same column; the others make room.
/// Not where labels would have to change places.
std::vector<double> kept_still(const Sheet& sheet, const std::vector<std::string>& names,
                               const std::vector<PaperPoint>& sites, const std::vector<double>& sizes,
                               const LabelColumn& column, double x, const std::vector<double>& places) {
  constexpr double same = 0.005;  // not seen, and lost in the register
  std::vector<double> wished = places;
  bool moved = false;
  for (std::size_t i = 0; i < places.size(); ++i) {
    const auto kept = sheet.kept_callouts.find(names[i]);
    if (kept == sheet.kept_callouts.end() || std::abs(kept->second.x - x) > 0.05) continue;
    wished[i] = kept->second.y;
    moved = moved || std::abs(wished[i] - places[i]) > same;
  }
  if (!moved) return places;
  std::vector<std::size_t> order(places.size());
  std::iota(order.begin(), order.end(), std::size_t{0});
  std::sort(order.begin(), order.end(), [&](auto a, auto b) { return places[a] < places[b]; });
  std::vector<double> ideals, ordered_sizes;
  for (std::size_t i : order) {
    if (!ideals.empty() && wished[i] < ideals.back()) return places;
    ideals.push_back(wished[i]);
    ordered_sizes.push_back(sizes[i]);
  }
  const std::vector<double> found = spread(ideals, ordered_sizes, column.low, column.high);
  std::vector<double> out(places.size());
  for (std::size_t k = 0; k < order.size(); ++k) out[order[k]] = found[k];
  return leaders_cross(sites, out, column.x) ? places : out;
}

void column(Board& board, double x, const CalloutColumns& columns, std::vector<Callout> list,
            int side) {
  if (list.empty()) return;
  std::vector<PaperPoint> sites;
  std::vector<double> sizes;
  for (const Callout& c : list) {
    sites.push_back(c.site);
    sizes.push_back(label_size(board, c, true));
  }
  const double reach =
      list.front().text.empty() ? pill_size(board, list.front().number).x / 2 : shoulder + note_air;
  const LabelColumn room{x - side * reach, columns.low, columns.high};
  const std::vector<std::string> names = kept_names(board.sheet(), list);
  const std::vector<double> places = kept_still(board.sheet(), names, sites, sizes, room, x,
                                                place_along(sites, sizes, room));
  for (std::size_t i = 0; i < list.size(); ++i) {
    column_label(board, list[i], {x, places[i]}, side);
    board.sheet().callouts[names[i]] = {x, places[i]};
  }
}

void row(Board& board, double y, const CalloutRows& rows, std::vector<Callout> list, int side) {
  if (list.empty()) return;
  // Rows are columns seen with x and y exchanged.
  std::vector<PaperPoint> sites;
  std::vector<double> sizes;
  for (const Callout& c : list) {
    sites.push_back({c.site.y, c.site.x});
    sizes.push_back(label_size(board, c, false));
  }
  const bool pills = list.front().text.empty();
  const double reach = pills ? pill_size(board, list.front().number).y / 2
                             : board.text_height(LetterUse::note) / 2 + note_air;
  const std::vector<double> places =
      place_along(sites, sizes, {y - side * reach, rows.low, rows.high});
  for (std::size_t i = 0; i < list.size(); ++i) {
    const Group group(board, "", "callout");
    leader(board, {list[i].site, {places[i], y - side * reach}});
    if (pills) {
      pill(board, {places[i], y}, list[i].number);
    } else {
      note(board, {places[i], y}, list[i].text, Align::centre);
    }
  }
}

/// Sorted by `across`, the first part on the low side. Returns how many.
template <class Across, class Along>
std::size_t split(const Board& board, std::vector<Callout>& list, bool in_column, Across across,
                  Along along, double low, double high) {
  std::stable_sort(list.begin(), list.end(), [&](const Callout& a, const Callout& b) {
    return across(a.site) < across(b.site);
  });
  std::vector<double> ideals, sizes;
  for (const Callout& c : list) {
    ideals.push_back(along(c.site));
    sizes.push_back(label_size(board, c, in_column));
  }
  return split_sides(ideals, sizes, low, high).count;
}

double px(PaperPoint p) {
  return p.x;
}
double py(PaperPoint p) {
  return p.y;
}

/// An upright bar: letter over sheet number, parted by a rule. Returns its box.
PaperBox reference_bar(Board& board, PaperPoint centre, const std::string& letter,
                       const std::string& sheet) {
  const double upper = board.text_height(LetterUse::heading);
  const double lower = board.text_height(LetterUse::callout);
  const double width = std::max(board.text_width(LetterUse::heading, letter),
                                board.text_width(LetterUse::callout, sheet)) +
                       2.4;
  PaperBox b{{centre.x - width / 2, centre.y}, {centre.x + width / 2, centre.y + upper + 2}};
  if (!sheet.empty()) b.low.y -= lower + 2;
  const Group group(board, "", "reference", sheet.empty() ? letter : letter + ", sheet " + sheet,
                    sheet);
  const Path outline = rounded(b, 1);
  board.fill(Ink::white, outline);
  board.stroke(PenUse::mark, outline);
  board.text(LetterUse::heading, {centre.x, centre.y + 1 + upper / 2}, letter, Align::centre,
             Stand::middle);
  if (sheet.empty()) return b;
  board.line(PenUse::mark, {b.low.x, centre.y}, {b.high.x, centre.y});
  board.text(LetterUse::callout, {centre.x, centre.y - 1 - lower / 2}, sheet, Align::centre,
             Stand::middle);
  return b;
}

PaperPoint unit(PaperPoint d) {
  const double n = std::hypot(d.x, d.y);
  return n > 0 ? d * (1 / n) : PaperPoint{1, 0};
}

/// Where a ray from the middle of a box leaves it.
PaperPoint box_exit(const PaperBox& b, PaperPoint towards) {
  const PaperPoint c = b.centre(), d = towards - c;
  const double kx = d.x == 0 ? 1e9 : b.width() / 2 / std::abs(d.x);
  const double ky = d.y == 0 ? 1e9 : b.height() / 2 / std::abs(d.y);
  return c + d * std::min({kx, ky, 1.0});
}

}  // namespace

PaperPoint pill_size(const Board& board, const std::string& number) {
  const double h = board.text_height(LetterUse::callout) + 2 * pill_air;
  // Upright while the number is short; a longer number widens it.
  const double w = board.text_width(LetterUse::callout, number) + 2 * pill_air;
  return {std::max(w, 0.8 * h), std::max(h, 1.25 * std::min(w, h))};
}

PaperBox pill(Board& board, PaperPoint at, const std::string& number) {
  const PaperPoint size = pill_size(board, number);
  const PaperBox b{{at.x - size.x / 2, at.y - size.y / 2}, {at.x + size.x / 2, at.y + size.y / 2}};
  const Path outline = rounded(b, std::min(size.x, size.y) / 2 * 0.8);
  board.fill(Ink::white, outline);
  board.stroke(PenUse::mark, outline);
  board.text(LetterUse::callout, at, number, Align::centre, Stand::middle);
  return b;
}

void callouts(Board& board, const CalloutColumns& columns, std::vector<Callout> list) {
  const std::size_t k = split(board, list, true, px, py, columns.low, columns.high);
  const auto middle = list.begin() + static_cast<std::ptrdiff_t>(k);
  column(board, columns.left, columns, {list.begin(), middle}, -1);
  column(board, columns.right, columns, {middle, list.end()}, +1);
}

void callout_column(Board& board, const CalloutColumns& columns, int side,
                    const std::vector<Callout>& list) {
  column(board, side < 0 ? columns.left : columns.right, columns, list, side);
}

double column_height(const Board& board, const std::vector<Callout>& list) {
  double height = 0;
  for (const Callout& c : list) height += label_size(board, c, true);
  return height;
}

void callouts(Board& board, const CalloutRows& rows, std::vector<Callout> list) {
  const std::size_t k = split(board, list, false, py, px, rows.low, rows.high);
  const auto middle = list.begin() + static_cast<std::ptrdiff_t>(k);
  row(board, rows.bottom, rows, {list.begin(), middle}, -1);
  row(board, rows.top, rows, {middle, list.end()}, +1);
}

void leader_note(Board& board, PaperPoint site, PaperPoint at, const std::string& text,
                 bool arrow_end) {
  const Group group(board, "", "note");
  const int side = at.x >= site.x ? 1 : -1;
  const PaperPoint knee{at.x - side * (shoulder + note_air), at.y};
  if (arrow_end) {
    arrow(board, PenUse::dimension, knee, site, 2.5);
  } else {
    board.line(PenUse::dimension, knee, site);
    dot(board, site);
  }
  board.line(PenUse::dimension, knee, {at.x - side * note_air, at.y});
  note(board, at, text, side > 0 ? Align::left : Align::right);
}

void section_mark(Board& board, PaperPoint a, PaperPoint b, PaperPoint sight,
                  const std::string& letter, const std::string& sheet, bool bar_at_a,
                  bool bar_at_b) {
  const PaperPoint along = unit(b - a), look = unit(sight);
  const double end = 8, reach = 7;
  for (const bool first : {true, false}) {
    const PaperPoint tip = first ? a : b, inward = first ? along : along * -1.0;
    board.line(PenUse::cut, tip, tip + inward * end);
    arrow(board, PenUse::mark, tip + inward * 2, tip + inward * 2 + look * reach, 3);
    const double half = std::abs(inward.x) > 0.5 ? 3.0 : 6.5;
    if (first ? bar_at_a : bar_at_b) reference_bar(board, tip - inward * half, letter, sheet);
  }
}

void detail_mark(Board& board, const PaperBox& spot, PaperPoint bar, const std::string& letter,
                 const std::string& sheet) {
  const Path ring = rounded(spot, std::min(spot.width(), spot.height()) / 2);
  board.stroke(PenUse::mark, ring);
  board.line(PenUse::dimension, box_exit(spot, bar), bar);
  reference_bar(board, bar, letter, sheet);
}

}  // namespace deckquire::paper
