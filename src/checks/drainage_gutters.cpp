// Workings of whole gutters.
#include <algorithm>
#include <cmath>

#include <fmt/format.h>

#include "base/text.h"
#include "checks/drainage.h"

namespace deckquire {
namespace {

using workings::Kind;
using workings::Unit;

constexpr std::size_t most_rows = 40;     // of scuppers in the table of a march
constexpr std::size_t most_points = 400;  // of a curve

const Unit& unit(Kind kind, const char* label) {
  return *workings::find_unit(kind, label);
}

std::string at(const DrainageJob& d, double station) {
  return print_station(metres(station), d.job.project.units);
}

std::string in(double si, Kind kind, const char* label) {
  return workings::print_in(si, unit(kind, label), 3) + " " + label;
}

/// What one scupper does, a line of the table.
workings::Step row(const DrainageJob& d, const Inlet& inlet) {
  const ScupperPlace& s = d.job.deck.scuppers[static_cast<std::size_t>(inlet.place)];
  workings::Step out;
  out.symbol = "Q " + s.name;
  out.meaning = fmt::format("arrives at scupper {}, {}", s.name, at(d, inlet.station));
  out.unit = unit(Kind::flow, "L/s");
  out.si = inlet.Q;
  const std::string caught = in(inlet.caught, Kind::flow, "L/s");
  if (inlet.sag)
    out.words =
        fmt::format("low point: depth at the curb {}; all caught",
                    inlet.depth > 0 ? in(inlet.depth, Kind::length, "mm") : "not calculated");
  else
    out.words =
        fmt::format("spread {}, depth {}; {} caught, {} passes", in(inlet.T, Kind::length, "mm"),
                    in(d.water.Sx * inlet.T, Kind::length, "mm"), caught,
                    in(inlet.Q - inlet.caught, Kind::flow, "L/s"));
  return out;
}

void add_table(const DrainageJob& d, const GutterMarch& m, workings::Working& w) {
  for (std::size_t i = 0; i < m.inlets.size(); ++i) {
    const bool cut =
        m.inlets.size() > most_rows && i >= most_rows / 2 && i + most_rows / 2 < m.inlets.size();
    if (!cut) w.steps.push_back(row(d, m.inlets[i]));
  }
  const auto end = [&](const char* symbol, const char* meaning, double Q) {
    workings::Step s;
    s.symbol = symbol;
    s.meaning = meaning;
    s.words = "by the march";
    s.unit = unit(Kind::flow, "L/s");
    s.si = Q;
    w.steps.push_back(s);
  };
  end("Qb", "reaches the deck's back end", m.end_back);
  end("Qa", "reaches the deck's ahead end", m.end_ahead);
}

workings::Curve spread_curve(const GutterMarch& m) {
  workings::Curve c;
  c.title = "spread";
  c.along = unit(Kind::length, "m");
  c.unit = unit(Kind::length, "mm");
  const std::size_t each = 1 + m.stations.size() / most_points;
  for (std::size_t i = 0; i < m.stations.size(); ++i) {
    const GutterStation& s = m.stations[i];
    // Thinned where dense, but never at a scupper, where it steps.
    const bool steps = (i > 0 && m.stations[i - 1].station == s.station) ||
                       (i + 1 < m.stations.size() && m.stations[i + 1].station == s.station);
    if (i % each != 0 && !steps && i + 1 != m.stations.size() && s.station != m.worst.station)
      continue;
    c.x.push_back(s.station);
    c.y.push_back(s.T);
  }
  for (const Inlet& inlet : m.inlets) c.supports.push_back(inlet.station);
  return c;
}

/// The runs of a gutter on which no scupper stands: the longest, and what it could be.
void without_scuppers(const DrainageJob& d, const DrainedGutter& g, GivenValues& v) {
  if (!d.water.allowed || !g.march.inlets.empty()) return;
  const GutterLine& line = *g.line;
  double longest = 0, carries = 0;
  for (const WaterRun& r :
       water_runs(d.job.bridge.alignment, metres(line.from()), metres(line.to()))) {
    const double length = abs(r.low - r.high).in_m();
    const double could = carrying_length(line, d.water, r.high.in_m(), r.low.in_m());
    if (longest == 0 || length / could > longest / carries) longest = length, carries = could;
  }
  v.computed("Ln", longest, "no scupper stands on this gutter");
  v.computed("Lc", carries, "march from the high point until the spread is the one allowed");
}

/// The lesser of the two where the edge makes a step.
double room(const GutterLine& line, double station) {
  return std::min(line.room(station, false), line.room(station));
}

void balance(const DrainageJob& d, const DrainedGutter& g) {
  const GutterMarch& m = g.march;
  GivenValues v(d);
  v.rain();
  const std::string march = fmt::format("march along the gutter, {} stations", m.stations.size());
  v.computed("A", m.rain / d.water.rate, "deck between the edge and the high line, in plan");
  v.computed("Qi", m.caught, march);
  v.computed("Qe", m.end_back + m.end_ahead + m.standing, march);
  v.computed("Tw", m.worst.T,
             fmt::format("at {}: {} on a grade of {} %, {}", at(d, m.worst.station),
                         in(m.worst.Q, Kind::flow, "L/s"), decimal(100 * m.worst.SL, 2),
                         m.worst.uniform ? "uniform flow"
                                         : "by the slope of the water itself, the gutter being "
                                           "level, flat (below 0.3 %) or backed up"));
  if (d.water.allowed) v.from_project("Tmax", *d.water.allowed, d.rain.place, d.rain.code);
  v.computed("w", room(*g.line, m.worst.station), "from the curb's foot to the high line there");
  without_scuppers(d, g, v);
  Calculation* c =
      add_working(d, "gutter-balance", std::move(v.values),
                  fmt::format("{}, worst at {}", g.name, at(d, m.worst.station)), d.rain.place);
  if (!c) return;
  add_table(d, m, c->working);
  for (const BlindSag& sag : m.blind)
    c->working.limits.push_back(
        {fmt::format("a scupper empties the low point at {}", at(d, sag.station)), "", "", false,
         "place a scupper there"});
  c->working.curves.push_back(spread_curve(m));
}

/// The gutter whose spread is the greatest.
const DrainedGutter& governing(const std::vector<DrainedGutter>& gutters) {
  return *std::max_element(gutters.begin(), gutters.end(),
                           [](const DrainedGutter& a, const DrainedGutter& b) {
                             return a.march.worst.T < b.march.worst.T;
                           });
}

}  // namespace

void gutter_workings(const DrainageJob& d, const std::vector<DrainedGutter>& gutters) {
  const DrainedGutter& worst = governing(gutters);
  const GutterStation& s = worst.march.worst;
  const std::string on = fmt::format("{}, {}", worst.name, at(d, s.station));
  GivenValues inflow(d);
  inflow.rain().computed("w", worst.line->width(s.station), "from the edge to the high line there");
  add_working(d, "deck-inflow", std::move(inflow.values), on, d.rain.place);
  for (const DrainedGutter& g : gutters) balance(d, g);
  if (!s.uniform || s.Q <= 0) return;
  GivenValues v(d);
  v.gutter().allowed();
  v.computed("Q", s.Q, "march along the gutter");
  v.computed("SL", s.SL, "of the gutter there");
  v.computed("w", room(*worst.line, s.station), "from the curb's foot to the high line");
  add_working(d, "gutter-spread", std::move(v.values), on, d.rain.place);
}

}  // namespace deckquire
