#include "paper/sheet_difference.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <cstdint>
#include <map>

#include "base/text.h"
#include "paper/layer.h"

namespace deckquire::paper {
namespace {

/// Which items are compared, one an item: groups only for the text.
std::vector<bool> compared(const Sheet& sheet) {
  const SheetLayers layers = layers_of(sheet);
  std::vector<bool> out(sheet.items.size());
  int depth = 0, named = 0;  // depth at which a group that names the revision was opened
  for (std::size_t i = 0; i < sheet.items.size(); ++i) {
    const auto* start = std::get_if<GroupStart>(&sheet.items[i]);
    const bool end = std::holds_alternative<GroupEnd>(sheet.items[i]);
    if (start) ++depth;
    if (start && named == 0 && start->kind == revision_group) named = depth;
    out[i] = named == 0 && layers.of[i] != Layer::revisions;
    if (!end) continue;
    if (named == depth) named = 0;
    --depth;
  }
  return out;
}

std::int64_t hundredths(double v) {
  return std::llround(v * 100);
}

/// A straight piece or a curve, rounded, in the direction that compares lower.
using Piece = std::array<std::int64_t, 9>;  // pen, then up to four points

/// A level or upright line: pen, 0 level or 1 upright, where it lies.
using Track = std::array<std::int64_t, 3>;
using Stretch = std::pair<std::int64_t, std::int64_t>;

/// The drawn things of a sheet by what makes two of them the same.
struct Parts {
  std::map<Piece, std::vector<Item>> pieces;
  std::map<Track, std::vector<Stretch>> tracks;
  std::map<Track, PenIndex> pens;
  std::map<std::string, std::vector<Item>> others;  // texts and fills
};

class Taker {
 public:
  explicit Taker(std::map<std::string, std::int64_t>& pens) : pens_(pens) {}

  Parts take(const Sheet& sheet) {
    Sheet one;  // one item at a time, so that dump() says what it is
    one.pens = sheet.pens;
    const std::vector<bool> counts = compared(sheet);
    for (const Pen& pen : sheet.pens) {
      Sheet alone;
      alone.pens = {pen};
      ids_.push_back(
          pens_.emplace(dump(alone), static_cast<std::int64_t>(pens_.size())).first->second);
    }
    one.pens.clear();
    for (std::size_t i = 0; i < sheet.items.size(); ++i) {
      if (!counts[i]) continue;
      const Item& item = sheet.items[i];
      if (const auto* stroke = std::get_if<Stroke>(&item)) {
        take(*stroke);
      } else if (std::holds_alternative<Text>(item) || std::holds_alternative<Fill>(item)) {
        one.items = {item};
        parts_.others[dump(one)].push_back(item);
      }
    }
    for (auto& [track, list] : parts_.tracks) list = united(std::move(list));
    return std::move(parts_);
  }

  static std::vector<Stretch> united(std::vector<Stretch> list) {
    std::sort(list.begin(), list.end());
    std::vector<Stretch> out;
    for (const Stretch& s : list)
      if (!out.empty() && s.first <= out.back().second)
        out.back().second = std::max(out.back().second, s.second);
      else
        out.push_back(s);
    return out;
  }

 private:
  std::map<std::string, std::int64_t>& pens_;
  std::vector<std::int64_t> ids_;  // of the sheet's pens
  Parts parts_;

  void take(const Stroke& stroke) {
    PaperPoint start, last;
    std::size_t at = 0;
    for (Op op : stroke.path.ops) {
      const PaperPoint* p = stroke.path.points.data() + at;
      if (op == Op::move) {
        start = last = p[0], at += 1;
      } else if (op == Op::line) {
        straight(stroke.pen, last, p[0]);
        last = p[0], at += 1;
      } else if (op == Op::close) {
        straight(stroke.pen, last, start);
        last = start;
      } else {
        curve(stroke.pen, {last, p[0], p[1], p[2]});
        last = p[2], at += 3;
      }
    }
  }

  void straight(PenIndex pen, PaperPoint a, PaperPoint b) {
    const std::int64_t ax = hundredths(a.x), ay = hundredths(a.y);
    const std::int64_t bx = hundredths(b.x), by = hundredths(b.y);
    if (ax != bx && ay != by) {
      const bool turn = std::pair(bx, by) < std::pair(ax, ay);
      Piece key{ids_[pen], ax, ay, bx, by, 0, 0, 0, 0};
      if (turn) key = {ids_[pen], bx, by, ax, ay, 0, 0, 0, 0};
      Stroke piece{pen, {}};
      piece.path.segment(a, b);
      parts_.pieces[key].push_back(piece);
      return;
    }
    const bool upright = ax == bx;
    const Track track{ids_[pen], upright, upright ? ax : ay};
    const auto [low, high] = upright ? std::minmax(ay, by) : std::minmax(ax, bx);
    parts_.tracks[track].push_back({low, high});
    parts_.pens[track] = pen;
  }

  void curve(PenIndex pen, std::array<PaperPoint, 4> p) {
    Piece key{ids_[pen]}, back{ids_[pen]};
    for (std::size_t i = 0; i < 4; ++i) {
      key[1 + 2 * i] = back[7 - 2 * i] = hundredths(p[i].x);
      key[2 + 2 * i] = back[8 - 2 * i] = hundredths(p[i].y);
    }
    Stroke piece{pen, {}};
    piece.path.move(p[0]);
    piece.path.curve(p[1], p[2], p[3]);
    parts_.pieces[std::min(key, back)].push_back(piece);
  }
};

/// As often as both have it, the rest to those that have more.
template <class Key>
void share(const std::map<Key, std::vector<Item>>& before,
           const std::map<Key, std::vector<Item>>& now, SheetDifference& out) {
  for (const auto& [key, items] : now) {
    const auto found = before.find(key);
    const std::size_t both = found == before.end() ? 0 : found->second.size();
    for (std::size_t i = 0; i < items.size(); ++i)
      (i < both ? out.same : out.come).push_back(items[i]);
  }
  for (const auto& [key, items] : before) {
    const auto found = now.find(key);
    const std::size_t both = found == now.end() ? 0 : found->second.size();
    for (std::size_t i = both; i < items.size(); ++i) out.gone.push_back(items[i]);
  }
}

Item line(const Track& track, PenIndex pen, Stretch s) {
  const auto point = [&](std::int64_t along) {
    const double a = static_cast<double>(along) / 100, c = static_cast<double>(track[2]) / 100;
    return track[1] != 0 ? PaperPoint{c, a} : PaperPoint{a, c};
  };
  Stroke stroke{pen, {}};
  stroke.path.segment(point(s.first), point(s.second));
  return stroke;
}

/// What two sets of stretches share, and what only the first has; both in order and apart.
struct Overlay {
  std::vector<Stretch> shared, rest;
};
Overlay overlay(const std::vector<Stretch>& a, const std::vector<Stretch>& b) {
  Overlay out;
  for (const Stretch& s : a) {
    std::int64_t from = s.first;
    auto t = std::lower_bound(b.begin(), b.end(), s.first,
                              [](const Stretch& u, std::int64_t v) { return u.second < v; });
    for (; t != b.end() && t->first < s.second; ++t) {
      if (t->first > from) out.rest.push_back({from, t->first});
      const Stretch met{std::max(s.first, t->first), std::min(s.second, t->second)};
      if (met.first < met.second) out.shared.push_back(met);
      from = std::max(from, t->second);
    }
    if (from < s.second) out.rest.push_back({from, s.second});
  }
  return out;
}

const std::vector<Stretch>& at(const std::map<Track, std::vector<Stretch>>& tracks,
                               const Track& track) {
  static const std::vector<Stretch> none;
  const auto found = tracks.find(track);
  return found == tracks.end() ? none : found->second;
}

PaperBox joined(const PaperBox& a, const PaperBox& b) {
  return {{std::min(a.low.x, b.low.x), std::min(a.low.y, b.low.y)},
          {std::max(a.high.x, b.high.x), std::max(a.high.y, b.high.y)}};
}

constexpr double reach = 6;  // mm; spots nearer than this are one

double extent(const PaperBox& b) {
  return (b.width() + reach) * (b.height() + reach);  // of a line too
}

/// Sets of boxes that hang together over gaps smaller than the reach.
class Clusters {
 public:
  explicit Clusters(const std::vector<PaperBox>& boxes) : boxes_(boxes), parent_(boxes.size()) {
    for (std::size_t i = 0; i < parent_.size(); ++i) parent_[i] = i;
    std::vector<std::size_t> order(parent_);
    std::sort(order.begin(), order.end(),
              [&](std::size_t a, std::size_t b) { return boxes[a].low.x < boxes[b].low.x; });
    for (std::size_t i = 0; i < order.size(); ++i)
      for (std::size_t k = i + 1; k < order.size(); ++k) {
        const PaperBox &a = boxes[order[i]], &b = boxes[order[k]];
        if (b.low.x > a.high.x + reach) break;
        if (a.grown(reach / 2).overlaps(b.grown(reach / 2)))
          parent_[root(order[i])] = root(order[k]);
      }
  }
  std::vector<std::vector<PaperBox>> sets() {
    std::map<std::size_t, std::vector<PaperBox>> out;
    for (std::size_t i = 0; i < parent_.size(); ++i) out[root(i)].push_back(boxes_[i]);
    std::vector<std::vector<PaperBox>> list;
    for (auto& [r, set] : out) list.push_back(std::move(set));
    return list;
  }

 private:
  const std::vector<PaperBox>& boxes_;
  std::vector<std::size_t> parent_;
  std::size_t root(std::size_t i) {
    while (parent_[i] != i) i = parent_[i] = parent_[parent_[i]];
    return i;
  }
};

/// One box around all, or two sets of boxes where a straight cut between them saves a third.
void part(std::vector<PaperBox> set, std::vector<PaperBox>& out) {
  PaperBox whole = set.front();
  for (const PaperBox& b : set) whole = joined(whole, b);
  double least = extent(whole) * 2 / 3;
  std::size_t best = 0;
  std::vector<PaperBox> parted;
  for (bool upright : {false, true}) {
    std::sort(set.begin(), set.end(), [&](const PaperBox& a, const PaperBox& b) {
      return upright ? a.centre().y < b.centre().y : a.centre().x < b.centre().x;
    });
    std::vector<PaperBox> after(set);
    for (std::size_t i = set.size() - 1; i-- > 0;) after[i] = joined(after[i], after[i + 1]);
    PaperBox before = set.front();
    for (std::size_t i = 1; i < set.size(); ++i) {
      const double sum = extent(before) + extent(after[i]);
      if (sum < least) least = sum, best = i, parted = set;
      before = joined(before, set[i]);
    }
  }
  if (best == 0) return out.push_back(whole);
  const auto middle = parted.begin() + static_cast<std::ptrdiff_t>(best);
  part({parted.begin(), middle}, out);
  part({middle, parted.end()}, out);
}

}  // namespace

std::string compared_text(const Sheet& sheet) {
  Sheet copy = sheet;
  copy.revision.clear();
  copy.items.clear();
  const std::vector<bool> counts = compared(sheet);
  for (std::size_t i = 0; i < sheet.items.size(); ++i)
    if (counts[i]) copy.items.push_back(sheet.items[i]);
  return dump(copy);
}

SheetDifference difference(const Sheet& before, const Sheet& now) {
  std::map<std::string, std::int64_t> pens;
  const Parts old = Taker(pens).take(before), fresh = Taker(pens).take(now);
  SheetDifference out;
  share(old.pieces, fresh.pieces, out);
  share(old.others, fresh.others, out);
  for (const auto& [track, list] : fresh.tracks) {
    const PenIndex pen = fresh.pens.at(track);
    const Overlay over = overlay(list, at(old.tracks, track));
    for (Stretch s : over.shared) out.same.push_back(line(track, pen, s));
    for (Stretch s : over.rest) out.come.push_back(line(track, pen, s));
  }
  for (const auto& [track, list] : old.tracks)
    for (Stretch s : overlay(list, at(fresh.tracks, track)).rest)
      out.gone.push_back(line(track, old.pens.at(track), s));
  return out;
}

PaperBox box_of(const Item& item) {
  if (const auto* s = std::get_if<Stroke>(&item)) return bounds(s->path);
  if (const auto* f = std::get_if<Fill>(&item)) return bounds(f->path);
  if (const auto* t = std::get_if<Text>(&item)) return text_box(*t);
  return {};
}

std::vector<PaperBox> changed_spots(const Sheet& before, const Sheet& now) {
  const SheetDifference d = difference(before, now);
  std::vector<PaperBox> boxes;
  for (const std::vector<Item>* list : {&d.gone, &d.come})
    for (const Item& item : *list) boxes.push_back(box_of(item));
  std::vector<PaperBox> out;
  for (std::vector<PaperBox>& set : Clusters(boxes).sets()) part(std::move(set), out);
  std::sort(out.begin(), out.end(), [](const PaperBox& a, const PaperBox& b) {
    return std::pair(-a.high.y, a.low.x) < std::pair(-b.high.y, b.low.x);
  });
  return out;
}

}  // namespace deckquire::paper
