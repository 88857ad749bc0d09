// Joints in heat and cold: gaps between panels, gaps to set, the deck's ends.
#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <map>

#include "base/text.h"
#include "checks/reckoning.h"

namespace deckquire {
namespace {


struct Movement {
  const CalculationJob& job;
  const TemperatureData& t = job.project.conditions.temperature;
  std::vector<Bundle> bundles = {};

  const Panel& panel(int i) const { return job.deck.panels[static_cast<std::size_t>(i)]; }
  std::string station(Length s) const { return print_station(s, job.project.units); }
  Temperature deck_least() const { return t.deck_least.value_or(*t.least); }
  Temperature deck_greatest() const { return t.deck_greatest.value_or(*t.greatest); }
};

/// What two panels' halves and their gap have in common: the joint is that of panels of the mean
/// length.
struct Gap {
  double panel = 0, gap = 0;  // mm
  std::string at;             // the first such joint
  bool end = false;
  std::vector<int> marks, joints;
  bool wider(const Gap& o) const { return panel > o.panel; }
};

void add_mark(std::vector<int>& marks, int mark) {
  if (std::find(marks.begin(), marks.end(), mark) == marks.end()) marks.push_back(mark);
}

/// True where a girder ends within a panel's reach of the joint: the steel moves there by itself.
bool steel_parts(const Movement& m, const Joint& j) {
  const auto near = [&](Length s) { return abs(s - j.station) <= j.gap + mm(300); };
  return std::any_of(m.job.bridge.girders.begin(), m.job.bridge.girders.end(),
                     [&](const Girder& g) { return near(g.from) || near(g.to); });
}

/// Joints between two panels on steel that runs through, those of equal lengths and gaps together.
std::vector<Gap> gaps_of(const Movement& m) {
  std::map<std::pair<std::int64_t, std::int64_t>, Gap> found;
  for (std::size_t i = 0; i < m.job.deck.joints.size(); ++i) {
    const Joint& j = m.job.deck.joints[i];
    if (j.back < 0 || j.ahead < 0 || steel_parts(m, j)) continue;
    const Panel &a = m.panel(j.back), &b = m.panel(j.ahead);
    const Length mean = ((a.end - a.start) + (b.end - b.start)) / 2;
    const std::pair key{whole_units(mean, mm(1)), j.gap.in_nanometres()};
    Gap& g = found[key];
    if (g.joints.empty()) g.at = fmt::format("joint {} at {}", j.name, m.station(j.station));
    g.joints.push_back(static_cast<int>(i));
    g.panel = std::max(g.panel, mean.in_mm());
    g.gap = j.gap.in_mm();
    g.end = g.end || j.end;
    add_mark(g.marks, a.mark);
    add_mark(g.marks, b.mark);
  }
  std::vector<Gap> all;
  for (auto& [key, g] : found) all.push_back(std::move(g));
  std::stable_sort(all.begin(), all.end(), [](const Gap& a, const Gap& b) { return a.wider(b); });
  return all;
}

Inputs expansions(const Movement& m) {
  Inputs in;
  in.project("alpha_s", *m.t.steel_expansion, m.t.place, m.t.source)
      .project("T_0", m.t.setting->in_si(), m.t.place, "temperature of setting");
  return in;
}

void hottest_and_coldest(const Movement& m, Inputs& in, bool deck) {
  in.project("T_sh", m.t.greatest->in_si(), m.t.place)
      .project("T_sc", m.t.least->in_si(), m.t.place)
      .project("g_min", m.t.least_gap.in_m(), m.t.place);
  if (!deck) return;
  in.project("T_fh", m.deck_greatest().in_si(), m.t.place,
             m.t.deck_greatest ? "" : "as the steel")
      .project("T_fc", m.deck_least().in_si(), m.t.place, m.t.deck_least ? "" : "as the steel");
}

/// Between the outer girders that a panel is fixed on.
double girder_distance(const Movement& m) {
  double left = -1e300, right = 1e300;
  for (const Girder& g : m.job.bridge.girders) {
    left = std::max(left, g.offset.in_mm());
    right = std::min(right, g.offset.in_mm());
  }
  return left - right;
}

/// The scale of the tables that are read beside a thermometer.
void scale_of(const Movement& m, Inputs& in) {
  in.choice("scale", m.job.project.units == UnitSystem::imperial ? "F" : "C", "units of the project");
}

void panel_gap(Movement& m, const Gap& g) {
  const JointsData& joints = m.job.project.deck.joints;
  const std::size_t joints_alike = g.joints.size();
  const std::string lengths = joints_alike > 1 ? "mean of the two panels; the longest of such joints"
                                           : "mean of the two panels";
  Inputs in = expansions(m);
  in.computed("L", g.panel / 1e3, lengths).computed("p", (g.panel + g.gap) / 1e3, "L and the gap");
  in.project("alpha_f", *m.t.panel_expansion, m.t.place, m.t.source);
  Inputs table = in;
  hottest_and_coldest(m, in, true);
  in.project("T_i", m.t.setting->in_si(), m.t.place);
  for (const ToleranceData& t : m.job.project.conditions.tolerances)
    if (t.of == "length") in.project("t_L", t.value.in_m(), t.place);
  const bool open = joints.kind == JointKind::open && !g.end;
  in.choice("joint", open ? "open" : "closed", open ? "open joint" : "it does not lie open");
  if (const double a = girder_distance(m); a > 0)
    in.computed("a", a / 1e3, "outer girders of the deck");
  const Subject of{joints_alike > 1 ? fmt::format("{}, the first of {}", g.at, joints_alike) : g.at,
                   g.marks, joints.place, g.joints};
  Bundle b;
  if (const auto i = add_working(m.job, Topic::movement, "thermal-gap", in, of)) b.push_back(*i);
  scale_of(m, table);
  if (const auto i = add_working(m.job, Topic::movement, "setting-gaps", table, of)) b.push_back(*i);
  m.bundles.push_back(b);
}

/// The girders from which a joint's panel moves: as long as the longest that reaches there.
std::pair<Length, Length> reach(const Movement& m, Length station) {
  std::pair<Length, Length> best{station, station};
  for (const Girder& g : m.job.bridge.girders)
    if (g.from <= station && station <= g.to && g.to - g.from > best.second - best.first)
      best = {g.from, g.to};
  return best;
}

/// Where the steel ends with the joint: how far the panels on either side move from the middles of
/// their girders.
void end_gap(Movement& m, std::size_t joint) {
  const Joint& j = m.job.deck.joints[joint];
  double x = 0, on = 0;
  std::vector<int> marks;
  int sides = 0;
  for (int i : {j.back, j.ahead}) {
    if (i < 0) continue;
    const Panel& p = m.panel(i);
    const Length middle = p.start + (p.end - p.start) / 2;
    const auto [from, to] = reach(m, middle);
    x += std::abs((middle - (from + (to - from) / 2)).in_m());
    on += (p.end - p.start).in_m() / 2;
    add_mark(marks, p.mark);
    ++sides;
  }
  const JointsData& joints = m.job.project.deck.joints;
  Inputs in = expansions(m);
  in.computed("x", x, sides > 1 ? "from the middles of both girders to the middles of the panels"
                                : "from the middle of the girder to the middle of the panel");
  if (m.t.panel_expansion) {
    in.computed("x_f", on, sides > 1 ? "half of both panels" : "half of the panel");
    in.project("alpha_f", *m.t.panel_expansion, m.t.place, m.t.source);
  }
  in.project("g", j.gap.in_m(), joints.place);
  Inputs table = in;
  scale_of(m, table);
  hottest_and_coldest(m, in, m.t.panel_expansion.has_value());
  if (joints.cover_width > Length()) in.project("w_p", joints.cover_width.in_m(), joints.place);
  const Subject of{fmt::format("joint {} at {}", j.name, m.station(j.station)), marks, joints.place,
                   {static_cast<int>(joint)}};
  Bundle b;
  if (const auto i = add_working(m.job, Topic::movement, "girder-movement", in, of)) b.push_back(*i);
  if (const auto i = add_working(m.job, Topic::movement, "end-setting-gaps", table, of)) b.push_back(*i);
  m.bundles.push_back(b);
}

}  // namespace

void calculate_movement(const CalculationJob& job) {
  Movement m{job};
  Missing missing;
  missing.need(m.t.least && m.t.greatest,
               "lowest and highest temperature of the steel (temperature least=, greatest=)");
  missing.need(m.t.setting.has_value(),
               "the temperature at which the gaps are set (temperature setting=)");
  missing.need(m.t.steel_expansion.has_value(), "expansion of the steel (temperature "
                                                "steel-expansion=)");
  if (missing.any()) return job.not_checked(Topic::movement, "movement of the joints", missing.words());
  if (m.t.panel_expansion) {
    const std::vector<Gap> gaps = gaps_of(m);
    for (const Gap& g : gaps) panel_gap(m, g);
    job.not_checked(Topic::movement, "play of the clips across the bridge", "the length of their slots");
  } else {
    job.not_checked(Topic::movement, "gaps between panels, and gaps to set",
                    "expansion of the panels (temperature panel-expansion=)");
  }
  bool ends = false;
  for (std::size_t i = 0; i < job.deck.joints.size(); ++i) {
    const Joint& j = job.deck.joints[i];
    if (!(j.end || j.back < 0 || j.ahead < 0) || !steel_parts(m, j)) continue;
    end_gap(m, i);
    ends = true;
  }
  if (ends)
    job.not_checked(Topic::movement, "deck ends where the girders are not fixed at their middle, as taken here",
                    "the place of the fixed bearings");
  print_governing(job, Topic::movement, m.bundles);
}

}  // namespace deckquire
