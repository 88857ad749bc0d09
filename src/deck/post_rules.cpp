#include "deck/post_rules.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "base/text.h"
#include "deck/alike.h"
#include "deck/post_zones.h"
#include "deck/rail_line.h"
#include "deck/site.h"
#include "deck/spread.h"

namespace deckquire {
namespace {

/// What the rule works on: one side, or both in line.
struct Rail {
  const Project& project;
  const Bridge& bridge;
  const Division& division;
  Side side;                // whose posts are asked for
  std::vector<Side> sides;  // that must do with the same stations
  RailLine line;
  std::vector<Zone> joints;  // where no post may stand, by station
  Findings& findings;

  const PostsData& data() const { return *project.deck.posts; }
  bool reports() const { return side == sides.front(); }
  Length unit() const { return print_unit(project.units); }
};

Rail rail_of(const Project& project, const Bridge& bridge, const Division& division, Side side,
             Findings& findings) {
  const PostsData& data = *project.deck.posts;
  std::vector<Side> sides{side};
  if (data.in_line && data.sides == CurbSides::both) sides = {Side::left, Side::right};
  const Length from = division.pieces.front().start, to = division.pieces.back().end;
  return {project,
          bridge,
          division,
          side,
          sides,
          RailLine(bridge, sides, from, to, post_inset(project.deck.section.curb)),
          joint_zones(project, bridge, division, sides),
          findings};
}

/// Fewest equal parts of a pitch that are not longer than `greatest` along the rail.
std::int64_t parts(Length pitch, double stretch, Length greatest) {
  if (stretch == 1) {
    const std::int64_t g = greatest.in_nanometres();
    return (pitch.in_nanometres() + g - 1) / g;
  }
  return static_cast<std::int64_t>(std::ceil(pitch * stretch / greatest - 1e-9));
}

/// The virtual joint lines half a gap outside a panel's end faces, where they meet the rail.
Zone pitch_of(const Rail& r, const Division::Piece& p) {
  const JointsData& joints = r.project.deck.joints;
  const Length half = joints.gap / 2 / std::cos(joints.skew.in_si());
  Zone z{p.start - half, p.end + half};
  if (r.sides.size() > 1) return z;
  const auto joint = [&](int n) -> const Joint& {
    return r.division.joints[static_cast<std::size_t>(n)];
  };
  z.from += skew_shift(r.project, r.bridge, r.side, joint(p.joint_back));
  z.to += skew_shift(r.project, r.bridge, r.side, joint(p.joint_ahead));
  return z;
}

/// What an end joint between two spans is wider than the joints between panels: the bay over it
/// must not be too long either.
Length wider_gap(const Rail& r, const Division::Piece& p) {
  Length most;
  for (int n : {p.joint_back, p.joint_ahead}) {
    const Joint& j = r.division.joints[static_cast<std::size_t>(n)];
    if (j.back >= 0 && j.ahead >= 0)
      most = std::max(most, (j.gap - r.project.deck.joints.gap) / std::cos(j.skew));
  }
  return most;
}

std::vector<Length> half_bay_places(const Rail& r) {
  std::vector<Length> out;
  for (const Division::Piece& p : r.division.pieces) {
    if (p.row > 0) continue;
    const Zone z = pitch_of(r, p);
    const Length pitch = z.to - z.from;
    const double stretch = r.line.stretch(z.from, z.to);
    const Length most = *r.data().greatest - wider_gap(r, p) * stretch;
    if (most <= Length()) continue;  // a gap wider than any bay: what stays open is reported
    const std::int64_t k = parts(pitch, stretch, most);
    for (std::int64_t j = 0; j < k; ++j)
      out.push_back(z.from + pitch * (2 * j + 1) / static_cast<double>(2 * k));
  }
  return out;
}

/// Zones that reach into a stretch of stations.
std::vector<Zone> zones_in(const Rail& r, Length from, Length to) {
  const Length longest = metres(3);
  auto z = std::partition_point(r.joints.begin(), r.joints.end(), [&](const Zone& a) {
    return a.from < from - longest && a.to < from;
  });
  std::vector<Zone> out;
  for (; z != r.joints.end() && z->from < to; ++z)
    if (z->to > from) out.push_back(*z);
  return out;
}

/// The station nearest to `wish` that is clear of the joints, in whole units from it.
Length nearest_clear(const Rail& r, Length wish) {
  const Length around = metres(3);
  const std::int64_t unit = r.unit().in_nanometres();
  std::vector<Stretch> forbidden;
  for (const Zone& z : zones_in(r, wish - around, wish + around))
    forbidden.push_back({(z.from - wish).in_nanometres(), (z.to - wish).in_nanometres()});
  const std::int64_t reach = around.in_nanometres();
  const auto at = nearest_allowed(allowed_between({-reach, reach}, forbidden), 0);
  if (!at) return wish;
  // Away from the joint to the next whole unit.
  const std::int64_t steps = (std::abs(*at) + unit - 1) / unit;
  return wish + Length::from_nanometres(*at < 0 ? -steps * unit : steps * unit);
}

// ---- equal bays between fixed posts

/// From one fixed post, or the deck's end, to the next.
struct Run {
  double from, to;          // along the rail, mm
  bool post_from, post_to;  // a post stands there; else it is the virtual joint line of the end
};

/// Where `n` bays ask for posts: a post at an end of the run is not among them.
std::vector<double> equal_places(const Run& run, int n) {
  const double halves = run.post_from == run.post_to ? 0 : 0.5;
  const double bay = (run.to - run.from) / (n - halves);
  std::vector<double> out;
  for (double at = run.post_from ? bay : bay / 2; at < run.to - run.from - bay / 4; at += bay)
    out.push_back(run.from + at);
  return out;
}

std::optional<std::vector<Length>> settled(const Rail& r, const Run& run, int n) {
  const double unit = r.unit().in_mm();
  const auto whole = [&](double mm_) { return std::llround((mm_ - run.from) / unit); };
  Spreading t;
  for (double at : equal_places(run, n)) t.ideals.push_back(whole(at));
  if (t.ideals.empty()) return std::vector<Length>{};
  const Length from = r.line.station(run.from), to = r.line.station(run.to);
  // Where the rail is longer than the alignment, places are rounded once more on the way back.
  const double slack = r.line.stretch(from, to) == 1 ? 0 : unit;
  std::vector<Stretch> forbidden;
  for (const Zone& z : zones_in(r, from, to)) {
    const double low = r.line.distance(z.from) - run.from - slack / 2;
    const double high = r.line.distance(z.to) - run.from + slack / 2;
    forbidden.push_back({static_cast<std::int64_t>(std::floor(low / unit + 1e-6)),
                         static_cast<std::int64_t>(std::ceil(high / unit - 1e-6))});
  }
  t.allowed = allowed_between({0, whole(run.to)}, forbidden);
  t.greatest =
      static_cast<std::int64_t>(std::floor((r.data().greatest->in_mm() - slack) / unit + 1e-6));
  t.least = t.greatest / 4;
  t.reach = t.greatest;
  t.middle = whole((run.from + run.to) / 2);
  if (run.post_from) t.before = 0;
  if (run.post_to) t.after = whole(run.to);
  const auto found = spread_evenly(t);
  if (!found) return std::nullopt;
  std::vector<Length> out;
  const std::int64_t nm = r.unit().in_nanometres();
  for (std::int64_t at : *found) {
    const Length off = r.line.station(run.from + static_cast<double>(at) * unit) - from;
    out.push_back(from + r.unit() * ((off.in_nanometres() + nm / 2) / nm));
  }
  return out;
}

void report_no_place(const Rail& r, const Run& run) {
  if (!r.reports()) return;
  const auto printed = [&](double at) {
    return print_station(r.line.station(at), r.project.units);
  };
  r.findings.error(
      r.data().place, "post-no-place",
      fmt::format("between {} and {} no equal bays of at most {} keep the posts {} clear of the "
                  "joints",
                  printed(run.from), printed(run.to),
                  print_length(*r.data().greatest, r.project.units),
                  print_length(r.data().clear, r.project.units)),
      "bays=\"half\", a greater spacing, or another joint layout");
}

std::vector<Length> equal_bays(const Rail& r, const Run& run) {
  const double length = run.to - run.from, greatest = r.data().greatest->in_mm();
  const double halves = run.post_from == run.post_to ? 0 : 0.5;
  const int least = std::max(1, static_cast<int>(std::ceil(length / greatest + halves - 1e-9)));
  constexpr int more = 4;  // bays tried beyond the fewest
  for (int n = least; n < least + more; ++n)
    if (auto found = settled(r, run, n)) return *found;
  report_no_place(r, run);
  return {};
}

std::vector<Length> equal_bay_places(const Rail& r, const std::vector<Stand>& fixed) {
  const Zone first = pitch_of(r, r.division.pieces.front());
  const Zone last = pitch_of(r, r.division.pieces.back());
  Run run{r.line.distance(first.from), 0, false, true};
  std::vector<Length> out;
  const auto add = [&](double to) {
    run.to = to;
    if (run.to - run.from > 1)
      for (Length at : equal_bays(r, run)) out.push_back(at);
    run.from = to;
    run.post_from = true;
  };
  for (const Stand& f : fixed) add(r.line.distance(f.station));
  run.post_to = false;
  add(r.line.distance(last.to));
  return out;
}

// ---- constant spacing

Length first_station(const Rail& r) {
  const PostsData& data = r.data();
  if (data.first_given) return data.first;
  const Length origin = r.division.pieces.front().start;
  std::vector<Stretch> forbidden;
  for (std::size_t i = 0; i < r.joints.size(); ++i) {
    const Zone& z = r.joints[i];
    if (z.to - z.from > metres(100)) continue;  // the deck's ends do not turn the circle
    forbidden.push_back({(z.from - origin).in_nanometres(), (z.to - origin).in_nanometres()});
  }
  const std::int64_t spacing = data.spacing->in_nanometres();
  const std::int64_t wish = (data.first - origin).in_nanometres();
  const auto phase = nearest_phase(free_phases(forbidden, spacing), wish, spacing);
  if (!phase || *phase == wish) return data.first;
  return origin + Length::from_nanometres(*phase);
}

/// Each post moved within `freedom` clear of the joints, where that can be.
void give_way(const Rail& r, std::vector<Length>& places) {
  for (Length& at : places) {
    const Length clear = nearest_clear(r, at);
    if (abs(clear - at) <= r.data().freedom) at = clear;
  }
}

std::vector<Length> spaced_places(const Rail& r) {
  std::vector<Length> out;
  const Length last = r.division.pieces.back().end;
  for (Length s = first_station(r); s <= last; s += *r.data().spacing) out.push_back(s);
  if (r.data().freedom > Length()) give_way(r, out);
  return out;
}

// ---- the rest

/// Posts moved, within the freedom of the rule, to where a panel of the same length has one.
void make_alike(const Rail& r, std::vector<Length>& places) {
  const PostsData& data = r.data();
  if (data.freedom <= Length()) return;
  SeenPlaces seen;
  for (std::size_t i = 0; i < places.size(); ++i) {
    const Length at = places[i];
    const int n = owner(r.division, at, edge_offset(r.bridge, r.side, at));
    const auto& p = r.division.pieces[static_cast<std::size_t>(n)];
    const auto bay_fits = [&](Length x) {
      const Length here = p.start + x;
      // A joint that is skewed, or beside a taper, needs more room than in the panel seen before.
      for (const Zone& z : zones_in(r, here - mm(1), here + mm(1)))
        if (z.from < here && here < z.to) return false;
      if (!data.greatest) return true;
      const double most = data.greatest->in_mm() + 1e-6;
      return (i == 0 || r.line.length(places[i - 1], here) <= most) &&
             (i + 1 == places.size() || r.line.length(here, places[i + 1]) <= most);
    };
    const Length length = p.end - p.start;
    if (const auto x =
            seen.nearest(length, r.side, at - p.start, data.freedom, data.freedom, bay_fits))
      places[i] = p.start + *x;
    for (Side side : r.sides) seen.add(length, side, places[i] - p.start);
  }
}

/// Does the edge turn at this station?
bool turns(const Bridge& bridge, Side side, Length s) {
  const Length little = mm(10);
  const Length back = edge_offset(bridge, side, s, false) - edge_offset(bridge, side, s - little);
  const Length ahead = edge_offset(bridge, side, s + little, false) - edge_offset(bridge, side, s);
  return abs(ahead - back) > mm(0.01);
}

std::vector<Stand> fixed_posts(const Rail& r) {
  const PostsData& data = r.data();
  const Length first = r.division.pieces.front().start, last = r.division.pieces.back().end;
  std::vector<Stand> out;
  const auto add = [&](Length s) { out.push_back({s, PostOrigin::fixed, "", data.place}); };
  if (data.at_ends) {
    const bool one = r.sides.size() == 1;  // two in line cannot both follow a skewed end
    const auto shift = [&](const Joint& j) {
      return one ? skew_shift(r.project, r.bridge, r.side, j) : Length();
    };
    add(first + shift(r.division.joints.front()) + *data.at_ends);
    add(last + shift(r.division.joints.back()) - *data.at_ends);
  }
  if (data.at_breaks)
    for (Length s : r.bridge.edges.breaks())
      if (s > first && s < last && std::any_of(r.sides.begin(), r.sides.end(), [&](Side side) {
            return turns(r.bridge, side, s);
          }))
        add(nearest_clear(r, s));
  return out;
}

/// Those written out for the side asked for; `in_line`: for any of the sides in line.
std::vector<Stand> given_posts(const Rail& r, bool in_line) {
  std::vector<Stand> out;
  for (const PostData& p : r.data().posts) {
    const bool here = on_side(p.sides, r.side);
    const bool beside = in_line && std::any_of(r.sides.begin(), r.sides.end(),
                                               [&](Side s) { return on_side(p.sides, s); });
    if (!here && !beside) continue;
    std::string name = here ? p.name : "";
    if (!name.empty() && p.sides == CurbSides::both) name += r.side == Side::left ? "L" : "R";
    out.push_back({p.station, PostOrigin::given, name, p.place});
  }
  return out;
}

void sort_stands(std::vector<Stand>& stands) {
  std::stable_sort(stands.begin(), stands.end(),
                   [](const Stand& a, const Stand& b) { return a.station < b.station; });
}

/// Posts by the rule, and those that stand for themselves, each of them in the place of the nearest
/// one of the rule within its reach.
class Row {
 public:
  explicit Row(std::vector<Stand> by_rule)
      : by_rule_(std::move(by_rule)), gone_(by_rule_.size(), 0) {
    sort_stands(by_rule_);
  }

  void put(const Stand& post, Length reach) {
    std::optional<std::size_t> best;
    const auto off = [&](std::size_t i) { return abs(by_rule_[i].station - post.station); };
    const auto first = std::partition_point(by_rule_.begin(), by_rule_.end(), [&](const Stand& s) {
      return s.station < post.station - reach;
    });
    for (auto i = static_cast<std::size_t>(first - by_rule_.begin());
         i < by_rule_.size() && by_rule_[i].station <= post.station + reach; ++i)
      if (!gone_[i] && (!best || off(i) < off(*best))) best = i;
    if (best) gone_[*best] = 1;
    put_.push_back(post);
  }

  /// By station.
  std::vector<Stand> all() const {
    std::vector<Stand> out;
    for (std::size_t i = 0; i < by_rule_.size(); ++i)
      if (!gone_[i]) out.push_back(by_rule_[i]);
    out.insert(out.end(), put_.begin(), put_.end());
    sort_stands(out);
    return out;
  }

 private:
  std::vector<Stand> by_rule_, put_;
  std::vector<char> gone_;
};

void report_long_bays(const Rail& r, const std::vector<Stand>& stands) {
  const PostsData& data = r.data();
  if (!data.greatest) return;
  const double most = data.greatest->in_mm() + r.unit().in_mm() / 2;
  const RailLine own(r.bridge, {r.side}, r.division.pieces.front().start,
                     r.division.pieces.back().end, post_inset(r.project.deck.section.curb));
  std::size_t worst = 0;
  double longest = most;
  int count = 0;
  for (std::size_t i = 1; i < stands.size(); ++i) {
    const double bay = own.length(stands[i - 1].station, stands[i].station);
    if (bay <= most) continue;
    ++count;
    if (bay <= longest + 1e-6) continue;
    longest = bay;
    worst = i;
  }
  if (count == 0) return;
  const Stand &a = stands[worst - 1], &b = stands[worst];
  const UnitSystem units = r.project.units;
  const Place place = b.origin == PostOrigin::given ? b.place : a.place;
  r.findings.warning(
      place, "post-bay-long",
      fmt::format("the {} posts at {} and {} are {} apart, {} more than greatest{}",
                  r.side == Side::left ? "left" : "right", print_station(a.station, units),
                  print_station(b.station, units), print_length(mm(longest), units),
                  print_length(mm(longest) - *data.greatest, units),
                  count > 1 ? fmt::format(", and {} more like it", count - 1) : ""),
      "write a post between them, or move the one written out");
}

}  // namespace

std::vector<Stand> stands_of(const Project& project, const Bridge& bridge, const Division& division,
                             Side side, Findings& findings) {
  const PostsData& data = *project.deck.posts;
  const Rail r = rail_of(project, bridge, division, side, findings);
  const bool equal = data.greatest && data.bays == Bays::equal;
  std::vector<Stand> fixed = on_side(data.sides, side) ? fixed_posts(r) : std::vector<Stand>{};
  std::vector<Length> places;
  if (!on_side(data.sides, side)) {
    // only those written out
  } else if (equal) {
    for (const Stand& g : given_posts(r, true)) fixed.push_back(g);
    sort_stands(fixed);
    places = equal_bay_places(r, fixed);
  } else if (data.greatest) {
    places = half_bay_places(r);
  } else if (data.spacing) {
    places = spaced_places(r);
  }
  if (equal || data.spacing) make_alike(r, places);
  std::vector<Stand> by_rule;
  for (Length s : places) by_rule.push_back({s, PostOrigin::rule, "", data.place});
  Row row(std::move(by_rule));
  const Length bay = data.greatest ? *data.greatest : data.spacing.value_or(Length());
  // A fixed post displaces one of the rule only where there is no room for both plates.
  for (const Stand& f : fixed)
    row.put(f, f.origin == PostOrigin::fixed ? data.plate.length + mm(50) : Length());
  if (!equal || !on_side(data.sides, side))
    for (const Stand& g : given_posts(r, false)) row.put(g, bay / 2);
  std::vector<Stand> out = row.all();
  report_long_bays(r, out);
  return out;
}

}  // namespace deckquire
