#include "deck/merging.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <set>
#include <tuple>

#include "deck/differences.h"
#include "deck/typing.h"

namespace deckquire {
namespace {

bool is_opening(FeatureKind k) {
  return k == FeatureKind::hatch || k == FeatureKind::sleeve;
}
bool movable(FeatureKind k) {
  return k == FeatureKind::post_plate || k == FeatureKind::scupper || is_opening(k);
}

/// What is left of a shape when all that may move, or follows what moves, is taken away.
PanelShape fixed_part(PanelShape s) {
  std::erase_if(s.features, [](const Feature& f) {
    return movable(f.kind) || f.kind == FeatureKind::hold_down ||
           f.kind == FeatureKind::lifting_insert;
  });
  s.openings.clear();
  return s;
}

const Mark& mark(const Deck& deck, int index) {
  return deck.marks[static_cast<std::size_t>(index)];
}

/// Marks of one fixed part. A mark beside it lies turned to the first of its group or not.
std::vector<std::vector<int>> groups_of(const Deck& deck, Length tolerance) {
  Typing typing(tolerance);
  std::vector<std::vector<int>> groups;
  for (std::size_t i = 0; i < deck.marks.size(); ++i) {
    const auto group = static_cast<std::size_t>(typing.place(fixed_part(deck.marks[i].shape)).mark);
    if (group == groups.size()) groups.emplace_back();
    groups[group].push_back(static_cast<int>(i));
  }
  return groups;
}

/// A feature of a mark's drawing and how far it has to move in that drawing.
struct DrawnMove {
  const Feature* feature;
  PanelPoint by;
};

/// Nothing where other things differ than places that may change.
std::optional<std::vector<DrawnMove>> moves_between(const PanelShape& from, const PanelShape& into,
                                                    double tolerance) {
  std::vector<DrawnMove> moves;
  const auto differ = [&](double a, double b) { return std::abs(a - b) > tolerance + 1e-6; };
  for (const FeaturePair& p : pair_features(from, into)) {
    const FeatureKind kind = p.a ? p.a->kind : p.b->kind;
    if (!movable(kind)) continue;  // fixed ones are the same already, or follow
    if (!p.a || !p.b || p.a->variant != p.b->variant || p.a->round != p.b->round ||
        differ(p.a->length, p.b->length) || differ(p.a->width, p.b->width) ||
        differ(p.a->depth, p.b->depth))
      return std::nullopt;
    const bool across = differ(p.move.y, 0);
    if (across && !is_opening(kind))
      return std::nullopt;  // posts stand in the curb, scuppers by it
    if (!across && !differ(p.move.x, 0)) continue;
    const double limit = is_opening(kind) ? furthest_move_of_openings : furthest_move;
    if (std::hypot(p.move.x, p.move.y) > limit) return std::nullopt;
    moves.push_back({p.a, {p.move.x, is_opening(kind) ? p.move.y : 0}});
  }
  return moves;
}

/// The feature of one panel, laid as its mark is drawn, that answers to one of the drawing; the
/// panel may lie in another row, its frame elsewhere.
const Feature& answering(const PanelShape& laid, const PanelShape& drawing, const Feature& f) {
  const PanelPoint at = f.at + bounds(laid.outline).low - bounds(drawing.outline).low;
  const auto distance = [&](const Feature& g) {
    return g.kind == f.kind ? std::hypot(g.at.x - at.x, g.at.y - at.y) : 1e300;
  };
  return *std::min_element(
      laid.features.begin(), laid.features.end(),
      [&](const Feature& g, const Feature& h) { return distance(g) < distance(h); });
}

/// A move in a panel's own frame, seen on the bridge.
PanelPoint on_bridge(const Merging& here, const Panel& panel, PanelPoint at, PanelPoint by) {
  if (panel.frame.straight) return by;
  const Alignment& alignment = here.bridge.alignment;
  const BridgePoint p = panel.frame.bridge(alignment, at);
  const BridgePoint q = panel.frame.bridge(alignment, at + by);
  return {q.x - p.x, q.y - p.y};
}

/// The moves of a drawing, made in every panel of its mark; in a turned one they go the other way.
std::vector<FittingMove> in_place(const Merging& here, int index,
                                  const std::vector<DrawnMove>& moves) {
  const Mark& drawn = mark(here.deck, index);
  std::vector<FittingMove> out;
  for (int position : drawn.positions) {
    const Panel& panel = here.deck.panels[static_cast<std::size_t>(position)];
    const PanelShape laid = panel.turned ? half_turn(panel.shape) : panel.shape;
    for (const DrawnMove& m : moves) {
      const Feature& f = answering(laid, drawn.shape, *m.feature);
      const PanelPoint at = panel.turned ? PanelPoint{laid.length - f.at.x, -f.at.y} : f.at;
      const PanelPoint by = on_bridge(here, panel, at, m.by * (panel.turned ? -1 : 1));
      out.push_back({f.kind, f.source, by.x, is_opening(f.kind) ? by.y : 0});
    }
  }
  return out;
}

/// What a rule placed with a freedom of its own goes no farther, scuppers upstream only.
bool within_freedom(const Merging& here, const FittingMove& m) {
  const DeckData& data = here.project.deck;
  constexpr double rounding = 1e-3;
  const auto written = [&](const auto& all, Length station) {
    return std::any_of(all.begin(), all.end(),
                       [&](const auto& d) { return abs(d.station - station) < mm(rounding); });
  };
  const auto named = [&](const auto& all) {
    return std::find_if(all.begin(), all.end(), [&](const auto& d) { return d.name == m.name; });
  };
  if (m.kind == FeatureKind::post_plate) {
    const auto freedom = post_freedom(here.project);
    const auto post = named(here.deck.posts);
    if (!freedom || post == here.deck.posts.end() || written(data.posts->posts, post->station))
      return true;
    return std::abs(m.ahead) <= *freedom + rounding;
  }
  if (m.kind == FeatureKind::scupper) {
    const auto freedom = scupper_freedom(here.project);
    const auto scupper = named(here.deck.scuppers);
    if (!freedom || scupper == here.deck.scuppers.end() ||
        written(data.scuppers->scuppers, scupper->station))
      return true;
    return std::abs(m.ahead) <= *freedom + rounding && m.ahead * scupper->grade >= 0;
  }
  return true;
}

double furthest_of(const std::vector<FittingMove>& moves) {
  double out = 0;
  for (const FittingMove& m : moves) out = std::max(out, std::hypot(m.ahead, m.left));
  return out;
}

std::optional<Merger> candidate(const Merging& here, int from, int into) {
  const Deck& deck = here.deck;
  const Length tolerance = here.project.deck.marks.tolerance;
  const PanelShape &a = mark(deck, from).shape, &b = mark(deck, into).shape;
  std::optional<Merger> best;
  for (bool turned : {false, true}) {
    const PanelShape laid = turned ? half_turn(b) : b;
    if (!same_type(fixed_part(a), fixed_part(laid), tolerance)) continue;
    const auto moves = moves_between(a, laid, tolerance.in_mm());
    if (!moves || moves->empty()) continue;
    Merger m{from, into, in_place(here, from, *moves), 0, 0};
    if (!std::all_of(m.moves.begin(), m.moves.end(),
                     [&](const FittingMove& f) { return within_freedom(here, f); }))
      continue;
    m.furthest = furthest_of(m.moves);
    if (!best || m.furthest < best->furthest - 0.01) best = std::move(m);
  }
  return best;
}

std::vector<Merger> candidates(const Merging& here, std::optional<int> only) {
  std::vector<Merger> all;
  for (const auto& group : groups_of(here.deck, here.project.deck.marks.tolerance))
    for (int from : group)
      for (int into : group) {
        if (from == into || (only && from != *only && into != *only)) continue;
        if (auto m = candidate(here, from, into)) all.push_back(std::move(*m));
      }
  std::sort(all.begin(), all.end(), [](const Merger& p, const Merger& q) {
    const auto key = [](const Merger& m) {
      // Of two equal ways the later mark joins the earlier.
      return std::tuple(std::llround(m.furthest * 100), m.moves.size(), m.from < m.into, m.from,
                        m.into);
    };
    return key(p) < key(q);
  });
  return all;
}

/// True where the rebuilt deck has fewer marks and all panels of the two are one.
bool merged(const Deck& before, const Deck& after, const Merger& m) {
  if (after.marks.size() >= before.marks.size() || after.panels.size() != before.panels.size())
    return false;
  std::set<int> marks;
  for (int index : {m.from, m.into})
    for (int p : mark(before, index).positions)
      marks.insert(after.panels[static_cast<std::size_t>(p)].mark);
  return marks.size() == 1;
}

CurbSides only_side(Side side) {
  return side == Side::left ? CurbSides::left : CurbSides::right;
}

Length moved(Length station, FeatureKind kind, const std::string& name,
             const std::vector<FittingMove>& moves) {
  for (const FittingMove& m : moves)
    if (m.kind == kind && m.name == name) station += mm(m.ahead);
  return station;
}

void move_posts(const Deck& deck, const std::vector<FittingMove>& moves, PostsData& posts) {
  const Place place = posts.place;
  posts.greatest = posts.spacing = posts.at_ends = std::nullopt;
  posts.at_breaks = false;
  posts.posts.clear();
  for (const Post& p : deck.posts)
    posts.posts.push_back({p.name, moved(p.station, FeatureKind::post_plate, p.name, moves),
                           only_side(p.side), place});
}

void move_scuppers(const Deck& deck, const std::vector<FittingMove>& moves, ScuppersData& data) {
  data.spacing = std::nullopt;
  data.by_rain = false;
  data.scuppers.clear();
  for (const ScupperPlace& s : deck.scuppers)
    data.scuppers.push_back({s.name, moved(s.station, FeatureKind::scupper, s.name, moves),
                             only_side(s.side), data.place});
}

template <class Data>
void move_openings(FeatureKind kind, const std::vector<FittingMove>& moves,
                   std::vector<Data>& all) {
  for (Data& d : all) {
    d.station = moved(d.station, kind, d.name, moves);
    for (const FittingMove& m : moves)
      if (m.kind == kind && m.name == d.name) d.offset += mm(m.left);
  }
}

/// Moving a post widens a bay beside it: no wider than the project allows.
bool bays_allowed(const Deck& before, const Deck& after, const PostsData& posts) {
  if (!posts.greatest) return true;
  const auto widest = [](const Deck& deck) {
    Length w;
    for (std::size_t i = 1; i < deck.posts.size(); ++i)
      if (deck.posts[i].side == deck.posts[i - 1].side)
        w = std::max(w, deck.posts[i].station - deck.posts[i - 1].station);
    return w;
  };
  return widest(after) <= std::max(widest(before), *posts.greatest);
}

}  // namespace

Project with_moves(const Project& project, const Deck& deck,
                   const std::vector<FittingMove>& moves) {
  Project out = project;
  const auto any = [&](FeatureKind kind) {
    return std::any_of(moves.begin(), moves.end(),
                       [&](const FittingMove& m) { return m.kind == kind; });
  };
  if (out.deck.posts && any(FeatureKind::post_plate)) move_posts(deck, moves, *out.deck.posts);
  if (out.deck.scuppers && any(FeatureKind::scupper))
    move_scuppers(deck, moves, *out.deck.scuppers);
  move_openings(FeatureKind::hatch, moves, out.deck.hatches);
  move_openings(FeatureKind::sleeve, moves, out.deck.sleeves);
  return out;
}

std::optional<double> post_freedom(const Project& project) {
  const auto& posts = project.deck.posts;
  const bool leaves = posts && (posts->spacing || (posts->greatest && posts->bays == Bays::equal));
  if (!leaves || posts->freedom <= Length()) return std::nullopt;
  return posts->freedom.in_mm();
}

std::optional<double> scupper_freedom(const Project& project) {
  const auto& scuppers = project.deck.scuppers;
  if (!scuppers || !scuppers->spacing) return std::nullopt;
  return scuppers->freedom.in_mm();
}

std::vector<Merger> find_mergers(const Merging& here, const Rebuild& rebuild,
                                 std::optional<int> only, std::size_t most) {
  std::vector<Merger> good;
  std::set<std::pair<int, int>> done;  // a pair merges one way or the other, the cheaper one
  std::size_t tried = 0;
  for (Merger& m : candidates(here, only)) {
    const auto pair = std::minmax(m.from, m.into);
    if (done.contains({pair.first, pair.second})) continue;
    if (++tried > most) break;
    const auto after = rebuild(with_moves(here.project, here.deck, m.moves));
    if (!after || !merged(here.deck, *after, m)) continue;
    const auto& posts = here.project.deck.posts;
    if (posts && !bays_allowed(here.deck, *after, *posts)) continue;
    m.marks = after->marks.size();
    done.insert({pair.first, pair.second});
    good.push_back(std::move(m));
  }
  return good;
}

std::string move_words(const Merger& merger, UnitSystem units) {
  struct Group {
    FeatureKind kind;
    std::string by;
    std::vector<std::string> names;
  };
  std::vector<Group> groups;
  const auto far = [&](double v) { return print_length(mm(std::abs(v)), units); };
  for (const FittingMove& m : merger.moves) {
    std::vector<std::string> ways;
    if (m.ahead != 0) ways.push_back(far(m.ahead) + (m.ahead > 0 ? " ahead" : " back"));
    if (m.left != 0) ways.push_back(far(m.left) + (m.left > 0 ? " to the left" : " to the right"));
    const std::string by = join(ways, ", ");
    auto same = std::find_if(groups.begin(), groups.end(),
                             [&](const Group& g) { return g.kind == m.kind && g.by == by; });
    if (same == groups.end()) same = groups.insert(groups.end(), Group{m.kind, by, {}});
    same->names.push_back(m.name);
  }
  std::vector<std::string> said;
  for (const Group& g : groups) {
    const std::string kind = feature_name(g.kind);
    const std::string many = g.kind == FeatureKind::hatch ? "hatches" : kind + "s";
    said.push_back(
        fmt::format("{} {} by {}", g.names.size() == 1 ? kind : many, join(g.names, ", "), g.by));
  }
  return "moving " + join(said, " and ");
}

}  // namespace deckquire
