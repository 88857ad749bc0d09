#include "deck/scuppers.h"

#include <fmt/format.h>

#include <algorithm>
#include <map>
#include <memory>
#include <set>

#include "base/text.h"
#include "bridge/crossings.h"
#include "deck/alike.h"
#include "deck/features.h"
#include "deck/gutters.h"
#include "deck/outline.h"
#include "deck/posts.h"
#include "deck/rail_line.h"
#include "deck/scuppers_by_rain.h"
#include "deck/spread.h"

namespace deckquire {
namespace {

/// A panel with all that a scupper has to keep clear of.
struct PlainPanel {
  PanelSite site;
  PanelShape shape;
};

struct Obstructed {
  const Project& project;
  const Bridge& bridge;
  const Division& division;
  Findings unheard = {};  // the panels are shaped again later, and say then what is wrong
  std::map<int, std::unique_ptr<PlainPanel>> panels = {};
  std::optional<GutterWater> water = {};  // of the rule by drainage

  const ScuppersData& data() const { return *project.deck.scuppers; }
  const PlainPanel& panel(int piece) {
    auto& p = panels[piece];
    if (!p) {
      p = std::make_unique<PlainPanel>(
          PlainPanel{PanelSite(project, bridge, division, piece, unheard), {}});
      shape_plain(*p);
    }
    return *p;
  }

 private:
  static void shape_plain(PlainPanel& p) {
    p.shape.length = p.site.length;
    p.shape.back_slope = p.site.back_slope;
    p.shape.ahead_slope = p.site.ahead_slope;
    shape_plan(p.site, p.shape);
    add_recesses(p.site, p.shape);
    add_hatches(p.site, p.shape);
    add_sleeves(p.site, p.shape);
    add_post_plates(p.site, p.shape);
    add_scuppers(p.site, p.shape);  // those written out
  }
};

bool within(const PanelSite& site, const Box<PanelFrame>& b, double clear) {
  for (const PanelPoint& corner : box_ring(b)) {
    if (site.from_end(corner) < clear - 1e-6) return false;
    if (corner.y > site.inner_foot(Side::left, corner.x) + 1e-6) return false;
    if (corner.y < site.inner_foot(Side::right, corner.x) - 1e-6) return false;
  }
  return true;
}

/// The outlet is clear of every flange by the setting tolerance.
bool off_flanges(const PanelSite& site, PanelPoint outlet, double radius) {
  const double clear = setting_tolerance(site.project);
  for (const Girder& g : site.bridge.girders) {
    const auto line = site.girder_line(g);
    if (!line) continue;
    const auto& [a, b] = *line;
    const double reach = radius + clear;
    if (outlet.x + reach <= a.x || outlet.x - reach >= b.x || a.x == b.x) continue;
    const double y = a.y + (b.y - a.y) * (outlet.x - a.x) / (b.x - a.x);
    if (std::abs(outlet.y - y) < g.flange.in_mm() / 2 + reach - 1e-6) return false;
  }
  return true;
}

/// The outlet drips on nothing that lies below the bridge.
bool nothing_below(const PanelSite& site, PanelPoint outlet, double radius) {
  const BridgePoint at = site.on_bridge(outlet);
  return outlet_allowed(site.project.bridge, mm(at.x), mm(at.y), radius);
}

/// Distance that a scupper keeps from a feature; none: they may overlap.
std::optional<double> distance_asked(FeatureKind kind, double clear) {
  switch (kind) {
    case FeatureKind::recess:
    case FeatureKind::sleeve:
    case FeatureKind::post_plate:
      return clear;
    case FeatureKind::hatch:
    case FeatureKind::scupper:
    case FeatureKind::notch:
      return 2 * clear;  // both need laminate of their own around
    default:
      return std::nullopt;
  }
}

bool fits(const PlainPanel& p, Side side, Length station, const ScuppersData& data) {
  const Feature f = scupper_at(p.site, side, station);
  const double clear = data.clear.in_mm();
  const Box<PanelFrame> reach = scupper_reach(f, data);
  const Box<PanelFrame> body = f.box();
  if (!within(p.site, reach, clear) || body_beyond_edge(p.site, f) > 1e-6) return false;
  for (const PanelPoint& corner : box_ring(body))
    if (p.site.from_end(corner) < clear - 1e-6) return false;
  const Box<PanelFrame> all{
      {std::min(reach.low.x, body.low.x), std::min(reach.low.y, body.low.y)},
      {std::max(reach.high.x, body.high.x), std::max(reach.high.y, body.high.y)}};
  const double radius = data.outlet.in_mm() / 2;
  if (!off_flanges(p.site, f.at, radius) || !nothing_below(p.site, f.at, radius)) return false;
  for (const Feature& other : p.shape.features) {
    const auto asked = distance_asked(other.kind, clear);
    if (!asked || !footprint(other, p.site.deck()).grown(*asked).overlaps(all)) continue;
    const auto ring =
        other.round || other.angle != 0 ? other.ring() : box_ring(footprint(other, p.site.deck()));
    if (distance(ring, box_ring(all)) < *asked - 1e-6) return false;
  }
  return true;
}

/// The gutter of one side while it is being drained.
class Draining {
 public:
  Draining(Obstructed& deck, Side side, const SeenPlaces& seen, Length freedom,
           const RainReach* rain)
      : deck_(deck), side_(side), seen_(seen), freedom_(freedom), rain_(rain) {}

  void drain(const WaterRun& run);
  const std::vector<Length>& places() const { return places_; }
  const SeenPlaces& seen() const { return seen_; }
  /// Stretches that no scupper drains, in the order of the water.
  const std::vector<WaterRun>& undrained() const { return undrained_; }

 private:
  struct Stop {
    Length at;
    enum class Kind { given, joint, sag, open } kind;
  };
  const Division& division() const { return deck_.division; }
  int piece_at(Length station) const {
    const Length edge = edge_offset(deck_.bridge, side_, station);
    const int bay =
        division().pieces[static_cast<std::size_t>(owner(division(), station, edge))].bay;
    return outermost(division(), bay, side_);
  }
  int neighbour(int piece, bool ahead) const;
  std::vector<Stop> stops(const WaterRun& run) const;
  std::optional<Length> in_panel(int piece, Length limit, Length last, bool ahead);
  std::optional<Length> stand(Length last, Length limit, bool ahead);
  std::optional<Length> at_sag(Length sag);
  Length alike(int piece, Length at, bool ahead);
  void put(Length at);
  Length between(Length last, const Stop& stop, Length to, bool ahead);
  /// The water between two stations joins what is carried; a scupper at the second lets some pass.
  void run_on(Length from, Length to, bool ahead, bool scupper_there);

  Obstructed& deck_;
  Side side_;
  SeenPlaces seen_;
  Length freedom_;
  std::vector<Length> places_;
  std::set<Length> taken_;
  std::vector<WaterRun> undrained_;
  const RainReach* rain_;  // nullptr: by spacing alone
  double carried_ = 0;     // water at the last place, m3/s
};

int Draining::neighbour(int piece, bool ahead) const {
  const int bay = division().pieces[static_cast<std::size_t>(piece)].bay + (ahead ? 1 : -1);
  if (bay < 0 || bay >= static_cast<int>(division().bays.size())) return -1;
  return outermost(division(), bay, side_);
}

std::vector<Draining::Stop> Draining::stops(const WaterRun& run) const {
  const ScuppersData& data = deck_.data();
  const bool ahead = run.ahead();
  const Length low = std::min(run.high, run.low), high = std::max(run.high, run.low);
  std::vector<Stop> out;
  const auto& given = division().scuppers;  // by station
  auto s = std::partition_point(given.begin(), given.end(),
                                [&](const PlacedScupper& p) { return p.station < low; });
  for (; s != given.end() && s->station <= high; ++s)
    if (s->side == side_) out.push_back({s->station, Stop::Kind::given});
  bool joint_at_end = false;
  const auto& joints = division().joints;
  const Length widest = metres(10);  // of all gaps
  auto next = std::partition_point(joints.begin(), joints.end(),
                                   [&](const Joint& j) { return j.station < low - widest; });
  if (data.at_end_joints)
    for (; next != joints.end() && next->station <= high + widest; ++next) {
      const Joint& j = *next;
      // At its upper end a run begins behind the joint, at its lower end it must stop before it.
      if (!j.end || j.station <= low - j.gap || j.station >= high + j.gap) continue;
      if (abs(j.station - run.high) <= j.gap) continue;
      out.push_back({j.station, Stop::Kind::joint});
      joint_at_end = joint_at_end || abs(j.station - run.low) <= data.body_length;
    }
  if (run.sag && data.at_sags && !joint_at_end) out.push_back({run.low, Stop::Kind::sag});
  std::stable_sort(out.begin(), out.end(),
                   [&](const Stop& a, const Stop& b) { return ahead ? a.at < b.at : a.at > b.at; });
  if (!joint_at_end) out.push_back({run.low, Stop::Kind::open});
  return out;
}

/// The furthest fitting place of one panel, from `limit` upstream by whole steps, short of `last`.
std::optional<Length> Draining::in_panel(int piece, Length limit, Length last, bool ahead) {
  const PlainPanel& p = deck_.panel(piece);
  const Length from = p.site.start(), to = p.site.end();
  const Length step = mm(shift_step(deck_.project.units));
  const Length bound = ahead ? std::min(limit, to) : std::max(limit, from);
  std::int64_t n = (bound - from).in_nanometres() / step.in_nanometres();
  if (!ahead && from + step * n < bound) ++n;
  for (;; n += ahead ? -1 : 1) {
    const Length at = from + step * n;
    if (at < from || at > to || (ahead ? at <= last : at >= last)) return std::nullopt;
    if (fits(p, side_, at, deck_.data())) return at;
  }
}

std::optional<Length> Draining::stand(Length last, Length limit, bool ahead) {
  for (int piece = piece_at(limit); piece >= 0; piece = neighbour(piece, !ahead)) {
    const auto& p = division().pieces[static_cast<std::size_t>(piece)];
    if (ahead ? p.end <= last : p.start >= last) break;
    if (const auto at = in_panel(piece, limit, last, ahead)) {
      const Length moved = alike(piece, *at, ahead);
      return (ahead ? moved > last : moved < last) ? moved : *at;
    }
  }
  return std::nullopt;
}

/// The fitting place nearest to a low point, on either side of it.
std::optional<Length> Draining::at_sag(Length sag) {
  const Length far = deck_.data().spacing.value_or(metres(20));
  const auto back = stand(sag - far, sag, true), ahead = stand(sag + far, sag, false);
  if (!back || !ahead) return back ? back : ahead;
  return sag - *back <= *ahead - sag ? back : ahead;
}

Length Draining::alike(int piece, Length at, bool ahead) {
  if (freedom_ <= Length()) return at;
  const PlainPanel& p = deck_.panel(piece);
  const Length start = p.site.start();
  const auto place =
      seen_.nearest(p.site.end() - start, side_, at - start, ahead ? freedom_ : Length(),
                    ahead ? Length() : freedom_,
                    [&](Length x) { return fits(p, side_, start + x, deck_.data()); });
  return place ? start + *place : at;
}

void Draining::put(Length at) {
  if (!taken_.insert(at).second) return;
  const auto& p = division().pieces[static_cast<std::size_t>(piece_at(at))];
  seen_.add(p.end - p.start, side_, at - p.start);
  places_.push_back(at);
}

/// Scuppers from one that stands (or a crest) down to where the water stops; where another stands
/// there the last one keeps clear of it. The last of them.
Length Draining::between(Length last, const Stop& stop, Length to, bool ahead) {
  const bool scupper_there = stop.kind != Stop::Kind::open;
  const ScuppersData& data = deck_.data();
  const Length apart = std::max(data.body_length, data.grate_length) + 2 * data.clear;
  // Places count downhill from the crest.
  const auto down = [&](Length s) { return (ahead ? s - last : last - s).in_nanometres(); };
  const auto station = [&](std::int64_t d) {
    const Length off = Length::from_nanometres(d);
    return ahead ? last + off : last - off;
  };
  Gutter g;
  g.run = {0, down(to)};
  g.furthest = [&](std::int64_t from, double carried) {
    const auto& spacing = deck_.data().spacing;
    std::int64_t most = spacing ? from + spacing->in_nanometres() : g.run.to;
    if (rain_ && most > from)
      most = std::min(most, down(rain_->furthest(station(from), station(most), carried)));
    if (!rain_ || stop.kind != Stop::Kind::sag || most < g.run.to) return most;
    // Where the low point would get too much, as many more just above it as there is room for.
    const auto share = rain_->sag_share();
    const bool room = g.run.to - from > 2 * apart.in_nanometres();
    const double arrives = carried + rain_->flow(station(from), station(g.run.to), ahead);
    return share && room && arrives > *share ? g.run.to - 1 : most;
  };
  g.carried = carried_;
  g.flow = [&](std::int64_t from, std::int64_t until) {
    return rain_ ? rain_->flow(station(from), station(until), ahead) : 0;
  };
  g.passes = [&](std::int64_t at, double arriving) {
    return rain_ ? rain_->passes(station(at), ahead, arriving) : 0;
  };
  g.stand = [&](std::int64_t from, std::int64_t limit) -> std::optional<std::int64_t> {
    const std::int64_t clear = down(to) - (scupper_there ? apart.in_nanometres() : 0);
    if (clear <= from) return std::nullopt;
    const auto at = stand(station(from), station(std::min(limit, clear)), ahead);
    return at ? std::optional(down(*at)) : std::nullopt;
  };
  const GutterPlaces found = furthest_places(g);
  for (std::int64_t at : found.places) put(station(at));
  if (found.dry_of_places)
    undrained_.push_back(
        {station(found.dry_of_places->from), station(found.dry_of_places->to), false});
  carried_ = found.carried;
  return found.places.empty() ? last : station(found.places.back());
}

void Draining::run_on(Length from, Length to, bool ahead, bool scupper_there) {
  if (!rain_) return;
  carried_ += rain_->flow(from, to, ahead);
  if (scupper_there) carried_ = rain_->passes(to, ahead, carried_);
}

void Draining::drain(const WaterRun& run) {
  const bool ahead = run.ahead();
  const Length little = mm(1);  // a place at the crest itself drains nothing
  Length last = run.high;
  carried_ = 0;
  std::optional<int> standing;  // the panel of the scupper at `last`
  for (const Stop& stop : stops(run)) {
    std::optional<Length> place = stop.at;
    if (stop.kind == Stop::Kind::joint) place = stand(last, stop.at, ahead);
    if (stop.kind == Stop::Kind::sag) place = at_sag(stop.at);
    const bool beyond = place && (ahead ? *place <= last + little : *place >= last - little);
    if (stop.kind == Stop::Kind::joint && standing && (!place || piece_at(*place) == *standing)) {
      run_on(last, stop.at, ahead, false);
      last = stop.at;  // the scupper of that panel keeps the joint dry
      standing.reset();
      continue;
    }
    if (!place) {
      undrained_.push_back({last, stop.at, false});
      run_on(last, stop.at, ahead, false);
      last = stop.at;
      continue;
    }
    if (!beyond) last = between(last, stop, *place, ahead);
    if (stop.kind == Stop::Kind::open) return;
    run_on(last, *place, ahead, true);
    if (stop.kind == Stop::Kind::joint) run_on(*place, stop.at, ahead, false);
    if (stop.kind != Stop::Kind::given) put(*place);
    last = stop.kind == Stop::Kind::joint ? stop.at : *place;
    standing.reset();
    if (stop.kind != Stop::Kind::joint) standing = piece_at(*place);
  }
}

void report_undrained(const Obstructed& deck, const std::string& side,
                      const std::vector<WaterRun>& all, Findings& findings) {
  if (all.empty()) return;
  const WaterRun& first = all.front();
  const UnitSystem units = deck.project.units;
  const Length low = std::min(first.high, first.low), high = std::max(first.high, first.low);
  findings.error(
      deck.data().place, "scupper-no-place",
      fmt::format("on {} no place between {} and {} is clear for a scupper{}", side,
                  print_station(low, units), print_station(high, units),
                  all.size() > 1 ? fmt::format(", and in {} more stretches", all.size() - 1) : ""),
      fmt::format("{} and {} its least distance from joints, "
                  "posts and openings: change one of them, or what stands there",
                  deck.data().spacing
                      ? print_length(*deck.data().spacing, units) +
                            " of gutter is the most to one scupper"
                      : "the rain asks for one there",
                  print_length(deck.data().clear, units)));
}

/// What the rule by drainage reckons with; an error, and nothing, where the grate's catch is not
/// known.
bool take_rain(Obstructed& deck, Findings& findings) {
  if (!deck.data().by_rain) return true;
  const auto& rain = deck.project.conditions.rain;
  const auto intensity = rain ? rain_intensity(*rain, 0) : std::nullopt;
  if (intensity) deck.water = gutter_water(deck.project, *intensity);
  if (deck.water && deck.water->grate && deck.water->allowed) return true;
  findings.error(deck.data().place, "scupper-no-grate",
                 "by=\"drainage\", but what the grate catches is not known: splash-over velocities "
                 "are tested for 122 to 1463 mm of free length",
                 "give <grate> another length, <rain> less blocked or clogging=\"flow\", or "
                 "<scuppers> a spacing instead");
  return false;
}

Draining drained(Obstructed& deck, Side side, const SeenPlaces& seen, Length freedom,
                 const RainReach* rain) {
  Draining d(deck, side, seen, freedom, rain);
  const auto& pieces = deck.division.pieces;
  for (const WaterRun& run :
       water_runs(deck.bridge.alignment, pieces.front().start, pieces.back().end))
    d.drain(run);
  return d;
}

void add_by_rule(Obstructed& deck, std::vector<PlacedScupper>& out, Findings& findings) {
  const ScuppersData& data = deck.data();
  const Division& division = deck.division;
  SeenPlaces seen;
  std::vector<WaterRun> undrained;
  std::string where;
  for (const PlacedScupper& s : division.scuppers) {
    const auto& p = division.pieces[static_cast<std::size_t>(s.piece)];
    seen.add(p.end - p.start, s.side, s.station - p.start);
  }
  for (Side side : {Side::left, Side::right}) {
    if (!on_side(data.sides, side) || !drains_to(deck.project.deck.section, side)) continue;
    std::optional<RainReach> rain;
    if (deck.water)
      rain.emplace(GutterLine(deck.project, deck.bridge, side, division.pieces.front().start,
                              division.pieces.back().end),
                   *deck.water, *deck.water->allowed - data.reserve.in_m(), deck.bridge.alignment);
    const RainReach* reach = rain ? &*rain : nullptr;
    const Draining plain = drained(deck, side, seen, Length(), reach);
    const Draining free = drained(deck, side, seen, data.freedom, reach);
    const Draining& best = free.places().size() <= plain.places().size() &&
                                   free.undrained().size() <= plain.undrained().size()
                               ? free
                               : plain;
    if (!best.undrained().empty())
      where =
          where.empty() ? side == Side::left ? "the left side" : "the right side" : "both sides";
    undrained.insert(undrained.end(), best.undrained().begin(), best.undrained().end());
    seen = best.seen();
    for (Length s : best.places()) out.push_back({"", side, s, 0, data.place, false});
  }
  report_undrained(deck, where, undrained, findings);
}

void name_all(std::vector<PlacedScupper>& all) {
  std::set<std::string> used;
  for (const PlacedScupper& s : all) used.insert(s.name);
  int number = 0;
  for (PlacedScupper& s : all) {
    if (!s.name.empty()) continue;
    do s.name = fmt::format("S{}", ++number);
    while (used.count(s.name) > 0);
  }
}

/// Ordered, each with its panel, and in every panel which are its own.
void assign(const Bridge& bridge, Division& division, std::vector<PlacedScupper> all) {
  std::stable_sort(all.begin(), all.end(), [](const PlacedScupper& a, const PlacedScupper& b) {
    return a.station != b.station ? a.station < b.station : a.side < b.side;
  });
  name_all(all);
  for (Division::Piece& p : division.pieces) p.scuppers.clear();
  for (std::size_t i = 0; i < all.size(); ++i) {
    PlacedScupper& s = all[i];
    s.piece = owner(division, s.station, edge_offset(bridge, s.side, s.station));
    division.pieces[static_cast<std::size_t>(s.piece)].scuppers.push_back(static_cast<int>(i));
  }
  division.scuppers = std::move(all);
}

}  // namespace

void place_scuppers(const Project& project, const Bridge& bridge, Division& division,
                    Findings& findings) {
  if (!project.deck.scuppers || division.pieces.empty()) return;
  const ScuppersData& data = *project.deck.scuppers;
  std::vector<PlacedScupper> all;
  for (const ScupperData& s : data.scuppers)
    all.push_back({s.name, s.side == CurbSides::right ? Side::right : Side::left, s.station, 0,
                   s.place, true});
  assign(bridge, division, all);
  if (!data.by_rule()) return;
  Obstructed deck{project, bridge, division};
  if (!take_rain(deck, findings)) return;
  all = division.scuppers;
  add_by_rule(deck, all, findings);
  assign(bridge, division, all);
}

}  // namespace deckquire
