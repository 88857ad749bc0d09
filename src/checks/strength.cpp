// Panels across the bridge: bending, shear, bearing and deflection of their strips under people and
// under wheels.

#include <fmt/format.h>

#include <algorithm>
#include <map>
#include <set>

#include "checks/wheels.h"

namespace deckquire {
namespace {


/// Cases of one kind: which of them a mark needs.
struct Cases {
  Ask ask{};
  CaseWords words;
  std::vector<StripCase> all;
  std::vector<CaseMeasure> measures;
};

struct Strength {
  const CalculationJob& job;
  SandwichStrips sections{job, Topic::strength};
  std::vector<PanelStrip> strips = strips_of(job);
  std::vector<Bundle> bundles = {};

  const Conditions& conditions() const { return job.project.conditions; }
};

/// Of each mark those that are the worst in something; a case that several marks need is done once.
void add_worst(Strength& s, const Cases& cases) {
  std::map<std::size_t, std::vector<int>> needed;
  for (int mark = 0; mark < static_cast<int>(s.job.deck.marks.size()); ++mark) {
    std::vector<std::size_t> own;
    std::vector<CaseMeasure> measures;
    for (std::size_t i = 0; i < cases.all.size(); ++i) {
      const auto& marks = cases.all[i].strip.marks;
      if (std::find(marks.begin(), marks.end(), mark) == marks.end()) continue;
      own.push_back(i);
      measures.push_back(cases.measures[i]);
    }
    for (std::size_t i : worst_of(measures, cases.ask)) needed[own[i]].push_back(mark);
  }
  const auto& clips = s.job.project.deck.hold_downs;
  if (cases.ask == Ask::pull && !needed.empty() && (!clips || !clips->capacity))
    s.job.not_checked(Topic::strength, "clips that hold the panel down " + cases.words.under,
                      "the capacity of one clip (hold-downs capacity=)");
  for (const auto& [i, marks] : needed)
    s.bundles.push_back(
        add_case(s.job, Topic::strength, cases.all[i], s.sections, marks, cases.words));
}

void add(Strength& s, Cases& cases, StripCase c) {
  cases.measures.push_back(measure(c, s.sections));
  cases.all.push_back(std::move(c));
}

void people(Strength& s) {
  const PedestrianData& load = *s.conditions().pedestrian;
  const auto& factors = s.conditions().factors;
  for (Ask ask : {Ask::strength, Ask::deflection, Ask::pull}) {
    if (ask != Ask::deflection && !factors) continue;
    Cases cases{ask, {"under people", load.place, ""}, {}, {}};
    for (const PanelStrip& strip : s.strips) {
      const double dead = ask == Ask::strength ? factors->dead
                          : ask == Ask::pull   ? factors->dead_against_wind
                                               : 0;
      StripCase c = case_of(strip, ask, 1000, dead);
      add_people(c, load, ask == Ask::deflection ? 1 : factors->pedestrian);
      add(s, cases, std::move(c));
    }
    add_worst(s, cases);
  }
}

/// The places of the axle of one strip that are the worst in something.
void worst_places(Strength& s, const PanelStrip& strip, Ask ask, double dead, double factor,
                  Cases& cases) {
  const VehicleData& v = *s.conditions().vehicle;
  std::vector<StripCase> tried;
  std::vector<CaseMeasure> measures;
  auto places = axle_places(strip, v, factor);
  // On two girders a reaction is straight in the place of the axle: it is the worst at an end.
  if (ask == Ask::pull && strip.supports.size() == 2 && places.size() > 2 &&
      !strip.left_joint && !strip.right_joint)
    places = {places.front(), places.back()};
  for (auto& wheels : places) {
    tried.push_back(wheel_case(strip, ask, v, dead, factor, std::move(wheels)));
    measures.push_back(measure(tried.back(), s.sections));
  }
  for (std::size_t i : worst_of(measures, ask)) {
    cases.all.push_back(std::move(tried[i]));
    cases.measures.push_back(measures[i]);
  }
}

void wheels(Strength& s) {
  const VehicleData& v = *s.conditions().vehicle;
  const auto& factors = s.conditions().factors;
  std::vector<int> no_room;
  for (Ask ask : {Ask::strength, Ask::deflection, Ask::pull}) {
    if (ask != Ask::deflection && !factors) continue;
    const double dead = ask == Ask::strength ? factors->dead
                        : ask == Ask::pull   ? factors->dead_against_wind
                                             : 0;
    Cases cases{ask, {"under the wheels", v.place, ""}, {}, {}};
    for (const PanelStrip& strip : s.strips) {
      const std::size_t before = cases.all.size();
      worst_places(s, strip, ask, dead, ask == Ask::deflection ? 1 : factors->vehicle, cases);
      if (cases.all.size() == before && ask != Ask::pull) no_room.push_back(strip.marks.front());
    }
    add_worst(s, cases);
  }
  if (!no_room.empty())
    s.job.not_checked(Topic::strength,
                      "wheels on " + s.job.deck.marks[static_cast<std::size_t>(no_room.front())].name,
                      "room for the vehicle's axle between its curbs");
}

/// Hollows over splices: the strip of a metre over the recess, as if all of it were as thin.
void recesses(Strength& s) {
  const auto& load = s.conditions().pedestrian;
  const auto& factors = s.conditions().factors;
  if (!factors || (!load && !s.conditions().vehicle)) return;
  std::set<int> done;
  Cases on_foot{Ask::strength, {"under people", {}, ""}, {}, {}};
  Cases driven{Ask::strength, {"under the wheels", {}, ""}, {}, {}};
  for (const Panel& p : s.job.deck.panels) {
    if (!done.insert(p.mark).second) continue;  // the same hollows, turned perhaps
    for (const Feature& f : p.shape.features) {
      if (f.kind != FeatureKind::recess) continue;
      PanelStrip strip = strip_through(s.job, p, f.at.x / std::max(1.0, p.shape.length));
      if (strip.supports.size() < 2) continue;
      const Box<PanelFrame> box = f.box();
      Weaker w;
      const double left = (p.shape.left_back + p.shape.left_ahead) / 2;
      const double stretch = strip.length / std::max(1.0, left - (p.shape.right_back + p.shape.right_ahead) / 2);
      w.from = std::max(0.0, (left - box.high.y) * stretch);
      w.to = std::min(strip.length, (left - box.low.y) * stretch);
      w.depth = std::min(p.shape.top(box.low.y), p.shape.top(box.high.y)) - f.depth;
      w.what = "recess " + f.source;
      if (w.to - w.from < 1) continue;
      if (load) {
        StripCase c = case_of(strip, Ask::strength, 1000, factors->dead);
        add_people(c, *load, factors->pedestrian);
        c.weaker = w;
        on_foot.words.place = load->place;
        add(s, on_foot, std::move(c));
      }
      if (s.conditions().vehicle) {
        driven.words.place = s.conditions().vehicle->place;
        const std::size_t from = driven.all.size();
        worst_places(s, strip, Ask::strength, factors->dead, factors->vehicle, driven);
        for (std::size_t i = from; i < driven.all.size(); ++i) driven.all[i].weaker = w;
      }
    }
  }
  for (Cases* cases : {&on_foot, &driven}) {
    if (cases->all.empty()) continue;
    cases->words.where = "over a recess";
    add_worst(s, *cases);
  }
}

/// Holes and cut-outs, each kind once.
void weakened(const Strength& s) {
  std::map<FeatureKind, std::pair<const char*, int>> kinds{
      {FeatureKind::hatch, {"hatches", 0}},
      {FeatureKind::sleeve, {"sleeves", 0}},
      {FeatureKind::scupper, {"scuppers", 0}},
      {FeatureKind::notch, {"openings for obstructions", 0}}};
  bool recess = false;
  for (const Panel& p : s.job.deck.panels)
    for (const Feature& f : p.shape.features) {
      recess = recess || f.kind == FeatureKind::recess;
      if (const auto at = kinds.find(f.kind); at != kinds.end()) ++at->second.second;
    }
  for (const auto& [kind, found] : kinds)
    if (found.second > 0)
      s.job.not_checked(Topic::strength, fmt::format("strips weakened by {} ({} of them)", found.first, found.second),
                        "a calculation of the panel as a plate with its opening, or a test");
  if (recess)
    s.job.not_checked(Topic::strength,
                      "how a panel carries past a recess, where it does not lie on the flange, and "
                      "how it sags there",
                      "a calculation of the panel as a plate, or a test");
  if (!s.job.deck.posts.empty())
    s.job.not_checked(Topic::strength, "weight of the railing on the panels",
                      "its mass from the railing supplier");
}

void say_what_is_missing(const CalculationJob& job) {
  const Conditions& c = job.project.conditions;
  const PanelStrengthData& s = *job.project.deck.strength;
  const auto no = [&](bool there, const char* what, const char* needs) {
    if (!there) job.not_checked(Topic::strength, what, needs);
  };
  no(c.pedestrian.has_value(), "panels under people", "the load of people (pedestrian)");
  no(c.vehicle.has_value(), "panels under a maintenance vehicle",
     "its wheels (vehicle), or that there is none");
  no(c.factors.has_value(), "bending, shear and bearing of the panels", "load factors (factors)");
  no(c.deflection.has_value(), "deflection of the panels", "its limits (deflection)");
  no(s.face_strength.has_value(), "bending of the skins against a strength",
     "strength of the skins (panel-strength face-strength=)");
  no(s.core_shear_strength.has_value(), "shear of the core against a strength",
     "strength of the core (panel-strength core-shear-strength=)");
  no(s.bearing_strength.has_value(), "bearing of the panels on the girders",
     "strength through the depth (panel-strength bearing-strength=)");
}

void drop_unsupported(Strength& s) {
  std::vector<int> without;
  for (const PanelStrip& strip : s.strips)
    if (strip.supports.size() < 2)
      for (int m : strip.marks)
        if (std::find(without.begin(), without.end(), m) == without.end()) without.push_back(m);
  s.strips.erase(std::remove_if(s.strips.begin(), s.strips.end(),
                                [](const PanelStrip& p) { return p.supports.size() < 2; }),
                 s.strips.end());
  if (!without.empty())
    s.job.not_checked(Topic::strength, "panels on fewer than two girders: " + names_of(s.job.deck, without),
                      "a calculation of its own");
}

}  // namespace

void calculate_strength(const CalculationJob& job) {
  if (!job.project.deck.strength)
    return job.not_checked(Topic::strength, "strength and deflection of the panels", needs_stiffness);
  say_what_is_missing(job);
  Strength s{job};
  drop_unsupported(s);
  if (s.conditions().pedestrian) people(s);
  if (s.conditions().vehicle) wheels(s);
  recesses(s);
  weakened(s);
  print_governing(job, Topic::strength, s.bundles);
}

}  // namespace deckquire
