#include "deck/panel_kinds.h"

#include <algorithm>
#include <array>
#include <cmath>

#include "deck/site.h"

namespace deckquire {

using optimum::Nm;

namespace {

// First number of a row: what it is. Things take ten and more, so that equal hatches share one.
enum Code {
  end_back,
  end_ahead,
  surface,
  edge,
  recess = 10,
  post,
  notch,
  scupper = 100,
  sleeve = 1000,
  hatch = 100000
};

template <class Data, class Same>
int first_alike(const std::vector<Data>& all, std::size_t i, Same same) {
  std::size_t k = 0;
  while (!same(all[k], all[i])) ++k;
  return static_cast<int>(k);
}

}  // namespace

PanelKinds::PanelKinds(const Project& project, const Bridge& bridge,
                       const std::vector<JointRules>& rules, bool moulds)
    : bridge_(bridge), rules_(rules), moulds_(moulds) {
  const double around = project.deck.section.recess_around.in_mm();
  for (const Splice& s : bridge.splices) {
    if (recess_depth(s, project.deck) <= 0) continue;
    const Box<BridgeFrame> b = s.plan.grown(around);
    add(b.low.x, b.high.x, b.low.y, b.high.y, recess);
  }
  for (const Obstruction& o : bridge.obstructions) {
    const Box<BridgeFrame> b = bounds(o.kept_free);
    add(b.low.x, b.high.x, b.low.y, b.high.y, notch);
  }
  add_fittings(project);
  std::stable_sort(things_.begin(), things_.end(),
                   [](const Thing& a, const Thing& b) { return a.from < b.from; });
}

void PanelKinds::add(double from, double to, double low, double high, int kind) {
  const auto whole = [](double v) { return mm(v).in_nanometres(); };
  things_.push_back({whole(from), whole(to), whole(low), whole(high), kind});
  longest_ = std::max(longest_, whole(to - from));
}

void PanelKinds::add_fittings(const Project& project) {
  const DeckData& d = project.deck;
  const auto at = [&](Length station, double y, int kind) {
    add(station.in_mm(), station.in_mm(), y, y, kind);
  };
  if (d.scuppers)
    for (const ScupperData& s : d.scuppers->scuppers) {
      const bool left = s.side != CurbSides::right;
      at(s.station,
         (left ? bridge_.edges.left(s.station) : -bridge_.edges.right(s.station)).in_mm(), scupper);
    }
  for (std::size_t i = 0; i < d.hatches.size(); ++i) {
    const auto same = [](const HatchData& a, const HatchData& b) {
      return a.length == b.length && a.width == b.width && a.rebate == b.rebate;
    };
    at(d.hatches[i].station, d.hatches[i].offset.in_mm(), hatch + first_alike(d.hatches, i, same));
  }
  for (std::size_t i = 0; i < d.sleeves.size(); ++i) {
    const auto same = [](const SleeveData& a, const SleeveData& b) {
      return a.diameter == b.diameter && a.wall == b.wall;
    };
    at(d.sleeves[i].station, d.sleeves[i].offset.in_mm(), sleeve + first_alike(d.sleeves, i, same));
  }
  if (!d.posts) return;
  const auto add_post = [&](Length station, CurbSides sides) {
    if (sides != CurbSides::right) at(station, bridge_.edges.left(station).in_mm(), post);
    if (sides != CurbSides::left) at(station, -bridge_.edges.right(station).in_mm(), post);
  };
  for (const PostData& p : d.posts->posts) add_post(p.station, p.sides);
  if (d.posts->spacing && d.posts->first_given && *d.posts->spacing > Length() && !rules_.empty())
    for (Length s = d.posts->first; s.in_nanometres() <= rules_.back().last; s += *d.posts->spacing)
      add_post(s, d.posts->sides);
}

PanelKinds::Signature PanelKinds::signature(Nm from, Nm to) const {
  Signature out;
  const Length a = Length::from_nanometres(from), b = Length::from_nanometres(to);
  const auto add_edge = [&](Length s, bool ahead) {
    out.push_back({edge, s.in_nanometres() - from, s.in_nanometres() - from,
                   -bridge_.edges.right(s, ahead).in_nanometres(),
                   bridge_.edges.left(s, ahead).in_nanometres()});
  };
  add_edge(a, true);
  for (Length s : bridge_.edges.breaks())
    if (s > a && s < b) add_edge(s, true);
  add_edge(b, false);
  Nm half = 0;
  for (const JointRules& r : rules_) {
    if (from < r.first || to > r.last) continue;
    half = r.gap() / 2;
    if (from == r.first) out.push_back({end_back, 0, 0, 0, 0});
    if (to == r.last) out.push_back({end_ahead, 0, 0, 0, 0});
    for (const JointStretch& s : r.stretches)
      if (s.from <= from && to <= s.to) out.push_back({surface, s.surface, s.surface, 0, 0});
  }
  const Nm back = from + half, ahead = to - half;  // the panel's own faces
  auto t = std::lower_bound(things_.begin(), things_.end(), back - longest_,
                            [](const Thing& x, Nm v) { return x.from < v; });
  for (; t != things_.end() && t->from < ahead; ++t)
    if (t->to > back)
      out.push_back({t->kind, std::max(t->from, back) - from, std::min(t->to, ahead) - from, t->low,
                     t->high});
  std::sort(out.begin(), out.end());
  return out;
}

int PanelKinds::number(Signature s) {
  return numbers_.try_emplace(std::move(s), static_cast<int>(numbers_.size())).first->second;
}

int PanelKinds::of(Nm from, Nm to) {
  const auto [at, fresh] = known_.try_emplace({from, to}, 0);
  if (!fresh) return at->second;
  const Signature here = signature(from, to);
  const Nm length = to - from;
  const auto changed = [&](bool turn, bool mirror) {
    Signature out = here;
    for (Row& r : out) {
      const bool swapped = turn != mirror;  // y changes sign
      if (turn && r[0] == end_back)
        r[0] = end_ahead;
      else if (turn && r[0] == end_ahead)
        r[0] = end_back;
      if (r[0] < edge) continue;
      if (turn) r = {r[0], length - r[2], length - r[1], r[3], r[4]};
      if (swapped) r = {r[0], r[1], r[2], -r[4], -r[3]};
    }
    std::sort(out.begin(), out.end());
    return out;
  };
  Signature least = std::min(here, changed(true, false));
  if (moulds_) least = std::min({least, changed(false, true), changed(true, true)});
  return at->second = number(std::move(least));
}

}  // namespace deckquire
