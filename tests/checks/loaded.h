// Decks with loads, strengths and temperatures, and what was calculated of them.
#pragma once

#include <cmath>

#include "checks/calculations.h"
#include "deck/trial.h"
#include "support/reckoned.h"

namespace loaded {

using namespace deckquire;

struct Calculated {
  trial::Built built;
  Findings findings;
  Calculations all;

  /// The worst of the verdicts with these words.
  const CheckLine& line(const std::string& what) const {
    for (const CheckLine& l : all.summary)
      if (l.what == what) return l;
    FAIL("no verdict: " << what);
    return all.summary.front();
  }
  const workings::Working& worst(const std::string& what) const {
    return all.list[line(what).worst].working;
  }
  bool not_checked(Topic topic, const std::string& words) const {
    return std::any_of(all.not_checked.begin(), all.not_checked.end(), [&](const NotChecked& n) {
      return n.topic == topic && (n.what + ": needs " + n.needs).find(words) != std::string::npos;
    });
  }
  /// All that is printed of a topic.
  std::string printed(Topic topic) const {
    std::string text;
    for (const Calculation& c : all.list)
      if (c.topic == topic) text += c.number + " " + c.on + "\n" + workings::to_text(c.working);
    for (const NotChecked& n : all.not_checked)
      if (n.topic == topic) text += n.what + ": needs " + n.needs + "\n";
    return text;
  }
};

inline Calculated calculated(const Project& p) {
  Calculated c;
  c.built = trial::build(p);
  c.all = calculate(p, c.built.bridge, c.built.deck, c.findings);
  return c;
}

/// Ten panels of 2394 mm at gaps of 6 mm, so at 2400, straight and level across; girders and edges
/// as given, mm. Neither loads nor fittings.
inline Project plain(double half_width, std::vector<double> girders) {
  Project p = trial::example("quickstart");
  const Length end = mm(24000);
  p.bridge.alignment.to = end;
  p.bridge.alignment.grades = {{Length(), metres(50), {}}, {end, metres(50), {}}};
  p.bridge.supports.back().station = end;
  p.bridge.splices.clear();
  GirderData g = p.bridge.girders.front();
  g.to = end;
  p.bridge.girders.clear();
  for (double offset : girders) {
    g.name = "G" + std::to_string(p.bridge.girders.size() + 1);
    g.offset = mm(offset);
    p.bridge.girders.push_back(g);
  }
  p.deck.edges = {{Length(), mm(half_width), mm(half_width), {}}};
  p.deck.section.fall = Fall::none;
  p.deck.section.slope = 0;
  p.deck.section.depth = mm(125);
  p.deck.section.top_skin = p.deck.section.bottom_skin = mm(8);
  p.deck.surfaces.clear();
  p.deck.posts.reset();
  p.deck.scuppers.reset();
  p.deck.spans[0].to = end;
  p.deck.spans[0].rule.reset();
  p.deck.spans[0].runs = {{mm(2394), 10, {}}};
  p.deck.joints.gap = mm(6);
  p.deck.joints.end_gap = mm(3);
  p.conditions.temperature = {};
  p.conditions.tolerances.clear();
  return p;
}

/// Case 3 of the reference: t 8, c 109, E 22000 and G 48 N/mm2, D 1.207e12 N mm2, S 6.028e6 N.
inline PanelStrengthData sandwich() {
  PanelStrengthData s;
  s.face_modulus = Pressure::si(22e9);
  s.core_shear_modulus = Pressure::si(48e6);
  s.face_strength = Pressure::si(50e6);
  s.core_shear_strength = Pressure::si(0.5e6);
  s.bearing_strength = Pressure::si(1e6);
  return s;
}

inline FactorsData factors(double dead, double live) {
  FactorsData f;
  f.dead = dead;
  f.pedestrian = f.vehicle = f.wind = f.rail = live;
  f.dead_against_wind = 0.9;
  return f;
}

/// What a panel of the first mark weighs without its curbs, N/m2, and one curb, N/m.
struct Weight {
  double spread = 0, curb = 0;
};
inline Weight weight(const Deck& deck) {
  const Mark& m = deck.marks.front();
  double curbs = 0;
  for (const MassPart& part : m.masses.parts)
    if (part.part == "curb") curbs = part.mass.in_si();
  const double g = 9.80665;
  return {(m.masses.total.in_si() - curbs) * g / m.masses.top_area.in_si(),
          curbs * g / 2 / (m.shape.length / 1e3)};
}

}  // namespace loaded
