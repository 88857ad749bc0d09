// The index of the representatives: first by what must be equal (kinds and numbers of things), then
// by cells of the coordinates. Cells only choose whom to compare; same_type() decides.
#include "deck/typing.h"

#include <algorithm>
#include <cmath>
#include <map>

#include "deck/identity.h"

namespace deckquire {
namespace {

/// What is equal in shapes of one type, whatever the tolerance.
using Invariants = std::vector<int>;

/// Coordinates and sizes of a shape in an order that does not depend on the order of its parts:
/// each group sorted. Where two shapes can be paired off within the tolerance, so can their sorted
/// values: no value differs by more.
using Values = std::vector<double>;

void append_sizes(std::vector<int> sizes, Invariants& out) {
  std::sort(sizes.begin(), sizes.end());
  out.push_back(static_cast<int>(sizes.size()));
  out.insert(out.end(), sizes.begin(), sizes.end());
}

/// Features of one kind, form and variant.
using Group = std::vector<const Feature*>;

std::map<std::vector<int>, Group> groups_of(const PanelShape& s) {
  std::map<std::vector<int>, Group> groups;
  for (const Feature* f : features_of_type(s))
    groups[{static_cast<int>(f->kind), f->round ? 1 : 0, f->variant}].push_back(f);
  return groups;
}

Invariants invariants_of(const PanelShape& s) {
  Invariants out{static_cast<int>(s.fall),
                 static_cast<int>(s.back),
                 static_cast<int>(s.ahead),
                 s.surface,
                 s.left_joint ? 1 : 0,
                 s.right_joint ? 1 : 0,
                 static_cast<int>(s.outline.size())};
  for (Side side : {Side::left, Side::right}) {
    std::vector<int> sizes;
    for (const CurbRun& c : s.curbs)
      if (c.side == side) sizes.push_back(static_cast<int>(c.plan.size()));
    append_sizes(sizes, out);
  }
  std::vector<int> sizes;
  for (const auto& o : s.openings) sizes.push_back(static_cast<int>(o.size()));
  append_sizes(sizes, out);
  for (const auto& [kind, group] : groups_of(s)) {
    out.insert(out.end(), kind.begin(), kind.end());
    out.push_back(static_cast<int>(group.size()));
  }
  return out;
}

template <class Items, class Value>
void append_sorted(const Items& items, Value value, Values& out) {
  const auto from = static_cast<std::ptrdiff_t>(out.size());
  for (const auto& item : items) out.push_back(value(item));
  std::sort(out.begin() + from, out.end());
}

Values values_of(const PanelShape& s) {
  const PanelPoint low = bounds(s.outline).low;
  Values out{drawn_length(s), s.depth, s.fall == Fall::none ? 0 : s.high_line - low.y};
  append_sorted(
      s.outline, [&](PanelPoint p) { return p.x - low.x; }, out);
  append_sorted(
      s.outline, [&](PanelPoint p) { return p.y - low.y; }, out);
  for (const auto& [kind, group] : groups_of(s)) {
    append_sorted(
        group, [&](const Feature* f) { return f->at.x - low.x; }, out);
    append_sorted(
        group, [&](const Feature* f) { return f->at.y - low.y; }, out);
    append_sorted(
        group, [](const Feature* f) { return f->length; }, out);
    append_sorted(
        group, [](const Feature* f) { return f->width; }, out);
    append_sorted(
        group, [](const Feature* f) { return f->depth; }, out);
  }
  return out;
}

/// Vectors of values, found again by any vector within a reach of them in every value. A crowded
/// cell is parted along the value that varies most in it; its parts are at least four reaches wide,
/// so that a search enters two neighbours at most, and mostly one.
class Cells {
 public:
  explicit Cells(double reach) : reach_(reach) {}

  void add(int item, Values values) {
    const int n = static_cast<int>(all_.size());
    all_.push_back({item, std::move(values)});
    add(root_, n);
  }

  void find(const Values& values, std::vector<int>& found) const { find(root_, values, found); }

 private:
  struct Entry {
    int item;
    Values values;
  };
  struct Cell {
    std::vector<int> entries;  // until it is parted
    std::size_t axis = 0;
    double width = 0;  // of its parts; 0: not parted
    std::map<std::int64_t, Cell> parts;
  };

  std::int64_t part(const Cell& cell, double value) const {
    return static_cast<std::int64_t>(std::floor(value / cell.width));
  }
  const Values& values(int entry) const { return all_[static_cast<std::size_t>(entry)].values; }

  void add(Cell& cell, int entry) {
    Cell* at = &cell;
    while (at->width > 0) at = &at->parts[part(*at, values(entry)[at->axis])];
    at->entries.push_back(entry);
    constexpr std::size_t crowd = 16;
    if (at->entries.size() % crowd == 0) divide(*at);
  }

  void divide(Cell& cell) const {
    double widest = 0;
    for (std::size_t axis = 0; axis < values(cell.entries.front()).size(); ++axis) {
      const auto [low, high] =
          std::minmax_element(cell.entries.begin(), cell.entries.end(),
                              [&](int a, int b) { return values(a)[axis] < values(b)[axis]; });
      const double spread = values(*high)[axis] - values(*low)[axis];
      if (spread <= widest) continue;
      widest = spread;
      cell.axis = axis;
    }
    if (widest <= 4 * reach_) return;  // as near to each other as representatives can be
    cell.width = std::max(widest / 4, 4 * reach_);
    for (int entry : cell.entries)
      cell.parts[part(cell, values(entry)[cell.axis])].entries.push_back(entry);
    cell.entries.clear();
  }

  void find(const Cell& cell, const Values& wanted, std::vector<int>& found) const {
    for (int entry : cell.entries)
      if (std::equal(wanted.begin(), wanted.end(), values(entry).begin(),
                     [&](double a, double b) { return std::abs(a - b) <= reach_; }))
        found.push_back(all_[static_cast<std::size_t>(entry)].item);
    if (cell.width == 0) return;
    const double value = wanted[cell.axis];
    const auto last = cell.parts.upper_bound(part(cell, value + reach_));
    for (auto p = cell.parts.lower_bound(part(cell, value - reach_)); p != last; ++p)
      find(p->second, wanted, found);
  }

  double reach_;
  std::vector<Entry> all_;
  Cell root_;
};

}  // namespace

struct Typing::Index {
  explicit Index(Length tolerance) : reach(tolerance.in_mm() + 1e-5) {}

  void add(int mark, const PanelShape& shape) {
    cells.try_emplace(invariants_of(shape), reach).first->second.add(mark, values_of(shape));
  }
  std::vector<int> find(const PanelShape& shape) const {
    std::vector<int> found;
    const auto same = cells.find(invariants_of(shape));
    if (same != cells.end()) same->second.find(values_of(shape), found);
    return found;
  }

  double reach;  // a trifle more than same_type() allows, so that rounding loses nobody
  std::map<Invariants, Cells> cells;
};

Typing::Typing(Length tolerance)
    : tolerance_(tolerance), index_(std::make_unique<Index>(tolerance)) {}

Typing::~Typing() = default;

int Typing::first_fit(const PanelShape& shape, const PanelShape& turned, bool* is_turned) const {
  std::vector<std::pair<int, bool>> candidates;
  for (int mark : index_->find(shape)) candidates.push_back({mark, false});
  for (int mark : index_->find(turned)) candidates.push_back({mark, true});
  std::sort(candidates.begin(), candidates.end());
  for (const auto& [mark, as_turned] : candidates) {
    const PanelShape& representative = representatives_[static_cast<std::size_t>(mark)];
    if (!same_type(representative, as_turned ? turned : shape, tolerance_)) continue;
    if (is_turned) *is_turned = as_turned;
    return mark;
  }
  return -1;
}

Typing::Placed Typing::place(const PanelShape& shape) {
  Placed placed;
  const bool comparable = !shape.outline.empty();
  placed.mark = comparable ? first_fit(shape, half_turn(shape), &placed.turned) : -1;
  if (placed.mark >= 0) return placed;
  placed.mark = static_cast<int>(representatives_.size());
  placed.first = true;
  if (comparable) {
    const PanelShape image = mirror(shape);
    placed.opposite_of = first_fit(image, half_turn(image), nullptr);
    index_->add(placed.mark, shape);
  }
  representatives_.push_back(shape);
  return placed;
}

}  // namespace deckquire
