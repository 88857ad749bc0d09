// Differences of what is in and on the panels. Features of which the same is to be said share a
// line.
#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "deck/comparing.h"

namespace deckquire {
namespace {

std::string plural(const std::string& word) {
  return word + (word.ends_with("h") || word.ends_with("ss") ? "es" : "s");
}

/// Something said of one or more features of a kind.
struct Remark {
  FeatureKind kind;
  std::vector<std::string> names;  // of those that have one
  int count = 0;
  std::string words;
  double amount = 0;
};

std::string subject(const Remark& r) {
  const std::string kind = feature_name(r.kind);
  const std::string counted = r.count == 1 ? kind : plural(kind);
  if (static_cast<int>(r.names.size()) == r.count) return counted + " " + join(r.names, ", ");
  return r.count == 1 ? kind : fmt::format("{} {}", r.count, counted);
}

class Remarks {
 public:
  void add(const Feature& f, const std::string& words, double amount = 0) {
    auto same = std::find_if(all_.begin(), all_.end(),
                             [&](const Remark& r) { return r.kind == f.kind && r.words == words; });
    if (same == all_.end()) same = all_.insert(all_.end(), Remark{f.kind, {}, 0, words, 0});
    ++same->count;
    same->amount = std::max(same->amount, std::abs(amount));
    const bool known =
        std::find(same->names.begin(), same->names.end(), f.source) != same->names.end();
    if (!f.source.empty() && !known) same->names.push_back(f.source);
  }
  const std::vector<Remark>& all() const { return all_; }

 private:
  std::vector<Remark> all_;
};

void compare_sizes(const Comparing& c, const Feature& a, const Feature& b, Remarks& out) {
  if (a.round != b.round)
    out.add(a, a.round ? "round instead of square" : "square instead of round");
  const bool both_round = a.round && b.round;
  if (c.differ(a.length, b.length))
    out.add(a,
            both_round ? "diameter " + c.instead(a.length, b.length)
                       : fmt::format("{} along", c.instead(a.length, b.length)),
            a.length - b.length);
  if (!both_round && c.differ(a.width, b.width))
    out.add(a, fmt::format("{} across", c.instead(a.width, b.width)), a.width - b.width);
  if (c.differ(a.depth, b.depth))
    out.add(a,
            fmt::format("{} {} ({})", c.print(std::abs(a.depth - b.depth)),
                        a.depth > b.depth ? "deeper" : "shallower", c.instead(a.depth, b.depth)),
            a.depth - b.depth);
}

void compare_angle(const Comparing& c, const Feature& a, const Feature& b, Remarks& out) {
  if (a.round || b.round) return;
  const double turn = std::remainder(a.angle - b.angle, pi);
  const double moved = turn * std::hypot(a.length, a.width) / 2;
  if (c.differ(moved, 0))
    out.add(a, fmt::format("turned by {}\u00b0 to the other", decimal(turn * 180 / pi, 2)), moved);
}

const char* variant_words(FeatureKind kind) {
  if (kind == FeatureKind::hatch) return "with another rebate, cover or bolts";
  return kind == FeatureKind::sleeve ? "with another wall" : "of another make";
}

void compare_pair(const Comparing& c, const FeaturePair& p, Remarks& out) {
  const Feature &a = *p.a, &b = *p.b;
  const PanelPoint there = a.at + p.move;
  if (c.differ(a.at, there))
    out.add(a, "at " + c.places(a.at, there), std::hypot(p.move.x, p.move.y));
  compare_sizes(c, a, b, out);
  compare_angle(c, a, b, out);
  if (a.variant != b.variant) out.add(a, variant_words(a.kind));
}

/// Those that only one of the two has: one line a kind, with their places.
struct Extras {
  FeatureKind kind;
  std::vector<std::string> places;
};

void add_extra(const Comparing& c, const Feature& f, PanelPoint at, std::vector<Extras>& out) {
  auto same =
      std::find_if(out.begin(), out.end(), [&](const Extras& e) { return e.kind == f.kind; });
  if (same == out.end()) same = out.insert(out.end(), Extras{f.kind, {}});
  same->places.push_back((f.source.empty() ? "" : f.source + " ") + "at " + c.place(at));
}

void say_extras(Comparing& c, const std::vector<Extras>& extras, const char* more) {
  for (const Extras& e : extras) {
    const std::string kind = feature_name(e.kind);
    const std::size_t n = e.places.size();
    c.say(kind, fmt::format("{} {} {}: {}", n == 1 ? "a" : std::to_string(n),
                            n == 1 ? kind : plural(kind), more, join(e.places, "; ")));
    c.list.back().things = static_cast<int>(n);
    c.list.back().follows = follows(e.kind);
  }
}

}  // namespace

void compare_features(Comparing& c) {
  std::vector<Extras> more, less;
  Remarks remarks;
  for (const FeaturePair& p : pair_features(c.a, c.b)) {
    if (!p.b)
      add_extra(c, *p.a, p.a->at, more);
    else if (!p.a)
      add_extra(c, *p.b, p.b->at - c.shift(), less);
    else
      compare_pair(c, p, remarks);
  }
  say_extras(c, more, "more");
  say_extras(c, less, "less");
  for (const Remark& r : remarks.all()) {
    c.say(feature_name(r.kind), subject(r) + " " + r.words, r.amount);
    c.list.back().things = r.count;
    c.list.back().follows = follows(r.kind);
  }
  std::stable_partition(c.list.begin(), c.list.end(),
                        [](const Difference& d) { return !d.follows; });
}

}  // namespace deckquire
