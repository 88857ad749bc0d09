#include "writers/extents.h"

#include <algorithm>
#include <cmath>

namespace deckquire::writers {

using namespace paper;

std::array<PaperPoint, 4> mask_corners(const Text& t) {
  const double air = 0.2 * t.height, c = std::cos(t.angle), s = std::sin(t.angle);
  auto at = [&](double along, double up) {
    return PaperPoint{t.at.x + along * c - up * s, t.at.y + along * s + up * c};
  };
  return {at(-air, -air), at(t.width + air, -air), at(t.width + air, t.height + air),
          at(-air, t.height + air)};
}

namespace {

class Gatherer {
 public:
  std::vector<GroupBox> groups;

  void operator()(const Stroke& s) { take(s.path.points); }
  void operator()(const Fill& f) { take(f.path.points); }
  void operator()(const Text& t) { take(mask_corners(t)); }
  void operator()(const GroupStart& g) {
    open_.push_back(groups.size());
    groups.push_back({g.id, g.target, {}, false});
  }
  void operator()(const GroupEnd&) {
    const GroupBox done = groups[open_.back()];
    open_.pop_back();
    if (!done.drawn || open_.empty()) return;
    widen(groups[open_.back()], done.box.low);
    widen(groups[open_.back()], done.box.high);
  }

 private:
  std::vector<std::size_t> open_;

  template <class Points>
  void take(const Points& points) {
    if (open_.empty()) return;
    for (PaperPoint p : points) widen(groups[open_.back()], p);
  }
  static void widen(GroupBox& g, PaperPoint p) {
    if (!g.drawn) g.box = {p, p};
    g.drawn = true;
    g.box.low = {std::min(g.box.low.x, p.x), std::min(g.box.low.y, p.y)};
    g.box.high = {std::max(g.box.high.x, p.x), std::max(g.box.high.y, p.y)};
  }
};

}  // namespace

std::vector<GroupBox> group_boxes(const Sheet& sheet) {
  Gatherer gather;
  for (const Item& item : sheet.items) std::visit(gather, item);
  return std::move(gather.groups);
}

}  // namespace deckquire::writers
