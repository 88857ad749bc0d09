// Wind under the deck: what the clips must hold.
#include <fmt/format.h>

#include <algorithm>

#include "checks/section_values.h"
#include "checks/strips.h"

namespace deckquire {
namespace {


struct Uplift {
  const CalculationJob& job;
  const WindData& wind;
  const FactorsData& factors;
  SandwichStrips sections{job, Topic::hold_down};
  std::vector<Bundle> bundles = {};
  bool many_girders_unknown = false, unclipped = false;

  const Mark& mark(const PanelStrip& s) const {
    return job.deck.marks[static_cast<std::size_t>(s.marks.front())];
  }
  const HoldDownData* clips() const {
    return job.project.deck.hold_downs ? &*job.project.deck.hold_downs : nullptr;
  }
};

double plan_area(const Mark& m) {
  return std::abs(area(m.shape.outline)) / 1e6;
}

double own_weight(const Mark& m) {
  return m.masses.total.in_si() * gravity / plan_area(m);
}

int fewest_clips(const PanelStrip& s) {
  int n = 1 << 30;
  for (const auto& counts : s.clips) n = std::min(n, counts.front());
  return n;
}

void add_clips(const Uplift& u, const PanelStrip& s, Inputs& in) {
  const HoldDownData* clips = u.clips();
  if (!clips || !clips->capacity || fewest_clips(s) == 0) return;
  in.project("R_c", clips->capacity->in_si(), clips->place, clips->source)
      .computed("n", fewest_clips(s), "of the girder line that has the fewest");
}

void on_two(Uplift& u, const PanelStrip& s, const Subject& of) {
  const Mark& m = u.mark(s);
  Inputs in;
  in.computed("B", s.length / 1e3, "width in the middle of the panel")
      .computed("l", plan_area(m) / (s.length / 1e3), "area of the mark over B")
      .computed("x_1", s.supports[0] / 1e3, "girders under the panel")
      .computed("x_2", s.supports[1] / 1e3, "girders under the panel")
      .computed("g_d", own_weight(m), "mass of the mark × standard gravity over its area")
      .computed("x_g", s.centre / 1e3, "centre of gravity of the mark")
      .project("q", u.wind.uplift.in_si(), u.wind.place, u.wind.code)
      .project("gamma_W", u.factors.wind, u.factors.place, u.factors.code)
      .project("gamma_D", u.factors.dead_against_wind, u.factors.place, u.factors.code);
  add_clips(u, s, in);
  if (const auto i = add_working(u.job, Topic::hold_down, "hold-down", in, of)) u.bundles.push_back({*i});
}

/// Three girders or more: the whole panel as a strip, held down on all of them.
void on_many(Uplift& u, const PanelStrip& s, const Subject& of) {
  const Mark& m = u.mark(s);
  const double along = plan_area(m) / s.length * 1e6;  // mm
  const auto strip = u.sections.of(along, s.depth, of.marks);
  if (!strip) return;
  const double q = u.factors.wind * u.wind.uplift.in_si();
  const double U = q * plan_area(m);
  Bundle b = strip->bundle;
  std::string supports;
  for (double x : s.supports) supports += (supports.empty() ? "" : ", ") + in_list(x);
  const struct {
    const char* words;
    double at;  // share of the width; 0: spread
  } winds[] = {{"wind from the left", 0.25}, {"wind from the right", 0.75}, {"uniform uplift", 0}};
  for (const auto& wind : winds) {
    Inputs in;
    in.computed("L", s.length / 1e3, "width in the middle of the panel")
        .computed("b", along / 1e3, "area of the mark over L")
        .computed_text("supports", supports + " mm", "girders under the panel")
        .computed("D", strip->D, "sandwich-stiffness")
        .computed("S", strip->S, "sandwich-stiffness")
        .computed("g", u.factors.dead_against_wind * own_weight(m),
                  fmt::format("{:g} (factor of the weight against wind) × weight over area",
                              u.factors.dead_against_wind));
    if (wind.at > 0)
      in.computed_text("loads", fmt::format("{} N @ {} mm", in_list(-U), in_list(s.length * wind.at)),
                       fmt::format("{}: {:g} (factor of the wind) × uplift × area, at a quarter of "
                                   "the width", wind.words, u.factors.wind));
    else
      in.computed("q", -q, fmt::format("{:g} (factor of the wind) × uplift", u.factors.wind));
    const HoldDownData* clips = u.clips();
    const int n = fewest_clips(s);
    if (clips && clips->capacity && n > 0)
      in.computed("R_up", clips->capacity->in_si() * n,
                  fmt::format("{} clips × {:g} kN", n, clips->capacity->in_si() / 1e3));
    Subject with = of;
    with.on += std::string(", ") + wind.words;
    if (const auto i = add_working(u.job, Topic::hold_down, "panel-strip", in, with)) {
      workings::Working& w = u.job.out.list[*i].working;
      w.not_checked.clear();  // of other loads: topic strength
      rename_verdicts(w, "holding a support down", "force in the clips of one girder line");
      b.push_back(*i);
    }
  }
  u.bundles.push_back(b);
}

void one(Uplift& u, const PanelStrip& s) {
  const Mark& m = u.mark(s);
  const Subject of{m.name, {s.marks.front()}, u.clips() ? u.clips()->place : u.wind.place};
  if (s.supports.size() < 2)
    return u.job.not_checked(Topic::hold_down, "uplift of " + m.name, "two girders under it");
  if (u.clips() && fewest_clips(s) == 0) u.unclipped = true;
  if (s.supports.size() == 2)
    on_two(u, s, of);
  else if (u.job.project.deck.strength)
    on_many(u, s, of);
  else
    u.many_girders_unknown = true;
}

}  // namespace

void calculate_hold_down(const CalculationJob& job) {
  const Conditions& c = job.project.conditions;
  Missing missing;
  missing.need(c.wind.has_value(), "the uplift of the wind (wind uplift=)");
  missing.need(c.factors.has_value(), "load factors (factors)");
  if (missing.any())
    return job.not_checked(Topic::hold_down, "uplift of the panels", missing.words());
  Uplift u{job, *c.wind, *c.factors};
  if (!u.clips())
    job.not_checked(Topic::hold_down, "what holds the panels down", "hold-downs");
  else if (!u.clips()->capacity)
    job.not_checked(Topic::hold_down, "force in the clips against their strength",
                    "the capacity of one clip (hold-downs capacity=)");
  for (const PanelStrip& s : middles_of(job)) one(u, s);
  if (u.many_girders_unknown)
    job.not_checked(Topic::hold_down, "uplift of panels on three girders or more", needs_stiffness);
  if (u.unclipped)
    job.not_checked(Topic::hold_down, "uplift of panels that have a girder without clips",
                    "clips there, or a calculation of its own");
  job.not_checked(Topic::hold_down, "panels that lie loose or are fixed in part, in wind",
                  "a limit of the wind and temporary hold-down for the erection");
  print_governing(job, Topic::hold_down, u.bundles);
}

}  // namespace deckquire
