#include "deck/trials.h"

#include <algorithm>

namespace deckquire {
namespace {

template <class List>
void keep_within(List& list, Length from, Length to) {
  std::erase_if(list, [&](const auto& x) { return x.station < from || x.station > to; });
}

}  // namespace

/// The project with this span alone and what lies on it. Its end gaps stay where they are: of a
/// deck's only span they lie wholly inside it, so its ends move out by what the neighbours have.
const Project& Trials::alone(int span) {
  const auto [at, fresh] = alone_.try_emplace(span);
  Project& p = at->second;
  if (!fresh) return p;
  const SpanFrame& f = frames_[static_cast<std::size_t>(span)];
  SpanData s = project_.deck.spans[static_cast<std::size_t>(span)];
  const Length from = s.from, to = s.to;
  p.units = project_.units;
  p.bridge.alignment = project_.bridge.alignment;
  p.deck = project_.deck;
  p.conditions = project_.conditions;
  s.from = from + f.end_gap_back - f.whole_back;
  s.to = to - f.end_gap_ahead + f.whole_ahead;
  s.skew_from = Angle::si(f.skew_from);
  s.skew_to = Angle::si(f.skew_to);
  s.rule.reset();
  s.runs.clear();
  p.deck.spans = {s};
  p.bridge.alignment.from = std::min(p.bridge.alignment.from, s.from);
  p.bridge.alignment.to = std::max(p.bridge.alignment.to, s.to);
  keep_within(p.deck.hatches, from, to);
  keep_within(p.deck.sleeves, from, to);
  if (p.deck.scuppers) keep_within(p.deck.scuppers->scuppers, from, to);
  if (!p.deck.posts) return p;
  PostsData& posts = *p.deck.posts;
  keep_within(posts.posts, from, to);
  const bool inner = span > 0 && span + 1 < static_cast<int>(project_.deck.spans.size());
  if (inner) posts.at_ends.reset();  // they stand at the ends of the whole deck
  if (posts.spacing && *posts.spacing > Length())
    while (posts.first < from) posts.first += *posts.spacing;
  return p;
}

Tried Trials::build(int span, const std::vector<Length>& panels) {
  Tried out;
  Project p = alone(span);
  for (Length l : panels) p.deck.spans[0].runs.push_back({l, 1, {}});
  Findings findings;
  Division d = divide(p, bridge_, findings);
  if (!d.pieces.empty()) place_fittings(p, bridge_, d, findings);
  for (std::size_t i = 0; i < d.pieces.size() && !findings.has_errors(); ++i) {
    const PanelShape shape = shape_panel(p, bridge_, d, static_cast<int>(i), findings);
    if (!shape.has_room()) return out;  // an error of the deck
    ++shaped_;
    const Typing::Placed placed = typing_.place(shape);
    if (placed.first) {
      const bool hand = placed.opposite_of >= 0;
      moulds_.push_back(hand ? moulds_[static_cast<std::size_t>(placed.opposite_of)] : placed.mark);
      masses_.push_back(weigh(shape, project_.deck).total);
    }
    const Mass mass = masses_[static_cast<std::size_t>(placed.mark)];
    out.types.push_back(placed.mark);
    out.total += mass;
    out.heaviest = std::max(out.heaviest, mass);
    ++out.panels;
  }
  std::sort(out.types.begin(), out.types.end());
  out.types.erase(std::unique(out.types.begin(), out.types.end()), out.types.end());
  out.good = !d.pieces.empty() && !findings.has_errors();
  return out;
}

const Tried& Trials::of(int span, const std::vector<Length>& panels) {
  const auto key = std::pair(span, panels);
  const auto at = known_.find(key);
  if (at != known_.end()) return at->second;
  return known_.emplace(key, build(span, panels)).first->second;
}

}  // namespace deckquire
