#include "checks/strip_cases.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "base/text.h"
#include "workings/strip_inputs.h"
#include "workings/strip_pattern.h"

namespace deckquire {
namespace {

using workings::StripLoad;

std::vector<StripLoad> always_there(const StripCase& c) {
  std::vector<StripLoad> loads;
  const double b = c.width / 1e3;
  const auto curb = [&](double per_metre, double x) {
    if (per_metre * c.curb_factor > 0)
      loads.push_back(workings::point_load(per_metre * c.curb_factor * b, x));
  };
  curb(c.strip.left_curb, c.strip.curb_at);
  curb(c.strip.right_curb, c.strip.length - c.strip.curb_at);
  loads.insert(loads.end(), c.more.begin(), c.more.end());
  return loads;
}

std::string text_of(const StripLoad& l) {
  if (l.kind == StripLoad::Kind::couple)
    return fmt::format("{} kN m @ {} mm", shortest_decimal(l.size / 1e6, 6), in_list(l.from));
  if (l.kind == StripLoad::Kind::point)
    return fmt::format("{} N @ {} mm", in_list(l.size), in_list(l.from));
  return fmt::format("{} N @ {} to {} mm", in_list(l.size * (l.to - l.from)), in_list(l.from),
                     in_list(l.to));
}

workings::Strip raw_strip(const StripCase& c, const SandwichStrips& sections) {
  const auto [D, S] = sections.stiffness(c.strip.depth);
  workings::Strip s;
  s.length = c.strip.length;
  s.stretches = {{s.length, D * c.width * 1e3, S * c.width / 1e3}};  // N mm2, N
  for (double x : c.strip.supports) s.supports.push_back({x, true});
  return s;
}

/// Moments, shears, reactions in N and mm, and the largest movement within a bay.
struct Extremes {
  double sag = 0, hog = 0, shear = 0, push = 0, pull = 0;
};

Extremes extremes(const workings::PatternResult& r) {
  Extremes e{r.max_M.value, -r.min_M.value, std::max(r.max_V.value, -r.min_V.value), 0, 0};
  for (const auto& reaction : r.reactions)
    e.push = std::max(e.push, reaction.max), e.pull = std::max(e.pull, -reaction.min);
  return e;
}

/// Of many cases, so without the roots of higher polynomials that StripResult::peaks takes.
Extremes extremes(const workings::StripResult& r) {
  Extremes e;
  for (const workings::StripPiece& p : r.pieces) {
    const double length = p.to - p.from;
    const auto look = [&](double s) {
      const double M = p.M[0] + s * (p.M[1] + s * p.M[2]);
      e.sag = std::max(e.sag, M), e.hog = std::max(e.hog, -M);
      e.shear = std::max(e.shear, std::abs(p.V[0] + s * p.V[1]));
    };
    look(0);
    look(length);
    if (p.V[1] != 0)
      if (const double s = -p.V[0] / p.V[1]; s > 0 && s < length) look(s);
  }
  for (double reaction : r.reactions)
    e.push = std::max(e.push, reaction), e.pull = std::max(e.pull, -reaction);
  return e;
}

double movement(const workings::PatternResult& r, double from, double to) {
  return std::abs(r.worst_w(from, to).value);
}

/// To be compared with that of other places only: at eight points of every piece.
double movement(const workings::StripResult& r, double from, double to) {
  constexpr int parts = 8;
  double most = 0;
  for (const workings::StripPiece& p : r.pieces) {
    if (p.to <= from || p.from >= to) continue;  // bays end where pieces end
    for (int i = 0; i <= parts; ++i) {
      const double s = (p.to - p.from) * i / parts;
      double w = 0;
      for (std::size_t k = p.w.size(); k-- > 0;) w = w * s + p.w[k];
      most = std::max(most, std::abs(w));
    }
  }
  return most;
}

template <class Result>
CaseMeasure measured(const StripCase& c, const SandwichStrips& sections,
                     const workings::Strip& strip, const Result& r) {
  const double b = c.width / 1e3;
  CaseMeasure m{};
  if (c.ask == Ask::deflection) {
    for (const workings::StripBay& bay : workings::bays_of(strip)) {
      double& most = bay.overhang ? m[5] : m[4];
      most = std::max(most, movement(r, bay.from, bay.to) / (bay.to - bay.from));
    }
    return m;
  }
  const auto [bending, shear] = sections.stress(c.strip.depth);
  const Extremes e = extremes(r);
  m[0] = e.sag / 1e3 / b * bending;
  m[1] = e.hog / 1e3 / b * bending;
  m[2] = e.shear / b * shear;
  m[3] = e.push / b;
  m[6] = e.pull / b;
  return m;
}

/// The list of places where a weaker part must be looked at.
std::vector<double> places_in(const StripCase& c) {
  std::vector<double> at{c.weaker->from, c.weaker->to};
  const auto add = [&](double x) {
    if (x > c.weaker->from && x < c.weaker->to) at.push_back(x);
  };
  for (double x : c.strip.supports) add(x);
  for (const StripLoad& l : c.more) add((l.from + l.to) / 2);
  std::sort(at.begin(), at.end());
  return at;
}

std::string list_of(const std::vector<double>& places) {
  std::string text;
  for (double x : places) text += (text.empty() ? "" : ", ") + in_list(x);
  return text + " mm";
}

Inputs inputs_of(const StripCase& c, const SandwichStrip& section) {
  Inputs in;
  in.computed("L", c.strip.length / 1e3, "of the strip, along it")
      .computed_text("supports", list_of(c.strip.supports), "girders under the panel")
      .computed("b", c.width / 1e3, "strip of the calculation")
      .computed("D", section.D, "sandwich-stiffness at the least depth along the strip")
      .computed("S", section.S, "sandwich-stiffness at the least depth along the strip");
  if (c.dead != 0) in.computed("g", c.dead, c.dead_words);
  if (c.people != 0)
    in.computed("q", c.people, c.people_words)
        .choice("pattern", "bays", "people on each span and overhang, or not");
  std::string loads, of;
  for (const StripLoad& l : always_there(c)) loads += (loads.empty() ? "" : "; ") + text_of(l);
  if (c.curb_factor > 0 && c.strip.left_curb + c.strip.right_curb > 0) of = "curbs, with the factor of the weight";
  if (!c.more_words.empty()) of += (of.empty() ? "" : "; ") + c.more_words;
  if (!loads.empty()) in.computed_text("loads", loads, of);
  return in;
}

void strengths(const StripCase& c, const SandwichStrip& section, Inputs& in) {
  const char* words = "sandwich-strength of this strip";
  if (section.M_R) in.computed("M_sag", *section.M_R, words).computed("M_hog", *section.M_R, words);
  if (section.V_R) in.computed("V_R", *section.V_R, words);
  if (section.R_R && !c.weaker) in.computed("R_R", *section.R_R, words);
}

void limits(const CalculationJob& job, Inputs& in) {
  if (const auto& d = job.project.conditions.deflection)
    in.project("k_span", d->span, d->place, d->code).project("k_arm", d->arm, d->place, d->code);
}

void clips(const CalculationJob& job, const StripCase& c, Inputs& in) {
  const auto& hold = job.project.deck.hold_downs;
  int n = 1 << 30;
  for (const auto& counts : c.strip.clips) n = std::min(n, counts.front());
  if (!hold || !hold->capacity || n == 0 || c.strip.clips.empty()) return;
  in.computed("R_up", hold->capacity->in_si() * n * c.width / c.strip.along,
              fmt::format("{} clips of {:g} kN over the panel's {} mm, for the strip", n,
                          hold->capacity->in_si() / 1e3, in_list(c.strip.along)));
}

/// Of all that panel-strip can check a case asks for one thing; the others have cases of their own.
void keep_asked(workings::Working& w, Ask ask) {
  const auto begins = [](const std::string& s, const char* with) { return s.rfind(with, 0) == 0; };
  w.not_checked.erase(
      std::remove_if(w.not_checked.begin(), w.not_checked.end(),
                     [&](const std::string& s) {
                       const bool deflection = begins(s, "deflection of");
                       const bool pull = begins(s, "holding a support");
                       return ask == Ask::deflection ? !deflection
                              : ask == Ask::pull     ? !pull
                                                     : deflection || pull;
                     }),
      w.not_checked.end());
}

void name_verdicts(workings::Working& w, const std::string& under) {
  rename_verdicts(w, "sagging moment", "bending of the skins, sagging " + under);
  rename_verdicts(w, "hogging moment", "bending of the skins, hogging " + under);
  rename_verdicts(w, "shear", "shear of the core " + under);
  rename_verdicts(w, "bearing on a support", "bearing on a girder " + under);
  rename_verdicts(w, "holding a support down", "clips that hold the panel down " + under);
  for (const char* side : {"left overhang", "right overhang"})
    rename_verdicts(w, std::string("deflection of ") + side, "deflection of an overhang " + under);
  rename_verdicts(w, "deflection of an overhang", "deflection of an overhang " + under);
  rename_verdicts(w, "deflection of span", "deflection of a span " + under);
}

/// The largest moment and shear within the weaker part, against what is left of the section.
void judge_weaker(const CalculationJob& job, Topic topic, const StripCase& c, std::size_t strip,
                  const Subject& of, const std::string& under, Bundle& b) {
  const SectionData& section = job.project.deck.section;
  const PanelStrengthData& s = *job.project.deck.strength;
  double M = 0, V = 0;
  for (std::size_t i = 1; i <= places_in(c).size(); ++i) {
    const workings::Working& w = job.out.list[strip].working;
    M = std::max(M, std::abs(w.result(fmt::format("M_x{}", i))));
    V = std::max(V, std::abs(w.result(fmt::format("V_x{}", i))));
  }
  Inputs in;
  in.computed("b", c.width / 1e3, "strip of the calculation")
      .project("t", std::min(section.top_skin, section.bottom_skin).in_m(), section.place)
      .computed("c", (c.weaker->depth - (section.top_skin + section.bottom_skin).in_mm()) / 1e3,
                "depth left over the " + c.weaker->what + ", less both skins");
  if (s.face_strength)
    in.project("f", s.face_strength->in_si(), s.place, s.source)
        .computed("M", M, "largest moment of the strip at the ends of the weaker part, over its "
                          "girder and under a wheel");
  if (s.core_shear_strength)
    in.project("tau", s.core_shear_strength->in_si(), s.place, s.source)
        .computed("V", V, "largest shear of the strip at the same places");
  const auto i = add_working(job, topic, "sandwich-strength", in, of);
  if (!i) return;
  workings::Working& w = job.out.list[*i].working;
  rename_verdicts(w, "bending of the skins", "bending of the skins over a recess, " + under);
  rename_verdicts(w, "shear of the core", "shear of the core over a recess, " + under);
  b.push_back(*i);
}

}  // namespace

StripCase case_of(const PanelStrip& strip, Ask ask, double width, double dead_factor) {
  StripCase c;
  c.strip = strip, c.ask = ask, c.width = width;
  const double spread = ask == Ask::pull ? strip.least : strip.most;
  c.dead = dead_factor * spread;
  c.curb_factor = dead_factor;
  c.dead_words =
      fmt::format("{:g} (factor of the weight) × {} kPa, the {} of the marks without curbs",
                  dead_factor, shortest_decimal(spread / 1e3, 4),
                  ask == Ask::pull ? "lightest" : "heaviest");
  return c;
}

void add_people(StripCase& c, const PedestrianData& people, double factor) {
  c.people = factor * people.load.in_si();
  c.people_words = fmt::format("{:g} (factor of the load of people) × {} kPa ({})", factor,
                               shortest_decimal(people.load.in_si() / 1e3, 4), people.code);
}

CaseMeasure measure(const StripCase& c, const SandwichStrips& sections) {
  const workings::Strip strip = raw_strip(c, sections);
  const double per_mm = c.width / 1e6;
  workings::PatternLoads loads;
  loads.always = always_there(c);
  if (c.dead != 0) loads.always.push_back(workings::uniform_load(c.dead * per_mm, 0, strip.length));
  if (c.people == 0) return measured(c, sections, strip, workings::solve(strip, loads.always));
  loads.parts = workings::each_bay(strip, c.people * per_mm);
  return measured(c, sections, strip, workings::solve_patterns(strip, loads));
}

std::vector<std::size_t> worst_of(const std::vector<CaseMeasure>& cases, Ask ask) {
  const std::size_t from = ask == Ask::strength ? 0 : ask == Ask::deflection ? 4 : 6;
  const std::size_t to = ask == Ask::strength ? 4 : ask == Ask::deflection ? 6 : 7;
  std::vector<std::size_t> worst;
  for (std::size_t k = from; k < to; ++k) {
    std::size_t best = 0;
    for (std::size_t i = 1; i < cases.size(); ++i)
      if (cases[i][k] > cases[best][k] * (1 + 1e-6) + 1e-12) best = i;
    // Nothing to speak of: a strip without overhang, clips that are not pulled.
    if (cases.empty() || cases[best][k] <= 1e-9) continue;
    if (std::find(worst.begin(), worst.end(), best) == worst.end()) worst.push_back(best);
  }
  return worst;
}

Bundle add_case(const CalculationJob& job, Topic topic, const StripCase& c,
                SandwichStrips& sections, const std::vector<int>& marks, const CaseWords& words) {
  const Subject of{names_of(job.deck, marks) + ", " + c.strip.place +
                       (words.where.empty() ? "" : ", " + words.where),
                   marks, words.place};
  const auto section = sections.of(c.width, c.strip.depth, marks);
  if (!section) {
    job.not_checked(topic, "strips of " + of.on, "skins that leave a core");
    return {};
  }
  Inputs in = inputs_of(c, *section);
  if (c.ask == Ask::strength) strengths(c, *section, in);
  if (c.ask == Ask::deflection) limits(job, in);
  if (c.ask == Ask::pull) clips(job, c, in);
  Bundle b = section->bundle;
  if (c.weaker) {
    const auto left = sections.of(c.width, c.weaker->depth, marks);
    if (!left) {
      job.not_checked(topic, "strips over the " + c.weaker->what, "skins that leave a core");
      return {};
    }
    b.insert(b.end(), left->bundle.begin(), left->bundle.end());
    in.computed_text("weaker",
                     fmt::format("{} {} @ {} to {} mm", shortest_decimal(left->D / section->D, 6),
                                 shortest_decimal(left->S / section->S, 6), in_list(c.weaker->from),
                                 in_list(c.weaker->to)),
                     c.weaker->what + ": sandwich-stiffness of what is left");
    in.computed_text("at", list_of(places_in(c)), "ends of the weaker part, what lies in it");
  }
  const auto i = add_working(job, topic, "panel-strip", in, of);
  if (!i) return {};
  keep_asked(job.out.list[*i].working, c.ask);
  name_verdicts(job.out.list[*i].working, words.under);
  b.push_back(*i);
  if (c.weaker) judge_weaker(job, topic, c, *i, of, words.under, b);
  return b;
}

}  // namespace deckquire
