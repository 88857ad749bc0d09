#include "deck/random_decks.h"

#include <fmt/format.h>

#include <cmath>

#include "support/project_xml.h"

namespace trial {
namespace {

/// What a short project leaves to the defaults, once for each system of units.
const Project& base(bool metric) {
  static const auto read = [](const char* units) {
    const std::string xml = fmt::format(
        R"(<project xmlns="urn:deckquire:project:1" number="0900" units="{}"><title>Dice</title>
<revisions><revision id="A" date="2026-11-02" by="I. Vane">First</revision></revisions>
<bridge name="Dice"><alignment from="0 m" to="20 m"><grade at="0 m" level="10 m"/></alignment>
<girder name="G1" offset="750 mm" flange="250 mm"/></bridge>
<deck><edges><edge at="0 m" left="1.5 m" right="1.5 m"/></edges>
<section depth="150 mm"><curb/><drip/></section><surface class="light"/>
<span name="1" from="0 m" to="20 m"><panels count="8"/></span><posts greatest="1.3 m"/>
<scuppers><scupper name="S1" at="5 m" side="left"/></scuppers></deck></project>)",
        units);
    Findings findings;
    const auto p = read_project(xml, "dice.xml", findings);
    REQUIRE(p);
    REQUIRE(findings.empty());
    return *p;
  };
  static const Project mm_project = read("mm"), inch_project = read("in");
  return metric ? mm_project : inch_project;
}

Length along(Length gap, double skew) {
  return skew == 0 ? gap : gap / std::cos(skew);
}

/// The engineer's panels: up to three lengths, in runs.
void write_runs(Making& m, SpanData& s, int count) {
  const int kinds = 1 + m.dice.upto(3);
  std::vector<Length> lengths;
  for (int i = 0; i < kinds; ++i) lengths.push_back(m.size(1300, 2900));
  while (count > 0) {
    const int times = std::min(count, 1 + m.dice.upto(4));
    s.runs.push_back({m.one_of(lengths), times, {}});
    count -= times;
  }
}

/// Panels of a span that begins at `at`; returns the station behind its last panel.
Length lay_runs(Making& m, const SpanData& s, Length at, Length gap) {
  for (const PanelRun& r : s.runs)
    for (int i = 0; i < r.times; ++i) {
      if (&r != &s.runs.front() || i > 0) {
        m.joints.push_back(at + gap / 2);
        at += gap;
      }
      m.bays.push_back({at, at + r.length});
      at += r.length;
    }
  return at;
}

/// Panels by rule: the same arithmetic as a table, only to know roughly where things can go.
Length lay_rule(Making& m, SpanData& s, Length at, Length gap, int count) {
  const Length each = m.size(1300, 2900), clear = each * count + gap * (count - 1) + m.size(0, 40);
  s.rule.emplace();
  if (m.chance(0.5))
    s.rule->count = count;
  else
    s.rule->longest = each + m.size(10, 50);
  const Length pitch = (clear + gap) / static_cast<double>(count);
  for (int i = 0; i < count; ++i) {
    if (i > 0) m.joints.push_back(at + pitch * i - gap / 2);
    m.bays.push_back({at + pitch * i, at + pitch * (i + 1) - gap});
  }
  return at + clear;
}

void make_spans(Making& m) {
  DeckData& d = m.project.deck;
  JointsData& j = d.joints;
  j.kind = static_cast<JointKind>(m.dice.upto(3));
  j.gap = m.size(6, 20);
  j.end_gap = m.size(20, 60);
  if (m.chance(0.4)) j.skew = degrees(0.25 * (m.dice.upto(161) - 80));
  const double skew = j.skew.in_si();
  const int spans = 1 + m.dice.upto(3);
  std::vector<double> ends(static_cast<std::size_t>(spans) + 1, skew);
  d.spans.clear();
  Length at = m.size(-50000, 900000);
  for (int i = 0; i < spans; ++i) {
    const auto n = static_cast<std::size_t>(i);
    SpanData s;
    s.name = std::to_string(i + 1);
    s.from = at;
    if (m.chance(0.15)) {
      s.skew_to = degrees(j.skew.in_si() * 180 / pi + 0.5 * (m.dice.upto(13) - 6));
      ends[n + 1] = s.skew_to->in_si();
    }
    if (i == 0 && m.chance(0.15)) {
      s.skew_from = degrees(0.5 * (m.dice.upto(13) - 6));
      ends[0] = s.skew_from->in_si();
    }
    const bool last = i + 1 == spans;
    const Length back = along(j.end_gap, ends[n]), ahead = along(j.end_gap, ends[n + 1]);
    const auto half = [](Length g) { return Length::from_nanometres(g.in_nanometres() / 2); };
    if (i > 0) m.joints.push_back(at);
    at += i == 0 ? back : half(back);
    const Length gap = along(j.gap, skew);
    const int count = 1 + m.dice.upto(5);
    if (m.chance(0.5)) write_runs(m, s, count);
    at = s.rule || s.runs.empty() ? lay_rule(m, s, at, gap, count) : lay_runs(m, s, at, gap);
    at += last ? ahead : ahead - half(ahead);
    s.to = at;
    d.spans.push_back(s);
  }
}

/// A tangent, an arc with or without clothoids, perhaps another one the other way.
void make_bends(Making& m) {
  AlignmentData& a = m.project.bridge.alignment;
  Length at = a.from + m.size(0, 2000);
  bool left = m.chance(0.5);
  while (a.to - at > metres(3)) {
    const Length room = a.to - at;
    const bool clothoids = m.chance(0.5) && room > metres(8);
    if (clothoids) {
      const Length l = m.size(2000, 3000);
      a.transitions.push_back({at, at + l, {}});
      at += l;
    }
    const Length arc = m.snapped(m.between(0.3, 0.8) * (a.to - at).in_mm());
    a.curves.push_back({at, at + arc, m.size(14000, 90000), left, {}});
    at += arc;
    if (clothoids) {
      const Length l = m.snapped(0.8 * (a.to - at).in_mm());
      if (l > mm(500)) {
        a.transitions.push_back({at, at + l, {}});
        at += l;
      }
    }
    if (m.chance(0.5)) break;
    at += m.size(1000, 3000);
    left = !left;
  }
}

void make_alignment(Making& m) {
  AlignmentData& a = m.project.bridge.alignment;
  // The steel carries a skewed end's corners too.
  const double corners = 2800 * std::abs(std::tan(m.skew()));
  const double beyond = corners > 0 ? corners + 200 : m.chance(0.2) ? 2000 : 0;
  a.from = m.project.deck.spans.front().from - m.snapped(beyond * m.between(0.9, 1));
  a.to = m.project.deck.spans.back().to + m.snapped(beyond * m.between(0.9, 1));
  a.easting = m.size(0, 1e9);
  a.northing = m.size(0, 1e9);
  a.bearing = degrees(0.25 * m.dice.upto(1440));
  a.grades = {{a.from, m.size(1000, 90000), {}, {}}};
  const double whole = (a.to - a.from).in_mm();
  if (m.chance(0.7))
    a.grades.push_back(
        {a.to, a.grades[0].level + m.snapped(m.between(-0.04, 0.04) * whole), {}, {}});
  if (a.grades.size() == 2 && m.chance(0.3) && whole > 6000) {
    const Length mid = a.from + m.snapped(whole * 0.5);
    const Length level = a.grades[0].level + m.snapped(m.between(-0.02, 0.02) * whole);
    a.grades.insert(a.grades.begin() + 1, {mid, level, {}, m.snapped(whole * 0.4)});
  }
  if (m.chance(0.35)) make_bends(m);
}

/// Constant, a taper, a step at a joint, a lookout.
void make_edges(Making& m) {
  auto& edges = m.project.deck.edges;
  const AlignmentData& a = m.project.bridge.alignment;
  const Length left = m.size(1200, 2200), right = m.chance(0.6) ? left : m.size(1200, 2200);
  edges = {{a.from, left, right, {}}};
  m.least_left = left.in_mm();
  m.least_right = right.in_mm();
  const double whole = (a.to - a.from).in_mm();
  const int form = m.dice.upto(5);
  if (form == 1) edges.push_back({a.to, left + m.size(0, 600), right + m.size(0, 600), {}});
  if (form == 2 && !m.joints.empty()) {
    const Length at = m.one_of(m.joints);
    const Length wider = m.size(50, 700);
    edges.push_back({at, left, right, {}});
    edges.push_back({at, left + wider, right, {}});
  }
  if (form == 3 && whole > 5000) {  // a lookout, its corners anywhere
    const Length at = a.from + m.snapped(m.between(0.1, 0.4) * whole);
    const Length ramp = m.snapped(m.between(0.08, 0.15) * whole), flat = m.snapped(0.1 * whole);
    const Length out = right + m.snapped(ramp.in_mm() * m.between(0.1, 0.35));
    edges.push_back({at, left, right, {}});
    edges.push_back({at + ramp, left, out, {}});
    edges.push_back({at + ramp + flat, left, out, {}});
    edges.push_back({at + ramp + flat + ramp, left, right, {}});
  }
}

bool bends(const Making& m) {
  return !m.project.bridge.alignment.curves.empty();
}

/// Two girders; three with a row joint over the middle one.
void make_girders(Making& m) {
  BridgeData& b = m.project.bridge;
  const AlignmentData& a = b.alignment;
  b.girders.clear();
  b.supports.clear();
  for (std::size_t i = 0; i <= m.project.deck.spans.size(); ++i) {
    const auto& spans = m.project.deck.spans;
    const bool end = i == 0 || i == spans.size();
    const Length at = i == spans.size() ? spans.back().to : spans[i].from;
    b.supports.push_back({fmt::format("P{}", i), end ? "abutment" : "pier", at, {}});
  }
  const Length flange = m.size(200, 320);
  const auto inside = [&](double edge) {
    return m.snapped(edge - m.between(360, 420) - flange.in_mm() / 2);
  };
  const bool rows = m.chance(0.3);
  if (rows) b.girders.push_back({"G3", m.size(-80, 80), m.size(380, 460), a.from, a.to, {}, false});
  b.girders.push_back({"G1", inside(m.least_left), flange, a.from, a.to, {}, false});
  b.girders.push_back({"G2", -inside(m.least_right), flange, a.from, a.to, {}, false});
  double sag = 0;
  for (const SpanData& s : m.project.deck.spans)
    for (const PlanCurveData& c : a.curves)
      sag = std::max(sag, (s.to - s.from).in_mm() * ((s.to - s.from) / c.radius) / 8);
  if (sag < 120 && m.chance(0.5))
    for (GirderData& g : b.girders) g.straight = true;
  m.project.deck.row_joints.clear();
  if (rows && (sag == 0 || !b.girders[0].straight))
    m.project.deck.row_joints.push_back(
        {"L1", b.girders[0].offset, m.size(6, 20), a.from, a.to, {}});
}

void make_section(Making& m) {
  SectionData& s = m.project.deck.section;
  s.depth = m.size(150, 220);
  s.fall = static_cast<Fall>(m.dice.upto(4));
  s.slope = s.fall == Fall::none ? 0 : 0.0025 * (1 + m.dice.upto(6));
  s.high_line = s.fall == Fall::crown && m.chance(0.2) ? m.size(-200, 200) : Length();
  s.least_edge = m.snapped(60);
  s.recess_cover = m.snapped(20);
  const double sided = m.dice.next();
  s.curb.sides = sided < 0.7   ? CurbSides::both
                 : sided < 0.8 ? CurbSides::left
                 : sided < 0.9 ? CurbSides::right
                               : CurbSides::none;
  if (s.curb.sides == CurbSides::none) s.curb.height = s.curb.width = s.curb.batter = Length();
  if (m.chance(0.5)) s.drip.reset();
  m.project.deck.marks.tolerance = m.chance(0.3) ? mm(0.001) : m.snapped(m.between(0.5, 3));
  auto& surfaces = m.project.deck.surfaces;
  const AlignmentData& a = m.project.bridge.alignment;
  surfaces[0].from = a.from;
  surfaces[0].to = a.to;
  if (m.chance(0.2)) surfaces.clear();
  if (!surfaces.empty() && !m.joints.empty() && m.chance(0.2)) {
    surfaces.push_back(surfaces[0]);
    surfaces[1].trade_class = "heavy";
    surfaces[1].from = m.one_of(m.joints);
  }
}

}  // namespace

double Making::skew() const {
  double most = project.deck.joints.skew.in_si();
  for (const SpanData& s : project.deck.spans)
    for (const auto& end : {s.skew_from, s.skew_to})
      if (end && std::abs(end->in_si()) > std::abs(most)) most = end->in_si();
  return most;
}

void make_frame(Making& m) {
  make_spans(m);
  make_alignment(m);
  make_edges(m);
  make_girders(m);
  make_section(m);
  if (bends(m)) {  // chords
    m.least_left -= 60;
    m.least_right -= 60;
  }
}

RandomDeck random_deck(std::uint64_t seed) {
  Making m{{seed * 2654435761u + 12345}, {}, {}, {}, {}};
  for (int i = 0; i < 4; ++i) m.dice.next();
  m.project = base(!m.chance(0.25));
  m.project.file = fmt::format("random-{}.xml", seed);
  m.unit = print_unit(m.project.units);
  make_frame(m);
  make_fittings(m);
  RandomDeck r;
  r.seed = seed;
  if (seed % 6 == 5) r.fault = make_fault(m);
  r.xml = project_xml(m.project);
  r.project = std::move(m.project);
  return r;
}

}  // namespace trial
