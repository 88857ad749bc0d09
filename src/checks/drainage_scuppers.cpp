// Workings of scuppers: grate, outlet, down-pipe.
#include <algorithm>
#include <cmath>
#include <map>

#include <fmt/format.h>

#include "base/text.h"
#include "checks/drainage.h"

namespace deckquire {
namespace {

constexpr double no_flow = 1e-7;  // m3/s: a scupper at a high point catches nothing worth a working

struct Scupper {
  const DrainageJob& d;
  const GutterLine& line;
  const Inlet& inlet;
  const ScuppersData& data() const { return *d.job.project.deck.scuppers; }
  const ScupperPlace& place() const {
    return d.job.deck.scuppers[static_cast<std::size_t>(inlet.place)];
  }
  std::string on() const {
    return fmt::format("scupper {}, {}", place().name,
                       print_station(place().station, d.job.project.units));
  }
  Place line_of_file() const {
    for (const ScupperData& s : data().scuppers)
      if (s.name == place().name) return s.place;
    return data().place;
  }
};

void grate_values(const Scupper& s, GivenValues& v) {
  v.from_project("W", s.data().grate_width.in_m(), s.data().place);
  v.from_project("L", s.data().grate_length.in_m(), s.data().place);
  v.from_project("e", s.data().inset.in_m(), s.data().place);
  v.word("grate", s.d.rain.grate, s.d.rain.place);
  v.computed("w", std::min(s.line.room(s.inlet.station, false), s.line.room(s.inlet.station)),
             "from the curb's foot to the high line");
}

Calculation* on_grade(const Scupper& s) {
  GivenValues v(s.d);
  v.gutter().allowed();
  grate_values(s, v);
  const RainData& rain = s.d.rain;
  const char* const models[] = {"none", "length", "flow"};
  v.word("clogging", models[static_cast<int>(rain.clogging)], rain.place);
  if (rain.clogging != ClogModel::none) v.from_project("c", rain.blocked, rain.place);
  v.computed("Q", s.inlet.Q, "march along the gutter");
  v.computed("SL", s.inlet.SL, "of the gutter above the scupper");
  return add_working(s.d, "grate-on-grade", std::move(v.values), s.on(), s.line_of_file());
}

Calculation* in_sag(const Scupper& s) {
  GivenValues v(s.d);
  v.allowed();
  grate_values(s, v);
  v.from_project("Sx", s.d.water.Sx, s.d.job.project.deck.section.place);
  v.from_project("c", s.d.rain.blocked_in_sag, s.d.rain.place);
  if (s.d.rain.opening) v.from_project("p", *s.d.rain.opening, s.d.rain.place);
  if (s.inlet.rise > 0) v.computed("z", s.inlet.rise, "levels of the gutter");
  v.computed("Q", s.inlet.Q, "march along the gutter, from both sides");
  return add_working(s.d, "grate-in-sag", std::move(v.values), s.on(), s.line_of_file());
}

Calculation* outlet(const Scupper& s) {
  GivenValues v(s.d);
  const ScuppersData& data = s.data();
  v.from_project("D", (data.outlet - 2 * data.outlet_wall).in_m(), data.place,
                 "diameter less two walls");
  v.from_project("hb", (data.cavity - data.grate).in_m(), data.place,
                 "cavity less the grate's thickness");
  v.computed("Q", s.inlet.caught, "what the scupper catches");
  return add_working(s.d, "scupper-outlet", std::move(v.values), s.on(), s.line_of_file());
}

Calculation* downpipe(const Scupper& s) {
  GivenValues v(s.d);
  const ScuppersData& data = s.data();
  v.from_project("D", (data.outlet - 2 * data.outlet_wall).in_m(), data.place,
                 "diameter less two walls");
  v.from_project("f", s.d.rain.pipe_filling, s.d.rain.place);
  v.computed("Q", s.inlet.caught, "what the scupper catches");
  return add_working(s.d, "downpipe", std::move(v.values), s.on(), s.line_of_file());
}

/// In full: of every kind of working those in which a verdict is the worst of the kind.
void choose_in_full(std::vector<Calculation>& list, std::size_t from) {
  std::map<std::string, std::pair<double, std::size_t>> worst;
  for (std::size_t i = from; i < list.size(); ++i) {
    list[i].in_full = false;
    for (const workings::Verdict& v : list[i].working.verdicts) {
      const auto [at, fresh] =
          worst.try_emplace(list[i].working.name + "/" + v.words, v.ratio(), i);
      if (!fresh && v.ratio() > at->second.first) at->second = {v.ratio(), i};
    }
  }
  for (const auto& [what, best] : worst) list[best.second].in_full = true;
}

/// Outlet and pipe of the scupper that catches most: they are all alike, and none needs more.
void pipes(const DrainageJob& d, const std::vector<DrainedGutter>& gutters) {
  const GutterLine* line = nullptr;
  const Inlet* most = nullptr;
  for (const DrainedGutter& g : gutters)
    for (const Inlet& inlet : g.march.inlets)
      if (inlet.caught > (most ? most->caught : no_flow)) most = &inlet, line = g.line;
  if (!most) return;
  std::vector<int> marks;
  for (const ScupperPlace& s : d.job.deck.scuppers)
    marks.push_back(d.job.deck.panels[static_cast<std::size_t>(s.panel)].mark);
  std::sort(marks.begin(), marks.end());
  marks.erase(std::unique(marks.begin(), marks.end()), marks.end());
  for (const auto make : {outlet, downpipe})
    if (Calculation* c = make({d, *line, *most})) {
      c->on += ", which catches most";
      c->marks = marks;
    }
}

}  // namespace

void scupper_workings(const DrainageJob& d, const std::vector<DrainedGutter>& gutters) {
  std::vector<Calculation>& list = d.job.out.list;
  const std::size_t from = list.size();
  bool unknown = false;
  for (const bool sag : {false, true})
    for (const DrainedGutter& g : gutters)
      for (const Inlet& inlet : g.march.inlets) {
        if (inlet.caught < no_flow || inlet.sag != sag) continue;
        if (sag && !d.water.opening) {
          unknown = true;
          continue;
        }
        const Scupper s{d, *g.line, inlet};
        if (Calculation* c = sag ? in_sag(s) : on_grade(s))
          c->marks = {d.job.deck.panels[static_cast<std::size_t>(s.place().panel)].mark};
      }
  pipes(d, gutters);
  choose_in_full(list, from);
  if (unknown)
    d.job.not_checked(Topic::drainage, "depth of water over the scuppers at low points",
                      "the clear share of their grates (<rain opening=>)");
}

}  // namespace deckquire
