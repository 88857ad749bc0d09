// What the random projects have on their steel and in their panels.
#include <fmt/format.h>

#include <cmath>

#include "deck/random_decks.h"

namespace trial {
namespace {

/// Offsets between the flanges of two neighbouring girders, kept `clear` of them; low > high: none.
std::pair<double, double> between_flanges(const Making& m, double clear) {
  double low = -1e9, high = 1e9;
  for (const GirderData& g : m.project.bridge.girders) {
    const double half = g.flange.in_mm() / 2 + clear;
    if (g.offset > Length() && g.name != "G3") high = std::min(high, g.offset.in_mm() - half);
    if (g.name == "G3") low = std::max(low, g.offset.in_mm() + half);
    if (g.offset < Length() && g.name == "G2") low = std::max(low, g.offset.in_mm() + half);
  }
  return {low, high};
}

void make_splices(Making& m) {
  auto& splices = m.project.bridge.splices;
  splices.clear();
  const AlignmentData& a = m.project.bridge.alignment;
  Length at = a.from + m.size(700, 4000);
  const double flange = m.project.bridge.girders.back().flange.in_mm();
  while (a.to - at > mm(700) && m.chance(0.8)) {
    SpliceData s;
    s.girder = m.chance(0.7) ? "all" : m.one_of(m.project.bridge.girders).name;
    s.station = at;
    s.length = m.size(400, 900);
    s.width = m.snapped(flange * m.between(0.6, 0.95));
    s.plate = m.size(10, 16);
    s.projection = m.size(20, 30);
    s.bolt = m.snapped(22);
    splices.push_back(s);
    at += m.size(4000, 9000);
  }
}

/// Through a panel, at an edge, or over a joint. Beside posts seldom at an edge: they would be in
/// its way.
void make_obstructions(Making& m) {
  auto& all = m.project.bridge.obstructions;
  all.clear();
  const int count = m.chance(0.3) ? 1 + m.dice.upto(2) : 0;
  for (int i = 0; i < count; ++i) {
    ObstructionData o;
    o.name = fmt::format("M{}", i + 1);
    o.kind = m.chance(0.5) ? "mast" : "column";
    o.station = !m.joints.empty() && m.chance(0.4) ? m.one_of(m.joints) : m.one_of(m.bays).middle();
    o.clearance = m.size(20, 60);
    if (m.chance(0.5)) {
      o.diameter = m.size(150, 400);
    } else {
      o.length = m.size(150, 500);
      o.width = m.size(150, 400);
    }
    const double half = (o.diameter ? *o.diameter : *o.width).in_mm() / 2 + o.clearance.in_mm();
    const auto [low, high] = between_flanges(m, half + 10);
    if (m.chance(m.project.deck.posts ? 0.15 : 0.6))
      o.offset = m.chance(0.5) ? m.snapped(m.least_left + m.between(-80, 200))
                               : -m.snapped(m.least_right + m.between(-80, 200));
    else if (low < high)
      o.offset = m.snapped(m.between(low, high));
    else
      continue;
    const auto far = [&](const ObstructionData& other) {
      return abs(other.station - o.station) > metres(1.2) ||
             abs(other.offset - o.offset) > metres(1.2);
    };
    if (std::all_of(all.begin(), all.end(), far)) all.push_back(o);
  }
}

/// Every kind of rule; beside skewed joints each edge by itself.
void make_posts(Making& m) {
  auto& posts = m.project.deck.posts;
  const CurbSides curbs = m.project.deck.section.curb.sides;
  if (curbs == CurbSides::none || m.chance(0.2)) {
    posts.reset();
    return;
  }
  const bool skewed = m.skew() != 0;
  posts->sides = curbs;
  posts->greatest = m.size(1000, 1600);
  posts->in_line = m.chance(skewed ? 0.05 : 0.7);
  posts->freedom = m.chance(0.5) ? Length() : m.size(20, 200);
  const double rule = m.dice.next();
  if (rule < 0.3) {
    posts->bays = Bays::equal;
    if (m.chance(0.3)) posts->at_ends = m.size(250, 400);
    posts->at_breaks = m.chance(0.3);
  } else if (rule < 0.45 && !skewed) {
    posts->spacing = *posts->greatest;
    posts->greatest.reset();
    posts->first = m.project.bridge.alignment.from + *posts->spacing / 2;
  } else if (rule < 0.55 && !skewed) {
    posts->greatest.reset();
    for (const Bay& b : m.bays) posts->posts.push_back({"", b.middle(), curbs, {}});
  }
}

void make_scuppers(Making& m) {
  auto& scuppers = m.project.deck.scuppers;
  const CurbSides curbs = m.project.deck.section.curb.sides;
  if (curbs != CurbSides::both) scuppers->inset = m.size(60, 90);  // the body keeps off the edge
  scuppers->scuppers.clear();
  const double across = std::tan(m.project.deck.joints.skew.in_si());
  for (const Bay& b : m.bays) {
    if (!m.chance(0.12)) continue;
    const bool left = m.chance(0.5);
    const Length askew = m.snapped((left ? m.least_left : -m.least_right) * across);
    const std::string name = fmt::format("S{}", scuppers->scuppers.size() + 1);
    scuppers->scuppers.push_back({name,
                                  b.middle() + askew + m.size(-60, 60),
                                  left ? CurbSides::left : CurbSides::right,
                                  {}});
  }
  if (m.chance(0.2) && curbs != CurbSides::none) {
    scuppers->spacing = m.size(3000, 9000);
    scuppers->sides = curbs;
    scuppers->at_sags = m.chance(0.7);
    scuppers->at_end_joints = m.chance(0.5);
  }
  if (scuppers->scuppers.empty() && !scuppers->spacing) scuppers.reset();
}

bool with_recess_near(const Making& m, Length at) {
  const auto& s = m.project.bridge.splices;
  return std::any_of(s.begin(), s.end(),
                     [&](const SpliceData& a) { return abs(a.station - at) < metres(1.2); });
}

void make_openings(Making& m) {
  DeckData& d = m.project.deck;
  d.hatches.clear();
  d.sleeves.clear();
  for (const Bay& b : m.bays) {
    if (with_recess_near(m, b.middle())) continue;
    if (m.chance(0.08)) {
      HatchData h;
      h.name = fmt::format("H{}", d.hatches.size() + 1);
      h.station = b.middle();
      h.length = m.size(400, 600);
      h.width = m.size(300, 400);
      h.rebate = m.size(20, 40);
      h.rebate_depth = m.snapped(30);
      h.cover = m.snapped(26);
      h.bolt = m.project.units == UnitSystem::metric ? "M12" : "1/2-13";
      h.bolts = 4;
      h.lift = m.project.units == UnitSystem::metric ? mm(30) : inches(1.25);
      h.use = "not stated";
      const auto [low, high] = between_flanges(m, h.width.in_mm() / 2 + h.rebate.in_mm() + 70);
      h.offset = m.snapped((low + high) / 2);
      if (low < high) d.hatches.push_back(h);
    } else if (m.chance(0.08)) {
      SleeveData s;
      s.name = fmt::format("C{}", d.sleeves.size() + 1);
      s.station = b.middle() + m.size(-150, 150);
      s.diameter = m.size(50, 120);
      s.wall = m.size(4, 5);
      s.use = "not stated";
      const auto [low, high] = between_flanges(m, 120);
      s.offset = m.snapped(m.between(low, high));
      if (low < high) d.sleeves.push_back(s);
    }
  }
}

void make_soffit(Making& m) {
  DeckData& d = m.project.deck;
  if (m.chance(0.2)) d.pads.reset();
  if (m.chance(0.2)) {
    d.hold_downs.reset();
    return;
  }
  if (m.chance(0.25))
    d.hold_downs->spacing = m.size(500, 1500);
  else
    d.hold_downs->each = 1 + m.dice.upto(3);
  d.hold_downs->from_joint = m.size(250, 450);
}

// ---- contradictions

using Fault = std::string (*)(Making&);

Length step_up(const Making& m) {
  return m.unit * 7;
}

std::string wrong_sum(Making& m) {
  for (SpanData& s : m.project.deck.spans)
    if (!s.runs.empty()) {
      s.runs.back().length += step_up(m);
      return "panels-do-not-add-up";
    }
  return "";
}

std::string overlapping_spans(Making& m) {
  auto& spans = m.project.deck.spans;
  if (spans.size() < 2) return "";
  spans[1].from = spans[1].from - step_up(m);
  return "spans-overlap";
}

std::string parted_spans(Making& m) {
  auto& spans = m.project.deck.spans;
  if (spans.size() < 2) return "";
  spans[1].from += step_up(m);
  return "gap-between-spans";
}

std::string inner_step(Making& m) {
  auto& e = m.project.deck.edges;
  const EdgeData last = e.back();
  if (e.size() > 1) return "";
  const Length at = m.one_of(m.bays).middle();
  e.push_back({at, last.left, last.right, {}});
  e.push_back({at, last.left + mm(300), last.right, {}});
  return "step-inside-panel";
}

std::string lost_splice(Making& m) {
  auto& s = m.project.bridge.splices;
  if (s.empty()) return "";
  s[0].girder = "G9";
  return "unknown-girder";
}

std::string double_splice(Making& m) {
  auto& s = m.project.bridge.splices;
  if (s.empty()) return "";
  s.push_back(s[0]);
  s.back().station += mm(100);
  return "splices-overlap";
}

std::string far_splice(Making& m) {
  auto& s = m.project.bridge.splices;
  if (s.empty()) return "";
  s[0].station = m.project.bridge.alignment.to + metres(3);
  return "splice-outside-girder";
}

std::string crossing_hatch(Making& m) {
  auto& h = m.project.deck.hatches;
  if (h.empty() || m.joints.empty()) return "";
  h[0].station = m.one_of(m.joints);
  return "hatch-across-joint";
}

std::string wide_hatch(Making& m) {
  auto& h = m.project.deck.hatches;
  if (h.empty() || m.project.deck.joints.skew.in_si() != 0) return "";
  for (const SpanData& span : m.project.deck.spans)
    if (span.skew_from || span.skew_to) return "";  // there it may cross a joint first
  h[0].width = metres(5);
  h[0].length = mm(300);
  return "hatch-outside-deck";
}

std::string no_curb(Making& m) {
  if (!m.project.deck.posts) return "";
  m.project.deck.section.curb.sides = CurbSides::none;
  m.project.deck.section.curb.height = m.project.deck.section.curb.width =
      m.project.deck.section.curb.batter = Length();
  return "post-without-curb";
}

std::string narrow_deck(Making& m) {
  m.project.bridge.girders.back().offset = -metres(9);
  return "edge-inside-flange";
}

std::string bare_row_joint(Making& m) {
  auto& r = m.project.deck.row_joints;
  if (r.empty()) return "";
  r[0].offset += mm(300);
  return "row-joint-off-girder";
}

std::string two_skews(Making& m) {
  auto& spans = m.project.deck.spans;
  if (spans.size() < 2) return "";
  spans[0].skew_to = degrees(3);
  spans[1].skew_from = degrees(4);
  return "end-skews-differ";
}

std::string supports_back(Making& m) {
  auto& s = m.project.bridge.supports;
  std::swap(s[0].station, s[1].station);
  return "supports-out-of-order";
}

std::string wall_across(Making& m) {
  ObstructionData o;
  o.name = "M9";
  o.kind = "column";
  o.station = m.one_of(m.bays).middle();
  o.length = mm(300);
  o.width = metres(19);
  o.clearance = mm(20);
  m.project.bridge.obstructions = {o};
  return "obstruction-across-deck";
}

std::string far_mast(Making& m) {
  if (m.project.bridge.obstructions.empty()) return "";
  m.project.bridge.obstructions[0].station = m.project.bridge.alignment.to + metres(2);
  return "obstruction-outside-bridge";
}

std::string thin_edge(Making& m) {
  if (m.project.deck.section.fall == Fall::none) return "";
  m.project.deck.section.slope = 0.1;
  m.project.deck.section.least_edge = m.project.deck.section.depth - mm(20);
  return "edge-too-thin";
}

std::string two_hatches_in_one(Making& m) {
  auto& h = m.project.deck.hatches;
  if (h.empty()) return "";
  h.push_back(h[0]);
  h.back().name = "H99";
  return "features-overlap";
}

std::string grades_back(Making& m) {
  auto& g = m.project.bridge.alignment.grades;
  if (g.size() < 2) return "";
  std::swap(g[0].station, g[1].station);
  return "grades-out-of-order";
}

std::string edges_back(Making& m) {
  auto& e = m.project.deck.edges;
  if (e.size() < 4) return "";
  std::swap(e[0].station, e[3].station);
  return "edges-out-of-order";
}

}  // namespace

void make_fittings(Making& m) {
  make_splices(m);
  make_posts(m);
  make_obstructions(m);
  make_scuppers(m);
  make_openings(m);
  make_soffit(m);
}

std::string make_fault(Making& m) {
  static const std::vector<Fault> faults{
      wrong_sum,     overlapping_spans, parted_spans,       inner_step,    lost_splice,
      double_splice, far_splice,        crossing_hatch,     wide_hatch,    no_curb,
      narrow_deck,   bare_row_joint,    two_skews,          supports_back, wall_across,
      far_mast,      thin_edge,         two_hatches_in_one, grades_back,   edges_back};
  for (int tries = 0; tries < 20; ++tries)
    if (const std::string code = m.one_of(faults)(m); !code.empty()) return code;
  return wrong_sum(m);
}

}  // namespace trial
